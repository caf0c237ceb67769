"""Drawing from liquid: what of a dewar or bulk tank is usable, how fast, and what boils off meanwhile."""

from dataclasses import dataclass, replace

from trainer.core.dewar import Dewar, dewar_contents_m3, evaporation_m3_s, heat_to_gas_w, steady_draw_m3_s
from trainer.core.errors import Limits
from trainer.core.gas import R
from trainer.core.reference_conditions import ReferenceCondition

_SHARE = Limits(quantity="share of the contents", unit="", low=0.0, high=1.0, why="a share is from 0 to 1")
_FLOW = Limits(quantity="flow drawn", unit="m3/s", low=0.0, why="gas is drawn, not given back")
_HEAT = Limits(quantity="heat of the vaporiser", unit="W", low=0.0, why="a vaporiser takes heat from the air")
_JOINT = Limits(quantity="gas for a joint", unit="m3", low=1e-9, why="each joint takes some gas")
_CYCLE = Limits(quantity="time from joint to joint", unit="s", low=1e-3, why="a joint takes time")


@dataclass(frozen=True, kw_only=True)
class LiquidSupply:
    """A dewar or bulk tank in use: what stays in it, what it loses standing, and what it can deliver.

    `largest_draw_m3_s` is at 21 degC and 1 atm like the makers' figures; None for a bulk tank, whose line
    regulator is the limit.
    """

    vessel: Dewar
    residual_frac: float = 0.05
    daily_loss_frac: float = 0.03
    largest_draw_m3_s: float | None = steady_draw_m3_s()

    def __post_init__(self) -> None:
        _SHARE.check(self.residual_frac)
        _SHARE.check(self.daily_loss_frac)
        if self.largest_draw_m3_s is not None:
            _FLOW.check(self.largest_draw_m3_s)


def usable_liquid_m3(
    supply: LiquidSupply, *, reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
) -> float:
    """Gas that can be drawn before the vessel is down to what stays in it.

    V = V_contents (1 - residual)

    Args:
        supply [record]: the vessel in use
        reference [text]: the condition of the gas
    Returns:
        [m3] usable gas
    Raises:
        UnknownName: for a gas that is not stored as a liquid
    Valid: drawn within the vaporiser's rating.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(usable_liquid_m3(LiquidSupply(vessel=vessel)))
        116

    Reference: CoolProp 8.0.0, see data/liquids.csv; the 5 % that stays is common practice.
    """
    return dewar_contents_m3(supply.vessel, reference=reference) * (1.0 - supply.residual_frac)


def boil_off_m3_s(
    supply: LiquidSupply, *, reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
) -> float:
    """Gas that the vessel vents while nothing is drawn, into wherever it stands.

    R = V_full f / 24 h

    Args:
        supply [record]: the vessel in use
        reference [text]: the condition of the gas
    Returns:
        [m3/s] gas vented
    Raises:
        UnknownName: for a gas that is not stored as a liquid
    Valid: a vessel that is already at its relief pressure.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(boil_off_m3_s(LiquidSupply(vessel=vessel)) * 60000, 1)
        2.5

    Reference: Lab Manager, January 2010, 2 to 3 % a day, read.
    """
    contents_m3 = dewar_contents_m3(supply.vessel, reference=reference)
    return evaporation_m3_s(contents_m3, daily_loss_frac=supply.daily_loss_frac)


def liquid_lasts_s(
    supply: LiquidSupply,
    *,
    flow_m3_s: float,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
) -> float:
    """How long the vessel lasts when a flow is drawn day and night, or until it has boiled off.

    t = V / max(Q, R): what is drawn is boil-off first, and only what is not drawn is vented

    Args:
        supply [record]: the vessel in use
        flow_m3_s [m3/s]: Q, drawn, at the reference condition
        reference [text]: the condition of gas and flow
    Returns:
        [s] time to the residual
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for a negative flow, or a vessel without loss from which nothing is drawn
    Valid: constant flow within the vaporiser's rating.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(liquid_lasts_s(LiquidSupply(vessel=vessel), flow_m3_s=0.0) / 86400, 1)
        31.7

    Reference: mass balance.
    """
    _FLOW.check(flow_m3_s)
    leaving_m3_s = max(flow_m3_s, boil_off_m3_s(supply, reference=reference))
    why = "with neither draw nor loss it lasts for ever"
    Limits(quantity="gas leaving the vessel", unit="m3/s", low=1e-12, why=why).check(leaving_m3_s)
    return usable_liquid_m3(supply, reference=reference) / leaving_m3_s


