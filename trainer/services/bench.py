"""The bench: questions that anybody may put to the core, without a person, an attempt or a record."""

from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.core.dam_heat import dam_limit_k, heat_input_j_m, metal
from trainer.core.one_foot import (
    ONE_FOOT_M,
    PeakCurves,
    distances_to_limit_after_passes_m,
    largest_heat_input_j_m,
    peak_curves,
)
from trainer.core.pass_heat import CooledWall, Passes, peaks_with_loss_k
from trainer.core.terms import MaterialGroup
from trainer.domain.set_up import DamKind

_NEAREST_M, _FARTHEST_M, _POINTS = 0.02, 0.6, 117


@dataclass(frozen=True, kw_only=True)
class HeatQuestion:
    """A weld and a dam beside it: the arc of each pass, the wall, and what the dam is made of."""

    material: MaterialGroup
    dam: DamKind
    wall_m: float
    current_a: float
    voltage_v: float
    efficiency_frac: float
    travel_speed_m_s: float
    passes_count: int
    between_passes_s: float
    ambient_k: float

    @property
    def heat_input_j_m(self) -> float:
        """What each pass leaves in the metal; raises OutOfRange for an arc that there is not."""
        return heat_input_j_m(
            self.current_a,
            voltage_v=self.voltage_v,
            efficiency_frac=self.efficiency_frac,
            travel_speed_m_s=self.travel_speed_m_s,
        )


@dataclass(frozen=True, kw_only=True)
class HeatAnswer:
    """How hot the wall gets along the pipe, and whether one foot is far enough.

    Safe distances hold a row without loss to the air and one with it, a column for each number of passes.
    """

    question: HeatQuestion
    curves: PeakCurves
    limit_k: float
    at_one_foot_k: float
    at_one_foot_with_loss_k: float
    safe_distances_m: Floats
    largest_heat_input_j_m: float

    @property
    def holds_without_loss(self) -> bool:
        """Whether one foot is far enough even if the pipe lost no heat to the air."""
        return self.at_one_foot_k < self.limit_k

    @property
    def holds(self) -> bool:
        """Whether one foot is far enough with the loss to still air."""
        return self.at_one_foot_with_loss_k < self.limit_k


def heat_along_pipe(question: HeatQuestion) -> HeatAnswer:
    """Peak temperatures along the pipe; raises OutOfRange where a formula does not hold."""
    wall = CooledWall(wall_m=question.wall_m, metal=metal(question.material), ambient_k=question.ambient_k)
    bare = CooledWall(wall_m=question.wall_m, metal=wall.metal, ambient_k=question.ambient_k, loss_w_m2_k=0.0)
    passes = Passes(
        heat_input_j_m=question.heat_input_j_m,
        count=question.passes_count,
        interval_s=question.between_passes_s,
    )
    limit_k = dam_limit_k(question.dam)
    foot = np.array([ONE_FOOT_M])
    return HeatAnswer(
        question=question,
        curves=peak_curves(np.linspace(_NEAREST_M, _FARTHEST_M, _POINTS), passes=passes, wall=wall),
        limit_k=limit_k,
        at_one_foot_k=float(peaks_with_loss_k(foot, passes=passes, wall=bare)[0]),
        at_one_foot_with_loss_k=float(peaks_with_loss_k(foot, passes=passes, wall=wall)[0]),
        safe_distances_m=distances_to_limit_after_passes_m(limit_k, passes=passes, wall=wall),
        largest_heat_input_j_m=largest_heat_input_j_m(
            ONE_FOOT_M,
            limit_k=limit_k,
            wall_m=question.wall_m,
            metal=wall.metal,
            ambient_k=question.ambient_k,
        ),
    )
