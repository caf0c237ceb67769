"""Quantities of thresholds about gas, hose and supply."""

from collections.abc import Mapping

from trainer.domain.flows import purge_flow_of
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import density_difference_frac, place_facts, quotient
from trainer.domain.quantities import Dimension


def _gas_ruled_out(judged: Judged) -> float | None:
    used = judged.set_up.gas.symbol if judged.set_up.gas else None
    if judged.set_up.material is None or used is None:
        return None
    return float(judged.policy.gas_rule(judged.set_up.material, symbol=used) is not None)


def _gas_facts(judged: Judged) -> Mapping[str, float | str]:
    used = judged.set_up.gas.symbol if judged.set_up.gas else None
    rule = judged.policy.gas_rule(judged.set_up.material, symbol=used)
    return {**place_facts(judged), "material": str(judged.set_up.material or ""),
            "verdict": str(rule.verdict) if rule else "", "why": rule.why if rule else ""}  # fmt: skip


def _needs_no_purge(judged: Judged) -> float | None:
    material = judged.set_up.material
    return None if material is None else float(material in judged.policy.unpurged_materials)


def _supply_facts(judged: Judged) -> Mapping[str, float | str]:
    supply = judged.run.supply
    return {
        "usable_m3": (supply.usable_m3 if supply else None) or 0.0,
        "needed_m3": judged.gas_needed_m3 or 0.0,
    }


def _flow_m3_s(judged: Judged) -> float | None:
    return purge_flow_of(judged.set_up)


GAS_QUANTITIES: Mapping[str, Quantity] = {
    "gas.ruled_out": Quantity(fact="rule_count", dimension=None, value=_gas_ruled_out, facts=_gas_facts),
    "material.needs_no_purge": Quantity(
        fact="unpurged_count", dimension=None, value=_needs_no_purge, facts=_gas_facts
    ),
    "supply.usable_over_needed": Quantity(
        fact="supply_ratio", dimension=None, facts=_supply_facts,
        value=lambda judged: quotient(
            judged.run.supply.usable_m3 if judged.run.supply else None, judged.gas_needed_m3
        ),
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