def liquid_joints_count(
    supply: LiquidSupply,
    *,
    gas_per_joint_m3: float,
    joint_to_joint_s: float,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
) -> int:
    """How many joints a vessel is enough for, when it boils off between them.

    n = floor(V / max(V_joint, R t_joint to joint))

    Args:
        supply [record]: the vessel in use
        gas_per_joint_m3 [m3]: V_joint, from purge to the end of the hold, at the reference condition
        joint_to_joint_s [s]: from the start of one joint to that of the next, nights and all
        reference [text]: the condition of the gas
    Returns:
        [-] whole joints
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for a joint that takes no gas or no time
    Valid: the relief holds back what is drawn soon after, so that boil-off serves the joints first.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> liquid_joints_count(LiquidSupply(vessel=vessel), gas_per_joint_m3=0.245, joint_to_joint_s=3600.0)
        473

    Reference: mass balance.
    """
    _JOINT.check(gas_per_joint_m3)
    _CYCLE.check(joint_to_joint_s)
    boiled_m3 = boil_off_m3_s(supply, reference=reference) * joint_to_joint_s
    return int(usable_liquid_m3(supply, reference=reference) // max(gas_per_joint_m3, boiled_m3))


def change_below_fill_frac(
    supply: LiquidSupply,
    *,
    gas_per_joint_m3: float,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
) -> float | None:
    """The level below which a vessel is changed before the next joint is begun.

    (fill - residual fill_now) V_vessel ratio = V_joint

    Args:
        supply [record]: the vessel as it stands now
        gas_per_joint_m3 [m3]: V_joint
        reference [text]: the condition of the gas
    Returns:
        [-] share of the vessel that is liquid; None when what is in it now is not enough for a joint
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for a joint that takes no gas
    Valid: the pressure over the liquid stays as it is.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(change_below_fill_frac(LiquidSupply(vessel=vessel), gas_per_joint_m3=2.45), 4)
        0.0666

    Reference: mass balance; not to change within a joint is common practice.
    """
    _JOINT.check(gas_per_joint_m3)
    if usable_liquid_m3(supply, reference=reference) < gas_per_joint_m3:
        return None
    full_m3 = dewar_contents_m3(replace(supply.vessel, fill_frac=1.0), reference=reference)
    return supply.residual_frac * supply.vessel.fill_frac + gas_per_joint_m3 / full_m3


def deliverable_m3_s(supply: LiquidSupply, *, wanted_m3_s: float) -> float:
    """The flow that a vessel can keep up of a flow that is wanted.

    min(Q, largest draw)

    Args:
        supply [record]: the vessel in use
        wanted_m3_s [m3/s]: Q, at 21 degC and 1 atm
    Returns:
        [m3/s] flow that it keeps up; beyond it the vaporiser ices up and sends cold gas, then liquid
    Raises:
        OutOfRange: for a negative flow
    Valid: built-in vaporiser of a portable vessel; a bulk tank is not the limit of any purge.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(deliverable_m3_s(LiquidSupply(vessel=vessel), wanted_m3_s=300 / 60000) * 60000)
        165

    Reference: 350 standard cubic feet an hour from memory; one manual read says 450.
    """
    _FLOW.check(wanted_m3_s)
    return wanted_m3_s if supply.largest_draw_m3_s is None else min(wanted_m3_s, supply.largest_draw_m3_s)


def vaporised_m3_s(
    heat_w: float, *, vessel: Dewar, reference: ReferenceCondition = ReferenceCondition.AT_21C_1ATM
) -> float:
    """The flow of gas at 20 degC that the heat of a vaporiser is enough for.

    Q = P R T_ref / (dh M p_ref)

    Args:
        heat_w [W]: P, heat that the vaporiser takes from the air or a heater
        vessel [record]: the vessel that it stands behind
        reference [text]: the condition of the flow
    Returns:
        [m3/s] flow
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for negative heat
    Valid: steady draw; frost on the vaporiser takes its heat down.

    Example:
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=3.0, fill_frac=0.8, pressure_pa=101325.0)
        >>> round(vaporised_m3_s(1230.0, vessel=vessel) * 60000)
        165

    Reference: CoolProp 8.0.0, see data/liquids.csv.
    """
    _HEAT.check(heat_w)
    at = reference.state
    per_kg_w = heat_to_gas_w(1.0, gas=vessel.gas, pressure_pa=vessel.pressure_pa)
    gas_kg_m3 = at.pressure_pa * vessel.gas.molar_mass_kg_mol / (R * at.temperature_k)
    return heat_w / per_kg_w / gas_kg_m3
