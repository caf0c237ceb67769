"""Quantities of thresholds about the section and what holds air out of it."""

from collections.abc import Mapping

from trainer.core.terms import InletEnd
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import density_difference_frac, place_facts, quotient
from trainer.domain.quantities import Dimension

_STRONG_JET_RATIO = 0.8  # from here an open tube stirs the whole bore, wherever the vent is


def _pocket_frac(judged: Judged) -> float | None:
    """The trapped pocket where placement matters: not behind a strong jet, nor with a near-neutral gas."""
    section, inlet = judged.run.section, judged.run.inlet
    end = judged.set_up.inlet.end if judged.set_up.inlet else None
    jet_ratio = inlet.jet_length_ratio if inlet else None
    if end is InletEnd.OPEN_TUBE and jet_ratio is not None and jet_ratio > _STRONG_JET_RATIO:
        return None
    if _is_placement_untrusted(judged):
        return None
    return section.pocket_beyond_vent_frac if section else None


def _is_placement_untrusted(judged: Judged) -> bool:
    difference = density_difference_frac(judged)
    rows = [each for each in judged.policy.thresholds if each.code == "placement-untrusted"]
    return difference is not None and any(each.is_met_by(difference) for each in rows)


SECTION_QUANTITIES: Mapping[str, Quantity] = {
    "section.pocket_beyond_vent": Quantity(
        fact="pocket_frac", dimension=Dimension.FRACTION, value=_pocket_frac, facts=place_facts
    ),
    "vent.outflow_over_needed": Quantity(
        fact="vent_ratio", dimension=None,
        facts=lambda judged: {
            "needed_m3_s": (judged.run.vent.flow_that_holds_air_out_m3_s if judged.run.vent else None) or 0.0,
            "flow_m3_s": judged.vent_outflow_m3_s or 0.0,
        },
        value=lambda judged: quotient(
            judged.vent_outflow_m3_s,
            judged.run.vent.flow_that_holds_air_out_m3_s if judged.run.vent else None,
        ),
    ),
}  # fmt: skip
