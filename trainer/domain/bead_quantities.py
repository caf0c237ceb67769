"""Quantities of thresholds about the vent and the pressure that the gas puts on the bead."""

from collections.abc import Mapping

from trainer.domain.flows import is_vent_blocked
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import quotient
from trainer.domain.purge_run import VentResult
from trainer.domain.quantities import Dimension
from trainer.domain.spool_path import vents_of


def _vent(judged: Judged) -> VentResult:
    return judged.run.vent or VentResult()


def _last_facts(judged: Judged) -> Mapping[str, float | str]:
    vent, joint = _vent(judged), judged.set_up.joint
    return {
        "pressure_pa": vent.pressure_at_last_of_joint_pa or 0.0, "pool_head_pa": vent.pool_head_pa or 0.0,
        "left_open_m": (joint.left_open_m if joint else None) or 0.0,
    }  # fmt: skip


def _shut_in_counts(judged: Judged) -> float | None:
    return None if _vent(judged).reaches_pool_head_s is None else 1.0


def _shut_in_facts(judged: Judged) -> Mapping[str, float | str]:
    vent = _vent(judged)
    return {"build_up_s": vent.reaches_pool_head_s or 0.0, "pool_head_pa": vent.pool_head_pa or 0.0}


def _blocked_counts(judged: Judged) -> float | None:
    is_told = any(vent.blocked is not None for vent in vents_of(judged.set_up))
    return float(is_vent_blocked(judged.set_up)) if is_told else None


BEAD_QUANTITIES: Mapping[str, Quantity] = {
    "vent.pressure_rise": Quantity(
        fact="pressure_pa", dimension=Dimension.PRESSURE,
        value=lambda judged: _vent(judged).pressure_rise_pa,
    ),
    "vent.pressure_while_welding": Quantity(
        fact="pressure_pa", dimension=Dimension.PRESSURE,
        value=lambda judged: _vent(judged).pressure_while_welding_pa,
    ),
    "vent.last_pressure_over_pool_head": Quantity(
        fact="head_ratio", dimension=None, facts=_last_facts,
        value=lambda judged: quotient(
            _vent(judged).pressure_at_last_of_joint_pa, _vent(judged).pool_head_pa
        ),
    ),
    "vent.shut_in_counts": Quantity(
        fact="shut_in_count", dimension=None, value=_shut_in_counts, facts=_shut_in_facts
    ),
    "vent.blocked_counts": Quantity(fact="blocked_count", dimension=None, value=_blocked_counts),
}  # fmt: skip
