"""The parts of a purge: inlet, vent, in-leaks, section and flows, each checked as it is made."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import ClassVar

from trainer.core.errors import Limits, OutOfRange
from trainer.core.terms import InletEnd
from trainer.core.tilted_cylinder import LEAST_TILT_DEG, TiltedCylinder

_BORE = Limits(
    quantity="bore", unit="m", low=0.005, high=3.0, why="the layers are those of a pipe, not of a capillary"
)
_LENGTH = Limits(
    quantity="length between the dams", unit="m", low=0.01, high=200.0, why="give the distance dam to dam"
)
_HEIGHT = Limits(
    quantity="height", unit="", low=0.0, high=1.0, why="it is a fraction of the bore, 0 lowest, 1 highest"
)
_SLOPE = Limits(
    quantity="slope of the pipe",
    unit="deg",
    low=-90.0,
    high=90.0,
    why="it is the angle by which the vent's end lies higher, negative where it lies lower",
)
_FLOW = Limits(
    quantity="purge flow", unit="m3/s", low=0.0, high=1.0, why="0 when the line is pinched or has fallen out"
)
_LEAK = Limits(
    quantity="air leaking in", unit="m3/s", low=0.0, high=1.0, why="a leak brings air into the section"
)
_HOLE = Limits(quantity="hole", unit="m", low=1e-5, high=3.0, why="gas has to get through it")
_FACE = Limits(
    quantity="face area of the diffuser", unit="m2", low=1e-8, high=1.0, why="gas has to get through it"
)
_COUNT = Limits(quantity="number of vent holes", unit="", low=1, high=1000, why="air needs a way out")


@dataclass(frozen=True, kw_only=True)
class Inlet:
    """Where and through what the gas enters, at the first dam.

    Args:
        height_frac [-]: height of its centre on the dam's face, 0 lowest, 1 highest
        end [text]: open tube, rag or diffuser
        bore_m [m]: bore of the tube, needed for an open tube and a rag
        face_area_m2 [m2]: area through which a diffuser lets the gas out, needed for a diffuser
    Raises:
        OutOfRange: for a height outside the bore, or a size that is missing or not a size

    Example:
        >>> Inlet(height_frac=0.1, end=InletEnd.DIFFUSER, face_area_m2=28e-4).opening_area_m2
        0.0028

    Reference: own definition.
    """

    height_frac: float
    end: InletEnd
    bore_m: float | None = None
    face_area_m2: float | None = None

    def __post_init__(self) -> None:
        _HEIGHT.check(self.height_frac)
        if self.end is InletEnd.DIFFUSER:
            _FACE.check(math.nan if self.face_area_m2 is None else self.face_area_m2)
        else:
            _HOLE.check(math.nan if self.bore_m is None else self.bore_m)

    @property
    def opening_area_m2(self) -> float:
        """Area through which the gas enters the section: the diffuser's face or the tube's bore.

        Returns:
            [m2] area
        """
        if self.end is InletEnd.DIFFUSER:
            return self.face_area_m2 or 0.0
        return math.pi / 4.0 * (self.bore_m or 0.0) ** 2


@dataclass(frozen=True, kw_only=True)
class VentHole:
    """The hole or holes, side by side at one height in the other dam, through which the air leaves.

    Args:
        height_frac [-]: height of their centres on the dam's face, 0 lowest, 1 highest
        diameter_m [m]: diameter of one hole
        count [-]: number of holes
    Raises:
        OutOfRange: for a height outside the bore or a hole that is none

    Example:
        >>> VentHole(height_frac=0.95, diameter_m=0.006).count
        1

    Reference: own definition.
    """

    height_frac: float
    diameter_m: float
    count: int = 1

    def __post_init__(self) -> None:
        _HEIGHT.check(self.height_frac)
        _HOLE.check(self.diameter_m)
        _COUNT.check(self.count)


@dataclass(frozen=True, kw_only=True)
class InLeak:
    """Air that enters the section through an opening while the gas flows.

    Args:
        height_frac [-]: height of the opening as a fraction of the height of the gas space; None for a gap
            all round the joint
        flow_m3_s [m3/s]: air entering, at the pipe's temperature and one atmosphere
        leaves_at_frac [-]: height at which as much leaves again, where that is not the vent: the opening's
            own for an exchange, another's for a section that drains
    Raises:
        OutOfRange: for a height outside the section or a negative flow

    Example:
        >>> InLeak(height_frac=None, flow_m3_s=1e-7).flow_m3_s
        1e-07

    Reference: own definition.
    """

    height_frac: float | None
    flow_m3_s: float
    leaves_at_frac: float | None = None

    def __post_init__(self) -> None:
        _LEAK.check(self.flow_m3_s)
        for height_frac in (self.height_frac, self.leaves_at_frac):
            if height_frac is not None:
                _HEIGHT.check(height_frac)


@dataclass(frozen=True, kw_only=True)
class PurgeSection:
    """The straight piece of pipe between the two dams.

    Args:
        bore_m [m]: inside diameter
        length_m [m]: distance from the inlet's dam to the vent's dam
        slope_deg [deg]: by how much the vent's end lies higher; 0 level, 90 upright with the inlet below
        joint_from_inlet_dam_m [m]: distance of the joint from the inlet's dam, half the length when left out
    Raises:
        OutOfRange: for a slope beyond upright, or a joint that is not between the dams

    Example:
        >>> round(PurgeSection(bore_m=0.161, length_m=0.6).volume_m3 * 1000, 2)
        12.21

    Reference: own definition.
    """

    bore_m: float
    length_m: float
    slope_deg: float = 0.0
    joint_from_inlet_dam_m: float | None = None
    length_limits: ClassVar[Limits] = _LENGTH

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        self.length_limits.check(self.length_m)
        _SLOPE.check(self.slope_deg)
        Limits(
            quantity="distance from inlet dam to joint",
            unit="m",
            low=0.0,
            high=self.length_m,
            why="the joint lies between the dams",
        ).check(self.joint_m)

    @property
    def joint_m(self) -> float:
        """Distance of the joint from the inlet's dam.

        Returns:
            [m] distance, half the length where none was given
        """
        return self.length_m / 2.0 if self.joint_from_inlet_dam_m is None else self.joint_from_inlet_dam_m

    @cached_property
    def area_m2(self) -> float:
        """Cross-section of the bore.

        Returns:
            [m2] area
        """
        return math.pi / 4.0 * self.bore_m**2

    @property
    def volume_m3(self) -> float:
        """Volume between the dams.

        Returns:
            [m3] volume
        """
        return self.area_m2 * self.length_m

    @cached_property
    def is_upright(self) -> bool:
        """Whether the pipe stands upright.

        Returns:
            [bool] true when upright
        """
        return abs(self.slope_deg) > 90.0 - LEAST_TILT_DEG

    @cached_property
    def tilted(self) -> TiltedCylinder | None:
        """The section as a sloping cylinder.

        Returns:
            [record] cylinder; None when level or upright
        """
        if self.is_upright or abs(self.slope_deg) < LEAST_TILT_DEG:
            return None
        return TiltedCylinder(bore_m=self.bore_m, length_m=self.length_m, tilt_deg=abs(self.slope_deg))

    @property
    def height_m(self) -> float:
        """Height of the gas space.

        Returns:
            [m] the bore when level, the length when upright, something of both in between
        """
        if self.tilted:
            return self.tilted.height_m
        return self.length_m if self.is_upright else self.bore_m

    @property
    def plan_area_m2(self) -> float:
        """Area of the gas space as seen from above.

        Returns:
            [m2] bore times length when level, the cross-section when upright, something of both in between
        """
        if self.tilted:
            return self.tilted.plan_area_m2
        return self.area_m2 if self.is_upright else self.bore_m * self.length_m

    @property
    def joint_height_frac(self) -> float:
        """Height of the joint in an upright section.

        Returns:
            [-] fraction of the height of the gas space
        """
        along_frac = self.joint_m / self.length_m
        return along_frac if self.slope_deg > 0.0 else 1.0 - along_frac


@dataclass(frozen=True, kw_only=True)
class FlowSegment:
    """A stretch of time with one flow.

    Args:
        flow_m3_s [m3/s]: purge gas entering, at the pipe's temperature and one atmosphere; may be 0 after
            the first one
        duration_s [s]: how long; infinite for the last one
        air_in [record]: openings that let air in meanwhile; those of the whole purge when left out
    Raises:
        OutOfRange: for a negative flow or duration

    Example:
        >>> FlowSegment(flow_m3_s=2.5e-4, duration_s=math.inf).duration_s
        inf

    Reference: own definition.
    """

    flow_m3_s: float
    duration_s: float
    air_in: tuple[InLeak, ...] | None = None

    def __post_init__(self) -> None:
        _FLOW.check(self.flow_m3_s)
        if not self.duration_s >= 0.0:
            raise OutOfRange(
                "duration", self.duration_s, low=0.0, high=None, unit="s", why="time does not run backwards"
            )
