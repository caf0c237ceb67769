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
from trainer.set_up_files import exact_text

_WIDTH, _HEIGHT = 800.0, 420.0  # the scene, in drawing units
_MOST_MARKS = 200


class ResponseFault(ValueError):
    """A response that cannot be read; nothing is scored or kept."""

    def __init__(self, item_id: str, message: str) -> None:
        super().__init__(f"{item_id}: {message}")
        self.item_id = item_id
        self.message = message


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
            raise ResponseFault(item_id, f"there is no such item; the items are {', '.join(items)}")
        if each is None and items[item_id].kind is ItemKind.EXPLANATION:
            continue  # its key as printed: there is none, so nothing was answered
        parsed[item_id] = parse_response(items[item_id], each)
    return parsed


def _quantity(item: Item, raw: Any) -> float:
    if not isinstance(raw, str) or item.dimension is None:
        raise ResponseFault(
            item.id, f"{_shown(raw)} is not a number with its unit. Write it like {_example(item)}."
        )
    value = _measured(item.id, raw, item.dimension)
    if value <= 0.0:
        raise ResponseFault(item.id, f"'{raw}' is not above zero. Write it like {_example(item)}.")
    for path in item.sets:
        _Range(spec_at(path).low, spec_at(path).high, item.dimension).check(item.id, raw, value)
    return value


def _placement(item: Item, raw: Any) -> Mapping[str, float]:
    if not isinstance(raw, Mapping):
        raise ResponseFault(item.id, f"{_shown(raw)} does not name a place for each of {_handle_ids(item)}.")
    handles = {each.id: each for each in item.handles}
    unknown = [str(each) for each in raw if each not in handles]
    if unknown:
        raise ResponseFault(
            item.id, f"there is nothing called {', '.join(unknown)}; there is {_handle_ids(item)}."
        )
    return {name: _place(item.id, handles[name], each) for name, each in raw.items()}


def _place(item_id: str, handle: Handle, raw: Any) -> float:
    if handle.dimension is not None:
        if not isinstance(raw, str):
            example = exact_text(handle.high, handle.dimension)
            raise ResponseFault(item_id, f"{handle.id}: {_shown(raw)} has no unit. Write it like {example}.")
        value = _measured(item_id, raw, handle.dimension)
    else:
        value = _bare_number(item_id, handle, raw)
    _Range(handle.low, handle.high, handle.dimension).check(item_id, f"{handle.id} {raw}", value)
    return value


def _bare_number(item_id: str, handle: Handle, raw: Any) -> float:
    """A number without a unit, as JSON holds it or as a form sends it, with a comma or a point."""
    try:
        value = float(raw.replace(",", ".")) if isinstance(raw, str) else float(raw)
    except (TypeError, ValueError):
        value = float("nan")
    if isinstance(raw, bool) or not isfinite(value):
        raise ResponseFault(
            item_id, f"{handle.id}: {_shown(raw)} is not a number from {handle.low} to {handle.high}."
        )
    return value


def _choice(item: Item, raw: Any) -> str:
    ids = [each.id for each in item.options]
    if not isinstance(raw, str) or raw not in ids:
        raise ResponseFault(item.id, f"{_shown(raw)} is not one of {', '.join(ids)}.")
    return raw


def _order(item: Item, raw: Any) -> tuple[str, ...]:
    """The ids of the steps, in their order; those that do not belong are left out."""
    ids = [each.id for each in item.steps]
    if not isinstance(raw, list | tuple) or not raw or any(each not in ids for each in raw):
        raise ResponseFault(
            item.id, f"{_shown(raw)} is not a list of steps in their order, of {', '.join(ids)}."
        )
    twice = [each for each in ids if list(raw).count(each) > 1]
    if twice:
        raise ResponseFault(item.id, f"{', '.join(twice)} stands in the order more than once.")
    return tuple(raw)


def _reading(item: Item, raw: Any) -> float | str:
    """An option where the item has some, else what the instrument shows, with its unit."""
    if item.options:
        return _choice(item, raw)
    if not isinstance(raw, str) or item.dimension is None:
        raise ResponseFault(
            item.id, f"{_shown(raw)} is not a number with its unit. Write it like {_example(item)}."
        )
    value = _measured(item.id, raw, item.dimension)
    for path in item.sets:
        spec = spec_at(path)
        if value == 0.0 and spec.low_is_open:
            raise ResponseFault(item.id, f"'{raw}' is not above zero, and without any there is no purge.")
        _Range(spec.low, spec.high, item.dimension).check(item.id, raw, value)
    return value


