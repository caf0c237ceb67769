"""Gas mixtures: which way they layer, what ISO 14175 allows in them, and what a purity grade carries."""

import math
from collections.abc import Mapping
from dataclasses import replace

from trainer.core.errors import Limits, UnknownGas, UnknownName
from trainer.core.gas import ATMOSPHERE_PA, Gas, component
from trainer.core.tables import table_rows

_COMPONENTS = {"Ar": "I1", "He": "I2", "N2": "N1", "H2": "H2"}
_SUM_SLACK = 1e-6
_FROST = Limits(
    quantity="frost point", unit="K", low=150.0, high=273.16, why="ice exists from 150 K to the triple point"
)
_SUM = Limits(
    quantity="sum of the composition",
    unit="",
    low=1.0 - _SUM_SLACK,
    high=1.0 + _SUM_SLACK,
    why="the shares of a mixture add up to one",
)


def mixture(shares: Mapping[str, float], *, symbol: str) -> Gas:
    """A mixture of argon, helium, nitrogen and hydrogen as one gas.

    M = sum x_i M_i;  mu by Wilke;  1/D = sum x_i / D_i (Blanc)

    Args:
        shares [record]: mole fraction by "Ar", "He", "N2", "H2"; they add up to one
        symbol [text]: the symbol that the mixture goes by
    Returns:
        [record] the mixture
    Raises:
        UnknownGas: for another component
        OutOfRange: when the shares do not add up to one
    Valid: viscosity within 2 % of kinetic theory.

    Example:
        >>> from trainer.core.gas import sinks_in_air
        >>> sinks_in_air(mixture({"Ar": 0.5, "He": 0.5}, symbol="I3"))
        False

    Reference: Wilke, J. Chem. Phys. 18 (1950) 517; Blanc, J. Phys. 7 (1908) 825.
    """
    for name in shares:
        if name not in _COMPONENTS:
            raise UnknownGas(name, known=sorted(_COMPONENTS))
    _SUM.check(math.fsum(shares.values()))
    parts = [(component(_COMPONENTS[name]), share) for name, share in shares.items() if share > 0.0]
    return replace(
        parts[0][0],
        symbol=symbol,
        name=" + ".join(f"{100.0 * share:.4g} % {part.name}" for part, share in parts),
        molar_mass_kg_mol=math.fsum(share * part.molar_mass_kg_mol for part, share in parts),
        viscosity_ref_pa_s=_wilke_viscosity_pa_s(parts),
        viscosity_exponent=math.fsum(share * part.viscosity_exponent for part, share in parts),
        diffusivity_in_air_ref_m2_s=1.0
        / math.fsum(share / part.diffusivity_in_air_ref_m2_s for part, share in parts),
        heat_capacity_ratio=1.0 + 1.0 / _heat_capacity_over_r(parts),
        composition=tuple((part.symbol, share) for part, share in parts),
    )


def _heat_capacity_over_r(parts: list[tuple[Gas, float]]) -> float:
    """At constant volume; heat capacities add up by mole, their ratios do not."""
    return math.fsum(share / (part.heat_capacity_ratio - 1.0) for part, share in parts)


def _wilke_viscosity_pa_s(parts: list[tuple[Gas, float]]) -> float:
    return math.fsum(
        share_i
        * gas_i.viscosity_ref_pa_s
        / math.fsum(share_j * _wilke_weight(gas_i, gas_j) for gas_j, share_j in parts)
        for gas_i, share_i in parts
    )


def _wilke_weight(gas_i: Gas, gas_j: Gas) -> float:
    viscosity_ratio = gas_i.viscosity_ref_pa_s / gas_j.viscosity_ref_pa_s
    mass_ratio = gas_j.molar_mass_kg_mol / gas_i.molar_mass_kg_mol
    numerator = (1.0 + math.sqrt(viscosity_ratio) * math.sqrt(math.sqrt(mass_ratio))) ** 2
    return numerator / math.sqrt(8.0 * (1.0 + 1.0 / mass_ratio))


def mixed_gas(symbol: str, *, composition: Mapping[str, float]) -> Gas:
    """A mixture that an ISO 14175 symbol allows.

    Args:
        symbol [text]: "I3", "R1", "R2", "N2" to "N5", or a pure gas
        composition [record]: mole fraction by "Ar", "He", "N2", "H2"
    Returns:
        [record] the mixture
    Raises:
        UnknownGas: for another symbol or a component that the symbol does not hold
        OutOfRange: for a share outside the symbol's limits
    Valid: limits from memory; show them as unconfirmed.

    Example:
        >>> round(mixed_gas("R1", composition={"Ar": 0.95, "H2": 0.05}).molar_mass_kg_mol, 5)
        0.03805

    Reference: ISO 14175:2008, table of groups, from memory (data/iso_14175.csv).
    """
    rows = _symbol_rows(symbol)
    allowed = [row["component"] for row in rows]
    for name in composition:
        if name not in allowed:
            raise UnknownGas(name, known=allowed)
    for row in rows:
        _share_limits(row).check(round(100.0 * composition.get(row["component"], 0.0), 9))
    return mixture(composition, symbol=symbol)


