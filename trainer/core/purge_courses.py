"""From a case to the courses it may take: the expected one, and those at the ends of the interval."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol

import numpy as np

from trainer.core.column import Column
from trainer.core.gas import diffusivity_in_air_m2_s
from trainer.core.gas_column import gas_column, one_layer
from trainer.core.layer_solution import ModeSolution, PowerSolution, solve_layers
from trainer.core.layers import LayerBalance, Mixing, layer_balance
from trainer.core.plug_course import PlugCourse, PlugStretch
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_course import LayeredCourse, Stretch
from trainer.core.purge_groups import situation
from trainer.core.purge_parts import InLeak, PurgeSection
from trainer.core.stirring import Closure, closure
from trainer.core.stirring_parts import Stirring
from trainer.core.terms import PurgeModel

Course = LayeredCourse | PlugCourse


class Courses(Protocol):
    """The course to expect of a purge, and those at the ends of its interval."""

    @property
    def expected(self) -> Course:
        """The course to expect.

        Returns:
            [record] the course
        """

    def ends(self, widening_ratio: float) -> Sequence[Course]:
        """The courses at the ends of the interval.

        Args:
            widening_ratio [-]: 1, or 2 for an interval twice as wide on a logarithmic scale
        Returns:
            [record] the courses, in no order
        """


@dataclass(frozen=True, kw_only=True)
class _Flow:
    balance: LayerBalance
    solution: ModeSolution | PowerSolution
    found: dict[tuple[float, float], float | None] = field(default_factory=dict)


_UNSTIRRED = Stirring(
    exchange_ratio=0.0,
    beyond_vent_ratio=1.0,
    short_cut_ratio=1.0,
    lower_ratio=1.0,
    upper_ratio=1.0,
    vent_margin_ratio=1.0,
)


class CaseCourses:
    """The courses that a case may take.

    Args:
        case [record]: the purge
        layers [record]: gives the layers of a case, where they are not those of a straight section

    Reference: own definition.
    """

    def __init__(self, case: PurgeCase, *, layers: Callable[[PurgeCase], Column] = gas_column) -> None:
        self._case = case
        self._layers = one_layer if case.model is PurgeModel.PERFECT_MIXING else layers
        self._ends: dict[float, tuple[Course, ...]] = {}

    @cached_property
    def expected(self) -> Course:
        """The course to expect.

        Returns:
            [record] the course, solved when first asked
        """
        if self._case.model is PurgeModel.DISPLACEMENT:
            return _plug_course(self._case)
        return self._course(self._expected_flows, [1.0] * len(self._case.segments))

    def ends(self, widening_ratio: float) -> tuple[Course, ...]:
        """The courses at the ends of the closure's interval; none for the limits, which are exact.

        Args:
            widening_ratio [-]: 1, or 2 for an interval twice as wide on a logarithmic scale
        Returns:
            [record] the courses, in no order

        Reference: own definition.
        """
        if widening_ratio not in self._ends:
            self._ends[widening_ratio] = tuple(self._widened(widening_ratio))
        return self._ends[widening_ratio]

    def _widened(self, widening_ratio: float) -> Iterator[Course]:
        # Without flow nothing stirs, and diffusion has no closure to be unsure of.
        flowing = [segment.flow_m3_s > 0.0 for segment in self._case.segments]
        for number, flows in enumerate(self._end_flows):
            stirrings = [closing.ends[number] for closing in self._closures]
            for side in ("lower_ratio", "upper_ratio"):
                ratios = [getattr(stirring, side) ** widening_ratio for stirring in stirrings]
                yield self._course(
                    flows, [ratio if runs else 1.0 for ratio, runs in zip(ratios, flowing, strict=True)]
                )

    @cached_property
    def _columns(self) -> list[Column]:
        made: dict[tuple[InLeak, ...] | None, Column] = {}
        for segment in self._case.segments:
            if segment.air_in not in made:
                made[segment.air_in] = self._layers(self._case.during(segment))
        return [made[segment.air_in] for segment in self._case.segments]

    @cached_property
    def _closures(self) -> list[Closure]:
        if self._case.model is not PurgeModel.LAYERED:
            return []
        return [
            closure(situation(self._case, flow_m3_s=segment.flow_m3_s)) for segment in self._case.segments
        ]

    @cached_property
    def _expected_flows(self) -> list[_Flow]:
        if self._closures:
            return self._solved([closing.expected for closing in self._closures])
        return self._solved([_UNSTIRRED for _ in self._case.segments])

    @cached_property
    def _end_flows(self) -> list[list[_Flow]]:
        if not self._closures:
            return []
        if all(closing.ends == (closing.expected,) for closing in self._closures):
            return [self._expected_flows]
        return [
            self._solved([closing.ends[number] for closing in self._closures])
            for number in range(len(self._closures[0].ends))
        ]

    def _solved(self, stirrings: Sequence[Stirring]) -> list[_Flow]:
        flows: list[_Flow] = []
        for segment, stirring, column in zip(self._case.segments, stirrings, self._columns, strict=True):
            mixing = mixing_of(self._case, flow_m3_s=segment.flow_m3_s, stirring=stirring)
            balance = layer_balance(column, flow_m3_s=segment.flow_m3_s, mixing=mixing)
            flows.append(_Flow(balance=balance, solution=solve_layers(balance)))
        return flows

    def _course(self, flows: Sequence[_Flow], time_ratios: Sequence[float]) -> LayeredCourse:
        return LayeredCourse(
            self._columns[0],
            [
                Stretch(
                    balance=flow.balance,
                    solution=flow.solution,
                    duration_s=segment.duration_s,
                    time_ratio=time_ratio,
                    found=flow.found,
                )
                for flow, segment, time_ratio in zip(flows, self._case.segments, time_ratios, strict=True)
            ],
        )


def mixing_of(case: PurgeCase, *, flow_m3_s: float, stirring: Stirring) -> Mixing:
    """How strongly the layers of a case exchange at one flow.

    K = (exchange ratio) Q H / A,  H the height of the gas space, A its area from above

    Args:
        case [record]: the purge
        flow_m3_s [m3/s]: Q, purge gas
        stirring [record]: what the closure says
    Returns:
        [record] diffusion and stirring

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> groups = situation(BASE_CASE, flow_m3_s=2.5e-4)
        >>> mixing = mixing_of(BASE_CASE, flow_m3_s=2.5e-4, stirring=closure(groups).expected)
        >>> round(1e5 * mixing.stirring_m2_s, 1)
        6.3

    Reference: three-dimensional simulation; see the table of constants.
    """
    section = case.section
    return Mixing(
        diffusivity_m2_s=diffusivity_in_air_m2_s(case.gas, temperature_k=case.temperature_k),
        stirring_m2_s=stirring.exchange_ratio * flow_m3_s * section.height_m / section.plan_area_m2,
        beyond_vent_ratio=stirring.beyond_vent_ratio,
        short_cut_ratio=stirring.short_cut_ratio,
    )


def _plug_course(case: PurgeCase) -> PlugCourse:
    section = case.section
    return PlugCourse(
        volume_m3=section.volume_m3,
        height_m=section.height_m,
        root_place_frac=_root_place_frac(section),
        stretches=[
            PlugStretch(
                flow_m3_s=segment.flow_m3_s,
                leak_m3_s=case.during(segment).leak_m3_s,
                returned_m3_s=case.during(segment).returned_m3_s,
                duration_s=segment.duration_s,
            )
            for segment in case.segments
        ],
    )


def _root_place_frac(section: PurgeSection) -> float:
    """Share of the section that a plug from the inlet's end has to fill, level, to clear all of the joint."""
    tilted = section.tilted
    if tilted is None:
        return section.joint_m / section.length_m if section.is_upright else 1.0
    crown_m = tilted.height_of_m(section.joint_m, across_frac=1.0)
    return float(tilted.volume_below_m3(np.array(crown_m)) / section.volume_m3)
