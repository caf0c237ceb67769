"""A response as typed or sent, with its units parsed; a fault names the item and what is accepted."""

import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from trainer import units
from trainer.domain.diagnosis_parts import MOST_STEPS
from trainer.domain.items.explanation import LONGEST_TEXT
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Handle, Item, ItemKind, Point, Response
from trainer.domain.set_up_paths import spec_at
from trainer.scenario_files import response_faults as said
from trainer.scenario_files.response_faults import ResponseFault
from trainer.set_up_files import exact_text

_WIDTH, _HEIGHT = 800.0, 420.0  # the scene, in drawing units
_MOST_MARKS = 200


def parse_response(item: Item, raw: Any) -> Response:
    """The response in SI; raises ResponseFault."""
    readers: dict[ItemKind, Callable[[Item, Any], Response]] = {
        ItemKind.QUANTITY: _quantity,
        ItemKind.PLACEMENT: _placement,
        ItemKind.CHOICE: _choice,
        ItemKind.HAZARDS: _hazards,
        ItemKind.ORDER: _order,
        ItemKind.READING: _reading,
        ItemKind.EXPLANATION: _explanation,
        ItemKind.DIAGNOSIS: _diagnosis,
    }
    return readers[item.kind](item, raw)


def parse_responses(items: Mapping[str, Item], raw: Mapping[str, Any]) -> dict[str, Response]:
    """All responses of one scenario; raises ResponseFault for an id that the scenario does not have."""
    parsed = {}
    for item_id, each in raw.items():
        if item_id not in items:
            raise ResponseFault(item_id, said.NO_SUCH_ITEM, {"known": ", ".join(items)})
        if each is None and items[item_id].kind is ItemKind.EXPLANATION:
            continue  # its key as printed: there is none, so nothing was answered
        parsed[item_id] = parse_response(items[item_id], each)
    return parsed


def _quantity(item: Item, raw: Any) -> float:
    if not isinstance(raw, str) or item.dimension is None:
        raise ResponseFault(item.id, said.NO_QUANTITY, {"typed": _shown(raw), "example": _example(item)})
    value = _measured(item.id, raw, item.dimension)
    if value <= 0.0:
        raise ResponseFault(item.id, said.NOT_ABOVE_ZERO, {"typed": raw, "example": _example(item)})
    for path in item.sets:
        _Range(spec_at(path).low, spec_at(path).high, item.dimension).check(item.id, raw, value)
    return value


def _placement(item: Item, raw: Any) -> Mapping[str, float]:
    if not isinstance(raw, Mapping):
        raise ResponseFault(item.id, said.NO_PLACES, {"typed": _shown(raw), "known": _handle_ids(item)})
    handles = {each.id: each for each in item.handles}
    unknown = [str(each) for each in raw if each not in handles]
    if unknown:
        facts = {"typed": ", ".join(unknown), "known": _handle_ids(item)}
        raise ResponseFault(item.id, said.NO_SUCH_PART, facts)
    return {name: _place(item.id, handles[name], each) for name, each in raw.items()}


def _place(item_id: str, handle: Handle, raw: Any) -> float:
    if handle.dimension is not None:
        if not isinstance(raw, str):
            example = exact_text(handle.high, handle.dimension)
            facts = {"part": handle.id, "typed": _shown(raw), "example": example}
            raise ResponseFault(item_id, said.PLACE_WITHOUT_UNIT, facts)
        value = _measured(item_id, raw, handle.dimension)
    else:
        value = _bare_number(item_id, handle, raw)
    _Range(handle.low, handle.high, handle.dimension).check(item_id, raw, value, part=handle.id)
    return value


def _bare_number(item_id: str, handle: Handle, raw: Any) -> float:
    """A number without a unit, as JSON holds it or as a form sends it, with a comma or a point."""
    try:
        value = units.parse_bare(raw) if isinstance(raw, str) else float(raw)
    except units.UnitFault as fault:
        raise ResponseFault(item_id, fault.template, fault.facts) from fault
    except (TypeError, ValueError):
        value = None
    if isinstance(raw, bool) or value is None or not isfinite(value):
        facts = {"part": handle.id, "typed": _shown(raw), "low": str(handle.low), "high": str(handle.high)}
        raise ResponseFault(item_id, said.PLACE_NO_NUMBER, facts)
    return value


def _choice(item: Item, raw: Any) -> str:
    ids = [each.id for each in item.options]
    if not isinstance(raw, str) or raw not in ids:
        raise ResponseFault(item.id, said.NOT_OF_THESE, {"typed": _shown(raw), "known": ", ".join(ids)})
    return raw


def _order(item: Item, raw: Any) -> tuple[str, ...]:
    """The ids of the steps, in their order; those that do not belong are left out."""
    ids = [each.id for each in item.steps]
    if not isinstance(raw, list | tuple) or not raw or any(each not in ids for each in raw):
        raise ResponseFault(item.id, said.NO_ORDER, {"typed": _shown(raw), "known": ", ".join(ids)})
    twice = [each for each in ids if list(raw).count(each) > 1]
    if twice:
        raise ResponseFault(item.id, said.TWICE, {"typed": ", ".join(twice)})
    return tuple(raw)


