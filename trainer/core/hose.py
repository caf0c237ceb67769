"""The hose: pressure drop, the largest flow that a regulator pressure pushes through, and a kink in it.

Flows are at the hose's temperature and one atmosphere, pressures absolute.
"""

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import ATMOSPHERE_PA, REFERENCE_TEMPERATURE_K, Gas, R, density_kg_m3, viscosity_pa_s
from trainer.core.nozzle import Nozzle, critical_pressure_ratio, nozzle_flow_m3_s

_LAMINAR, _TURBULENT = 2000.0, 4000.0
_BORE = Limits(quantity="hose bore", unit="m", low=1e-3, high=0.2, why="hoses from 1 to 200 mm bore")
_LENGTH = Limits(quantity="hose length", unit="m", low=1e-3, high=1e4, why="hoses from 1 mm to 10 km")
_OPEN = Limits(
    quantity="open share of the hose", unit="", low=0.0, high=1.0, why="0 is pinched shut, 1 sound"
)
_FLOW = Limits(quantity="flow", unit="m3/s", low=0.0, high=10.0, why="a flow is not negative")
_REYNOLDS = Limits(
    quantity="Reynolds number", unit="", low=1e-300, high=1e9, why="without flow there is no friction"
)
_FRICTION = Limits(quantity="friction factor", unit="", low=1e-3, high=1e4, why="Darcy's, not Fanning's")
_PRESSURE = Limits(
    quantity="absolute inlet pressure",
    unit="Pa",
    low=ATMOSPHERE_PA,
    high=5e6,
    why="gas flows out only above one atmosphere, and hoses hold up to 50 bar",
)


@dataclass(frozen=True, kw_only=True)
class Hose:
    """A smooth hose; `open_frac` below 1 is a kink at its inlet that leaves that share of the bore open."""

    bore_m: float
    length_m: float
    open_frac: float = 1.0

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        _LENGTH.check(self.length_m)
        _OPEN.check(self.open_frac)

    @property
    def area_m2(self) -> float:
        """Cross-section of the bore.

        Returns:
            [m2] area
        """
        return math.pi / 4.0 * self.bore_m * self.bore_m


def friction_factor(reynolds_count: float) -> float:
    """Darcy friction factor of a smooth hose.

    64 / Re up to 2000;  1/sqrt f = 2 log10(Re sqrt f) - 0.8 from 4000;  linear between them

    Args:
        reynolds_count [-]: Re
    Returns:
        [-] f
    Raises:
        OutOfRange: for a Reynolds number that is not positive
    Valid: within 2 % outside the transition, 20 % in it.

    Example:
        >>> friction_factor(1000.0)
        0.064

    Reference: Moody 1944; Prandtl's law for smooth pipes (White, Fluid Mechanics, section 6.6).
    """
    _REYNOLDS.check(reynolds_count)
    if reynolds_count <= _LAMINAR:
        return 64.0 / reynolds_count
    if reynolds_count >= _TURBULENT:
        return _smooth_turbulent(reynolds_count)
    weight = (reynolds_count - _LAMINAR) / (_TURBULENT - _LAMINAR)
    return 64.0 / _LAMINAR * (1.0 - weight) + _smooth_turbulent(_TURBULENT) * weight


def _smooth_turbulent(reynolds_count: float) -> float:
    inverse_root = 8.0
    for _ in range(40):
        before, inverse_root = inverse_root, 2.0 * math.log10(reynolds_count / inverse_root) - 0.8
        if abs(inverse_root - before) <= 1e-15 * inverse_root:
            break
    return 1.0 / inverse_root**2


def pressure_drop_pa(
    flow_m3_s: float, *, hose: Hose, gas: Gas, temperature_k: float = REFERENCE_TEMPERATURE_K
) -> float:
    """Pressure that a sound hose takes from regulator to its open end.

    P1^2 - P2^2 = G^2 (R/M) T (f L/d + 2 ln(P1/P2)),  P2 at least G sqrt(R T / M)

    Args:
        flow_m3_s [m3/s]: flow at the hose's temperature and one atmosphere
        hose [record]: bore and length; its kink is left out
        gas [record]: the gas
        temperature_k [K]: temperature
    Returns:
        [Pa] inlet pressure above one atmosphere
    Raises:
        OutOfRange: for a negative flow
    Valid: isothermal; within 2 %, 20 % in the transition between laminar and turbulent.

    Example:
        >>> from trainer.core.gas import gas
        >>> hose = Hose(bore_m=0.00635, length_m=15.24)
        >>> round(pressure_drop_pa(30 / 60000, hose=hose, gas=gas("I1")) / 1000, 1)
        15.5

    Reference: isothermal flow with friction (Perry's Chemical Engineers' Handbook, section 6).
    """
    _FLOW.check(flow_m3_s)
    return _Line(hose, gas, temperature_k).drop_pa(flow_m3_s)


