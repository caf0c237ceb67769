"""When to change a cylinder, how many a job takes, what stays in them, and what the gas costs.

Rule: a joint is begun only with gas for all of it at hand, by a full supply or a manifold with two inlets. A
change in the middle lets air in while the line is open and the section cools.
"""

import math
from dataclasses import dataclass, replace

from trainer.core.errors import Limits
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.supply import Cylinders, contents_m3, pressure_for_contents_pa, usable_m3

SMALLEST_SUPPLY_M3 = 1e-9  # of usable gas; what holds less counts as empty

_JOINT = Limits(quantity="gas for a joint", unit="m3", low=1e-9, why="each joint takes some gas")
_COUNT = Limits(quantity="number of joints", unit="", low=0, why="a job has no fewer than none")
_PRICE = Limits(quantity="price of the gas", unit="1/m3", low=0.0, why="a price is not negative")
_VOLUME = Limits(quantity="gas used", unit="m3", low=0.0, why="a volume is not negative")


@dataclass(frozen=True, kw_only=True)
class SupplyPlan:
    """What a job takes in supplies of one size, when none is changed in the middle of a joint."""

    joints_per_supply_count: int
    supplies_count: int
    drawn_m3: float
    left_over_m3: float


def supply_plan(usable_gas_m3: float, *, gas_per_joint_m3: float, joints_count: int) -> SupplyPlan:
    """How many supplies a job takes, and how much usable gas goes back in them.

    n = ceil(joints / floor(V / V_joint)); where one supply is not enough for a joint, on a manifold,
    n = ceil(joints V_joint / V)

    Args:
        usable_gas_m3 [m3]: V, usable gas of one full supply
        gas_per_joint_m3 [m3]: V_joint, from purge to the end of the hold, at the same reference condition
        joints_count [-]: joints of the job
    Returns:
        [record] joints for each supply (0 when it is not enough), supplies, gas drawn, usable gas left over
    Raises:
        OutOfRange: for a supply or a joint without gas, or fewer joints than none
    Valid: no gas lost between joints.

    Example:
        >>> plan = supply_plan(10.42, gas_per_joint_m3=0.245, joints_count=100)
        >>> plan.joints_per_supply_count, plan.supplies_count, round(plan.left_over_m3, 2)
        (42, 3, 6.76)

    Reference: arithmetic; not to change within a joint is common practice.
    """
    _JOINT.check(gas_per_joint_m3)
    _COUNT.check(joints_count)
    why = "an empty supply gives no joint"
    Limits(quantity="usable gas of one supply", unit="m3", low=SMALLEST_SUPPLY_M3, why=why).check(
        usable_gas_m3
    )
    each = math.floor(usable_gas_m3 / gas_per_joint_m3)
    supplies = (
        math.ceil(joints_count / each) if each else math.ceil(joints_count * gas_per_joint_m3 / usable_gas_m3)
    )
    drawn_m3 = joints_count * gas_per_joint_m3
    return SupplyPlan(
        joints_per_supply_count=each,
        supplies_count=supplies,
        drawn_m3=drawn_m3,
        left_over_m3=max(supplies * usable_gas_m3 - drawn_m3, 0.0),
    )


def change_below_pa(
    cylinders: Cylinders,
    *,
    stop_pressure_pa: float,
    gas_per_joint_m3: float,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
) -> float | None:
    """The pressure below which a cylinder is changed before the next joint is begun.

    V(p) - V(p_stop) = V_joint

    Args:
        cylinders [record]: the cylinder or pack, full
        stop_pressure_pa [Pa]: absolute pressure that stays in it
        gas_per_joint_m3 [m3]: V_joint
        reference [text]: the condition of V_joint
    Returns:
        [Pa] absolute pressure; None when even the full supply is not enough for a joint
    Raises:
        OutOfRange: for a joint that takes no gas
    Valid: constant temperature.

    Example:
        >>> from trainer.core.gas import gas
        >>> full = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
        >>> round(change_below_pa(full, stop_pressure_pa=5e5, gas_per_joint_m3=0.245) / 1e5, 1)
        9.9

    Reference: real-gas law with the table of data/compressibility.csv; the rule is common practice.
    """
    _JOINT.check(gas_per_joint_m3)
    if usable_m3(cylinders, stop_pressure_pa=stop_pressure_pa, reference=reference) < gas_per_joint_m3:
        return None
    stays_m3 = contents_m3(replace(cylinders, pressure_pa=stop_pressure_pa), reference=reference)
    return pressure_for_contents_pa(stays_m3 + gas_per_joint_m3, cylinders=cylinders, reference=reference)


@dataclass(frozen=True, kw_only=True)
class GasUse:
    """Gas of a joint before, during and after the arc, and what of it did no good."""

    before_m3: float
    during_m3: float
    after_m3: float
    wasted_m3: float

    @property
    def total_m3(self) -> float:
        """Gas of the joint.

        Returns:
            [m3] before, during and after together
        """
        return self.before_m3 + self.during_m3 + self.after_m3


@dataclass(frozen=True, kw_only=True)
class JointTimes:
    """Flows and times of a joint; `needed_s` is how long the purge had to take, None when not known."""

    purge_flow_m3_s: float
    purge_s: float
    hold_flow_m3_s: float
    arc_s: float
    after_s: float
    needed_s: float | None = None

    def __post_init__(self) -> None:
        for value in (self.purge_flow_m3_s, self.purge_s, self.hold_flow_m3_s, self.arc_s, self.after_s):
            _VOLUME.check(value)


def gas_use(times: JointTimes) -> GasUse:
    """Gas that a joint takes: before the arc at the purge flow, during and after it at the hold flow.

    V = Q_purge t_purge,  Q_hold t_arc,  Q_hold t_after;  wasted Q_purge (t_purge - t_needed)

    Args:
        times [record]: flows and times
    Returns:
        [record] gas before, during, after, and wasted by purging longer than needed
    Valid: flows at the condition that the cost is asked for.

    Example:
        >>> litre = 1e-3 / 60
        >>> use = gas_use(JointTimes(purge_flow_m3_s=15 * litre, purge_s=480.0, hold_flow_m3_s=5 * litre,
        ...     arc_s=1200.0, after_s=300.0, needed_s=300.0))
        >>> round(use.total_m3, 3), round(use.wasted_m3, 3)
        (0.245, 0.045)

    Reference: arithmetic.
    """
    over_s = 0.0 if times.needed_s is None else max(times.purge_s - times.needed_s, 0.0)
    return GasUse(
        before_m3=times.purge_flow_m3_s * times.purge_s,
        during_m3=times.hold_flow_m3_s * times.arc_s,
        after_m3=times.hold_flow_m3_s * times.after_s,
        wasted_m3=times.purge_flow_m3_s * over_s,
    )


def gas_cost(gas_volume_m3: float, *, price_per_m3: float) -> float:
    """What gas costs, in the money of its price.

    cost = V price

    Args:
        gas_volume_m3 [m3]: V, at the reference condition of the price
        price_per_m3 [1/m3]: money for each cubic metre at that condition
    Returns:
        [-] money
    Raises:
        OutOfRange: for a negative volume or price
    Valid: without the rent of cylinders and the time of people.

    Example:
        >>> gas_cost(2.0, price_per_m3=6.5)
        13.0

    Reference: arithmetic.
    """
    _VOLUME.check(gas_volume_m3)
    _PRICE.check(price_per_m3)
    return gas_volume_m3 * price_per_m3