def _share_limits(row: Mapping[str, str]) -> Limits:
    low, excluded = float(row["low_percent"]), row["low_is_excluded"] == "yes"
    why = f"that is what ISO 14175 means by {row['symbol']}"
    return Limits(
        quantity=f"{row['component']} in {row['symbol']}",
        unit="%",
        low=math.nextafter(low, math.inf) if excluded else low,
        high=float(row["high_percent"]),
        why=f"{why}, more than {low:g} %" if excluded else why,
    )


def accepted_shares(symbol: str) -> tuple[str, ...]:
    """What may be in a gas that goes by an ISO 14175 symbol, in words.

    Args:
        symbol [text]: "I1" to "I3", "R1", "R2" or "N1" to "N5"
    Returns:
        [text] one line for each component: its name and its limits in volume per cent
    Raises:
        UnknownGas: for another symbol
    Valid: limits from memory; show them as unconfirmed.

    Example:
        >>> accepted_shares("I3")
        ('Ar 5 to 99.5 %', 'He 0.5 to 95 %')

    Reference: ISO 14175:2008, table of groups, from memory (data/iso_14175.csv).
    """
    return tuple(
        f"{row['component']} {'over ' if row['low_is_excluded'] == 'yes' else ''}"
        f"{row['low_percent']} to {row['high_percent']} %"
        for row in _symbol_rows(symbol)
    )


def _symbol_rows(symbol: str) -> list[Mapping[str, str]]:
    rows = [row for row in table_rows("iso_14175") if row["symbol"] == symbol]
    if not rows:
        raise UnknownGas(symbol, known=sorted({row["symbol"] for row in table_rows("iso_14175")}))
    return rows


def grade_o2_frac(purity_percent: float) -> float:
    """Oxygen that gas of a purity grade is taken to carry.

    Args:
        purity_percent [percent]: 99.99, 99.996, 99.998 or 99.999
    Returns:
        [-] mole fraction of oxygen, site policy
    Raises:
        UnknownName: for a purity that is no grade; `impurity_bound_frac` holds for any
    Valid: at delivery, not at the point of use.

    Example:
        >>> round(grade_o2_frac(99.996) * 1e6, 6)
        5.0

    Reference: data/gas_grades.csv, common practice between the figures that its header names.
    """
    grades = {float(row["purity_percent"]): float(row["o2_ppm"]) for row in table_rows("gas_grades")}
    if purity_percent not in grades:
        raise UnknownName("purity grade", f"{purity_percent:g} %", known=[f"{grade:g} %" for grade in grades])
    return grades[purity_percent] * 1e-6


def impurity_bound_frac(purity_percent: float) -> float:
    """The most oxygen that gas of a purity can carry: all of its impurity.

    x = 1 - purity

    Args:
        purity_percent [percent]: purity on the certificate
    Returns:
        [-] mole fraction
    Raises:
        OutOfRange: for a purity outside 90 to 100 %
    Valid: any certified purity.

    Example:
        >>> round(impurity_bound_frac(99.99) * 1e6, 6)
        100.0

    Reference: arithmetic.
    """
    Limits(quantity="purity", unit="%", low=90.0, high=100.0, why="a purge gas is over 90 % pure").check(
        purity_percent
    )
    return (100.0 - purity_percent) / 100.0


def moisture_frac(frost_point_k: float) -> float:
    """Water vapour in a gas at one atmosphere whose frost point was measured.

    ln(p / 611.657 Pa) = (1/theta) sum a_i theta^b_i,  theta = T / 273.16 K

    Args:
        frost_point_k [K]: temperature at which frost forms
    Returns:
        [-] mole fraction of water
    Raises:
        OutOfRange: above the triple point or below 150 K
    Valid: over ice, 150 to 273.16 K.

    Example:
        >>> round(moisture_frac(223.15) * 1e6, 1)
        38.9

    Reference: IAPWS R14-08(2011), sublimation pressure of ice.
    """
    _FROST.check(frost_point_k)
    theta = frost_point_k / 273.16
    coefficients = ((-21.2144006, 0.00333333333), (27.3203819, 1.20666667), (-6.1059813, 1.70333333))
    exponent = math.fsum(a * math.pow(theta, b) for a, b in coefficients) / theta
    return 611.657 * math.exp(exponent) / ATMOSPHERE_PA
