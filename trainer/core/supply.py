"""Cylinders and packs: contents by the real gas, what of it is usable, how long it lasts.

All pressures are absolute; a gauge reads one atmosphere less. The ideal gas law errs on the safe side for
argon (6 % at 200 bar) and on the unsafe side for helium and nitrogen.
"""

import math
from dataclasses import dataclass, replace

from trainer.core.compressibility import CYLINDER_PRESSURE, CYLINDER_TEMPERATURE, compressibility_ratio
from trainer.core.errors import Limits
from trainer.core.gas import Gas, R
from trainer.core.reference_conditions import ReferenceCondition

FILL_TEMPERATURE_K = 288.15
_WATER_VOLUME = Limits(quantity="water volume", unit="m3", low=1e-6, high=1e4, why="1 mL to 10 000 m3")
_COUNT = Limits(quantity="number of cylinders", unit="", low=1, high=10_000, why="there has to be a supply")
_USABLE = Limits(quantity="usable gas", unit="m3", low=0.0, why="an empty cylinder gives nothing")
_FLOW = Limits(quantity="flow", unit="m3/s", low=1e-12, why="without flow the supply lasts for ever")
_PER_JOINT = Limits(quantity="gas for a joint", unit="m3", low=1e-9, why="each joint takes some gas")


@dataclass(frozen=True, kw_only=True)
class Cylinders:
    """One cylinder or a pack of equal ones on a common outlet, at one absolute pressure."""

    gas: Gas
    water_volume_m3: float
    pressure_pa: float
    temperature_k: float = FILL_TEMPERATURE_K
    count: int = 1

    def __post_init__(self) -> None:
        _WATER_VOLUME.check(self.water_volume_m3)
        CYLINDER_PRESSURE.check(self.pressure_pa)
        CYLINDER_TEMPERATURE.check(self.temperature_k)
        _COUNT.check(self.count)


def contents_m3(
    cylinders: Cylinders, *, reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
) -> float:
    """Gas in a cylinder or pack, as a volume at a reference condition.

    V = N V_w (p / Z T) (Z_ref T_ref / p_ref)

    Args:
        cylinders [record]: what there is
        reference [text]: the condition of the volume, 15 degC and 1 bar when left out
    Returns:
        [m3] contents, to the last of it
    Raises:
        UnknownName: for a gas without a compressibility table
    Valid: gas, not liquid.

    Example:
        >>> from trainer.core.gas import gas
        >>> full = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
        >>> round(contents_m3(full), 2)
        10.67

    Reference: real-gas law with the table of data/compressibility.csv.
    """
    return cylinders.count * cylinders.water_volume_m3 * _gas_per_volume_ratio(cylinders, reference)


def _gas_per_volume_ratio(cylinders: Cylinders, reference: ReferenceCondition) -> float:
    at, gas = reference.state, cylinders.gas
    inside = compressibility_ratio(
        gas, pressure_pa=cylinders.pressure_pa, temperature_k=cylinders.temperature_k
    )
    outside = compressibility_ratio(gas, pressure_pa=at.pressure_pa, temperature_k=at.temperature_k)
    pressure_ratio = cylinders.pressure_pa / at.pressure_pa
    return pressure_ratio * outside * at.temperature_k / (inside * cylinders.temperature_k)


def usable_m3(
    cylinders: Cylinders,
    *,
    stop_pressure_pa: float,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
) -> float:
    """Gas that can be drawn before the pressure at which a cylinder is changed.

    V = V(p) - V(p_stop), nothing when it is at p_stop or below already

    Args:
        cylinders [record]: what there is
        stop_pressure_pa [Pa]: absolute pressure that stays in the cylinder
        reference [text]: the condition of the volume
    Returns:
        [m3] usable gas
    Raises:
        OutOfRange: for a negative stop pressure
    Valid: drawn slowly, at constant temperature.

    Example:
        >>> from trainer.core.gas import gas
        >>> full = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
        >>> round(usable_m3(full, stop_pressure_pa=5e5), 2)
        10.42

    Reference: real-gas law; 2 to 5 bar left in a cylinder is common practice.
    """
    left = replace(cylinders, pressure_pa=stop_pressure_pa)
    if stop_pressure_pa >= cylinders.pressure_pa:
        return 0.0
    return contents_m3(cylinders, reference=reference) - contents_m3(left, reference=reference)


