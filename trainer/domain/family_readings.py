"""Builds a reading item: an instrument drawn from the set-up or its run, and how near a reading has to be."""

from collections.abc import Mapping
from random import Random
from typing import Any

import numpy as np

from trainer.domain.drawn import Drawn, Rejected, rounded
from trainer.domain.family import ItemTemplate, ReadingTemplate, ResultOf
from trainer.domain.family_choices import built_choice
from trainer.domain.scenario import Answer, Instrument, InstrumentKind, Item, ReadingBand
from trainer.domain.set_up_paths import value_at
from trainer.domain.templates import sentence

_TRACE_COUNT = 80
_BEYOND = 1.6  # how far past the time asked for a trace is drawn


def built_reading(
    template: ItemTemplate, *, drawn: Drawn, source: Random
) -> tuple[Item, Mapping[str, Any], Answer]:
    """The item, the set-up values that its key fills, and its answer; Rejected where nothing can be read."""
    asked = template.reading
    assert asked is not None  # the loader fills it for this kind
    if asked.instrument is InstrumentKind.ROOT:
        return _root(template, asked, drawn, source)
    instrument, key = (
        _trace(template, asked, drawn) if asked.at is not None else _dial(template, asked, drawn)
    )
    division = instrument.division
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        sets=template.sets,
        dimension=asked.dimension,
        unit_hint=template.unit_hint,
        instrument=instrument,
    )
    band = ReadingBand(
        tolerance=asked.tolerance_divisions * division, zero_at=asked.zero_divisions * division
    )
    answer = Answer(item_id=item.id, key=key, critical=template.critical, reading=band)
    return item, dict.fromkeys(template.sets, key), answer


def _dial(template: ItemTemplate, asked: ReadingTemplate, drawn: Drawn) -> tuple[Instrument, float]:
    """A gauge, a flow tube or a display: an analyser shows whole divisions, the others stand between them."""
    low, high, division = (drawn.amount(each) for each in (asked.low, asked.high, asked.division))
    value = _shown_value(template, asked, drawn)
    if asked.instrument is InstrumentKind.ANALYSER:
        value = rounded(round(value / division) * division, figures=12)  # as it is written and read back
    if not low <= value <= high:
        raise Rejected(f"{template.id}: the reading lies outside the instrument's scale")
    instrument = Instrument(
        kind=asked.instrument,
        unit=asked.unit,
        si_per_unit=asked.si_per_unit,
        low=low,
        high=high,
        division=division,
        points_to=value,
    )
    return instrument, value


def _shown_value(template: ItemTemplate, asked: ReadingTemplate, drawn: Drawn) -> float:
    if asked.shows is not None:
        found = drawn.result(asked.shows)
        if not isinstance(found, float):
            raise Rejected(f"{template.id}: {asked.shows.result} is no number to show")
        return found
    value = value_at(drawn.named(asked.of), asked.path)
    if not isinstance(value, int | float):
        raise Rejected(f"{template.id}: nothing is known at {asked.path}")
    return float(value)


def _trace(template: ItemTemplate, asked: ReadingTemplate, drawn: Drawn) -> tuple[Instrument, float]:
    """Oxygen at the root against time, long enough to see it come down to the level asked for."""
    course = drawn.core.course(drawn.named(asked.of))
    level = drawn.amount(asked.at)
    reached = course.purge.time_to(level) if course is not None else None
    if course is None or reached is None:
        raise Rejected(f"{template.id}: the trace never comes down to the level asked for")
    key = reached.expected
    until = _BEYOND * key
    times = np.linspace(0.0, until, _TRACE_COUNT)
    oxygen = course.purge.trace(times)[:, 0]
    instrument = Instrument(
        kind=asked.instrument,
        unit=asked.unit,
        si_per_unit=asked.si_per_unit,
        low=0.0,
        high=until,
        division=drawn.amount(asked.division),
        points=tuple(zip(times.tolist(), oxygen.tolist(), strict=True)),
    )
    return instrument, key


def _root(
    template: ItemTemplate, asked: ReadingTemplate, drawn: Drawn, source: Random
) -> tuple[Item, Mapping[str, Any], Answer]:
    """The root drawn in the grade that the core gives, to be judged by one of the options."""
    item, values, answer = built_choice(template, drawn=drawn, source=source)
    grade = drawn.result(ResultOf(of=asked.of, result="root grade"))
    instrument = Instrument(kind=asked.instrument, grade=str(grade))
    return Item(**{**item.__dict__, "instrument": instrument}), values, answer
