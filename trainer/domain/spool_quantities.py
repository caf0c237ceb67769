"""Quantities of thresholds about the high points of a spool: dead legs, and those that the gas crosses."""

from collections.abc import Mapping

from trainer.core.gas import sinks_in_air
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import place_facts, quotient
from trainer.domain.known_parts import gas_of
from trainer.domain.purge_run import DeadLegResult, Expected


def _slowest(judged: Judged) -> DeadLegResult | None:
    """The dead leg that needs longest by itself; None without one, or a target that it could reach."""
    legs = judged.run.purge.dead_legs if judged.run.purge else ()
    timed = [leg for leg in legs if not leg.crossed and isinstance(leg.time_to_target_s, float)]
    return max(timed, key=_time_s, default=None)


def _time_s(leg: DeadLegResult) -> float:
    return leg.time_to_target_s if isinstance(leg.time_to_target_s, float) else 0.0


def _oxygen_over_target(judged: Judged) -> float | None:
    target = judged.set_up.target
    leg = _slowest(judged)
    return quotient(leg.oxygen_after_wait_frac if leg else None, target.oxygen_frac if target else None)


def _time_over_body(judged: Judged) -> float | None:
    leg, purge = _slowest(judged), judged.run.purge
    body_s = purge.body_time_to_target_s if purge else None
    return quotient(_time_s(leg), body_s.expected) if leg and isinstance(body_s, Expected) else None


def _leg_facts(judged: Judged) -> Mapping[str, float | str]:
    leg, used = _slowest(judged), gas_of(judged.set_up)
    sinks = used is None or sinks_in_air(used)
    return {
        **place_facts(judged),
        "part": (leg.place if leg else None) or "",
        "which": "high" if sinks else "low",
        "side": "below" if sinks else "above",
        "time_s": _time_s(leg) if leg else 0.0,
    }


def _lingering(judged: Judged) -> DeadLegResult | None:
    """The high point that the gas crosses and that needs longest by itself."""
    legs = judged.run.purge.dead_legs if judged.run.purge else ()
    return max((leg for leg in legs if leg.crossed), key=_time_s, default=None)


def _whole_s(judged: Judged) -> float | None:
    time_s = judged.run.purge.time_to_target_s if judged.run.purge else None
    return time_s.expected if isinstance(time_s, Expected) else None


def _time_over_vented(judged: Judged) -> float | None:
    leg = _lingering(judged)
    return quotient(_whole_s(judged), leg.time_with_vent_there_s if leg else None)


def _lingering_facts(judged: Judged) -> Mapping[str, float | str]:
    leg, used = _lingering(judged), gas_of(judged.set_up)
    sinks = used is None or sinks_in_air(used)
    return {
        **place_facts(judged),
        "part": (leg.place if leg else None) or "",
        "which": "high" if sinks else "low",
        "side": "bottom" if sinks else "top",
        "time_s": _whole_s(judged) or 0.0,
        "vented_s": (leg.time_with_vent_there_s if leg else None) or 0.0,
    }


SPOOL_QUANTITIES: Mapping[str, Quantity] = {
    "dead_leg.oxygen_over_target": Quantity(
        fact="oxygen_ratio", dimension=None, value=_oxygen_over_target, facts=_leg_facts
    ),
    "dead_leg.time_over_body": Quantity(
        fact="time_ratio", dimension=None, value=_time_over_body, facts=_leg_facts
    ),
    "crossed.time_over_vented": Quantity(
        fact="time_ratio", dimension=None, value=_time_over_vented, facts=_lingering_facts
    ),
}
