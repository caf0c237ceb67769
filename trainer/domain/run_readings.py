"""What two readings of the analyser say: how long to wait still, and whether a floor has been reached."""

from trainer.core.dilution import Purge
from trainer.core.interval import Interval
from trainer.core.purge_watch import tail_rate_per_s
from trainer.core.two_readings import TwoReadings
from trainer.core.wait_from_readings import wait_still_within
from trainer.domain.purge_run import Expected, ReadingsResult
from trainer.domain.quantities import NEVER
from trainer.domain.set_up import SetUp


def readings_result(set_up: SetUp, *, purge: Purge | None) -> ReadingsResult | None:
    """The answer of the last two readings, by the purge's slowest mode where that has come."""
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    off_frac = set_up.analyser.uncertainty_frac if set_up.analyser else None
    if len(set_up.readings) < 2 or target_frac is None or off_frac is None:
        return None
    (early_s, early_frac), (late_s, late_frac) = (
        (each.after_s, each.oxygen_frac) for each in set_up.readings[-2:]
    )
    if early_s is None or late_s is None or early_frac is None or late_frac is None:
        return None
    still = wait_still_within(
        TwoReadings(
            earlier_o2_frac=early_frac,
            later_o2_frac=late_frac,
            apart_s=late_s - early_s,
            uncertainty_frac=off_frac,
        ),
        rate_per_s=None if purge is None else _tail_rate(purge, early_s, late_s),
        target_o2_frac=target_frac,
    )
    return ReadingsResult(
        wait_still_s=NEVER
        if still.time is None
        else Expected(expected=still.time.expected, lower=still.time.lower, upper=still.time.upper),
        floor_reached=still.floor_reached,
        floor_frac=still.floor_o2_frac,
    )


def _tail_rate(purge: Purge, early_s: float, late_s: float) -> Interval | None:
    """The rate of the tail; None past the end of the line, or where the flow changed in between."""
    change_s = 0.0
    for segment in purge.case.segments:
        change_s += segment.duration_s
        if early_s < change_s < late_s:
            return None
    return None if late_s > change_s else tail_rate_per_s(purge, from_s=early_s, until_s=late_s)
