"""Every figure of a run as a core result, named by the key that it is written under: `vent.pressure_rise_pa`.

Values are SI, whatever the key's unit; a list's first entries are named by place: `near_heat.0.limit_c`.
"""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Any, get_args, get_origin, get_type_hints

from trainer.core.backing_gas import BackingVerdict
from trainer.core.pool import PoolSide
from trainer.core.terms import RootGrade
from trainer.domain.purge_run import DamResult, Expected, PurgeRun, written_as
from trainer.domain.quantities import Dimension
from trainer.domain.result_kind import Found, Question, ResultKind

_PLACES = 4  # of a list; content that needs the fifth person has too many people
_CELSIUS_ZERO_K = 273.15
_OF_DAMS = (
    "temperature_c", "limit_c", "steady_c", "safe_distance_m", "surely_holds_pa", "surely_slips_pa",
)  # fmt: skip

# What an attribute's ending says of its dimension; the longest that fits counts.
_DIMENSIONS = {
    "_m": Dimension.LENGTH, "_m3": Dimension.VOLUME, "_m3_s": Dimension.VOLUME_FLOW, "_s": Dimension.DURATION,
    "_pa": Dimension.PRESSURE, "_frac": Dimension.FRACTION, "_m_s": Dimension.SPEED,
    "_c": Dimension.TEMPERATURE,
}  # fmt: skip
_PLAIN_ENDINGS = ("_ratio", "_per_h", "_kg_m3", "density_over_air_ratio")
_NUMBERS = (float, int, bool, Expected)
_YES_NO = ("yes", "no")
# Texts of a run that are one of a few words, by attribute; others have no list to be checked against.
_WORDS = {
    "grade": tuple(each.value for each in RootGrade),
    "verdict": tuple(each.value for each in BackingVerdict),
    "lies": ("low", "high", "nowhere"),
    "pool_side": tuple(each.value for each in PoolSide),
}


def _kinds() -> Iterator[tuple[str, ResultKind]]:
    for part, hint in get_type_hints(PurgeRun).items():
        kind = next((each for each in get_args(hint) if isinstance(each, type) and written_as(each)), None)
        if kind is not None and get_origin(hint) is not tuple:
            yield from _of_part(f"{part}.", kind, _reach(_whole, part))
    yield from _of_list("near_heat.", _inside(PurgeRun, "near_heat"), lambda run: run.near_heat)
    for place in range(_PLACES):
        for name in _OF_DAMS:
            yield f"dams.{place}.{name}", _kind(DamResult, name, _at(lambda run: run.dams, place))


def _of_part(
    prefix: str, part_class: type[Any], owner: Callable[[Any], Any]
) -> Iterator[tuple[str, ResultKind]]:
    hints = get_type_hints(part_class)
    for attribute, written in written_as(part_class).items():
        if get_origin(hints[attribute]) is tuple:
            inner = _inside(part_class, attribute)
            yield from _of_list(f"{prefix}{written.key}.", inner, _reach(owner, attribute))
        elif attribute in _WORDS or any(each in _NUMBERS for each in get_args(hints[attribute])):
            yield f"{prefix}{written.key}", _kind(part_class, attribute, owner)


def _of_list(
    prefix: str, part_class: type[Any], owner: Callable[[Any], Any]
) -> Iterator[tuple[str, ResultKind]]:
    for place in range(_PLACES):
        yield from _of_part(f"{prefix}{place}.", part_class, _at(owner, place))


def _kind(part_class: type[Any], attribute: str, owner: Callable[[Any], Any]) -> ResultKind:
    kinds = get_args(get_type_hints(part_class)[attribute])
    words = _YES_NO if bool in kinds else _WORDS.get(attribute, ())
    return ResultKind(
        ask=_asking(owner, attribute),
        ask_expected=_asking(owner, attribute, of_parts=f"expected_{attribute}")
        if Expected in kinds
        else None,
        dimension=_dimension(attribute),
        words=words,
    )


def _asking(
    owner: Callable[[Any], Any], attribute: str, *, of_parts: str = ""
) -> Callable[[Question], Found | None]:
    """Asks for an attribute; for the other of that name first, where figures are computed one by one."""

    def ask(asked: Question) -> Found | None:
        part = owner(asked.run())
        value = getattr(part, of_parts, None) if of_parts else None
        if value is None:
            value = None if part is None else getattr(part, attribute)
        if isinstance(value, bool):
            return _YES_NO[0] if value else _YES_NO[1]
        if attribute.endswith("_c") and value is not None:
            return float(value) + _CELSIUS_ZERO_K
        return float(value) if isinstance(value, int) else value

    return ask


def _at(owner: Callable[[Any], Any], place: int) -> Callable[[Any], Any]:
    def entry(run: Any) -> Any:
        listed = owner(run) or ()
        return listed[place] if place < len(listed) else None

    return entry


def _whole(run: Any) -> Any:
    return run


def _reach(owner: Callable[[Any], Any], attribute: str) -> Callable[[Any], Any]:
    return lambda run: getattr(owner(run), attribute, None)


def _inside(part_class: type[Any], attribute: str) -> type[Any]:
    inner: type[Any] = get_args(get_type_hints(part_class)[attribute])[0]
    return inner


def _dimension(attribute: str) -> Dimension | None:
    if attribute.endswith(_PLAIN_ENDINGS):
        return None
    fitting = [ending for ending in _DIMENSIONS if attribute.endswith(ending)]
    return _DIMENSIONS[max(fitting, key=len)] if fitting else None


RUN_RESULTS: Mapping[str, ResultKind] = MappingProxyType(dict(_kinds()))
