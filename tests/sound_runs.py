"""What must hold of every run: no NaN, no infinity, no negative amount, and an answer that can be written."""

import json
import math
from dataclasses import fields, is_dataclass

from trainer.domain.purge_run import PurgeRun
from trainer.set_up_files import write_run


def numbers_in(value):
    """Every number of a set-up or a run, in order."""
    if isinstance(value, float | int):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from numbers_in(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from numbers_in(getattr(value, each.name))


def assert_sound(answered: PurgeRun):
    # An upper end may be infinite where one end of the closure never gets there; it is written as never.
    assert not any(math.isnan(each) for each in numbers_in(answered))
    for part in (
        answered.pipe, answered.section, answered.inlet, answered.purge, answered.vent, answered.hose,
        answered.supply, answered.gas_used, answered.flow, answered.gas, answered.cost, answered.breathing,
        answered.readings,
    ):  # fmt: skip
        assert all(each >= 0 for each in numbers_in(part))
    text = json.dumps(write_run(answered), allow_nan=False)
    assert "null" not in text.replace('"upper": null', "") or "never" in str(answered)
