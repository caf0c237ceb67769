"""Where the vent lies in a level, sloping or upright section, and how much of the section lies beyond it."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.pipe import pocket_frac
from trainer.core.tilted_cylinder import LEAST_TILT_DEG, TiltedCylinder, tilted_pocket_frac

_SLOPE = Limits(quantity="slope", unit="deg", low=-90.0, high=90.0, why="a pipe is at most upright")
_ACROSS = Limits(
    quantity="height of the vent", unit="", low=0.0, high=1.0, why="0 is lowest in the bore, 1 highest"
)


@dataclass(frozen=True, kw_only=True)
class VentPlace:
    """A vent in the dam at one end of a section.

    Args:
        bore_m [m]: of the section
        length_m [m]: between the dams
        slope_deg [deg]: by how much the vent's end lies higher
        across_frac [-]: the vent's place on the face of its dam, 0 lowest, 1 highest
    Raises:
        OutOfRange: for a slope beyond upright, or a place outside the bore

    Reference: own definition.
    """

    bore_m: float
    length_m: float
    slope_deg: float
    across_frac: float

    def __post_init__(self) -> None:
        _SLOPE.check(self.slope_deg)
        _ACROSS.check(self.across_frac)

    @property
    def cylinder(self) -> TiltedCylinder | None:
        """The section as a sloping cylinder.

        Returns:
            [record] cylinder; None when level or upright
        """
        if not LEAST_TILT_DEG <= abs(self.slope_deg) <= 90.0 - LEAST_TILT_DEG:
            return None
        return TiltedCylinder(bore_m=self.bore_m, length_m=self.length_m, tilt_deg=abs(self.slope_deg))

    @property
    def is_level(self) -> bool:
        """Whether the section lies level.

        Returns:
            [bool] true when level
        """
        return abs(self.slope_deg) < LEAST_TILT_DEG

    def height_m(self, cylinder: TiltedCylinder) -> float:
        """Height of the vent's centre in a sloping section.

        z = s sin theta + h D cos theta,  s the length or nothing

        Args:
            cylinder [record]: the section
        Returns:
            [m] height above the lowest point
        """
        along_m = self.length_m if self.slope_deg > 0.0 else 0.0
        return cylinder.height_of_m(along_m, across_frac=self.across_frac)


def vent_height_frac(vent: VentPlace) -> float:
    """Height of the vent's centre in its section.

    z / H,  H from the lowest point of the section to the highest

    Args:
        vent [record]: the vent
    Returns:
        [-] its place on the dam when level, 1 or 0 when upright, between them in a section that slopes

    Example:
        >>> place = VentPlace(bore_m=0.1, length_m=0.6, slope_deg=30.0, across_frac=1.0)
        >>> vent_height_frac(place)
        1.0

    Reference: geometry.
    """
    cylinder = vent.cylinder
    if cylinder is not None:
        return vent.height_m(cylinder) / cylinder.height_m
    if vent.is_level:
        return vent.across_frac
    return 1.0 if vent.slope_deg > 0.0 else 0.0


def beyond_vent_frac(vent: VentPlace, *, gas_sinks: bool) -> float:
    """Share of a section's volume that lies beyond the vent, on the side where the air stays.

    1 - V(z_vent) / V for a gas that sinks, V(z_vent) / V for one that rises

    Args:
        vent [record]: the vent
        gas_sinks [bool]: whether the gas is heavier than air
    Returns:
        [-] share of the volume, from 0 to 1

    Example:
        >>> fall = VentPlace(bore_m=0.161, length_m=0.6, slope_deg=-10.0, across_frac=0.925)
        >>> round(beyond_vent_frac(fall, gas_sinks=True), 2)
        0.39

    Reference: geometry.
    """
    cylinder = vent.cylinder
    if cylinder is not None:
        above_frac = tilted_pocket_frac(cylinder, vent_above_m=vent.height_m(cylinder))
        return above_frac if gas_sinks else 1.0 - above_frac
    if vent.is_level:
        return pocket_frac(vent.bore_m, vent_height_frac=vent.across_frac, gas_sinks=gas_sinks)
    return 0.0 if (vent.slope_deg > 0.0) == gas_sinks else 1.0
