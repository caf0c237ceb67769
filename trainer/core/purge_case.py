"""What a purge is told: section, inlet, vent, gas, flows and in-leaks, each checked as it is made."""

from __future__ import annotations

import math
from dataclasses import dataclass

from trainer.core.errors import Limits, OutOfRange
from trainer.core.gas import Gas
from trainer.core.terms import InletEnd, PurgeModel

_BORE = Limits(
    quantity="bore", unit="m", low=0.005, high=3.0, why="the layers are those of a pipe, not of a capillary"
)
_LENGTH = Limits(
    quantity="length between the dams", unit="m", low=0.01, high=200.0, why="give the distance dam to dam"
)
_HEIGHT = Limits(
    quantity="height", unit="", low=0.0, high=1.0, why="it is a fraction of the bore, 0 lowest, 1 highest"
)
_FLOW = Limits(
    quantity="purge flow", unit="m3/s", low=1e-9, high=1.0, why="without any flow there is no purge to follow"
)
_LEAK = Limits(
    quantity="air leaking in", unit="m3/s", low=0.0, high=1.0, why="a leak brings air into the section"
)
_HOLE = Limits(quantity="hole", unit="m", low=1e-5, high=3.0, why="gas has to get through it")
_FACE = Limits(
    quantity="face area of the diffuser", unit="m2", low=1e-8, high=1.0, why="gas has to get through it"
)
_COUNT = Limits(quantity="number of vent holes", unit="", low=1, high=1000, why="air needs a way out")
_SOURCE = Limits(
    quantity="oxygen in the purge gas", unit="", low=0.0, high=0.2, why="a purge gas carries less than air"
)
_TEMPERATURE = Limits(
    quantity="temperature", unit="K", low=230.0, high=400.0, why="gas properties hold from -43 to 127 degC"
)


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
        """Area through which the gas enters the section: the diffuser's face or the tube's bore."""
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
    Raises:
        OutOfRange: for a height outside the section or a negative flow

    Example:
        >>> InLeak(height_frac=None, flow_m3_s=1e-7).flow_m3_s
        1e-07

    Reference: own definition.
    """

    height_frac: float | None
    flow_m3_s: float

    def __post_init__(self) -> None:
        _LEAK.check(self.flow_m3_s)
        if self.height_frac is not None:
            _HEIGHT.check(self.height_frac)


@dataclass(frozen=True, kw_only=True)
class PurgeSection:
    """The straight piece of pipe between the two dams.

    Args:
        bore_m [m]: inside diameter
        length_m [m]: distance from the inlet's dam to the vent's dam
        slope_deg [deg]: by how much the vent's end lies higher; 0 level, 90 upright with the inlet below
        joint_from_inlet_dam_m [m]: distance of the joint from the inlet's dam, half the length when left out
    Raises:
        OutOfRange: for a slope other than 0, 90 or -90, or a joint that is not between the dams

    Example:
        >>> round(PurgeSection(bore_m=0.161, length_m=0.6).volume_m3 * 1000, 2)
        12.21

    Reference: own definition.
    """

    bore_m: float
    length_m: float
    slope_deg: float = 0.0
    joint_from_inlet_dam_m: float | None = None

    def __post_init__(self) -> None:
        _BORE.check(self.bore_m)
        _LENGTH.check(self.length_m)
        if self.slope_deg not in (0.0, 90.0, -90.0):
            raise OutOfRange(
                "slope of the pipe",
                self.slope_deg,
                low=-90.0,
                high=90.0,
                unit="deg",
                why="only level (0) and upright (90 or -90) pipe is solved for now, and nothing in between",
            )
        Limits(
            quantity="distance from inlet dam to joint",
            unit="m",
            low=0.0,
            high=self.length_m,
            why="the joint lies between the dams",
        ).check(self.joint_m)

    @property
    def joint_m(self) -> float:
        """Distance of the joint from the inlet's dam."""
        return self.length_m / 2.0 if self.joint_from_inlet_dam_m is None else self.joint_from_inlet_dam_m

    @property
    def area_m2(self) -> float:
        """Cross-section of the bore."""
        return math.pi / 4.0 * self.bore_m**2

    @property
    def volume_m3(self) -> float:
        """Volume between the dams."""
        return self.area_m2 * self.length_m

    @property
    def is_upright(self) -> bool:
        """Whether the pipe stands upright."""
        return self.slope_deg != 0.0


@dataclass(frozen=True, kw_only=True)
class FlowSegment:
    """A stretch of time with one flow.

    Args:
        flow_m3_s [m3/s]: purge gas entering, at the pipe's temperature and one atmosphere
        duration_s [s]: how long; infinite for the last one
    Raises:
        OutOfRange: for a flow of nothing or a negative duration

    Example:
        >>> FlowSegment(flow_m3_s=2.5e-4, duration_s=math.inf).duration_s
        inf

    Reference: own definition.
    """

    flow_m3_s: float
    duration_s: float

    def __post_init__(self) -> None:
        _FLOW.check(self.flow_m3_s)
        if not self.duration_s >= 0.0:
            raise OutOfRange(
                "duration", self.duration_s, low=0.0, high=None, unit="s", why="time does not run backwards"
            )


@dataclass(frozen=True, kw_only=True)
class PurgeCase:
    """Everything that decides how the oxygen in the section falls.

    Args:
        section [record]: the pipe between the dams
        inlet [record]: where the gas enters
        vent [record]: where the air leaves
        gas [record]: the purge gas
        source_o2_frac [-]: oxygen in the purge gas, mole fraction
        segments [record]: the flows, one after the other; only the last may last for ever
        temperature_k [K]: temperature of pipe and gas
        leaks [record]: openings that let air in
        model [text]: layered, or one of its limits
    Raises:
        OutOfRange: for a vent hole that reaches outside the bore, no segment, or one after an endless one

    Example:
        >>> PurgeModel.LAYERED.value
        'layered'

    Reference: own definition.
    """

    section: PurgeSection
    inlet: Inlet
    vent: VentHole
    gas: Gas
    source_o2_frac: float
    segments: tuple[FlowSegment, ...]
    temperature_k: float = 293.15
    leaks: tuple[InLeak, ...] = ()
    model: PurgeModel = PurgeModel.LAYERED

    def __post_init__(self) -> None:
        _SOURCE.check(self.source_o2_frac)
        _TEMPERATURE.check(self.temperature_k)
        if not self.segments:
            raise OutOfRange(
                "number of flow segments", 0, low=1, high=None, unit="", why="a purge needs a flow"
            )
        if any(math.isinf(segment.duration_s) for segment in self.segments[:-1]):
            raise OutOfRange(
                "duration", math.inf, low=0.0, high=None, unit="s", why="only the last flow may last for ever"
            )
        _hole_within_bore("vent", self.vent.height_frac, self.vent.diameter_m, self.section.bore_m)
        if self.inlet.end is not InletEnd.DIFFUSER and self.inlet.bore_m is not None:
            _hole_within_bore("inlet", self.inlet.height_frac, self.inlet.bore_m, self.section.bore_m)


def _hole_within_bore(name: str, height_frac: float, diameter_m: float, bore_m: float) -> None:
    radius_frac = diameter_m / bore_m / 2.0
    slack_frac = 1e-9  # a hole that just touches the wall is inside
    Limits(
        quantity=f"height of the {name}'s centre",
        unit="",
        low=radius_frac - slack_frac,
        high=1.0 - radius_frac + slack_frac,
        why=f"a hole of {1000.0 * diameter_m:.3g} mm must lie within the bore of {1000.0 * bore_m:.4g} mm",
    ).check(height_frac)
