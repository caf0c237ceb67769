"""The balance of air in stages of layers, each fed with what leaves the one before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.column import Column, Floats
from trainer.core.layers import LayerBalance, Mixing, layer_balance


@dataclass(frozen=True, kw_only=True)
class StageExit:
    """A hole through which gas leaves a stage.

    Args:
        share_frac [-]: its share of what leaves the stage
        layer_frac [-]: from which layers it draws, 1 together
        feeds [-]: number of the stage that it feeds; None for a vent
        link_m3_s [m3/s]: what diffuses there either way while nothing flows, for each unit of air fraction

    Reference: own definition.
    """

    share_frac: float
    layer_frac: Floats
    feeds: int | None = None
    link_m3_s: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Stage:
    """A stage of a chain at one flow.

    Args:
        column [record]: its layers
        flow_m3_s [m3/s]: gas that enters it
        mixing [record]: how strongly its layers exchange
        exits [record]: where the gas leaves it

    Reference: own definition.
    """

    column: Column
    flow_m3_s: float
    mixing: Mixing
    exits: tuple[StageExit, ...]


@dataclass(frozen=True, kw_only=True)
class ChainBalance:
    """The linear balance of air  dc/dt = A c + b  of all stages at one flow.

    Args:
        rate_per_s [1/s]: A, nowhere negative off its diagonal
        leak_per_s [1/s]: b, air leaking into each layer over its volume
        vent_m3_s [m3/s]: air that leaves by the vents for each unit of air fraction of each layer
        outflow_m3_s [m3/s]: all that leaves by the vents

    Reference: own definition.
    """

    rate_per_s: Floats
    leak_per_s: Floats
    vent_m3_s: Floats
    outflow_m3_s: float

    def vent_air_frac(self, air_frac: Floats) -> Floats:
        """Air fraction of the gas that leaves through all vents together.

        c_vent = sum(O_k c_k) / outflow

        Args:
            air_frac [-]: c by layer (rows) and time (columns)
        Returns:
            [-] air fraction for each time; of all layers on average when nothing leaves

        Reference: own definition.
        """
        if self.outflow_m3_s == 0.0:
            return np.asarray(air_frac.mean(axis=0))
        return np.asarray(self.vent_m3_s @ air_frac / self.outflow_m3_s)

    @cached_property
    def is_closed(self) -> bool:
        """Whether nothing enters or leaves, so that the air only spreads.

        Returns:
            [bool] true when closed
        """
        return not (self.outflow_m3_s or self.leak_per_s.any())


def chain_balance(stages: Sequence[Stage]) -> ChainBalance:
    """The balance of stages, each but the first fed by one before it.

    What comes in with the gas goes to the layers that it is supplied to, and the share that takes a short cut
    goes on with the air that it came with, so that no air is lost between stages.

    Args:
        stages [record]: the stages, each after the one that feeds it
    Returns:
        [record] the balance

    Example:
        >>> from trainer.core.gas_column import one_layer
        >>> from trainer.core.purge_case import BASE_CASE
        >>> still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
        >>> whole = np.ones(1)
        >>> tanks = [Stage(column=one_layer(BASE_CASE), flow_m3_s=2.5e-4, mixing=still,
        ...     exits=(StageExit(share_frac=1.0, layer_frac=whole, feeds=feeds),)) for feeds in (1, None)]
        >>> balance = chain_balance(tanks)
        >>> (balance.rate_per_s * BASE_CASE.section.volume_m3 / 2.5e-4).round(3).tolist()
        [[-1.0, 0.0], [1.0, -1.0]]

    Reference: own definition; each stage as `layer_balance`.
    """
    joining = _Joining(stages)
    for number in range(len(stages)):
        joining.join(number)
    return ChainBalance(
        rate_per_s=joining.flux_m3_s / joining.volume_m3[:, np.newaxis],
        leak_per_s=np.concatenate([each.column.leak_m3_s for each in stages]) / joining.volume_m3,
        vent_m3_s=joining.vent_m3_s,
        outflow_m3_s=joining.outflow_m3_s,
    )


def flows_through(stages: Sequence[Stage], *, number: int) -> list[tuple[int, float]]:
    """What leaves a stage towards others.

    Args:
        stages [record]: the stages
        number [-]: number of the one
    Returns:
        [m3/s] pairs of the number of the stage fed and the gas that enters it

    Example:
        >>> from trainer.core.gas_column import one_layer
        >>> from trainer.core.purge_case import BASE_CASE
        >>> still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
        >>> whole = np.ones(1)
        >>> tanks = [Stage(column=one_layer(BASE_CASE), flow_m3_s=2.5e-4, mixing=still,
        ...     exits=(StageExit(share_frac=1.0, layer_frac=whole, feeds=feeds),)) for feeds in (1, None)]
        >>> flows_through(tanks, number=0)
        [(1, 0.00025)]

    Reference: own definition.
    """
    stage = stages[number]
    out_m3_s = stage.flow_m3_s + stage.column.through_leak_m3_s
    return [(each.feeds, each.share_frac * out_m3_s) for each in stage.exits if each.feeds is not None]


class _Joining:
    """Fills in the matrix of a chain, stage by stage."""

    def __init__(self, stages: Sequence[Stage]) -> None:
        self._stages = stages
        sizes = [stage.column.volume_m3.size for stage in stages]
        starts = np.concatenate(([0], np.cumsum(sizes))).tolist()
        self._rows = [slice(first, last) for first, last in zip(starts, starts[1:], strict=False)]
        count = starts[-1]
        self.volume_m3 = np.concatenate([stage.column.volume_m3 for stage in stages])
        self.flux_m3_s = np.zeros((count, count))
        self.vent_m3_s = np.zeros(count)
        self.outflow_m3_s = 0.0
        self._coming_in = [np.zeros(count) for _ in stages]

    def join(self, number: int) -> None:
        stage, rows = self._stages[number], self._rows[number]
        balance = layer_balance(stage.column, flow_m3_s=stage.flow_m3_s, mixing=stage.mixing)
        self.flux_m3_s[rows, rows] += _within(balance)
        taking_part_frac = 1.0 / stage.mixing.short_cut_ratio
        coming_in = self._coming_in[number]
        self.flux_m3_s[rows] += np.outer(stage.column.supply_frac * taking_part_frac, coming_in)
        drawn_m3_s = balance.vent_m3_s.sum()
        for leaving in stage.exits:
            out = leaving.share_frac * (1.0 - taking_part_frac) * coming_in
            out[rows] += leaving.share_frac * drawn_m3_s * leaving.layer_frac
            self._lead_on(number, leaving, out, balance.outflow_m3_s)

    def _lead_on(self, number: int, leaving: StageExit, out: Floats, outflow_m3_s: float) -> None:
        if leaving.feeds is None:
            self.vent_m3_s += out
            self.outflow_m3_s += leaving.share_frac * outflow_m3_s
            return
        self._coming_in[leaving.feeds] += out
        if self._stages[number].flow_m3_s == 0.0:
            self._link(number, leaving)

    def _link(self, number: int, leaving: StageExit) -> None:
        assert leaving.feeds is not None
        here = self._rows[number].start + int(leaving.layer_frac.argmax())
        there = self._rows[leaving.feeds].start + int(self._stages[leaving.feeds].column.supply_frac.argmax())
        for one, other in ((here, there), (there, here)):
            self.flux_m3_s[one, one] -= leaving.link_m3_s
            self.flux_m3_s[one, other] += leaving.link_m3_s


def _within(balance: LayerBalance) -> Floats:
    return np.asarray(
        np.diag(balance.rise_m3_s, -1) + np.diag(balance.fall_m3_s, 1) - np.diag(balance.loss_m3_s)
    )
