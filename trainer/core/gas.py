"""The purge gases and air: density, viscosity, diffusion, and which way a gas layers in air.

Reference condition, stated once for the whole core: flows and volumes are at the pipe's temperature and one
standard atmosphere (101 325 Pa). Whoever has another basis converts it first (`reference_conditions`).
"""

import math
from dataclasses import dataclass
from functools import cache

from trainer.core.errors import Limits, UnknownGas
from trainer.core.tables import table_rows

ATMOSPHERE_PA = 101_325.0
G = 9.80665
R = 8.314462618
REFERENCE_TEMPERATURE_K = 293.15

# Two constants for air, never mixed: dry air by composition in the dammed section, and what a meter reads
# in fresh (slightly humid) room air.
O2_IN_DRY_AIR_FRAC = 0.2095
O2_IN_ROOM_AIR_FRAC = 0.209

_DIFFUSION_EXPONENT = 1.75

TEMPERATURE = Limits(
    quantity="gas temperature",
    unit="K",
    low=230.0,
    high=400.0,
    why="viscosity and diffusion are fitted from -43 to 127 degC",
)
PRESSURE = Limits(
    quantity="pressure",
    unit="Pa",
    low=1.0e3,
    high=1.0e6,
    why="the ideal gas law is off by less than 1 % only up to 10 bar; use the supply tables above",
)


@dataclass(frozen=True, kw_only=True)
class Gas:
    """A gas as the purge sees it, its properties taken at 293.15 K and one atmosphere.

    `default_source_o2_frac` is the oxygen that gas of 99.99 % purity is taken to carry (site policy).
    `composition` holds the parts of a mixture, by symbol and mole fraction; a pure gas has none.
    """

    symbol: str
    name: str
    molar_mass_kg_mol: float
    viscosity_ref_pa_s: float
    viscosity_exponent: float
    diffusivity_in_air_ref_m2_s: float
    heat_capacity_ratio: float
    default_source_o2_frac: float = 10e-6
    composition: tuple[tuple[str, float], ...] = ()


def gas(symbol: str) -> Gas:
    """The pure gas that an ISO 14175 symbol stands for, or air.

    Args:
        symbol [text]: "I1" argon, "I2" helium, "N1" nitrogen, or "AIR"
    Returns:
        [record] the gas
    Raises:
        UnknownGas: for any other symbol; mixtures are made with `gas_designation.purge_gas`
    Valid: pure gases only.

    Example:
        >>> gas("I1").name
        'argon'

    Reference: ISO 14175:2008, main groups I and N (table from memory); properties as data/gases.csv says.
    """
    purge_gases = {"I1", "I2", "N1", "AIR"}
    if symbol not in purge_gases:
        raise UnknownGas(symbol, known=sorted(purge_gases))
    return component(symbol)


@cache
def component(symbol: str) -> Gas:
    """A pure gas, also one that only serves as part of a mixture.

    Args:
        symbol [text]: "I1", "I2", "N1", "AIR", "H2" or "O2"
    Returns:
        [record] the gas
    Raises:
        UnknownGas: for any other symbol
    Valid: the gases of data/gases.csv.

    Example:
        >>> component("H2").molar_mass_kg_mol
        0.00201588

    Reference: data/gases.csv (CoolProp 8.0.0 viscosities, CRC Handbook diffusion table).
    """
    rows = {row["symbol"]: row for row in table_rows("gases")}
    if symbol not in rows:
        raise UnknownGas(symbol, known=sorted(rows))
    row = rows[symbol]
    tabulated = row["diffusivity_in_air_m2_s"]
    return Gas(
        symbol=symbol,
        name=row["name"],
        molar_mass_kg_mol=float(row["molar_mass_kg_mol"]),
        viscosity_ref_pa_s=float(row["viscosity_pa_s"]),
        viscosity_exponent=float(row["viscosity_exponent"]),
        heat_capacity_ratio=float(row["heat_capacity_ratio"]),
        diffusivity_in_air_ref_m2_s=float(tabulated) if tabulated else fuller_diffusivity_m2_s(symbol, "AIR"),
    )


def fuller_diffusivity_m2_s(symbol: str, other: str) -> float:
    """Binary diffusion coefficient at 293.15 K and one atmosphere, for pairs that the table does not hold.

    D = 1e-7 T^1.75 sqrt(1/M1 + 1/M2) / [p (v1^(1/3) + v2^(1/3))^2],  M in g/mol, p in atm, D in m2/s

    Args:
        symbol [text]: one gas of data/gases.csv
        other [text]: the other one
    Returns:
        [m2/s] diffusion coefficient
    Raises:
        UnknownGas: for a gas without a diffusion volume
    Valid: a few per cent; 2.5 % low for argon and 7 % low for helium in air, so the table goes first.

    Example:
        >>> round(fuller_diffusivity_m2_s("I1", "AIR") * 1e4, 4)
        0.1843

    Reference: Fuller, Schettler and Giddings, Ind. Eng. Chem. 58 (1966) 18; volumes from memory.
    """
    rows = {row["symbol"]: row for row in table_rows("gases")}
    for wanted in (symbol, other):
        if wanted not in rows:
            raise UnknownGas(wanted, known=sorted(rows))
    inverse_mass = sum(1.0 / (1000.0 * float(rows[s]["molar_mass_kg_mol"])) for s in (symbol, other))
    cube_roots = sum(math.cbrt(float(rows[s]["diffusion_volume"])) for s in (symbol, other))
    return (
        1e-7
        * math.pow(REFERENCE_TEMPERATURE_K, _DIFFUSION_EXPONENT)
        * math.sqrt(inverse_mass)
        / cube_roots**2
    )


