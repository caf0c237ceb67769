"""The layers of many level sections at once, and their balances: `gas_column` and `layers` for a stack."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats, circle_area_below
from trainer.core.gas_column import gas_column
from trainer.core.layers import Mixing, bernoulli
from trainer.core.purge_case import PurgeCase
from trainer.core.sloped_column import LEVEL_LAYERS_COUNT, POOL_DEPTH_M

_EDGE = np.linspace(0.0, 1.0, LEVEL_LAYERS_COUNT + 1)


@dataclass(frozen=True, kw_only=True)
class LevelColumns:
    """The layers of many level sections: the arrays of `Column`, one row for each section.

    Args:
        volume_m3 [m3]: volumes of the layers
        exchange_length_m [m]: area over distance of centres, at the faces between layers
        supply_frac [-]: share of the purge gas that each layer receives
        exit_frac [-]: share of the outflow that leaves from each layer
        leak_m3_s [m3/s]: air that leaks into each layer

    Reference: as `gas_column`.
    """

    volume_m3: Floats
    exchange_length_m: Floats
    supply_frac: Floats
    exit_frac: Floats
    leak_m3_s: Floats


@dataclass(frozen=True, kw_only=True)
class BalanceStack:
    """The balances of air of many columns: the arrays of `LayerBalance`, one row for each.

    Args:
        volume_m3 [m3]: volumes of the layers
        rise_m3_s [m3/s]: what a layer hands to the one above for each unit of its own air fraction
        fall_m3_s [m3/s]: what a layer hands to the one below
        loss_m3_s [m3/s]: all that leaves a layer
        leak_m3_s [m3/s]: air leaking into each layer
        outflow_m3_s [m3/s]: everything that leaves through the vent

    Reference: as `layer_balance`.
    """

    volume_m3: Floats
    rise_m3_s: Floats
    fall_m3_s: Floats
    loss_m3_s: Floats
    leak_m3_s: Floats
    outflow_m3_s: Floats


def level_columns(cases: Sequence[PurgeCase]) -> LevelColumns:
    """The layers of many level sections.

    Args:
        cases [record]: purges of level sections
    Returns:
        [record] their layers
    Valid: level sections only.

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> round(float(level_columns([BASE_CASE]).volume_m3.sum()) * 1000.0, 2)
        12.21

    Reference: as `gas_column`.
    """
    bore, length, vent, hole = (
        np.array(values)[:, np.newaxis]
        for values in zip(
            *(
                (
                    case.section.bore_m,
                    case.section.length_m,
                    case.above_pool_frac(case.vent.height_frac),
                    case.vent.diameter_m / case.section.bore_m,
                )
                for case in cases
            ),
            strict=True,
        )
    )
    inner = _EDGE[1:-1]
    supply = np.diff(
        circle_area_below(1.0, height_m=np.minimum(_EDGE, np.minimum(POOL_DEPTH_M / bore, 1.0 / 3.0)))
    )
    across = np.maximum(hole, _EDGE[1])
    exits = np.diff(circle_area_below(1.0, height_m=np.clip((_EDGE - vent) / across + 0.5, 0.0, 1.0)))
    return LevelColumns(
        volume_m3=np.diff(circle_area_below(1.0, height_m=_EDGE)) * bore**2 * length,
        exchange_length_m=2.0 * np.sqrt(inner * (1.0 - inner)) * length / _EDGE[1],
        supply_frac=supply / supply.sum(axis=1, keepdims=True),
        exit_frac=exits / exits.sum(axis=1, keepdims=True),
        leak_m3_s=_leaks_m3_s(cases),
    )


def level_balances(
    columns: LevelColumns, *, rows: Sequence[int], flows_m3_s: Sequence[float], mixings: Sequence[Mixing]
) -> BalanceStack:
    """The balances of air of many level sections.

    Args:
        columns [record]: layers of the sections
        rows [-]: for each balance, the section that it is of
        flows_m3_s [m3/s]: for each balance, the purge gas supplied
        mixings [record]: for each balance, diffusion and stirring
    Returns:
        [record] the balances
    Valid: as `layer_balance`.

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
        >>> stack = level_balances(level_columns([BASE_CASE]), rows=[0], flows_m3_s=[2.5e-4], mixings=[still])
        >>> bool((stack.rise_m3_s > stack.fall_m3_s).all())
        True

    Reference: as `layer_balance`: Scharfetter and Gummel, IEEE Trans. Electron Devices 16 (1969) 64.
    """
    at = np.asarray(rows)
    leak, exit_frac = columns.leak_m3_s[at], columns.exit_frac[at]
    flow = np.asarray(flows_m3_s)[:, np.newaxis]
    diffusivity, stirring, beyond, short_cut = (
        np.array(values)[:, np.newaxis]
        for values in zip(
            *((m.diffusivity_m2_s, m.stirring_m2_s, m.beyond_vent_ratio, m.short_cut_ratio) for m in mixings),
            strict=True,
        )
    )
    total_leak = leak.sum(axis=1, keepdims=True)
    exits = exit_frac * (flow / short_cut + total_leak)
    upward = np.cumsum(columns.supply_frac[at] * flow / short_cut + leak - exits, axis=1)[:, :-1]
    share_left = 1.0 - np.cumsum(exit_frac, axis=1)[:, :-1]
    fading = beyond + (1.0 - beyond) * share_left
    conductance = columns.exchange_length_m[at] * (diffusivity + stirring * fading)
    fitted = bernoulli(np.abs(upward) / conductance) * conductance
    rise, fall = fitted + np.maximum(upward, 0.0), fitted + np.maximum(-upward, 0.0)
    exits[:, :-1] += rise
    exits[:, 1:] += fall
    return BalanceStack(
        volume_m3=columns.volume_m3[at],
        rise_m3_s=rise,
        fall_m3_s=fall,
        loss_m3_s=exits,
        leak_m3_s=leak,
        outflow_m3_s=flow[:, 0] + total_leak[:, 0],
    )


def _leaks_m3_s(cases: Sequence[PurgeCase]) -> Floats:
    leaks = np.zeros((len(cases), LEVEL_LAYERS_COUNT))
    for number, case in enumerate(cases):
        if case.leaks:
            leaks[number] = gas_column(case).leak_m3_s
    return leaks
