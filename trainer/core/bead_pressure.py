"""Pressure of the purge gas on the bead when the last of the joint is closed, and what the pool stands."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup
from trainer.core.vent import DENSITY, DISCHARGE_COEFFICIENT, FLOW

_AREA = Limits(
    quantity="area of all openings", unit="m2", low=1e-10, high=10.0, why="gas needs a way out, else it never"
    " stops building up"
)  # fmt: skip
# 0.3 of the speed of sound in argon (319 m/s), as for a vent.
_SPEED = Limits(
    quantity="velocity in the last of the joint", unit="m/s", high=96.0,
    why="faster gas is compressible; leave more of the joint open, or write 0 for none",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class LiquidMetal:
    """What the pool is made of: its density and surface tension just above melting."""

    density_kg_m3: float
    surface_tension_n_m: float


def liquid_metal(group: MaterialGroup) -> LiquidMetal:
    """Density and surface tension of the molten pool, by group of pipe materials.

    Args:
        group [text]: the group
    Returns:
        [record] density and surface tension at the melting point
    Valid: within a few per cent for the density; sulphur lowers the surface tension by up to a third.

    Example:
        >>> liquid_metal(MaterialGroup.TITANIUM).density_kg_m3
        4110.0

    Reference: data/liquid_metals.csv, from memory.
    """
    row = next(row for row in table_rows("liquid_metals") if row["group"] == group)
    return LiquidMetal(
        density_kg_m3=float(row["density_kg_m3"]), surface_tension_n_m=float(row["surface_tension_n_m"])
    )


def openings_pressure_pa(flow_m3_s: float, *, gas_density_kg_m3: float, area_m2: float) -> float:
    """Pressure that pushes the gas out through all the openings that a section still has.

    dp = rho/2 (Q / (Cd sum A))^2,  Cd 0.61

    Args:
        flow_m3_s [m3/s]: Q through all openings
        gas_density_kg_m3 [kg/m3]: rho
        area_m2 [m2]: sum A: vent holes, open gap, or the last piece of root alone
    Returns:
        [Pa] pressure above the surroundings
    Raises:
        OutOfRange: without any opening, or for a velocity over 96 m/s, 0.3 of the speed of sound
    Valid: sharp-edged openings at one pressure, within 10 % at Reynolds numbers of a few thousand.

    Example:
        >>> round(openings_pressure_pa(5 / 60000, gas_density_kg_m3=1.66182, area_m2=30e-6))
        17

    Reference: ISO 5167-2:2003, orifice equation at small diameter ratio; Cd from memory.
    """
    FLOW.check(flow_m3_s)
    DENSITY.check(gas_density_kg_m3)
    _AREA.check(area_m2)
    velocity_m_s = flow_m3_s / area_m2
    _SPEED.check(velocity_m_s)
    return gas_density_kg_m3 / 2.0 * (velocity_m_s / DISCHARGE_COEFFICIENT) ** 2