AIR = component("AIR")


def density_kg_m3(gas: Gas, *, temperature_k: float, pressure_pa: float = ATMOSPHERE_PA) -> float:
    """Density of a gas.

    rho = p M / (R T)

    Args:
        gas [record]: the gas
        temperature_k [K]: its temperature
        pressure_pa [Pa]: its absolute pressure, one atmosphere when left out
    Returns:
        [kg/m3] density
    Raises:
        OutOfRange: for a temperature outside 230 to 400 K or a pressure outside 1 kPa to 1 MPa
    Valid: ideal gas; within 0.1 % at one atmosphere.

    Example:
        >>> round(density_kg_m3(component("I1"), temperature_k=293.15), 4)
        1.6607

    Reference: ideal gas law; checked against CoolProp 8.0.0.
    """
    TEMPERATURE.check(temperature_k)
    PRESSURE.check(pressure_pa)
    return pressure_pa * gas.molar_mass_kg_mol / (R * temperature_k)


def viscosity_pa_s(gas: Gas, *, temperature_k: float) -> float:
    """Dynamic viscosity of a gas at low pressure.

    mu = mu_ref (T / 293.15 K)^n

    Args:
        gas [record]: the gas
        temperature_k [K]: its temperature
    Returns:
        [Pa s] dynamic viscosity
    Raises:
        OutOfRange: for a temperature outside 230 to 400 K
    Valid: within 0.6 % of CoolProp 8.0.0 for the pure gases, 2 % for mixtures.

    Example:
        >>> round(viscosity_pa_s(component("I1"), temperature_k=293.15) * 1e6, 2)
        22.31

    Reference: power law fitted to CoolProp 8.0.0; see the header of data/gases.csv.
    """
    TEMPERATURE.check(temperature_k)
    return gas.viscosity_ref_pa_s * math.pow(temperature_k / REFERENCE_TEMPERATURE_K, gas.viscosity_exponent)


def diffusivity_in_air_m2_s(gas: Gas, *, temperature_k: float) -> float:
    """Diffusion coefficient of a gas in air at one atmosphere.

    D = D_ref (T / 293.15 K)^1.75

    Args:
        gas [record]: the gas
        temperature_k [K]: temperature
    Returns:
        [m2/s] diffusion coefficient
    Raises:
        OutOfRange: for a temperature outside 230 to 400 K
    Valid: within 4 % of the table from 273 to 373 K.

    Example:
        >>> round(diffusivity_in_air_m2_s(component("I1"), temperature_k=293.15) * 1e4, 3)
        0.189

    Reference: CRC Handbook of Chemistry and Physics, "Diffusion in gases"; exponent of Fuller et al. 1966.
    """
    TEMPERATURE.check(temperature_k)
    return gas.diffusivity_in_air_ref_m2_s * math.pow(
        temperature_k / REFERENCE_TEMPERATURE_K, _DIFFUSION_EXPONENT
    )


def sinks_in_air(gas: Gas) -> bool:
    """Whether a gas at air's temperature is heavier than air; nitrogen is just lighter.

    M_gas > M_air

    Args:
        gas [record]: the gas
    Returns:
        [bool] true when it settles, false when it rises
    Valid: equal temperatures; 10 K of difference undoes nitrogen's 3 %.

    Example:
        >>> sinks_in_air(component("I1")), sinks_in_air(component("N1"))
        (True, False)

    Reference: ideal gas law.
    """
    return gas.molar_mass_kg_mol > AIR.molar_mass_kg_mol


def reduced_gravity_m_s2(gas: Gas, *, temperature_k: float) -> float:
    """Buoyant acceleration of a gas that enters air.

    g' = g |rho_gas - rho_air| / rho_air

    Args:
        gas [record]: the gas
        temperature_k [K]: temperature of both
    Returns:
        [m/s2] reduced gravity over the density of air, never negative; 3.72 for argon
    Raises:
        OutOfRange: for a temperature outside 230 to 400 K
    Valid: gas and air at one temperature and pressure, where it does not depend on either.

    Example:
        >>> round(reduced_gravity_m_s2(component("I1"), temperature_k=293.15), 2)
        3.72

    Reference: Turner, Buoyancy Effects in Fluids (1973), section 6.1.
    """
    TEMPERATURE.check(temperature_k)
    return G * abs(gas.molar_mass_kg_mol - AIR.molar_mass_kg_mol) / AIR.molar_mass_kg_mol


def outflow_reduced_gravity_m_s2(gas: Gas, *, temperature_k: float) -> float:
    """Buoyant acceleration that drives air into an opening from which the gas leaves.

    g' = g |rho_gas - rho_air| / rho_gas

    Args:
        gas [record]: the gas that leaves
        temperature_k [K]: temperature of both
    Returns:
        [m/s2] reduced gravity over the density of the leaving gas; 2.70 for argon
    Raises:
        OutOfRange: for a temperature outside 230 to 400 K
    Valid: gas and air at one temperature and pressure.

    Example:
        >>> round(outflow_reduced_gravity_m_s2(component("I1"), temperature_k=293.15), 2)
        2.7

    Reference: two-layer exchange through an opening, Linden, Annu. Rev. Fluid Mech. 31 (1999) 201.
    """
    TEMPERATURE.check(temperature_k)
    return G * abs(gas.molar_mass_kg_mol - AIR.molar_mass_kg_mol) / gas.molar_mass_kg_mol
