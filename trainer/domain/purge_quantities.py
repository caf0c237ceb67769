"""Quantities of thresholds about the purge itself, the oxygen at the root and what reads it."""

from collections.abc import Mapping

from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import quotient
from trainer.domain.purge_run import Expected
from trainer.domain.quantities import NEVER, Dimension
from trainer.domain.set_up import AnalyserAt


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
    # The core decides what is never reached; a ratio that rounding left just below 1 may not disagree.
    return max(1.0, ratio) if ratio is not None and purge and purge.time_to_target_s is NEVER else ratio


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


def _oxygen_facts(judged: Judged) -> Mapping[str, float | str]:
    known = {
        "oxygen_frac": _wait_oxygen_frac(judged), "target_frac": _target_frac(judged),
        "material_limit_frac": _limit_frac(judged), "wait_s": judged.set_up.wait_s,
    }  # fmt: skip
    return {name: value for name, value in known.items() if value is not None}


def _root_over_reading(judged: Judged) -> float | None:
    """How many times the reading at the vent the worst root holds when the arc is struck."""
    scene, purge, wait_s = judged.set_up.scene, judged.run.purge, judged.set_up.wait_s
    if scene is None or scene.analyser_at is not AnalyserAt.VENT or purge is None or wait_s is None:
        return None
    at_strike = [row for row in purge.trace if row[0] == wait_s]
    return quotient(at_strike[0][1], at_strike[0][3]) if at_strike else None


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