class _Line:
    """A sound hose with a gas in it, asked for many flows."""

    def __init__(self, hose: Hose, gas: Gas, temperature_k: float) -> None:
        self._flux_per_flow = _mass_flux(1.0, hose, gas, temperature_k)
        self._reynolds_per_flux = hose.bore_m / viscosity_pa_s(gas, temperature_k=temperature_k)
        self._length_ratio = hose.length_m / hose.bore_m
        self._specific_j_kg = R * temperature_k / gas.molar_mass_kg_mol

    @property
    def choking_flow_m3_s(self) -> float:
        """The flow at which the open end is just choked at one atmosphere."""
        return ATMOSPHERE_PA / math.sqrt(self._specific_j_kg) / self._flux_per_flow

    def drop_pa(self, flow_m3_s: float) -> float:
        if flow_m3_s == 0.0:
            return 0.0
        flux = flow_m3_s * self._flux_per_flow
        resistance = friction_factor(flux * self._reynolds_per_flux) * self._length_ratio
        return _inlet_pressure_pa(flux, resistance, self._specific_j_kg) - ATMOSPHERE_PA


def pressure_drop_with_friction_pa(
    flow_m3_s: float,
    *,
    hose: Hose,
    gas: Gas,
    friction_ratio: float,
    temperature_k: float = REFERENCE_TEMPERATURE_K,
) -> float:
    """Pressure that a hose of a known friction factor takes.

    as `pressure_drop_pa`, f given

    Args:
        flow_m3_s [m3/s]: flow at the hose's temperature and one atmosphere
        hose [record]: bore and length
        gas [record]: the gas
        friction_ratio [-]: f, Darcy's
        temperature_k [K]: temperature
    Returns:
        [Pa] inlet pressure above one atmosphere
    Raises:
        OutOfRange: for a negative flow
    Valid: isothermal.

    Example:
        >>> from trainer.core.gas import gas
        >>> hose = Hose(bore_m=0.00635, length_m=15.24)
        >>> round(pressure_drop_with_friction_pa(
        ...     60 / 60000, hose=hose, gas=gas("I1"), friction_ratio=0.03) / 1000, 1)
        48.6

    Reference: isothermal flow with friction (Perry's Chemical Engineers' Handbook, section 6).
    """
    _FLOW.check(flow_m3_s)
    _FRICTION.check(friction_ratio)
    flux = _mass_flux(flow_m3_s, hose, gas, temperature_k)
    resistance = friction_ratio * hose.length_m / hose.bore_m
    return _inlet_pressure_pa(flux, resistance, R * temperature_k / gas.molar_mass_kg_mol) - ATMOSPHERE_PA


def _mass_flux(flow_m3_s: float, hose: Hose, gas: Gas, temperature_k: float) -> float:
    return flow_m3_s * density_kg_m3(gas, temperature_k=temperature_k) / hose.area_m2


def _inlet_pressure_pa(flux: float, resistance: float, specific_j_kg: float) -> float:
    """Fixed-point iteration on ln(P1/P2); the friction term dominates, so it converges in a few rounds."""
    exit_pa = max(ATMOSPHERE_PA, flux * math.sqrt(specific_j_kg))
    inlet_pa = exit_pa
    for _ in range(100):
        losses = resistance + 2.0 * math.log(inlet_pa / exit_pa)
        before_pa, inlet_pa = inlet_pa, math.sqrt(exit_pa * exit_pa + flux * flux * specific_j_kg * losses)
        if abs(inlet_pa - before_pa) <= 1e-15 * inlet_pa:
            break
    return inlet_pa


