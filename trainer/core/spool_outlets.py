"""The holes through which gas leaves the layers of a spool, or of one of its reaches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.core.openings import hole_frac
from trainer.core.spool_case import SpoolCase


@dataclass(frozen=True, kw_only=True)
class Outlet:
    """A hole through which gas leaves.

    Args:
        seen_m [m]: height of its centre as the gas sees it, above the axis where the spool begins
        half_m [m]: half of the height that it spans
        share_frac [-]: its share of all that leaves

    Reference: own definition.
    """

    seen_m: float
    half_m: float
    share_frac: float


def vent_shares_frac(case: SpoolCase) -> tuple[float, ...]:
    """Share of each vent in what leaves; holes at one height stand under one pressure and share by area.

    Args:
        case [record]: the purge
    Returns:
        [-] shares, 1 together

    Example:
        >>> from trainer.core.spool_places import RISER_CASE
        >>> vent_shares_frac(RISER_CASE)
        (1.0,)

    Reference: own definition.
    """
    areas = case.vent_shares or [vent.count * vent.diameter_m**2 for vent in case.spool.vents]
    return tuple(area / sum(areas) for area in areas)


def vent_outlets(case: SpoolCase) -> tuple[Outlet, ...]:
    """The vents of a spool as outlets.

    Args:
        case [record]: the purge
    Returns:
        [record] outlets, in the order of the vents

    Example:
        >>> from trainer.core.spool_places import RISER_CASE
        >>> [round(each.seen_m, 3) for each in vent_outlets(RISER_CASE)]
        [0.04]

    Reference: own definition.
    """
    outlets = []
    for vent, share in zip(case.spool.vents, vent_shares_frac(case), strict=True):
        piece = case.spool.pieces[case.spool.piece_at(vent.at)]
        # A hole at the crown or the bottom lies flat in the wall; one on a dam's face leans with the pipe.
        to_wall_m = min(vent.at.across_frac, 1.0 - vent.at.across_frac) * piece.leaning_m
        half_m = min(vent.diameter_m / 2.0 * piece.leaning_m / piece.bore_m, to_wall_m)
        seen_m = case.above_pool_m(case.spool.height_m(vent.at))
        outlets.append(Outlet(seen_m=seen_m, half_m=half_m, share_frac=share))
    return tuple(outlets)


def outlets_frac(outlets: Sequence[Outlet], *, edge_m: Floats, bottom_m: float) -> list[Floats]:
    """From which layers each outlet draws.

    Args:
        outlets [record]: the outlets
        edge_m [m]: heights of the faces of the layers above the lowest
        bottom_m [m]: height of the lowest face as the gas sees it
    Returns:
        [-] shares of each layer, 1 together for each outlet

    Example:
        >>> hole = Outlet(seen_m=0.25, half_m=0.05, share_frac=1.0)
        >>> outlets_frac([hole], edge_m=np.linspace(0.0, 0.3, 4), bottom_m=0.0)[0].round(2).tolist()
        [0.0, 0.11, 0.89]

    Reference: own definition.
    """
    depth_m = float(edge_m[1])
    fractions = []
    for outlet in outlets:
        centre_m = min(max(outlet.seen_m - bottom_m, depth_m / 2.0), float(edge_m[-1]) - depth_m / 2.0)
        fractions.append(hole_frac(edge_m, centre_m=centre_m, half_height_m=outlet.half_m, smooth_m=depth_m))
    return fractions


def exit_frac(outlets: Sequence[Outlet], *, edge_m: Floats, bottom_m: float) -> Floats:
    """Share of the outflow that leaves from each layer.

    Args:
        outlets [record]: the outlets
        edge_m [m]: heights of the faces of the layers above the lowest
        bottom_m [m]: height of the lowest face as the gas sees it
    Returns:
        [-] shares, 1 together

    Example:
        >>> hole = Outlet(seen_m=0.25, half_m=0.05, share_frac=1.0)
        >>> exit_frac([hole, hole], edge_m=np.linspace(0.0, 0.3, 4), bottom_m=0.0).round(2).tolist()
        [0.0, 0.11, 0.89]

    Reference: own definition.
    """
    shares = outlets_frac(outlets, edge_m=edge_m, bottom_m=bottom_m)
    weighted = sum(
        (outlet.share_frac * share for outlet, share in zip(outlets, shares, strict=True)),
        np.zeros(edge_m.size - 1),
    )
    return np.asarray(weighted / sum(outlet.share_frac for outlet in outlets))