def _reading(item: Item, raw: Any) -> float | str:
    """An option where the item has some, else what the instrument shows, with its unit."""
    if item.options:
        return _choice(item, raw)
    if not isinstance(raw, str) or item.dimension is None:
        raise ResponseFault(item.id, said.NO_QUANTITY, {"typed": _shown(raw), "example": _example(item)})
    value = _measured(item.id, raw, item.dimension)
    for path in item.sets:
        spec = spec_at(path)
        if value == 0.0 and spec.low_is_open:
            raise ResponseFault(item.id, said.NO_PURGE, {"typed": raw})
        _Range(spec.low, spec.high, item.dimension).check(item.id, raw, value)
    return value


def _hazards(item: Item, raw: Any) -> tuple[str | Point, ...]:
    if not isinstance(raw, list | tuple) or len(raw) > _MOST_MARKS:
        raise ResponseFault(item.id, said.NO_MARKS, {"typed": _shown(raw), "most": str(_MOST_MARKS)})
    return tuple(_mark(item, each) for each in raw)


def _explanation(item: Item, raw: Any) -> str:
    """The text without the blanks around it; line ends as they are typed anywhere become one sign."""
    if not isinstance(raw, str):
        raise ResponseFault(item.id, said.NO_TEXT, {"typed": _shown(raw)})
    written = raw.replace("\r\n", "\n").replace("\r", "\n").strip()
    if not written:
        raise ResponseFault(item.id, said.EMPTY_TEXT)
    if len(written) > LONGEST_TEXT:
        facts = {"count": str(len(written)), "most": str(LONGEST_TEXT)}
        raise ResponseFault(item.id, said.LONG_TEXT, facts)
    if any(unicodedata.category(each) in ("Cc", "Cs") and each not in "\n\t" for each in written):
        raise ResponseFault(item.id, said.STRANGE_SIGNS)
    return written


def _diagnosis(item: Item, raw: Any) -> tuple[str, ...]:
    """The ids of the steps taken, in their order; nothing comes after the end or after the time was up."""
    sheet = item.diagnosis
    assert sheet is not None  # an item of this kind has one
    ids = [each.id for each in sheet.moves]
    if not isinstance(raw, list | tuple) or not raw or any(each not in ids for each in raw):
        raise ResponseFault(item.id, said.NO_STEPS, {"typed": _shown(raw), "known": ", ".join(ids)})
    if len(raw) > MOST_STEPS:
        raise ResponseFault(item.id, said.MANY_STEPS, {"count": str(len(raw)), "most": str(MOST_STEPS)})
    if sheet.is_over(raw[:-1]):
        raise ResponseFault(item.id, said.OVER_BEFORE)
    return tuple(raw)


def _mark(item: Item, raw: Any) -> str | Point:
    if isinstance(raw, str):
        ids = [each.id for each in item.objects]
        if raw not in ids:
            raise ResponseFault(item.id, said.NOT_OF_THESE, {"typed": _shown(raw), "known": ", ".join(ids)})
        return raw
    if isinstance(raw, Mapping) and set(raw) == {"x", "y"}:
        x, y = (_coordinate(raw[each]) for each in ("x", "y"))
        if x is not None and y is not None and 0.0 <= x <= _WIDTH and 0.0 <= y <= _HEIGHT:
            return Point(x=x, y=y)
    raise ResponseFault(item.id, said.NO_MARK, {"typed": _shown(raw)})


def _coordinate(raw: Any) -> float | None:
    is_number = isinstance(raw, int | float) and not isinstance(raw, bool)
    return float(raw) if is_number and isfinite(raw) else None


def _measured(item_id: str, raw: str, dimension: Dimension) -> float:
    try:
        return units.parse(raw, dimension)
    except units.UnitFault as fault:
        raise ResponseFault(item_id, fault.template, fault.facts) from fault


@dataclass(frozen=True)
class _Range:
    low: float | None
    high: float | None
    dimension: Dimension | None

    def check(self, item_id: str, raw: Any, value: float, *, part: str = "") -> None:
        """Both ends are accepted, also after a passage through another unit."""
        slack = 1e-9 * max(abs(self.low or 0.0), abs(self.high or 0.0))
        is_high_enough = self.low is None or value >= self.low - slack
        if is_high_enough and (self.high is None or value <= self.high + slack):
            return
        ends = [_end(each, self.dimension) for each in (self.low, self.high) if each is not None]
        facts = {"part": part, "typed": str(raw), "low": ends[0], "high": ends[-1]}
        if len(ends) == 1:
            raise ResponseFault(item_id, said.OUTSIDE_ONE, facts)
        raise ResponseFault(item_id, said.PLACE_OUTSIDE if part else said.OUTSIDE, facts)


def _end(value: float, dimension: Dimension | None) -> str:
    return f"{value:g}" if dimension is None else units.written(value, dimension)


def _example(item: Item) -> str:
    return units.example(item.dimension) if item.dimension is not None else ""


def _handle_ids(item: Item) -> str:
    return ", ".join(each.id for each in item.handles)


def _shown(raw: Any) -> str:
    text = repr(raw)
    return text if len(text) <= 60 else f"{text[:57]}..."