def pressure_for_contents_pa(
    wanted_m3: float,
    *,
    cylinders: Cylinders,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
) -> float:
    """The pressure at which a cylinder or pack holds so much gas.

    p = Z(p, T) n R T / (N V_w)

    Args:
        wanted_m3 [m3]: gas that it is to hold, at the reference condition
        cylinders [record]: gas, size, number and temperature; its own pressure does not matter
        reference [text]: the condition of the volume
    Returns:
        [Pa] absolute pressure
    Raises:
        OutOfRange: for a negative volume, or when it would pass 350 bar
    Valid: gas, not liquid.

    Example:
        >>> from trainer.core.gas import gas
        >>> empty = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=1e5)
        >>> round(pressure_for_contents_pa(10.67, cylinders=empty) / 1e5)
        200

    Reference: real-gas law with the table of data/compressibility.csv.
    """
    _USABLE.check(wanted_m3)
    at, gas = reference.state, cylinders.gas
    outside = compressibility_ratio(gas, pressure_pa=at.pressure_pa, temperature_k=at.temperature_k)
    room_m3 = cylinders.count * cylinders.water_volume_m3 * outside * at.temperature_k
    ideal_pa = wanted_m3 * at.pressure_pa * cylinders.temperature_k / room_m3
    return _real_pressure_pa(ideal_pa, gas=gas, temperature_k=cylinders.temperature_k)


def _real_pressure_pa(ideal_pa: float, *, gas: Gas, temperature_k: float) -> float:
    """p = Z(p) p_ideal; Z changes slowly with p, so that each round gains a digit or so."""
    pressure_pa = ideal_pa
    for _ in range(60):
        before_pa, pressure_pa = (
            pressure_pa,
            ideal_pa * compressibility_ratio(gas, pressure_pa=pressure_pa, temperature_k=temperature_k),
        )
        if abs(pressure_pa - before_pa) <= 1e-14 * pressure_pa:
            break
    return pressure_pa


def pressure_at_temperature_pa(cylinders: Cylinders, *, temperature_k: float) -> float:
    """Pressure of a closed cylinder that has come to another temperature.

    p = Z(p, T) n R T / V

    Args:
        cylinders [record]: as filled
        temperature_k [K]: its temperature now
    Returns:
        [Pa] absolute pressure
    Raises:
        OutOfRange: when it would pass 350 bar, or outside -40 to 60 degC
    Valid: no gas drawn in between.

    Example:
        >>> from trainer.core.gas import gas
        >>> full = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
        >>> round(pressure_at_temperature_pa(full, temperature_k=323.15) / 1e5)
        237

    Reference: real-gas law with the table of data/compressibility.csv.
    """
    CYLINDER_TEMPERATURE.check(temperature_k)
    filled = compressibility_ratio(
        cylinders.gas, pressure_pa=cylinders.pressure_pa, temperature_k=cylinders.temperature_k
    )
    mol_m3 = cylinders.pressure_pa / (filled * R * cylinders.temperature_k)
    return _real_pressure_pa(mol_m3 * R * temperature_k, gas=cylinders.gas, temperature_k=temperature_k)


def runs_for_s(usable_gas_m3: float, *, flow_m3_s: float) -> float:
    """How long a supply lasts.

    t = V / Q

    Args:
        usable_gas_m3 [m3]: usable gas
        flow_m3_s [m3/s]: flow, at the same reference condition
    Returns:
        [s] time to the stop pressure
    Raises:
        OutOfRange: for no flow
    Valid: constant flow.

    Example:
        >>> round(runs_for_s(10.42, flow_m3_s=12 / 60000) / 60)
        868

    Reference: arithmetic.
    """
    _USABLE.check(usable_gas_m3)
    _FLOW.check(flow_m3_s)
    return usable_gas_m3 / flow_m3_s


def joints_count(usable_gas_m3: float, *, gas_per_joint_m3: float) -> int:
    """How many joints a supply is enough for, from purge to the end of the hold.

    n = floor(V / V_joint)

    Args:
        usable_gas_m3 [m3]: usable gas
        gas_per_joint_m3 [m3]: gas that one joint takes, at the same reference condition
    Returns:
        [-] whole joints
    Raises:
        OutOfRange: for a joint that takes no gas
    Valid: no gas lost between joints.

    Example:
        >>> joints_count(10.42, gas_per_joint_m3=0.245)
        42

    Reference: arithmetic.
    """
    _USABLE.check(usable_gas_m3)
    _PER_JOINT.check(gas_per_joint_m3)
    return math.floor(usable_gas_m3 / gas_per_joint_m3)
