"""What contradicts itself in the readings of the analyser, or keeps two of them from saying anything."""

from collections.abc import Iterator
from itertools import pairwise

from trainer.domain.quantities import Dimension
from trainer.domain.set_up import Reading, SetUp
from trainer.domain.set_up_fault import SetUpFault


def reading_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Readings from which no time can be told."""
    readings = set_up.readings
    if not readings:
        return
    if len(readings) == 1:
        yield SetUpFault(path="readings", code="one-reading-only")
    for place, reading in enumerate(readings):
        yield from _incomplete(reading, f"readings.{place}")
        yield from _below_source(set_up, reading, f"readings.{place}.oxygen")
    for place, (before, after) in enumerate(pairwise(readings), start=1):
        if before.after_s is not None and after.after_s is not None and after.after_s <= before.after_s:
            yield SetUpFault(
                path=f"readings.{place}.after", code="readings-not-in-order", value=after.after_s,
                dimension=Dimension.DURATION, facts={"before_s": before.after_s},
                involves=(f"readings.{place - 1}.after",),
            )  # fmt: skip
    if set_up.analyser is None or set_up.analyser.uncertainty_frac is None:
        yield SetUpFault(path="analyser.uncertainty", code="uncertainty-missing", involves=("readings",))
    if set_up.target is None or set_up.target.oxygen_frac is None:
        yield SetUpFault(path="target.oxygen", code="readings-without-target", involves=("readings",))
    yield from _across_stages(set_up)


def _incomplete(reading: Reading, here: str) -> Iterator[SetUpFault]:
    if reading.after_s is None:
        yield SetUpFault(path=f"{here}.after", code="reading-time-missing")
    if reading.oxygen_frac is None:
        yield SetUpFault(path=f"{here}.oxygen", code="reading-missing")


def _below_source(set_up: SetUp, reading: Reading, path: str) -> Iterator[SetUpFault]:
    """A reading that even an analyser at the end of its uncertainty could not show."""
    source_frac = set_up.gas.oxygen_frac if set_up.gas else None
    off_frac = (set_up.analyser.uncertainty_frac if set_up.analyser else None) or 0.0
    if reading.oxygen_frac is None or source_frac is None:
        return
    if reading.oxygen_frac * (1.0 + off_frac) < source_frac:
        yield SetUpFault(
            path=path, code="reading-below-source", value=reading.oxygen_frac, dimension=Dimension.FRACTION,
            facts={"source_frac": source_frac}, involves=("gas.oxygen", "analyser.uncertainty"),
        )  # fmt: skip


def _across_stages(set_up: SetUp) -> Iterator[SetUpFault]:
    """The last two readings on either side of a change of flow, and falling: at which flow is not known."""
    if len(set_up.readings) < 2 or set_up.flow is None:
        return
    earlier, later = set_up.readings[-2:]
    if earlier.after_s is None or later.after_s is None or earlier.oxygen_frac is None:
        return
    if later.oxygen_frac is None or later.oxygen_frac >= earlier.oxygen_frac:
        return  # oxygen that rises is a sign of its own, whatever has come in between
    change_s = 0.0
    for stage in set_up.flow.stages[:-1]:
        change_s += stage.lasts_s or 0.0
        if earlier.after_s < change_s < later.after_s:
            yield SetUpFault(
                path=f"readings.{len(set_up.readings) - 1}.after", code="readings-across-stages",
                value=later.after_s, dimension=Dimension.DURATION, facts={"change_s": change_s},
                involves=("flow.stages", f"readings.{len(set_up.readings) - 2}.after"),
            )  # fmt: skip
            return
