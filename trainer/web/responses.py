"""What a form sends for an item as the response that services take, and the same back into its controls."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from flask_babel import gettext
from werkzeug.datastructures import MultiDict

from trainer import units
from trainer.domain.items.explanation import LONGEST_TEXT
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Handle, Item, ItemKind, OrderStep
from trainer.scenario_files import ResponseFault
from trainer.web.figures import sentence
from trainer.web.forms.fields import OFFERED, is_bare_number, with_chosen_unit
from trainer.web.forms.typed import as_typed, in_own_words, kept
from trainer.web.unfoldings import UnfoldingView

NONE_HERE = "none-here"  # the tick that says "no hazard", told apart from no answer


class Contradiction(ValueError):
    """What was sent says two things at once; the message goes beside the item."""


def fault_words(fault: ResponseFault | Contradiction, item: Item | None = None) -> str:
    """What to write instead, beside the item, without its internal name or that of a part."""
    if isinstance(fault, Contradiction):
        return str(fault)
    facts = dict(fault.facts)
    if "part" in facts and item is not None:
        labels = {each.id: sentence(each.label) for each in item.handles}
        facts["part"] = labels.get(facts["part"], facts["part"])
    if "steps" in facts:
        facts["steps"] = "; ".join(map(sentence, facts["steps"].split("; ")))
    return in_own_words(fault.template, facts)


@dataclass(frozen=True, kw_only=True)
class Box:
    """One text box with the units beside it."""

    name: str
    label: str
    typed: str = ""
    unit: str = ""
    units: tuple[str, ...] = ()
    handle: str = ""  # the handle of the drawing that it mirrors
    example: str = ""
    longest: int = 100  # signs; of what cannot be taken twice as many are shown again


@dataclass(frozen=True, kw_only=True)
class ItemFields:
    """An item as the form shows it, with what was answered so far."""

    item: Item
    number: int
    boxes: tuple[Box, ...] = ()
    chosen: frozenset[str] = field(default_factory=frozenset)
    kept: str = ""  # when it was last kept, in words
    fault: str = ""
    unfolding: UnfoldingView | None = None

    @property
    def name(self) -> str:
        """Name of the item's controls and of its place on the page."""
        return field_name(self.item)


def field_name(item: Item) -> str:
    """The form name of an item."""
    return f"item-{item.id}"


def box_name(item: Item, part: Handle | OrderStep) -> str:
    """The form name of one handle of a placement, or of one step of an order."""
    return f"item-{item.id}-{part.id}"


def read(item: Item, sent: MultiDict[str, str]) -> Any:
    """The response to an item as it was sent; None where nothing was answered."""
    return _READ[item.kind](item, sent)


def fields_of(item: Item, number: int, *, response: Any, us_units: bool, kept: str = "") -> ItemFields:
    """The controls of an item, filled with a response that was kept (or nothing)."""
    boxes, chosen = _FILL[item.kind](item, response, us_units)
    return ItemFields(item=item, number=number, boxes=boxes, chosen=chosen, kept=kept)


def fields_as_sent(item: Item, number: int, *, sent: MultiDict[str, str], fault: str) -> ItemFields:
    """The controls of an item with exactly what was typed, and what is wrong with it."""
    boxes = tuple(
        Box(
            name=each.name,
            label=each.label,
            typed=sent.get(each.name, "")[: 2 * each.longest],
            unit=sent.get(f"{each.name}-unit", ""),
            units=each.units,
            handle=each.handle,
            example=each.example,
            longest=each.longest,
        )
        for each in _FILL[item.kind](item, None, False)[0]
    )
    chosen = frozenset(sent.getlist(field_name(item)))
    return ItemFields(item=item, number=number, boxes=boxes, chosen=chosen, fault=fault)


def _read_quantity(item: Item, sent: MultiDict[str, str]) -> Any:
    name = field_name(item)
    typed = sent.get(name, "").strip()
    if not typed:
        return None
    return with_chosen_unit(kept(typed), sent.get(f"{name}-unit", ""), _dimension(item.dimension))


def _read_placement(item: Item, sent: MultiDict[str, str]) -> Any:
    placed = {}
    for handle in item.handles:
        name = box_name(item, handle)
        typed = sent.get(name, "").strip()
        if typed:
            placed[handle.id] = kept(typed)
    return placed or None


def _read_choice(item: Item, sent: MultiDict[str, str]) -> Any:
    return sent.get(field_name(item)) or None


def _read_hazards(item: Item, sent: MultiDict[str, str]) -> Any:
    ticked = sent.getlist(field_name(item))
    marks = [each for each in ticked if each != NONE_HERE]
    if marks and NONE_HERE in ticked:
        raise Contradiction(gettext("Either mark hazards or say that there is none, not both."))
    return marks if ticked else None


def _read_order(item: Item, sent: MultiDict[str, str]) -> Any:
    """The steps by the places given to them; a step without a place is left out."""
    places: dict[int, str] = {}
    for step in item.steps:
        typed = sent.get(box_name(item, step), "")
        if not typed.isdecimal():
            continue
        if int(typed) in places:
            raise Contradiction(gettext("Two steps have place %(place)s; give each its own.", place=typed))
        places[int(typed)] = step.id
    return [places[each] for each in sorted(places)] or None


def _read_reading(item: Item, sent: MultiDict[str, str]) -> Any:
    return _read_choice(item, sent) if item.options else _read_quantity(item, sent)


def _read_explanation(item: Item, sent: MultiDict[str, str]) -> Any:
    """The text with the line ends of one system, so that the same text sent again is the same answer."""
    return sent.get(field_name(item), "").replace("\r\n", "\n").strip() or None


