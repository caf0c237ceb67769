"""The purge gas: what it is, how heavy, where it lies in air, what it carries, and how it suits the root."""

from trainer.core.gas import AIR, Gas, density_kg_m3
from trainer.core.gas_purity import impurity_bound_frac, moisture_frac
from trainer.core.pool import PoolSide, pool_side
from trainer.domain.known_parts import gas_of, source_oxygen_of, temperature_of
from trainer.domain.policy import Policy
from trainer.domain.purge_run import GasResult
from trainer.domain.set_up import SetUp

_LIES = {PoolSide.FLOOR: "low", PoolSide.CEILING: "high", PoolSide.NOWHERE: "nowhere"}
_NAMES = {"I1": "Ar", "I2": "He", "N1": "N2", "H2": "H2"}


def gas_result(set_up: SetUp, *, policy: Policy) -> GasResult | None:
    """What the purge gas is; None where it is not known."""
    used, named = gas_of(set_up), set_up.gas
    if used is None or named is None:
        return None
    density = density_kg_m3(used, temperature_k=temperature_of(set_up))
    rule = policy.backing_rule(used, material=set_up.material)
    return GasResult(
        name=used.name,
        composition=_composition_of(used),
        density_kg_m3=density,
        density_over_air_ratio=used.molar_mass_kg_mol / AIR.molar_mass_kg_mol,
        lies=_LIES[pool_side(used)],
        oxygen_frac=source_oxygen_of(set_up),
        oxygen_at_most_frac=None
        if named.purity_frac is None
        else impurity_bound_frac(100.0 * named.purity_frac),
        moisture_frac=None if named.frost_point_k is None else moisture_frac(named.frost_point_k),
        verdict=str(rule.verdict) if rule else None,
        verdict_because=rule.why if rule else None,
        verdict_by=rule.source if rule else None,
    )


def hydrogen_frac(used: Gas) -> float:
    """The share of hydrogen in a gas."""
    return dict(used.composition).get("H2", 0.0)


def _composition_of(used: Gas) -> str:
    parts = used.composition or ((used.symbol, 1.0),)
    return ", ".join(f"{_NAMES[symbol]} {100.0 * share:.6g} %" for symbol, share in parts)
