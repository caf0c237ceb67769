"""Quantities of thresholds about what the readings of the analyser show."""

import math
from collections.abc import Mapping

from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import quotient
from trainer.domain.set_up import Reading


def _last_two(judged: Judged) -> tuple[float, float] | None:
    """Oxygen of the last two readings, the earlier first; None where there are none with an answer."""
    if judged.run.readings is None:
        return None
    earlier, later = (_oxygen_frac(each) for each in judged.set_up.readings[-2:])
    return earlier, later


def _oxygen_frac(reading: Reading) -> float:
    assert reading.oxygen_frac is not None  # a result of readings rests on it
    return reading.oxygen_frac


def _rise_over_uncertainty(judged: Judged) -> float | None:
    """Later over earlier reading, and that over what two readings may differ by when nothing changes."""
    analyser, two = judged.set_up.analyser, _last_two(judged)
    if two is None or analyser is None or analyser.uncertainty_frac is None:
        return None
    earlier_frac, later_frac = two
    # Two readings off independently, as the core takes them.
    return later_frac / earlier_frac / math.exp(math.sqrt(2.0) * analyser.uncertainty_frac)


def _stopped_over_target(judged: Judged) -> float | None:
    """The later reading over the target, where the readings have stopped falling and do not rise."""
    two, rise, readings = _last_two(judged), _rise_over_uncertainty(judged), judged.run.readings
    if two is None or rise is None or rise > 1.0 or readings is None or not readings.floor_reached:
        return None
    return quotient(two[1], _target_frac(judged))


def _target_frac(judged: Judged) -> float | None:
    return judged.set_up.target.oxygen_frac if judged.set_up.target else None


def _facts(judged: Judged) -> Mapping[str, float | str]:
    earlier_frac, later_frac = _last_two(judged) or (0.0, 0.0)
    return {
        "earlier_frac": earlier_frac,
        "later_frac": later_frac,
        "target_frac": _target_frac(judged) or 0.0,
    }


READING_QUANTITIES: Mapping[str, Quantity] = {
    "readings.rise_over_uncertainty": Quantity(
        fact="rise_ratio", dimension=None, value=_rise_over_uncertainty, facts=_facts
    ),
    "readings.stopped_over_target": Quantity(
        fact="stopped_ratio", dimension=None, value=_stopped_over_target, facts=_facts
    ),
}