def _read_diagnosis(item: Item, sent: MultiDict[str, str]) -> Any:
    """The steps that the page had taken, and the one chosen next; without one nothing new was answered."""
    name = field_name(item)
    following = sent.get(f"{name}-next", "")
    return [*sent.get(name, "").split(), following] if following else None


_READ = {
    ItemKind.QUANTITY: _read_quantity,
    ItemKind.PLACEMENT: _read_placement,
    ItemKind.CHOICE: _read_choice,
    ItemKind.HAZARDS: _read_hazards,
    ItemKind.ORDER: _read_order,
    ItemKind.READING: _read_reading,
    ItemKind.EXPLANATION: _read_explanation,
    ItemKind.DIAGNOSIS: _read_diagnosis,
}

_Filled = tuple[tuple[Box, ...], frozenset[str]]


def _fill_quantity(item: Item, response: Any, us_units: bool) -> _Filled:
    box = _box(field_name(item), item.text, as_typed(str(response or "")), item.dimension, us_units)
    return (box if response else replace(box, unit=_unit_meant(item, us_units) or box.unit),), frozenset()


def _unit_meant(item: Item, us_units: bool) -> str:
    """The unit that such a thing is told in, in the person's own system; empty where the item names none.

    A bare number takes the unit beside it: 7 bar on a gauge must not become 7 Pa.
    """
    offered = OFFERED[_dimension(item.dimension)]
    ours = [each for each in offered if (each in _US) == us_units] or offered
    named = (
        _US_OF.get(each, each) if us_units else each for each in item.unit_hint.replace(",", " ").split()
    )
    return next((each for each in named if each in ours), "")


def _fill_placement(item: Item, response: Any, us_units: bool) -> _Filled:  # noqa: ARG001
    placed: Mapping[str, Any] = response or {}
    return tuple(
        _place_box(item, each, as_typed(str(placed.get(each.id, "")))) for each in item.handles
    ), frozenset()


def _place_box(item: Item, handle: Handle, typed: str) -> Box:
    """The unit is typed in the box, since the grip of the drawing writes there what it was moved to."""
    example = "" if handle.dimension is None else as_typed(units.example(handle.dimension))
    return Box(
        name=box_name(item, handle), label=handle.label, typed=typed, handle=handle.id, example=example
    )


def _fill_choice(item: Item, response: Any, us_units: bool) -> _Filled:  # noqa: ARG001
    return (), frozenset([response] if response else [])


def _fill_hazards(item: Item, response: Any, us_units: bool) -> _Filled:  # noqa: ARG001
    if response is None:
        return (), frozenset()
    return (), frozenset(response or [NONE_HERE])


def _fill_order(item: Item, response: Any, us_units: bool) -> _Filled:  # noqa: ARG001
    places = {step_id: str(place) for place, step_id in enumerate(response or (), start=1)}
    boxes = (
        Box(name=box_name(item, each), label=each.text, typed=places.get(each.id, "")) for each in item.steps
    )
    return tuple(boxes), frozenset()


def _fill_reading(item: Item, response: Any, us_units: bool) -> _Filled:
    if item.options:
        return _fill_choice(item, response, us_units)
    (box,), chosen = _fill_quantity(item, response, us_units)
    is_typed = bool(response)
    # An instrument is read in the unit printed on it, whatever units the reader keeps otherwise.
    return (box if is_typed else replace(box, unit=item.unit_hint),), chosen


def _fill_explanation(item: Item, response: Any, us_units: bool) -> _Filled:  # noqa: ARG001
    box = Box(name=field_name(item), label=item.text, typed=str(response or ""), longest=LONGEST_TEXT)
    return (box,), frozenset()


def _fill_diagnosis(item: Item, response: Any, us_units: bool) -> _Filled:  # noqa: ARG001
    """Nothing to fill in: what was done stands in the table of the unfolding."""
    return (), frozenset()


_FILL = {
    ItemKind.QUANTITY: _fill_quantity,
    ItemKind.PLACEMENT: _fill_placement,
    ItemKind.CHOICE: _fill_choice,
    ItemKind.HAZARDS: _fill_hazards,
    ItemKind.ORDER: _fill_order,
    ItemKind.READING: _fill_reading,
    ItemKind.EXPLANATION: _fill_explanation,
    ItemKind.DIAGNOSIS: _fill_diagnosis,
}


def _box(name: str, label: str, typed: str, dimension: Dimension | None, us_units: bool) -> Box:
    if dimension is None:
        return Box(name=name, label=label, typed=typed)
    offered = units_offered(dimension, us_units=us_units)
    number, _, unit = typed.rpartition(" ")
    if is_bare_number(number) and number and unit in offered:
        return Box(name=name, label=label, typed=number, unit=unit, units=offered)
    return Box(name=name, label=label, typed=typed, unit=offered[0], units=offered)


def units_offered(dimension: Dimension, *, us_units: bool) -> tuple[str, ...]:
    """The units beside a field, those of the person's system first."""
    offered = OFFERED[dimension]
    ours = [each for each in offered if (each in _US) == us_units]
    return tuple(ours + [each for each in offered if each not in ours])


_US = {"in", "ft", "in^2", "ft^2", "ft^3", "cfh", "inH2O", "psi", "degF", "in/min"}
_US_OF = {"bar": "psi", "m": "ft"}  # where the unit that comes first is of another size


def _dimension(dimension: Dimension | None) -> Dimension:
    if dimension is None:
        raise ValueError("a quantity item names its dimension")
    return dimension
