"""How each kind of item is asked on paper: lines, boxes, scales and letters to write in."""

from collections.abc import Callable, Mapping
from html import unescape
from math import floor, log10
from re import DOTALL, search
from typing import Any

from flask_babel import gettext

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Handle, InstrumentKind, Item, ItemKind
from trainer.drawing.instruments import instrument_drawing
from trainer.paper.typesetting import embedded
from trainer.web.figures import number_shown, sentence
from trainer.web.paper.sheet_parts import letter
from trainer.web.preferences import drawing_reader, reads_us_units
from trainer.web.responses import units_offered
from trainer.wording.quantities import unit_sign

_MOST_LABELS = 9
_WIDTH_MM = {InstrumentKind.TRACE: 120, InstrumentKind.ROOT: 120, InstrumentKind.ANALYSER: 70}
_WIDTH_OF_OTHERS_MM = 58


def item_form(item: Item, number: int) -> dict[str, Any]:
    """An item as the worksheet shows it; only what is shown before answers are known goes in."""
    return {
        "kind": item.kind.value,
        "number": str(number),
        "text": sentence(item.text),
        **_FORMS[item.kind](item),
    }


def drawing(svg: str) -> dict[str, str]:
    """A drawing with what it tells those who do not see it."""
    told = search(r"<desc[^>]*>(.*?)</desc>", svg, DOTALL)
    return {"svg": embedded(svg), "told": unescape(told[1]) if told else ""}


def _quantity(item: Item) -> dict[str, Any]:
    return {"units": _units_words(item.dimension)}


def _units_words(dimension: Dimension | None) -> str:
    if dimension is None:
        return ""
    offered = units_offered(dimension, us_units=reads_us_units())
    return gettext("with its unit: %(units)s", units=", ".join(map(unit_sign, offered)))


def _placement(item: Item) -> dict[str, Any]:
    return {"handles": [_handle(each) for each in item.handles]}


def _handle(handle: Handle) -> dict[str, Any]:
    unit = drawing_reader().handle_unit(handle.dimension)
    label = sentence(handle.label)
    if handle.dimension is None:
        label = gettext("%(part)s, from 0 (lowest) to 1 (highest)", part=label)
    return {
        "label": label,
        "unit": unit.sign,
        "ticks": _ticks(handle.low * unit.per_si, handle.high * unit.per_si),
    }


def _ticks(low: float, high: float) -> list[dict[str, Any]]:
    """Ticks of a scale at round figures, both ends and every second one with its figure."""
    step = _round_step((high - low) / _MOST_LABELS)
    first = floor(low / step + 1 - 1e-9)
    last = floor(high / step + 1e-9)
    return [
        {
            "at": (each * step / 2 - low) / (high - low),
            "label": number_shown(each * step / 2) if each % 2 == 0 else "",
        }
        for each in range(2 * first, 2 * last + 1)
    ]


def _round_step(least: float) -> float:
    power = 10.0 ** floor(log10(least))
    return next(power * each for each in (1, 2, 2.5, 5, 10) if power * each >= least * (1 - 1e-9))


def _options(item: Item) -> dict[str, Any]:
    return {
        "options": [
            {"mark": letter(place), "text": sentence(each.text)} for place, each in enumerate(item.options)
        ]
    }


def _hazards(item: Item) -> dict[str, Any]:
    objects = enumerate(item.objects, start=1)
    return {"objects": [{"mark": str(number), "text": sentence(each.text)} for number, each in objects]}


def _order(item: Item) -> dict[str, Any]:
    return {
        "steps": [
            {"mark": letter(place), "text": sentence(each.text)} for place, each in enumerate(item.steps)
        ]
    }


def _reading(item: Item) -> dict[str, Any]:
    assert item.instrument is not None  # an item of this kind has one
    svg = instrument_drawing(item.instrument, reader=drawing_reader(prefix=f"item-{item.id}"))
    width = _WIDTH_MM.get(item.instrument.kind, _WIDTH_OF_OTHERS_MM)
    return {
        "instrument": {**drawing(svg), "width": width},
        **_options(item),
        "units": _units_words(item.dimension),
    }


def _explanation(item: Item) -> dict[str, Any]:
    return {"rubric": rubric(item)}


def rubric(item: Item) -> list[dict[str, Any]]:
    """What an explanation is graded by, as both sides read it."""
    return [
        {
            "text": sentence(each.text),
            "critical": each.critical,
            "levels": [sentence(level) for level in each.levels],
        }
        for each in item.rubric
    ]


# What unfolds step by step is never drawn for paper.
_FORMS: Mapping[ItemKind, Callable[[Item], dict[str, Any]]] = {
    ItemKind.QUANTITY: _quantity,
    ItemKind.PLACEMENT: _placement,
    ItemKind.CHOICE: _options,
    ItemKind.HAZARDS: _hazards,
    ItemKind.ORDER: _order,
    ItemKind.READING: _reading,
    ItemKind.EXPLANATION: _explanation,
}
