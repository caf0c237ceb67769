"""What a purge is told: its parts, gas, temperature and the model to go by."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TypeVar

from trainer.core.column import Floats
from trainer.core.errors import Limits, OutOfRange
from trainer.core.gas import O2_IN_DRY_AIR_FRAC, Gas, gas, sinks_in_air
from trainer.core.purge_parts import FlowSegment, InLeak, Inlet, PurgeSection, VentHole
from trainer.core.terms import InletEnd, PurgeModel

_Share = TypeVar("_Share", float, Floats)

_SOURCE = Limits(
    quantity="oxygen in the purge gas", unit="", low=0.0, high=0.2, why="a purge gas carries less than air"
)
_TEMPERATURE = Limits(
    quantity="temperature", unit="K", low=230.0, high=400.0, why="gas properties hold from -43 to 127 degC"
)

_FLOWS = Limits(
    quantity="number of flow segments", unit="", high=100, why="each keeps a solution; join equal flows"
)
_FIRST_FLOW = Limits(
    quantity="purge flow", unit="m3/s", low=1e-9, why="without any flow there is no purge to follow"
)


@dataclass(frozen=True, kw_only=True)
class GasSpace:
    """Where the openings lie in a gas space that is no straight section, counted from where the gas settles.

    Args:
        height_m [m]: height of the gas space
        inlet_frac [-]: height of the inlet as a share of it
        vent_frac [-]: height of the vent farthest from where the gas settles
        vent_area_m2 [m2]: area of all vents

    Reference: own definition.
    """

    height_m: float
    inlet_frac: float
    vent_frac: float
    vent_area_m2: float


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
        space [record]: the gas space, where the section only stands for it
    Raises:
        OutOfRange: for a vent hole that reaches outside the bore, no segment, a first one without flow, or
            one after an endless one

    Example:
        >>> BASE_CASE.section.joint_m
        0.3

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
    space: GasSpace | None = None

    def __post_init__(self) -> None:
        _SOURCE.check(self.source_o2_frac)
        _TEMPERATURE.check(self.temperature_k)
        if not self.segments:
            raise OutOfRange(
                "number of flow segments", 0, low=1, high=None, unit="", why="a purge needs a flow"
            )
        _FLOWS.check(len(self.segments))
        _FIRST_FLOW.check(self.segments[0].flow_m3_s)
        if any(math.isinf(segment.duration_s) for segment in self.segments[:-1]):
            raise OutOfRange(
                "duration", math.inf, low=0.0, high=None, unit="s", why="only the last flow may last for ever"
            )
        _hole_within_bore("vent", self.vent.height_frac, self.vent.diameter_m, self.section.bore_m)
        if self.inlet.end is not InletEnd.DIFFUSER and self.inlet.bore_m is not None:
            _hole_within_bore("inlet", self.inlet.height_frac, self.inlet.bore_m, self.section.bore_m)

    @property
    def rise_deg(self) -> float:
        """Slope as the gas sees it: how far the vent's end lies away from where the gas settles.

        Returns:
            [deg] the slope for a gas heavier than air, its opposite for a lighter one
        """
        slope_deg = self.section.slope_deg
        if not self.section.tilted:
            slope_deg = math.copysign(90.0, slope_deg) if self.section.is_upright else 0.0
        return slope_deg if sinks_in_air(self.gas) else -slope_deg

    @property
    def inlet_is_at_the_pool(self) -> bool:
        """Whether the inlet of an upright section is at the end where the gas settles.

        Returns:
            [bool] true for argon let in at the bottom or helium at the top
        """
        return self.rise_deg > 0.0

    def during(self, segment: FlowSegment) -> PurgeCase:
        """The case with the openings of one of its segments.

        Args:
            segment [record]: the segment
        Returns:
            [record] case whose leaks are those that let air in during the segment
        """
        return self if segment.air_in is None else replace(self, leaks=segment.air_in)

    @property
    def leak_m3_s(self) -> float:
        """Air that leaks in, everywhere together.

        Returns:
            [m3/s] air
        """
        return sum(leak.flow_m3_s for leak in self.leaks)

    @property
    def returned_m3_s(self) -> float:
        """What leaves elsewhere than through the vent, in exchange for air that leaks in.

        Returns:
            [m3/s] gas
        """
        return sum(leak.flow_m3_s for leak in self.leaks if leak.leaves_at_frac is not None)

    def o2_frac(self, air_frac: _Share) -> _Share:
        """Oxygen in a mixture of the purge gas and air.

        x_O2 = x_source (1 - c) + 0.2095 c

        Args:
            air_frac [-]: c, air fraction, one or many
        Returns:
            [-] mole fraction of oxygen
        """
        return self.source_o2_frac + (O2_IN_DRY_AIR_FRAC - self.source_o2_frac) * air_frac

    def above_pool_frac(self, height_frac: float) -> float:
        """A height counted from the side where the gas settles.

        Args:
            height_frac [-]: height counted from the bottom
        Returns:
            [-] the same for a gas heavier than air, 1 less it for a lighter one
        """
        return height_frac if sinks_in_air(self.gas) else 1.0 - height_frac


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


# The recommended practice that the examples of the purge functions start from: a gentle inlet low, the vent
# high, in a bore of about NPS 6.
BASE_CASE = PurgeCase(
    section=PurgeSection(bore_m=0.161, length_m=0.6),
    inlet=Inlet(height_frac=0.09, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
    vent=VentHole(height_frac=0.925, diameter_m=0.019),
    gas=gas("I1"),
    source_o2_frac=5e-6,
    segments=(FlowSegment(flow_m3_s=2.5e-4, duration_s=math.inf),),
)
