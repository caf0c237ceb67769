"""How far the gas in a cylinder is from ideal: pure gases by table, mixtures by what pairs add to it."""

import math
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations

from trainer.core.errors import Limits, UnknownName
from trainer.core.gas import Gas
from trainer.core.tables import table_rows

CYLINDER_PRESSURE = Limits(
    quantity="absolute pressure in the cylinder",
    unit="Pa",
    low=0.0,
    high=35e6,
    why="the compressibility table goes to 350 bar",
)
CYLINDER_TEMPERATURE = Limits(
    quantity="temperature of the cylinder",
    unit="K",
    low=233.15,
    high=333.15,
    why="the compressibility table goes from -40 to 60 degC",
)


def compressibility_ratio(gas: Gas, *, pressure_pa: float, temperature_k: float) -> float:
    """How much more room a real gas takes up than an ideal one.

    Z = p V / (n R T);  a mixture: Z = sum x_i Z_i + 4 sum x_i x_j e_ij over its pairs

    Args:
        gas [record]: argon, helium, nitrogen, or a mixture of these and hydrogen
        pressure_pa [Pa]: absolute pressure
        temperature_k [K]: temperature
    Returns:
        [-] Z
    Raises:
        UnknownName: for a gas without a table
        OutOfRange: outside 0 to 350 bar or -40 to 60 degC
    Valid: pure gases within 0.0003 of the equation of state; mixtures within 1.4 %, and 1 % up to 250 bar.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(compressibility_ratio(gas("I1"), pressure_pa=200e5, temperature_k=288.15), 3)
        0.937

    Reference: CoolProp 8.0.0, see data/compressibility.csv and data/excess_compressibility.csv (Tegeler, Span
        and Wagner 1999 for argon; Kunz and Wagner 2012 for mixtures).
    """
    CYLINDER_PRESSURE.check(pressure_pa)
    CYLINDER_TEMPERATURE.check(temperature_k)
    parts = gas.composition or ((gas.symbol, 1.0),)
    apart = math.fsum(share * _pure_table(symbol).at(pressure_pa, temperature_k) for symbol, share in parts)
    added = math.fsum(
        4.0 * share * other_share * _pair_table(symbol, other).at(pressure_pa, temperature_k)
        for (symbol, share), (other, other_share) in combinations(parts, 2)
    )
    return apart + added


@dataclass(frozen=True)
class _Table:
    temperatures_k: tuple[float, ...]
    pressures_pa: tuple[float, ...]
    values: tuple[tuple[float, ...], ...]

    def at(self, pressure_pa: float, temperature_k: float) -> float:
        low = min(bisect_right(self.pressures_pa, pressure_pa), len(self.pressures_pa) - 1) - 1
        below_pa, above_pa = self.pressures_pa[low : low + 2]
        weight = (pressure_pa - below_pa) / (above_pa - below_pa)
        below, above = (self._at_temperature(row, temperature_k) for row in (low, low + 1))
        return below + weight * (above - below)

    def _at_temperature(self, row: int, temperature_k: float) -> float:
        left = min(bisect_right(self.temperatures_k, temperature_k), len(self.temperatures_k) - 1) - 1
        cooler_k, warmer_k = self.temperatures_k[left : left + 2]
        weight = (temperature_k - cooler_k) / (warmer_k - cooler_k)
        cooler, warmer = self.values[row][left : left + 2]
        return cooler + weight * (warmer - cooler)


@cache
def _pure_table(symbol: str) -> _Table:
    rows = [row for row in table_rows("compressibility") if row["gas"] == symbol]
    if not rows:
        known = sorted({row["gas"] for row in table_rows("compressibility")})
        raise UnknownName("gas with a compressibility table", symbol, known=known)
    return _table(rows)


@cache
def _pair_table(symbol: str, other: str) -> _Table:
    pair = {symbol, other}
    return _table([row for row in table_rows("excess_compressibility") if {row["gas"], row["other"]} == pair])


def _table(rows: Sequence[Mapping[str, str]]) -> _Table:
    temperatures = [column for column in rows[0] if column not in ("gas", "other", "pressure_bar")]
    return _Table(
        tuple(float(t) for t in temperatures),
        tuple(float(row["pressure_bar"]) * 1e5 for row in rows),
        tuple(tuple(float(row[t]) for t in temperatures) for row in rows),
    )