def largest_flow_m3_s(
    inlet_pressure_pa: float, *, hose: Hose, gas: Gas, temperature_k: float = REFERENCE_TEMPERATURE_K
) -> float:
    """Largest flow that a regulator pressure pushes through the hose, kink and all, to one atmosphere.

    the flow at which the kink passes what the hose behind it takes

    Args:
        inlet_pressure_pa [Pa]: absolute pressure at the regulator
        hose [record]: bore, length and open share
        gas [record]: the gas
        temperature_k [K]: temperature
    Returns:
        [m3/s] flow at the hose's temperature and one atmosphere
    Raises:
        OutOfRange: for a pressure below one atmosphere or above 50 bar, or a flow above 10 m3/s
    Valid: as `pressure_drop_pa`; the kink as a nozzle with a discharge coefficient of 0.8.

    Example:
        >>> from trainer.core.gas import gas
        >>> hose = Hose(bore_m=0.00635, length_m=15.24)
        >>> round(largest_flow_m3_s(301325.0, hose=hose, gas=gas("I1")) * 60000, -1)
        180.0

    Reference: isothermal flow with friction and isentropic nozzle (Perry's, section 6).
    """
    _PRESSURE.check(inlet_pressure_pa)
    if hose.open_frac == 0.0:
        return 0.0
    from scipy.optimize import brentq  # noqa: PLC0415 (slow to import, and few commands need it)

    most_m3_s = _open_end_flow_m3_s(inlet_pressure_pa, hose, gas, temperature_k)
    line = _Line(hose, gas, temperature_k)
    kink = Nozzle(open_area_m2=hose.open_frac * hose.area_m2, gas=gas, temperature_k=temperature_k)

    def to_spare(flow_m3_s: float) -> float:
        """Pressure left over at a flow; behind a kink the flow that it would pass beyond this one."""
        behind_pa = ATMOSPHERE_PA + line.drop_pa(flow_m3_s)
        if hose.open_frac == 1.0:
            return inlet_pressure_pa - behind_pa
        if behind_pa > inlet_pressure_pa:
            return -flow_m3_s
        return nozzle_flow_m3_s(kink, upstream_pa=inlet_pressure_pa, downstream_pa=behind_pa) - flow_m3_s

    found_m3_s = float(brentq(to_spare, 0.0, most_m3_s, xtol=1e-16 * most_m3_s, rtol=1e-15))
    _FLOW.check(found_m3_s)
    return found_m3_s


def _open_end_flow_m3_s(pressure_pa: float, hose: Hose, gas: Gas, temperature_k: float) -> float:
    """More than any hose of this bore passes: the exit would have to be choked at the inlet pressure."""
    flux = pressure_pa / math.sqrt(R * temperature_k / gas.molar_mass_kg_mol)
    return flux * hose.area_m2 / density_kg_m3(gas, temperature_k=temperature_k)


def is_choked(
    inlet_pressure_pa: float, *, hose: Hose, gas: Gas, temperature_k: float = REFERENCE_TEMPERATURE_K
) -> bool:
    """Whether the largest flow is set by the speed of sound, in the kink or at the open end.

    open end: G sqrt(R T / M) > 1 atm;  kink: P_behind / P_before <= (2 / (k + 1))^(k / (k - 1))

    Args:
        inlet_pressure_pa [Pa]: absolute pressure at the regulator
        hose [record]: bore, length and open share
        gas [record]: the gas
        temperature_k [K]: temperature
    Returns:
        [bool] true when a lower pressure outside would not bring more gas
    Raises:
        OutOfRange: for a pressure below one atmosphere or above 50 bar
    Valid: as `largest_flow_m3_s`.

    Example:
        >>> from trainer.core.gas import gas
        >>> is_choked(301325.0, hose=Hose(bore_m=0.00635, length_m=15.24), gas=gas("I1"))
        False

    Reference: isothermal flow with friction and isentropic nozzle (Perry's, section 6).
    """
    _PRESSURE.check(inlet_pressure_pa)
    line = _Line(hose, gas, temperature_k)
    if hose.open_frac == 1.0:
        return line.drop_pa(line.choking_flow_m3_s) < inlet_pressure_pa - ATMOSPHERE_PA
    flow = largest_flow_m3_s(inlet_pressure_pa, hose=hose, gas=gas, temperature_k=temperature_k)
    behind_pa = ATMOSPHERE_PA + line.drop_pa(flow)
    return flow > line.choking_flow_m3_s or behind_pa <= inlet_pressure_pa * critical_pressure_ratio(gas)
