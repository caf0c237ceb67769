"""The courses of a spool whose gas crosses high points: reaches in series, each with a closure of its own."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from trainer.core.chain_balance import ChainBalance, Stage, StageExit, chain_balance, flows_through
from trainer.core.chain_solution import ChainSolution
from trainer.core.column import Column, Floats
from trainer.core.errors import Limits
from trainer.core.gas import diffusivity_in_air_m2_s
from trainer.core.gas_column import gas_column
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_course import LayeredCourse, Stretch
from trainer.core.purge_courses import mixing_of
from trainer.core.purge_groups import situation
from trainer.core.purge_parts import FlowSegment, InLeak
from trainer.core.reach_leaks import ReachLeaks
from trainer.core.sloped_column import LEVEL_LAYERS_COUNT
from trainer.core.spool_case import SpoolCase
from trainer.core.spool_column import pool_bottom_m, spool_column
from trainer.core.spool_outlets import outlets_frac
from trainer.core.spool_piece import Piece
from trainer.core.spool_reaches import Reach, case_of_reach
from trainer.core.stirring import Closure, closure
from trainer.core.stirring_parts import Stirring

# Fewer than for a single section, since the matrix of a chain is full, and of many reaches fewer for each.
_MOST_LAYERS_COUNT = 48
_MOST_OF_ALL_COUNT = 384
_LEAST_LAYERS_COUNT = 8
_REACHES = Limits(
    quantity="number of reaches of the spool",
    unit="",
    high=_MOST_OF_ALL_COUNT // _LEAST_LAYERS_COUNT,
    why="gas would have to cross so many high points one after another; purge it in parts",
)


@dataclass(frozen=True, kw_only=True)
class _Flow:
    stages: tuple[Stage, ...]
    balance: ChainBalance
    solution: ChainSolution
    found: dict[tuple[float, float], float | None] = field(default_factory=dict)


class ChainCourses:
    """The courses that a purge through reaches in series may take.

    Args:
        case [record]: the purge of the spool
        reaches [record]: its reaches, each after the one that feeds it
        body [record]: all pieces that the gas reaches
    Raises:
        OutOfRange: for more than 48 reaches

    Reference: own definition; each reach as `purge`.
    """

    def __init__(self, case: SpoolCase, *, reaches: Sequence[Reach], body: Sequence[Piece]) -> None:
        _REACHES.check(len(reaches))
        self._case, self._reaches = case, tuple(reaches)
        self._most_layers_count = min(_MOST_LAYERS_COUNT, _MOST_OF_ALL_COUNT // len(reaches))
        self._leaks = ReachLeaks(case.spool, reaches=reaches, body=body)
        self._straight = [case_of_reach(case, reach=reach) for reach in reaches]
        self._flows = [self._flow(segment) for segment in case.segments]
        self._column = self._all_layers()
        self._ends: dict[float, tuple[LayeredCourse, ...]] = {}

    @cached_property
    def expected(self) -> LayeredCourse:
        """The course to expect.

        Returns:
            [record] the course
        """
        return self._course([1.0] * len(self._flows))

    def ends(self, widening_ratio: float) -> tuple[LayeredCourse, ...]:
        """The courses at the ends of the widest of all the closures' intervals.

        Args:
            widening_ratio [-]: 1, or 2 for an interval twice as wide on a logarithmic scale
        Returns:
            [record] the faster one and the slower one

        Reference: own definition.
        """
        if widening_ratio not in self._ends:
            paces = [self._paces(segment) for segment in self._case.segments]
            self._ends[widening_ratio] = tuple(
                self._course([pace[side] ** widening_ratio for pace in paces]) for side in (0, 1)
            )
        return self._ends[widening_ratio]

    def reach_air_frac(self, piece: int, *, times_s: Floats) -> Floats:
        """The most air anywhere in the reach in which a piece lies.

        Args:
            piece [-]: number of the piece
            times_s [s]: times since the gas was turned on
        Returns:
            [-] air fraction for each time

        Reference: own definition.
        """
        rows = self._rows[self._reach_with(piece)]
        return np.asarray(self.expected.layers_air_frac(times_s)[rows].max(axis=0))

    def root_s_m3(self, piece: int) -> float:
        """What a steady trickle of air, come in with the gas of a piece's reach, adds at the root.

        Args:
            piece [-]: number of the piece
        Returns:
            [s/m3] air fraction for each m3/s of air

        Reference: own definition; the steady state of the chain.
        """
        number = self._reach_with(piece)
        column = self._flows[0].stages[number].column
        trickle = np.zeros(self._column.volume_m3.size)
        trickle[self._rows[number]] = column.supply_frac / column.volume_m3
        steady: Floats = np.asarray(
            np.linalg.solve(-self._flows[0].balance.rate_per_s, trickle), dtype=np.float64
        )
        return float(self._column.root_air_frac(steady[:, np.newaxis])[0])

    @cached_property
    def _rows(self) -> list[slice]:
        sizes = [stage.column.volume_m3.size for stage in self._flows[0].stages]
        ends = np.cumsum(sizes).tolist()
        return [slice(first, last) for first, last in zip([0, *ends], ends, strict=False)]

    def _reach_with(self, piece: int) -> int:
        return next(number for number, reach in enumerate(self._reaches) if piece in reach.numbers)

    def _flow(self, segment: FlowSegment) -> _Flow:
        leaks = self._case.leaks if segment.air_in is None else segment.air_in
        stages: list[Stage] = []
        entering_m3_s = {0: segment.flow_m3_s}
        for number in range(len(self._reaches)):
            stages.append(self._stage(number, leaks, entering_m3_s[number]))
            entering_m3_s.update(flows_through(stages, number=number))
        balance = chain_balance(stages)
        return _Flow(stages=tuple(stages), balance=balance, solution=ChainSolution(balance))

    def _stage(self, number: int, leaks: Sequence[InLeak], flow_m3_s: float) -> Stage:
        reach, straight = self._reaches[number], self._straight[number]
        column, drawn = self._layers(reach, self._leaks.within(reach, leaks=leaks), straight)
        stirring = closure(situation(straight, flow_m3_s=flow_m3_s)).expected
        return Stage(
            column=column,
            flow_m3_s=flow_m3_s,
            mixing=mixing_of(straight, flow_m3_s=flow_m3_s, stirring=stirring),
            exits=tuple(
                StageExit(
                    share_frac=each.outlet.share_frac,
                    layer_frac=layer_frac,
                    feeds=self._begun_by(each.enters),
                    link_m3_s=self._link_m3_s(each.piece),
                )
                for each, layer_frac in zip(reach.outlets, drawn, strict=True)
            ),
        )

    def _layers(
        self, reach: Reach, leaks: tuple[InLeak, ...], straight: PurgeCase
    ) -> tuple[Column, list[Floats]]:
        """The layers of a reach, and from which of them each outlet draws."""
        if reach.is_crest:
            count = min(LEVEL_LAYERS_COUNT, self._most_layers_count)
            column = gas_column(replace(straight, leaks=leaks), layers_count=count)
            every_height = np.eye(column.volume_m3.size)
            return replace(column, root_weight_frac=every_height), [column.exit_frac] * len(reach.outlets)
        pieces = reach.pieces_of(self._case.spool.pieces)
        holes = [each.outlet for each in reach.outlets]
        column = spool_column(
            replace(self._case, leaks=leaks),
            body=pieces,
            outlets=holes,
            most_layers_count=self._most_layers_count,
        )
        bottom_m = pool_bottom_m(self._case, body=pieces)
        return column, outlets_frac(holes, edge_m=column.edge_m, bottom_m=bottom_m)

    def _begun_by(self, piece: int | None) -> int | None:
        return None if piece is None else [reach.entry for reach in self._reaches].index(piece)

    def _link_m3_s(self, number: int) -> float:
        """What diffuses from one piece to the next for each unit of air fraction between them."""
        piece = self._case.spool.pieces[number]
        diffusivity = diffusivity_in_air_m2_s(self._case.gas, temperature_k=self._case.temperature_k)
        return diffusivity * math.pi / 4.0 * piece.bore_m**2 / piece.length_m

    def _all_layers(self) -> Column:
        columns = [stage.column for stage in self._flows[0].stages]
        joint = self._case.spool.joint_at
        at = None if joint is None else self._case.spool.piece_at(joint)
        rooted = [number for number, reach in enumerate(self._reaches) if at in reach.numbers]
        return Column(
            edge_m=_ends_of(columns),
            volume_m3=np.concatenate([column.volume_m3 for column in columns]),
            exchange_length_m=np.empty(0),
            supply_frac=np.concatenate([column.supply_frac for column in columns]),
            exit_frac=np.concatenate([column.exit_frac for column in columns]),
            leak_m3_s=np.concatenate([column.leak_m3_s for column in columns]),
            returned_m3_s=np.concatenate([column.returned_m3_s for column in columns]),
            root_weight_frac=_root_weights(columns, rooted[0]) if rooted else None,
            is_turned_over=columns[0].is_turned_over,
        )

    def _paces(self, segment: FlowSegment) -> tuple[float, float]:
        """Shortest and longest time over the time modelled, by the least certain of the reaches."""
        if segment.flow_m3_s == 0.0:
            return 1.0, 1.0
        closures = [
            closure(situation(straight, flow_m3_s=segment.flow_m3_s * reach.share_frac))
            for straight, reach in zip(self._straight, self._reaches, strict=True)
        ]
        ends = [stirring for each in closures for stirring in _stirrings(each)]
        return min(each.lower_ratio for each in ends), max(each.upper_ratio for each in ends)

    def _course(self, time_ratios: Sequence[float]) -> LayeredCourse:
        return LayeredCourse(
            self._column,
            [
                Stretch(
                    balance=flow.balance,
                    solution=flow.solution,
                    duration_s=segment.duration_s,
                    time_ratio=time_ratio,
                    found=flow.found,
                )
                for flow, segment, time_ratio in zip(
                    self._flows, self._case.segments, time_ratios, strict=True
                )
            ],
        )


def _ends_of(columns: Sequence[Column]) -> Floats:
    """Faces of all layers, one reach on top of the other."""
    edges, top_m = [np.zeros(1)], 0.0
    for column in columns:
        edges.append(column.edge_m[1:] + top_m)
        top_m += float(column.edge_m[-1])
    return np.concatenate(edges)


def _root_weights(columns: Sequence[Column], rooted: int) -> Floats | None:
    weights = columns[rooted].root_weight_frac
    if weights is None:
        return None
    before, after = (
        sum(column.volume_m3.size for column in some) for some in (columns[:rooted], columns[rooted + 1 :])
    )
    return np.pad(weights, ((0, 0), (before, after)))


def _stirrings(closing: Closure) -> tuple[Stirring, ...]:
    return (closing.expected, *closing.ends)