def _hazards(item: Item, raw: Any) -> tuple[str | Point, ...]:
    if not isinstance(raw, list | tuple) or len(raw) > _MOST_MARKS:
        raise ResponseFault(item.id, f"{_shown(raw)} is not a list of at most {_MOST_MARKS} marks.")
    return tuple(_mark(item, each) for each in raw)


def _explanation(item: Item, raw: Any) -> str:
    """The text without the blanks around it; line ends as they are typed anywhere become one sign."""
    if not isinstance(raw, str):
        raise ResponseFault(item.id, f"{_shown(raw)} is not a text; write a few sentences.")
    written = raw.replace("\r\n", "\n").replace("\r", "\n").strip()
    if not written:
        raise ResponseFault(item.id, "there is nothing to read in it; write a few sentences.")
    if len(written) > LONGEST_TEXT:
        raise ResponseFault(
            item.id,
            f"it has {len(written)} characters; a few sentences have up to {LONGEST_TEXT}.",
        )
    if any(unicodedata.category(each) in ("Cc", "Cs") and each not in "\n\t" for each in written):
        raise ResponseFault(item.id, "it holds signs that cannot be stored. Type it again by hand.")
    return written


def _diagnosis(item: Item, raw: Any) -> tuple[str, ...]:
    """The ids of the steps taken, in their order; nothing comes after the end or after the time was up."""
    sheet = item.diagnosis
    assert sheet is not None  # an item of this kind has one
    ids = [each.id for each in sheet.moves]
    if not isinstance(raw, list | tuple) or not raw or any(each not in ids for each in raw):
        raise ResponseFault(
            item.id, f"{_shown(raw)} is not a list of steps as they were taken, of {', '.join(ids)}."
        )
    if len(raw) > MOST_STEPS:
        raise ResponseFault(item.id, f"{len(raw)} steps were taken; at most {MOST_STEPS} are.")
    if sheet.is_over(raw[:-1]):
        raise ResponseFault(item.id, "it was over before the last of these steps; no further one is taken.")
    return tuple(raw)


def _mark(item: Item, raw: Any) -> str | Point:
    if isinstance(raw, str):
        ids = [each.id for each in item.objects]
        if raw not in ids:
            raise ResponseFault(item.id, f"{_shown(raw)} is not one of {', '.join(ids)}.")
        return raw
    if isinstance(raw, Mapping) and set(raw) == {"x", "y"}:
        x, y = (_coordinate(raw[each]) for each in ("x", "y"))
        if x is not None and y is not None and 0.0 <= x <= _WIDTH and 0.0 <= y <= _HEIGHT:
            return Point(x=x, y=y)
    raise ResponseFault(
        item.id, f"{_shown(raw)} is neither an object nor a point with x from 0 to 800 and y from 0 to 420."
    )


def _coordinate(raw: Any) -> float | None:
    is_number = isinstance(raw, int | float) and not isinstance(raw, bool)
    return float(raw) if is_number and isfinite(raw) else None


def _measured(item_id: str, raw: str, dimension: Dimension) -> float:
    try:
        return units.parse(raw, dimension)
    except units.UnitFault as fault:
        raise ResponseFault(item_id, str(fault)) from fault


@dataclass(frozen=True)
class _Range:
    low: float | None
    high: float | None
    dimension: Dimension | None

    def check(self, item_id: str, raw: str, value: float) -> None:
        """Both ends are accepted, also after a passage through another unit."""
        slack = 1e-9 * max(abs(self.low or 0.0), abs(self.high or 0.0))
        is_high_enough = self.low is None or value >= self.low - slack
        if is_high_enough and (self.high is None or value <= self.high + slack):
            return
        ends = [_end(each, self.dimension) for each in (self.low, self.high) if each is not None]
        raise ResponseFault(item_id, f"'{raw}' lies outside {' to '.join(ends)}.")


def _end(value: float, dimension: Dimension | None) -> str:
    return f"{value:g}" if dimension is None else units.written(value, dimension)


def _example(item: Item) -> str:
    return units.example(item.dimension) if item.dimension is not None else ""


def _handle_ids(item: Item) -> str:
    return ", ".join(each.id for each in item.handles)


def _shown(raw: Any) -> str:
    text = repr(raw)
    return text if len(text) <= 60 else f"{text[:57]}..."
