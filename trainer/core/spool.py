"""The purge of a spool: its body by layers, and each closed high point without a vent by diffusion alone."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property, partial

import numpy as np

from trainer.core.chain_body import ChainBody
from trainer.core.chain_courses import ChainCourses
from trainer.core.column import Column, Floats
from trainer.core.crossed_high_point import CrossedHighPoint
from trainer.core.dead_leg import DeadLeg
from trainer.core.dilution import Purge
from trainer.core.gas import diffusivity_in_air_m2_s, sinks_in_air
from trainer.core.interval import Interval
from trainer.core.leg_course import LegCourse
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import InLeak
from trainer.core.spool_body import SpoolBody
from trainer.core.spool_case import SpoolCase
from trainer.core.spool_column import pool_bottom_m, spool_column
from trainer.core.spool_high_points import HighPoint
from trainer.core.spool_outlets import vent_shares_frac
from trainer.core.spool_reaches import reaches_of
from trainer.core.spool_root import Bleeding, SpoolRoot
from trainer.core.spool_straight import straight_case_of_body
from trainer.core.spool_ways import layout_of
from trainer.core.terms import PurgeModel

BODY = "body"
_LEAST_SHARE_FRAC = 1e-3  # of what leaves: a vent that passes less is not on the way
_TRICKLE = 1e-3  # of the purge flow: so little that twice as much adds twice as much


def purge_spool(case: SpoolCase) -> SpoolPurge:
    """How the oxygen falls in a spool, and where it stays.

    Args:
        case [record]: the purge
    Returns:
        [record] its body's course and its dead legs
    Valid: the body by its slices at each height, as if level gas surfaces met all along it; stirred as the
        straight section of the same volume, and in reaches one after the other where the gas has to spill
        over a high point without a vent; no spool was simulated, so its intervals are twice as wide.

    Example:
        >>> from trainer.core.gas import gas
        >>> from trainer.core.purge_parts import FlowSegment, Inlet
        >>> from trainer.core.spool_case import Point, Spool, SpoolVent
        >>> from trainer.core.spool_parts import Run, Tee
        >>> from trainer.core.terms import InletEnd
        >>> tee = Tee(name="tee", bore_m=0.1, run_length_m=0.2, outlet_m=0.1, outlet_slope_deg=90.0,
        ...     branch=(Run(name="riser", bore_m=0.1, length_m=0.4, slope_deg=90.0),))
        >>> spool = Spool(path=(Run(name="one", bore_m=0.1, length_m=0.5), tee),
        ...     inlet_at=Point(part="one", along_frac=0.0, across_frac=0.15),
        ...     vents=(SpoolVent(at=Point(part="tee", along_frac=1.0, across_frac=0.9), diameter_m=0.006),))
        >>> case = SpoolCase(spool=spool, gas=gas("I1"), source_o2_frac=5e-6,
        ...     inlet=Inlet(height_frac=0.15, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
        ...     segments=(FlowSegment(flow_m3_s=1.5e-4, duration_s=math.inf),))
        >>> [leg.place for leg in purge_spool(case).dead_legs]
        ['riser']

    Reference: own definition; layers as `purge`, dead legs as `closed_end_air_frac`.
    """
    return SpoolPurge(case)


@dataclass(frozen=True, kw_only=True)
class Place:
    """A place of a spool with the time it needs.

    Args:
        place [text]: name of the part, or the body
        time [record]: the time in seconds between its ends; None when it never gets there

    Reference: own definition.
    """

    place: str
    time: Interval | None


class SpoolPurge:
    """The course of the purge of a spool; made by `purge_spool`.

    Args:
        case [record]: the purge

    Reference: as `purge_spool`.
    """

    def __init__(self, case: SpoolCase) -> None:
        self.case = case
        self.layout = layout_of(case.spool, gas_sinks=sinks_in_air(case.gas), flowing=_flowing(case))
        self._body_pieces = tuple(case.spool.pieces[number] for number in sorted(self.layout.body))
        self._columns: dict[tuple[InLeak, ...], Column] = {}
        bottom_m = pool_bottom_m(case, body=self._body_pieces)
        self.body = self._solved(case)
        self.dead_legs = tuple(_dead_leg(case, high, bottom_m) for high in self.layout.dead)
        self._legs = tuple(
            LegCourse(
                leg,
                mouth_air_frac=partial(_at_mouth, self.body, leg, _mouth_of(case, high)),
                segments=case.segments,
            )
            for leg, high in zip(self.dead_legs, self.layout.dead, strict=True)
        )

    @cached_property
    def crossed(self) -> tuple[CrossedHighPoint, ...]:
        """The high points without a vent that the gas has to cross on its way to one.

        Returns:
            [record] high points, from the highest mouth down
        """
        return tuple(CrossedHighPoint(self.case, crossing) for crossing in self.layout.crossings)

    @cached_property
    def root(self) -> Purge:
        """The purge as the root sees it, which lies at the joint, or anywhere where there is no word of one.

        Returns:
            [record] the body where there is no dead leg; else with what the legs give off into it, or that of
            the leg in which the joint lies
        """
        if not self.dead_legs:
            return self.body
        joint = self.case.spool.joint_at
        at = None if joint is None else self.case.spool.piece_at(joint)
        legs = [
            Bleeding(leg=leg, course=course, root_s_m3=self._root_s_m3(leg, high), is_root=at in high.pieces)
            for leg, course, high in zip(self.dead_legs, self._legs, self.layout.dead, strict=True)
        ]
        return SpoolRoot(self.body, legs=legs, sees_legs=at is None)

    def leg_oxygen_at(self, time_s: float) -> tuple[float, ...]:
        """Oxygen at the closed end of each dead leg.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fractions, in the order of the legs
        """
        return tuple(course.oxygen_by(time_s) for course in self._legs)

    def crossed_oxygen_at(self, time_s: float) -> tuple[float, ...]:
        """The most oxygen at each high point that the gas crosses.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fractions, in the order of the high points
        """
        times = np.array([time_s])
        air = [
            self.body.mouth_air_frac(each.top, height_m=self.body.height_m, times_s=times)
            for each in self.crossed
        ]
        return tuple(float(self.body.case.o2_frac(each)[0]) for each in air)

    def times_to(self, o2_frac: float) -> tuple[Place, ...]:
        """The time that the body and each dead leg need, the legs through what stands at their mouths.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [record] a time for the body's root and one for the closed end of each leg
        """
        legs = [Place(place=leg.place, time=course.time_to(o2_frac)) for leg, course in self._by_leg]
        return (Place(place=BODY, time=self.body.time_to(o2_frac)), *legs)

    def worst(self, o2_frac: float) -> Place:
        """The place that comes down to some oxygen last.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [record] the place and its time
        """
        return max(
            self.times_to(o2_frac), key=lambda each: math.inf if each.time is None else each.time.expected
        )

    def time_to(self, o2_frac: float) -> Interval | None:
        """The last time at which any place of the spool holds more than some oxygen.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time between its ends; None when some place never gets there
        """
        return self.worst(o2_frac).time

    def _solved(self, case: SpoolCase) -> SpoolBody:
        straight = straight_case_of_body(case, body=self._body_pieces)
        layers = partial(self._layers, case)
        if not self.layout.barriers or case.model is not PurgeModel.LAYERED:
            return SpoolBody(straight, layers=layers, is_crossed=bool(self.layout.crossings))
        reaches = reaches_of(case, layout=self.layout)
        chain = ChainCourses(case, reaches=reaches, body=self._body_pieces)
        return ChainBody(straight, chain=chain, layers=layers)

    def _root_s_m3(self, leg: DeadLeg, high: HighPoint) -> float:
        """What a steady trickle of air at the mouth of a leg adds at the root of the body."""
        if isinstance(self.body, ChainBody):
            return self.body.root_s_m3(_mouth_of(self.case, high))
        air_m3_s = _TRICKLE * self.case.segments[0].flow_m3_s
        seen_frac = min(1.0, leg.mouth_above_m / self.body.height_m)
        height_frac = seen_frac if sinks_in_air(self.case.gas) else 1.0 - seen_frac
        trickle = InLeak(height_frac=height_frac, flow_m3_s=air_m3_s)
        steady = replace(self.case, segments=self.case.segments[:1])
        dry = self.body if steady == self.case else self._solved(steady)
        wet = self._solved(replace(steady, leaks=(*steady.leaks, trickle))).root_floor_air_frac
        return (wet - dry.root_floor_air_frac) / air_m3_s

    def _layers(self, case: SpoolCase, straight: PurgeCase) -> Column:
        """The layers with the leaks of a segment, which the straight section is told."""
        if straight.leaks not in self._columns:
            told = replace(case, leaks=straight.leaks)
            self._columns[straight.leaks] = spool_column(told, body=self._body_pieces)
        return self._columns[straight.leaks]

    @property
    def _by_leg(self) -> list[tuple[DeadLeg, LegCourse]]:
        return list(zip(self.dead_legs, self._legs, strict=True))


def _flowing(case: SpoolCase) -> tuple[int, ...] | None:
    """Vents through which gas leaves; one that draws air in, or passes next to nothing, is not on its way."""
    shares = vent_shares_frac(case)
    flowing = tuple(number for number, share in enumerate(shares) if share > _LEAST_SHARE_FRAC)
    return None if len(flowing) == len(shares) else flowing


def _at_mouth(body: SpoolBody, leg: DeadLeg, mouth: int, times_s: Floats) -> Floats:
    return body.mouth_air_frac(mouth, height_m=leg.mouth_above_m, times_s=times_s)


def _mouth_of(case: SpoolCase, high: HighPoint) -> int:
    """The highest of the pieces next to a dead leg, as the gas sees it."""
    return max(high.mouths, key=lambda number: _crown_m(case, number))


def _crown_m(case: SpoolCase, number: int) -> float:
    piece = case.spool.pieces[number]
    return case.above_pool_m(piece.middle_m) + piece.leaning_m / 2.0


def _dead_leg(case: SpoolCase, high: HighPoint, bottom_m: float) -> DeadLeg:
    pieces, mouth = case.spool.pieces, _mouth_of(case, high)
    return DeadLeg(
        place=pieces[high.top].part,
        mouth=pieces[mouth].part,
        volume_m3=sum(pieces[number].volume_m3 for number in high.pieces),
        length_m=high.length_m,
        mouth_above_m=_crown_m(case, mouth) - bottom_m,
        diffusivity_m2_s=diffusivity_in_air_m2_s(case.gas, temperature_k=case.temperature_k),
        source_o2_frac=case.source_o2_frac,
    )
