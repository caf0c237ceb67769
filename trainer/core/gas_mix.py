"""Gas mixtures: what they are as one gas, and what ISO 14175 allows in them."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache

from trainer.core.errors import Limits, UnknownGas
from trainer.core.gas import Gas, component
from trainer.core.tables import table_rows

_COMPONENTS = {"Ar": "I1", "He": "I2", "N2": "N1", "H2": "H2"}
_SUM_SLACK = 1e-6
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
        name=_name(parts),
        molar_mass_kg_mol=math.fsum(share * part.molar_mass_kg_mol for part, share in parts),
        viscosity_ref_pa_s=_wilke_viscosity_pa_s(parts),
        viscosity_exponent=math.fsum(share * part.viscosity_exponent for part, share in parts),
        diffusivity_in_air_ref_m2_s=1.0
        / math.fsum(share / part.diffusivity_in_air_ref_m2_s for part, share in parts),
        heat_capacity_ratio=1.0 + 1.0 / _heat_capacity_over_r(parts),
        composition=tuple((part.symbol, share) for part, share in parts),
    )


def _name(parts: list[tuple[Gas, float]]) -> str:
    """The balance gas with what is in it, as people say it."""
    (first, _), *added = parts
    words = " and ".join(f"{100.0 * share:.4g} % {part.name}" for part, share in added)
    return f"{first.name} with {words}" if words else first.name


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
    limits = symbol_limits(symbol)
    allowed = [each.component for each in limits]
    for name in composition:
        if name not in allowed:
            raise UnknownGas(name, known=allowed)
    for each in limits:
        _share_limits(each).check(_percent(composition, each))
    return mixture(composition, symbol=symbol)


@dataclass(frozen=True, kw_only=True)
class ShareLimits:
    """How much of one component a symbol stands for, in volume per cent."""

    symbol: str
    component: str
    low_percent: float
    low_is_excluded: bool
    high_percent: float

    @property
    def words(self) -> str:
        """The limits in words.

        Returns:
            [text] component and limits, such as "He 0.5 to 95 %"
        """
        if self.low_percent == self.high_percent:
            return f"{self.component} {self.high_percent:g} %"
        over = "over " if self.low_is_excluded else ""
        return f"{self.component} {over}{self.low_percent:g} to {self.high_percent:g} %"


@cache
def symbol_limits(symbol: str) -> tuple[ShareLimits, ...]:
    """What may be in a gas that goes by an ISO 14175 symbol, component by component.

    Args:
        symbol [text]: "I1" to "I3", "R1", "R2" or "N1" to "N5"
    Returns:
        [record] limits of each component
    Raises:
        UnknownGas: for another symbol
    Valid: limits from memory; show them as unconfirmed.

    Example:
        >>> [each.words for each in symbol_limits("N5")]
        ['N2 50 to 99.5 %', 'H2 0.5 to 50 %']

    Reference: ISO 14175:2008, table of groups, from memory (data/iso_14175.csv).
    """
    rows = [row for row in table_rows("iso_14175") if row["symbol"] == symbol]
    if not rows:
        raise UnknownGas(symbol, known=sorted({row["symbol"] for row in table_rows("iso_14175")}))
    return tuple(
        ShareLimits(
            symbol=symbol,
            component=row["component"],
            low_percent=float(row["low_percent"]),
            low_is_excluded=row["low_is_excluded"] == "yes",
            high_percent=float(row["high_percent"]),
        )
        for row in rows
    )


def shares_outside(symbol: str, *, composition: Mapping[str, float]) -> tuple[tuple[ShareLimits, float], ...]:
    """What in a composition lies outside what a symbol stands for.

    Args:
        symbol [text]: "I1" to "I3", "R1", "R2" or "N1" to "N5"
        composition [record]: mole fraction by component
    Returns:
        [record] each limit that is not kept, with the share in per cent; empty when the symbol fits
    Raises:
        UnknownGas: for another symbol
    Valid: components that the symbol does not hold at all are not looked at.

    Example:
        >>> outside = shares_outside("I3", composition={"Ar": 0.04, "He": 0.96})
        >>> [(each.words, share) for each, share in outside]
        [('Ar 5 to 99.5 %', 4.0), ('He 0.5 to 95 %', 96.0)]

    Reference: ISO 14175:2008, table of groups, from memory (data/iso_14175.csv).
    """
    shares = ((each, _percent(composition, each)) for each in symbol_limits(symbol))
    return tuple((each, percent) for each, percent in shares if not _share_limits(each).holds(percent))


def symbols_that_hold(composition: Mapping[str, float]) -> tuple[str, ...]:
    """The ISO 14175 symbols that a composition goes by.

    Args:
        composition [record]: mole fraction by component
    Returns:
        [text] symbols, of groups I, R and N; usually one
    Valid: limits from memory; show them as unconfirmed.

    Example:
        >>> symbols_that_hold({"Ar": 0.8, "H2": 0.2})
        ('R2',)

    Reference: ISO 14175:2008, table of groups, from memory (data/iso_14175.csv).
    """
    symbols = dict.fromkeys(row["symbol"] for row in table_rows("iso_14175"))
    return tuple(
        symbol
        for symbol in symbols
        if set(composition) <= {each.component for each in symbol_limits(symbol)}
        and not shares_outside(symbol, composition=composition)
    )


def _percent(composition: Mapping[str, float], limits: ShareLimits) -> float:
    """Rounded, since 1 - 0.85 is a hair off fifteen per cent."""
    return round(100.0 * composition.get(limits.component, 0.0), 9)


def _share_limits(limits: ShareLimits) -> Limits:
    low, excluded = limits.low_percent, limits.low_is_excluded
    why = f"that is what ISO 14175 means by {limits.symbol}"
    return Limits(
        quantity=f"{limits.component} in {limits.symbol}",
        unit="%",
        low=math.nextafter(low, math.inf) if excluded else low,
        high=limits.high_percent,
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
    return tuple(each.words for each in symbol_limits(symbol))
