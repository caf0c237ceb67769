"""Pipe and tube sizes, the volume between dams, and the segments of a bore above and below a height."""

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from trainer.core.errors import Limits, UnknownSize
from trainer.core.tables import table_rows

INCH_M = 0.0254

# Schedules of ASME B36.10M and B36.19M. 10 is not 10S and 40 not 40S: the walls differ from NPS 14 and 12 up.
ASME_SCHEDULES = (
    *("5S", "10S", "40S", "80S", "5", "10", "20", "30", "40"),
    *("60", "80", "100", "120", "140", "160", "STD", "XS", "XXS"),
)

_SIZE_PART = re.compile(r"\d{1,3}(\.\d{1,4})?|\d{1,2}/[1-9]\d?", re.ASCII)
_NPS_BY_DN = {row["dn"]: row["nps"] for row in table_rows("nominal_sizes")}

_DIAMETER = Limits(quantity="outside diameter", unit="m", low=1e-3, high=3.0, why="pipe from 1 mm to 3 m")
_WALL = Limits(quantity="wall", unit="m", low=1e-5, high=0.2, why="a wall is from 0.01 to 200 mm thick")
BORE = Limits(quantity="bore", unit="m", low=1e-4, high=3.0, why="bores from 0.1 mm to 3 m")
LENGTH = Limits(quantity="length", unit="m", low=0.0, high=1e5, why="a length is not negative")
_HEIGHT_FRAC = Limits(
    quantity="height in the bore", unit="", low=0.0, high=1.0, why="0 is the lowest point, 1 the crown"
)


@dataclass(frozen=True, kw_only=True)
class PipeSize:
    """The three diameters of a pipe or tube, each of them following from the other two."""

    outside_diameter_m: float
    wall_m: float
    bore_m: float


def pipe_size(*, nps: str, schedule: str) -> PipeSize:
    """Outside diameter, wall and bore of a pipe by nominal size and schedule.

    bore = D - 2 t

    Args:
        nps [text]: nominal pipe size in inches: "1/2", "0.5", "1-1/2", "6"
        schedule [text]: "5S" to "80S", "5" to "160", "STD", "XS", "XXS"; 10 is not 10S
    Returns:
        [record] the size
    Raises:
        UnknownSize: with the schedules that exist for the size, or the sizes that exist
    Valid: walls are nominal; the mill tolerance of 12.5 % moves the bore of NPS 6 10S by 0.85 mm.

    Example:
        >>> round(pipe_size(nps="6", schedule="10S").bore_m * 1000, 1)
        161.5

    Reference: ASME B36.10M and B36.19M as tabulated by fluids 1.3.
    """
    return _tabulated(nps, schedule)


@lru_cache(maxsize=1024)
def _tabulated(nps: str, schedule: str) -> PipeSize:
    from fluids.piping import nearest_pipe  # noqa: PLC0415 - keeps importing the core quick

    known = known_schedules(nps)
    if schedule not in known:
        raise UnknownSize(f"NPS {nps}", schedule=schedule, known=known)
    _, bore_m, outside_diameter_m, wall_m = nearest_pipe(NPS=_inches(nps), schedule=schedule)
    return PipeSize(outside_diameter_m=outside_diameter_m, wall_m=wall_m, bore_m=bore_m)


def pipe_size_by_dn(*, dn: str, schedule: str) -> PipeSize:
    """Outside diameter, wall and bore of a pipe by metric nominal size and schedule.

    Args:
        dn [text]: nominal diameter, "15" to "900", with or without the letters DN
        schedule [text]: as for `pipe_size`
    Returns:
        [record] the size
    Raises:
        UnknownSize: with what exists
    Valid: sizes that ASME B36.10M pairs with an NPS; for other metric tube give diameter and wall.

    Example:
        >>> pipe_size_by_dn(dn="DN 150", schedule="10S") == pipe_size(nps="6", schedule="10S")
        True

    Reference: ISO 6708 and ASME B36.10M, pairs of DN and NPS from memory.
    """
    digits = dn.strip().upper().removeprefix("DN").strip()
    nps = _NPS_BY_DN.get(digits)
    if nps is None:
        raise UnknownSize(f"DN {digits}", schedule=None, known=tuple(_NPS_BY_DN))
    return pipe_size(nps=nps, schedule=schedule)


def pipe_from_wall(*, outside_diameter_m: float, wall_m: float) -> PipeSize:
    """A pipe or tube by its outside diameter and wall.

    bore = D - 2 t

    Args:
        outside_diameter_m [m]: D
        wall_m [m]: t
    Returns:
        [record] the size
    Raises:
        OutOfRange: when the wall leaves no bore
    Valid: D from 1 mm to 3 m.

    Example:
        >>> round(pipe_from_wall(outside_diameter_m=0.1683, wall_m=0.002).bore_m, 4)
        0.1643

    Reference: geometry.
    """
    _DIAMETER.check(outside_diameter_m)
    _WALL.check(wall_m)
    bore_m = outside_diameter_m - 2.0 * wall_m
    BORE.check(bore_m)
    return PipeSize(outside_diameter_m=outside_diameter_m, wall_m=wall_m, bore_m=bore_m)


