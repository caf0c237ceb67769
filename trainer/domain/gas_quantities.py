"""Quantities of thresholds about gas, hose and supply."""

from collections.abc import Callable, Mapping

from trainer.core.backing_gas import BackingRule, BackingVerdict
from trainer.domain.flows import purge_flow_of
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import density_difference_frac, place_facts, quotient
from trainer.domain.known_parts import gas_of
from trainer.domain.quantities import Dimension
from trainer.domain.run_gas import hydrogen_frac
from trainer.domain.time_line import stages_of


def _rule(judged: Judged) -> BackingRule | None:
    used = gas_of(judged.set_up)
    return None if used is None else judged.policy.backing_rule(used, material=judged.set_up.material)


def _verdict_counts(verdict: BackingVerdict) -> Callable[[Judged], float | None]:
    def counted(judged: Judged) -> float | None:
        rule = _rule(judged)
        return None if rule is None else float(rule.verdict is verdict)

    return counted


def _gas_facts(judged: Judged) -> Mapping[str, float | str]:
    rule = _rule(judged)
    return {**place_facts(judged), "material": str(judged.set_up.material or ""),
            "verdict": str(rule.verdict) if rule else "", "why": rule.why if rule else ""}  # fmt: skip


def _needs_no_purge(judged: Judged) -> float | None:
    material = judged.set_up.material
    return None if material is None else float(judged.policy.needs_no_purge(material))


def _hydrogen_frac(judged: Judged) -> float | None:
    used = gas_of(judged.set_up)
    return None if used is None else hydrogen_frac(used)


def _moisture_frac(judged: Judged) -> float | None:
    return judged.run.gas.moisture_frac if judged.run.gas else None


def _moisture_facts(judged: Judged) -> Mapping[str, float | str]:
    named = judged.set_up.gas
    frost_k = named.frost_point_k if named else None
    return {**place_facts(judged), "frost_c": (frost_k or 0.0) - 273.15}


def _supply_facts(judged: Judged) -> Mapping[str, float | str]:
    supply = judged.run.supply
    return {
        "usable_m3": (supply.usable_m3 if supply else None) or 0.0,
        "needed_m3": judged.gas_needed_m3 or 0.0,
    }


def _usable_over_needed(judged: Judged) -> float | None:
    return quotient(judged.run.supply.usable_m3 if judged.run.supply else None, judged.gas_needed_m3)


def _next_over_needed(judged: Judged) -> float | None:
    """What is left after this joint, over what the next one takes; None where there is no next one."""
    supply, ratio = judged.set_up.supply, _usable_over_needed(judged)
    is_last = supply is not None and supply.joints_wanted == 1
    # A supply that is not enough for this joint is another caution.
    return None if ratio is None or ratio < 1.0 or is_last else ratio - 1.0


def _change_facts(judged: Judged) -> Mapping[str, float | str]:
    needed_m3 = judged.gas_needed_m3 or 0.0
    usable_m3 = (judged.run.supply.usable_m3 if judged.run.supply else None) or 0.0
    return {"left_m3": usable_m3 - needed_m3, "needed_m3": needed_m3}


def _boil_off_over_joint(judged: Judged) -> float | None:
    """What boils off from one joint to the next, over what a joint takes."""
    supply = judged.set_up.supply
    if supply is None or supply.joint_every_s is None or judged.run.supply is None:
        return None
    return quotient(judged.run.supply.evaporates_between_joints_m3, judged.gas_needed_m3)


def _boil_off_facts(judged: Judged) -> Mapping[str, float | str]:
    supply = judged.run.supply
    between_m3 = supply.evaporates_between_joints_m3 if supply else None
    return {"boils_off_m3": between_m3 or 0.0, "needed_m3": judged.gas_needed_m3 or 0.0}


def _deliverable_over_flow(judged: Judged) -> float | None:
    supply, wanted = judged.run.supply, judged.largest_draw_m3_s
    return quotient(supply.deliverable_m3_s if supply else None, wanted)


def _deliverable_facts(judged: Judged) -> Mapping[str, float | str]:
    supply = judged.run.supply
    return {
        "deliverable_m3_s": (supply.deliverable_m3_s if supply else None) or 0.0,
        "flow_m3_s": judged.largest_draw_m3_s or 0.0,
    }


def _flow_m3_s(judged: Judged) -> float | None:
    """The largest flow that is wanted of the hose: the purge flow, or that of a stage of its own."""
    flows = [purge_flow_of(judged.set_up), *(each.flow_m3_s for each in stages_of(judged.set_up))]
    return max((each for each in flows if each is not None), default=None)


GAS_QUANTITIES: Mapping[str, Quantity] = {
    "gas.ruled_out": Quantity(
        fact="rule_count", dimension=None, value=_verdict_counts(BackingVerdict.NEVER), facts=_gas_facts
    ),
    "gas.needs_procedure": Quantity(
        fact="procedure_count", dimension=None, facts=_gas_facts,
        value=_verdict_counts(BackingVerdict.BY_PROCEDURE),
    ),
    "gas.hydrogen": Quantity(
        fact="hydrogen_frac", dimension=Dimension.FRACTION, value=_hydrogen_frac, facts=place_facts
    ),
    "gas.moisture": Quantity(
        fact="moisture_frac", dimension=Dimension.FRACTION, value=_moisture_frac, facts=_moisture_facts
    ),
    "material.needs_no_purge": Quantity(
        fact="unpurged_count", dimension=None, value=_needs_no_purge, facts=_gas_facts
    ),
    "supply.usable_over_needed": Quantity(
        fact="supply_ratio", dimension=None, facts=_supply_facts, value=_usable_over_needed
    ),
    "supply.next_over_needed": Quantity(
        fact="next_ratio", dimension=None, facts=_change_facts, value=_next_over_needed
    ),
    "supply.boil_off_over_joint": Quantity(
        fact="boil_off_ratio", dimension=None, facts=_boil_off_facts, value=_boil_off_over_joint
    ),
    "supply.deliverable_over_flow": Quantity(
        fact="draw_ratio", dimension=None, facts=_deliverable_facts, value=_deliverable_over_flow
    ),
    "hose.largest_over_flow": Quantity(
        fact="hose_ratio", dimension=None,
        facts=lambda judged: {
            "largest_m3_s": (judged.run.hose.largest_flow_m3_s if judged.run.hose else None) or 0.0,
            "flow_m3_s": _flow_m3_s(judged) or 0.0,
        },
        value=lambda judged: quotient(
            judged.run.hose.largest_flow_m3_s if judged.run.hose else None, _flow_m3_s(judged)
        ),
    ),
    "gas.density_difference": Quantity(
        fact="density_difference_frac", dimension=Dimension.FRACTION, facts=place_facts,
        value=density_difference_frac,
    ),
}  # fmt: skip
