"""The parts that a spool is made of, end to end, each with the volume that `fittings` gives it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from trainer.core.errors import Limits
from trainer.core.fittings import (
    branch_stub_volume_m3,
    cap_volume_m3,
    elbow_volume_m3,
    reducer_volume_m3,
    tee_volume_m3,
)

_LENGTH = Limits(quantity="length of a part", unit="m", low=1e-3, high=200.0, why="a part has a length")
_BORE = Limits(quantity="bore of a part", unit="m", low=0.005, high=3.0, why="the layers are those of a pipe")
_SLOPE = Limits(
    quantity="slope of a part", unit="deg", low=-90.0, high=90.0, why="90 is straight up, -90 straight down"
)


@dataclass(frozen=True, kw_only=True)
class Run:
    """A straight run of pipe.

    Args:
        name [text]: what the run is called
        bore_m [m]: inside diameter
        length_m [m]: length
        slope_deg [deg]: how steeply it climbs on the way from the inlet
    Raises:
        OutOfRange: for a size that is none or a slope beyond upright

    Example:
        >>> round(Run(name="run", bore_m=0.161, length_m=0.6).volume_m3 * 1000.0, 2)
        12.21

    Reference: own definition.
    """

    name: str
    bore_m: float
    length_m: float
    slope_deg: float = 0.0

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        _LENGTH.check(self.length_m)
        _SLOPE.check(self.slope_deg)

    @property
    def volume_m3(self) -> float:
        """Volume of the run.

        Returns:
            [m3] volume
        """
        return math.pi / 4.0 * self.bore_m**2 * self.length_m


@dataclass(frozen=True, kw_only=True)
class Elbow:
    """A bend, out of the direction of the part before it.

    Args:
        name [text]: what the elbow is called
        bore_m [m]: inside diameter
        bend_radius_m [m]: radius of its centre line
        angle_deg [deg]: by how much it turns
        to_slope_deg [deg]: slope of the part after it
    Raises:
        OutOfRange: for a size that is none, an angle beyond 180 degrees or a slope beyond upright

    Example:
        >>> round(Elbow(name="elbow", bore_m=0.1615, bend_radius_m=0.2286, angle_deg=90.0,
        ...     to_slope_deg=90.0).volume_m3 * 1000.0, 3)
        7.356

    Reference: own definition.
    """

    name: str
    bore_m: float
    bend_radius_m: float
    angle_deg: float
    to_slope_deg: float

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        _SLOPE.check(self.to_slope_deg)
        Limits(
            quantity="angle of the bend", unit="deg", low=1.0, high=180.0, why="an elbow turns the pipe"
        ).check(self.angle_deg)
        elbow_volume_m3(self.bore_m, bend_radius_m=self.bend_radius_m, angle_rad=math.radians(self.angle_deg))

    @property
    def volume_m3(self) -> float:
        """Volume of the elbow.

        Returns:
            [m3] volume
        """
        angle_rad = math.radians(self.angle_deg)
        return elbow_volume_m3(self.bore_m, bend_radius_m=self.bend_radius_m, angle_rad=angle_rad)


@dataclass(frozen=True, kw_only=True)
class Reducer:
    """A conical reducer, in the direction of the part before it.

    Args:
        name [text]: what the reducer is called
        bore_m [m]: bore at its beginning
        other_bore_m [m]: bore at its end
        length_m [m]: length
    Raises:
        OutOfRange: for a size that is none

    Example:
        >>> reducer = Reducer(name="reducer", bore_m=0.1615, other_bore_m=0.1082, length_m=0.14)
        >>> round(reducer.volume_m3 * 1000.0, 3)
        2.026

    Reference: own definition.
    """

    name: str
    bore_m: float
    other_bore_m: float
    length_m: float

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        _BORE.check(self.other_bore_m)
        _LENGTH.check(self.length_m)

    @property
    def volume_m3(self) -> float:
        """Volume of the reducer.

        Returns:
            [m3] volume
        """
        return reducer_volume_m3(self.bore_m, other_bore_m=self.other_bore_m, length_m=self.length_m)


@dataclass(frozen=True, kw_only=True)
class Cap:
    """A 2:1 elliptical cap that closes the path or a branch.

    Args:
        name [text]: what the cap is called
        bore_m [m]: inside diameter
        straight_flange_m [m]: straight part before the head
    Raises:
        OutOfRange: for a size that is none

    Example:
        >>> round(Cap(name="cap", bore_m=0.1615, straight_flange_m=0.045).volume_m3 * 1000.0, 3)
        1.473

    Reference: own definition.
    """

    name: str
    bore_m: float
    straight_flange_m: float = 0.0

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        cap_volume_m3(self.bore_m, straight_flange_m=self.straight_flange_m)

    @property
    def volume_m3(self) -> float:
        """Volume of the cap.

        Returns:
            [m3] volume
        """
        return cap_volume_m3(self.bore_m, straight_flange_m=self.straight_flange_m)


@dataclass(frozen=True, kw_only=True)
class Tee:
    """A tee, its outlet as wide as its run or narrower; the run goes on as the part before it ends.

    Args:
        name [text]: what the tee is called
        bore_m [m]: inside diameter of the run
        run_length_m [m]: end to end along the run
        outlet_m [m]: from the run's axis to the end of the outlet
        outlet_slope_deg [deg]: how steeply the outlet climbs away from the run
        outlet_bore_m [m]: inside diameter of the outlet, as the run where left out
        branch [record]: the parts on the outlet, the last one closed; none when the outlet itself is closed
    Raises:
        OutOfRange: for a run or outlet that ends inside the crossing, or a slope beyond upright

    Example:
        >>> round(Tee(name="tee", bore_m=0.1541, run_length_m=0.286, outlet_m=0.143,
        ...     outlet_slope_deg=90.0).volume_m3 * 1000.0, 3)
        6.781

    Reference: own definition; `volume_m3` is that of the tee alone.
    """

    name: str
    bore_m: float
    run_length_m: float
    outlet_m: float
    outlet_slope_deg: float
    outlet_bore_m: float | None = None
    branch: tuple[SpoolPart, ...] = field(default=())

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        _SLOPE.check(self.outlet_slope_deg)
        _BORE.check(self.branch_bore_m)
        self._volume_m3()

    @property
    def branch_bore_m(self) -> float:
        """Inside diameter of the outlet.

        Returns:
            [m] bore
        """
        return self.bore_m if self.outlet_bore_m is None else self.outlet_bore_m

    @property
    def volume_m3(self) -> float:
        """Volume of the tee without what stands on its outlet.

        Returns:
            [m3] volume
        """
        return self._volume_m3()

    def _volume_m3(self) -> float:
        if self.branch_bore_m == self.bore_m:
            return tee_volume_m3(self.bore_m, run_length_m=self.run_length_m, outlet_m=self.outlet_m)
        stub_m3 = branch_stub_volume_m3(self.branch_bore_m, run_bore_m=self.bore_m, end_m=self.outlet_m)
        return math.pi / 4.0 * self.bore_m**2 * self.run_length_m + stub_m3


SpoolPart = Run | Elbow | Reducer | Cap | Tee
