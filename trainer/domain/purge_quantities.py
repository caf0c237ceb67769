"""Quantities of thresholds about the purge itself, the oxygen at the root and what reads it."""

from collections.abc import Mapping
from itertools import pairwise
from math import isclose

from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import quotient
from trainer.domain.purge_causes import STAGES_END
from trainer.domain.purge_run import Expected
from trainer.domain.quantities import NEVER, Dimension
from trainer.domain.set_up import AnalyserAt, StageKind

_ROUNDING_RATIO = 1e-6  # a maximum that is found may lie this far above the value that it started from


def _wait_oxygen_frac(judged: Judged) -> float | None:
    purge = judged.run.purge
    after = purge.oxygen_after_wait_frac if purge else None
    return after.expected if after else None


def _target_frac(judged: Judged) -> float | None:
    return judged.set_up.target.oxygen_frac if judged.set_up.target else None


def _limit_frac(judged: Judged) -> float | None:
    limit = judged.policy.oxygen_limits.get(judged.set_up.material) if judged.set_up.material else None
    return limit.frac if limit else None


def _floor_over_target(judged: Judged) -> float | None:
    purge = judged.run.purge
    ratio = quotient(purge.floor_frac if purge else None, _target_frac(judged))
    time_s = purge.time_to_target_s if purge else None
    if ratio is None or purge is None or time_s is None:
        return ratio
    # The core decides what is never reached: rounding may not disagree, nor a floor that the last stage is
    # too short for.
    if time_s is not NEVER:
        return ratio if ratio < 1.0 else None
    return ratio if STAGES_END in purge.never_because else max(1.0, ratio)


def _floor_facts(judged: Judged) -> Mapping[str, float | str]:
    purge = judged.run.purge
    because = purge.never_because if purge else ()
    floor_frac = (purge.floor_frac if purge else None) or 0.0
    return {
        "floor_frac": floor_frac,
        "target_frac": _target_frac(judged) or 0.0,
        "causes": ", ".join(because),
    }


def _hold_facts(judged: Judged) -> Mapping[str, float | str]:
    return {"floor_frac": judged.hold_floor_frac or 0.0, "target_frac": _target_frac(judged) or 0.0}


def _highest_in_hold_frac(judged: Judged) -> float | None:
    return judged.run.purge.highest_in_hold_frac if judged.run.purge else None


def _highest_after_wait_frac(judged: Judged) -> float | None:
    return judged.run.purge.highest_after_wait_frac if judged.run.purge else None


def _hold_rise_over_target(judged: Judged) -> float | None:
    """Highest oxygen of the hold over the target, where it rises in it; else it is the wait's doing."""
    purge = judged.run.purge
    stages = purge.stages if purge else ()
    before = [
        earlier.oxygen_at_end_frac for earlier, later in pairwise(stages) if later.kind == StageKind.HOLD
    ]
    start_frac = min((each.expected for each in before if each), default=_wait_oxygen_frac(judged))
    return _risen_over_target(judged, _highest_in_hold_frac(judged), before_frac=start_frac)


def _risen_over_target(
    judged: Judged, highest_frac: float | None, *, before_frac: float | None
) -> float | None:
    if highest_frac is None or before_frac is None or highest_frac <= before_frac * (1.0 + _ROUNDING_RATIO):
        return None
    return quotient(highest_frac, _target_frac(judged))


def _highest_facts(judged: Judged, highest_frac: float | None) -> Mapping[str, float | str]:
    high_points = judged.run.purge.dead_legs if judged.run.purge else ()
    legs = [each for each in high_points if not each.crossed]
    bleeding = {"bleeding": ", ".join(leg.place or "" for leg in legs)} if legs else {}
    return {"highest_frac": highest_frac or 0.0, "target_frac": _target_frac(judged) or 0.0, **bleeding}


def _oxygen_facts(judged: Judged) -> Mapping[str, float | str]:
    known = {
        "oxygen_frac": _wait_oxygen_frac(judged), "target_frac": _target_frac(judged),
        "material_limit_frac": _limit_frac(judged), "wait_s": judged.set_up.wait_s,
    }  # fmt: skip
    return {name: value for name, value in known.items() if value is not None}


def _root_over_reading(judged: Judged) -> float | None:
    """How many times the reading at the vent the worst root holds when it is read, or the arc is struck."""
    scene, purge, wait_s = judged.set_up.scene, judged.run.purge, judged.set_up.wait_s
    if scene is None or scene.analyser_at is not AnalyserAt.VENT or purge is None:
        return None
    asked_s = [wait_s, *(each.after_s for each in judged.set_up.readings[-1:])]
    rows = [row for row in purge.trace if any(each is not None and isclose(row[0], each) for each in asked_s)]
    ratios = [quotient(row[1], row[3]) for row in rows]
    return max((each for each in ratios if each is not None), default=None)


def _purge_time_facts(judged: Judged) -> Mapping[str, float | str]:
    purge = judged.run.purge
    time_s = purge.time_to_target_s if purge else None
    return {"time_s": time_s.expected} if isinstance(time_s, Expected) else {}


PURGE_QUANTITIES: Mapping[str, Quantity] = {
    "purge.floor_over_target": Quantity(
        fact="floor_ratio", dimension=None, value=_floor_over_target, facts=_floor_facts
    ),
    "root.oxygen_over_limit": Quantity(
        fact="oxygen_ratio", dimension=None, facts=_oxygen_facts,
        value=lambda judged: quotient(_wait_oxygen_frac(judged), _limit_frac(judged)),
    ),
    "purge.oxygen_over_target": Quantity(
        fact="oxygen_ratio", dimension=None,
        facts=lambda judged: {**_oxygen_facts(judged), **_purge_time_facts(judged)},
        value=lambda judged: quotient(_wait_oxygen_frac(judged), _target_frac(judged)),
    ),
    "purge.hold_floor_over_target": Quantity(
        fact="floor_ratio", dimension=None,
        facts=_hold_facts,
        value=lambda judged: quotient(judged.hold_floor_frac, _target_frac(judged)),
    ),
    "purge.highest_in_hold_over_target": Quantity(
        fact="highest_ratio", dimension=None, value=_hold_rise_over_target,
        facts=lambda judged: _highest_facts(judged, _highest_in_hold_frac(judged)),
    ),
    "purge.highest_after_wait_over_target": Quantity(
        fact="highest_ratio", dimension=None,
        facts=lambda judged: _highest_facts(judged, _highest_after_wait_frac(judged)),
        value=lambda judged: _risen_over_target(
            judged, _highest_after_wait_frac(judged), before_frac=_wait_oxygen_frac(judged)
        ),
    ),
    "analyser.root_over_reading": Quantity(fact="root_ratio", dimension=None, value=_root_over_reading),
    "purge.untested_counts": Quantity(
        fact="untested_count", dimension=None, facts=lambda judged: {"reasons": "; ".join(judged.untested)},
        value=lambda judged: None if judged.run.purge is None else float(len(judged.untested)),
    ),
    "target.oxygen": Quantity(
        fact="target_frac", dimension=Dimension.FRACTION, value=_target_frac,
        facts=lambda _: {},
    ),
}  # fmt: skip