def sanitary_tube(size: str) -> PipeSize:
    """Sanitary tube by its nominal size, which is its outside diameter.

    Args:
        size [text]: "1/4" to "6", in inches
    Returns:
        [record] the size
    Raises:
        UnknownSize: with the sizes that the table holds
    Valid: nominal dimensions, from memory; show them as unconfirmed.

    Example:
        >>> round(sanitary_tube("2").bore_m * 1000, 3)
        47.498

    Reference: ASME BPE, nominal tube dimensions, from memory (data/sanitary_tube.csv).
    """
    rows = {_inches(row["size"]): row for row in table_rows("sanitary_tube")}
    row = rows.get(_inches(size))
    if row is None:
        known = [r["size"] for r in table_rows("sanitary_tube")]
        raise UnknownSize(f"sanitary tube {size} in", schedule=None, known=known)
    diameter_m = float(row["outside_diameter_in"]) * INCH_M
    return pipe_from_wall(outside_diameter_m=diameter_m, wall_m=float(row["wall_in"]) * INCH_M)


def known_schedules(nps: str) -> tuple[str, ...]:
    """The schedules in which a nominal pipe size is made.

    Args:
        nps [text]: nominal pipe size in inches
    Returns:
        [text] schedules, stainless ones first
    Raises:
        UnknownSize: with the sizes that exist, when there is none of this size
    Valid: NPS 1/8 to 36.

    Example:
        >>> known_schedules("1/4")
        ('10S', '40S', '80S', '10', '30', '40', '80', 'STD', 'XS')

    Reference: ASME B36.10M and B36.19M as tabulated by fluids 1.3.
    """
    from fluids.piping import schedule_lookup  # noqa: PLC0415

    inches = _inches(nps)
    found = tuple(s for s in ASME_SCHEDULES if inches is not None and inches in schedule_lookup[s][0])
    if not found:
        raise UnknownSize(f"NPS {nps}", schedule=None, known=tuple(_NPS_BY_DN.values()))
    return found


def _inches(size: str) -> float | None:
    """A size as people write it ("1-1/2", "1 1/2", "0.5", '6"') in inches; None when it is not a size."""
    parts = size.strip().rstrip('"').replace("-", " ").split()
    if not 1 <= len(parts) <= 2 or not all(_SIZE_PART.fullmatch(part) for part in parts):
        return None
    return float(sum(Fraction(part) for part in parts))


def bore_area_m2(bore_m: float) -> float:
    """Cross-section of a round bore.

    A = pi d^2 / 4

    Args:
        bore_m [m]: d
    Returns:
        [m2] area
    Raises:
        OutOfRange: for a bore outside 0.1 mm to 3 m
    Valid: round bore.

    Example:
        >>> round(bore_area_m2(0.1614678), 8)
        0.02047678

    Reference: geometry.
    """
    BORE.check(bore_m)
    return math.pi / 4.0 * bore_m * bore_m


def section_volume_m3(bore_m: float, *, length_m: float) -> float:
    """Volume of pipe between the inner faces of two dams.

    V = (pi/4) d^2 L

    Args:
        bore_m [m]: d
        length_m [m]: L, between inner faces
    Returns:
        [m3] volume
    Raises:
        OutOfRange: for a negative length or a bore outside 0.1 mm to 3 m
    Valid: straight pipe; the mill tolerance of the wall makes it good to 1 %.

    Example:
        >>> round(section_volume_m3(0.1615, length_m=0.6) * 1000, 2)
        12.29

    Reference: geometry.
    """
    LENGTH.check(length_m)
    return bore_area_m2(bore_m) * length_m


def segment_area_m2(bore_m: float, *, height_m: float) -> float:
    """Area of the part of a round bore that lies below a height.

    A = R^2/2 (theta - sin theta),  cos(theta/2) = 1 - h/R

    Args:
        bore_m [m]: bore, 2 R
        height_m [m]: h, above the lowest point of the bore
    Returns:
        [m2] area below the height
    Raises:
        OutOfRange: for a height outside the bore
    Valid: 0 <= h <= bore.

    Example:
        >>> round(segment_area_m2(0.1615, height_m=0.015) * 1e6, 1)
        956.5

    Reference: geometry; Roark's Formulas for Stress and Strain, table of section properties.
    """
    BORE.check(bore_m)
    why = "the height is that of a point inside the bore"
    Limits(quantity="height in the bore", unit="m", low=0.0, high=bore_m, why=why).check(height_m)
    theta = 4.0 * math.asin(math.sqrt(height_m / bore_m))
    return bore_m * bore_m / 8.0 * (theta - math.sin(theta))


def pocket_frac(bore_m: float, *, vent_height_frac: float, gas_sinks: bool) -> float:
    """Share of a level section that lies beyond the vent, where the air is trapped.

    pocket = area above the vent / area of the bore; below it for a gas that rises

    Args:
        bore_m [m]: bore
        vent_height_frac [-]: height of the vent, 0 lowest, 1 the crown
        gas_sinks [bool]: whether the gas is heavier than air
    Returns:
        [-] share of the section's volume
    Raises:
        OutOfRange: for a height outside 0 to 1
    Valid: level section.

    Example:
        >>> round(pocket_frac(0.1615, vent_height_frac=0.8, gas_sinks=True), 4)
        0.1424

    Reference: geometry.
    """
    _HEIGHT_FRAC.check(vent_height_frac)
    pocket_height_frac = 1.0 - vent_height_frac if gas_sinks else vent_height_frac
    return segment_area_m2(bore_m, height_m=pocket_height_frac * bore_m) / bore_area_m2(bore_m)
