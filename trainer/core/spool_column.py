"""The layers of a spool's body: slice areas summed over its parts at each height."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from trainer.core.column import Column, Floats, point_frac
from trainer.core.gas import sinks_in_air
from trainer.core.openings import ring_frac
from trainer.core.sloped_column import LEVEL_LAYERS_COUNT, UPRIGHT_LAYERS_COUNT, pool_depth_m
from trainer.core.spool_case import Point, SpoolCase
from trainer.core.spool_outlets import Outlet, exit_frac, vent_outlets
from trainer.core.spool_piece import Piece, PieceSlices

_RING_POINTS_COUNT = 17
_FACE_M = 1e-9


def spool_column(
    case: SpoolCase,
    *,
    body: Sequence[Piece],
    outlets: Sequence[Outlet] | None = None,
    most_layers_count: int = UPRIGHT_LAYERS_COUNT,
) -> Column:
    """The layers of the body of a spool.

    V_k = sum over the parts of what lies between two heights,  exchange sum of A / dz

    Args:
        case [record]: the purge
        body [record]: pieces of the spool that the gas reaches
        outlets [record]: where gas leaves them; the vents when left out
        most_layers_count [-]: how many layers there may be
    Returns:
        [record] layers

    Example:
        >>> from trainer.core.gas import gas
        >>> from trainer.core.purge_parts import FlowSegment, Inlet
        >>> from trainer.core.spool_case import Spool, SpoolVent
        >>> from trainer.core.spool_parts import Run
        >>> from trainer.core.terms import InletEnd
        >>> spool = Spool(path=(Run(name="run", bore_m=0.161, length_m=0.6),), inlet_at=Point(part="run"),
        ...     vents=(SpoolVent(at=Point(part="run", across_frac=0.9), diameter_m=0.006),))
        >>> case = SpoolCase(spool=spool, gas=gas("I1"), source_o2_frac=0.0,
        ...     inlet=Inlet(height_frac=0.1, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
        ...     segments=(FlowSegment(flow_m3_s=2.5e-4, duration_s=60.0),))
        >>> round(spool_column(case, body=spool.pieces).total_volume_m3 * 1000.0, 2)
        12.21

    Reference: own definition; each part by its own slices.
    """
    shape = _shape(tuple(body), sinks_in_air(case.gas), most_layers_count)
    edge, bottom_m = shape.edge_m, shape.bottom_m
    return Column(
        edge_m=edge,
        volume_m3=shape.volume_m3,
        exchange_length_m=shape.exchange_length_m,
        supply_frac=shape.supply_frac,
        exit_frac=exit_frac(
            vent_outlets(case) if outlets is None else outlets, edge_m=edge, bottom_m=bottom_m
        ),
        leak_m3_s=_leak_m3_s(case, edge, bottom_m),
        returned_m3_s=_returned_m3_s(case, edge),
        root_weight_frac=_root_weight_frac(case, edge, bottom_m),
        is_turned_over=not sinks_in_air(case.gas),
    )


def pool_bottom_m(case: SpoolCase, *, body: Sequence[Piece]) -> float:
    """Height, as the gas sees it, of the body's end where the gas settles.

    Args:
        case [record]: the purge
        body [record]: pieces of the spool that the gas reaches
    Returns:
        [m] height above the axis where the spool begins; its opposite for a gas that rises

    Example:
        >>> from trainer.core.spool_parts import Run
        >>> from trainer.core.spool_pieces import spool_pieces
        >>> from types import SimpleNamespace
        >>> from trainer.core.gas import gas
        >>> pieces = spool_pieces([Run(name="run", bore_m=0.1, length_m=0.2)])
        >>> pool_bottom_m(SimpleNamespace(gas=gas("I1")), body=pieces)
        -0.05

    Reference: own definition.
    """
    return _ends_m(body, sinks_in_air(case.gas))[0]


@dataclass(frozen=True, kw_only=True)
class _Shape:
    """What the layers of a body owe to its pieces alone."""

    bottom_m: float
    edge_m: Floats
    volume_m3: Floats
    exchange_length_m: Floats
    supply_frac: Floats


# The same pieces are asked with one leak after the other, and with vents of other sizes.
@lru_cache(maxsize=32)
def _shape(whole: tuple[Piece, ...], gas_sinks: bool, most_layers_count: int) -> _Shape:
    body = _level_together(whole)
    bottom_m, top_m = _ends_m(body, gas_sinks)
    edge = np.linspace(0.0, top_m - bottom_m, _layers_count(body, top_m - bottom_m, most_layers_count) + 1)
    slices = PieceSlices(body)
    pool_m = max(pool_depth_m(min(piece.bore_m for piece in body)), float(edge[1]))
    pool = np.diff(_volume_below_m3(slices, np.minimum(edge, pool_m) + bottom_m, gas_sinks))
    made = _Shape(
        bottom_m=bottom_m,
        edge_m=edge,
        volume_m3=np.diff(_volume_below_m3(slices, edge + bottom_m, gas_sinks)),
        exchange_length_m=_slice_area_m2(slices, edge[1:-1] + bottom_m, gas_sinks) / edge[1],
        supply_frac=pool / pool.sum(),
    )
    for each in (made.edge_m, made.volume_m3, made.exchange_length_m, made.supply_frac):
        each.flags.writeable = False
    return made


def _level_together(body: Sequence[Piece]) -> list[Piece]:
    """The pieces, those of a level run as one: they span the same heights."""
    level: dict[tuple[float, float], list[Piece]] = {}
    for piece in body:
        if piece.slope_deg == 0.0:
            level.setdefault((piece.bore_m, piece.start_m), []).append(piece)
    long = [replace(pieces[0], length_m=sum(piece.length_m for piece in pieces)) for pieces in level.values()]
    return [*long, *(piece for piece in body if piece.slope_deg != 0.0)]


def _layers_count(body: Sequence[Piece], height_m: float, most_count: int) -> int:
    widest_m = max(piece.bore_m for piece in body)
    wanted = round(LEVEL_LAYERS_COUNT * height_m / widest_m)
    return min(most_count, max(LEVEL_LAYERS_COUNT, wanted))


def _ends_m(body: Sequence[Piece], gas_sinks: bool) -> tuple[float, float]:
    low_m, high_m = min(piece.lowest_m for piece in body), max(piece.highest_m for piece in body)
    return (low_m, high_m) if gas_sinks else (-high_m, -low_m)


def _volume_below_m3(slices: PieceSlices, seen_m: Floats, gas_sinks: bool) -> Floats:
    return slices.volume_below_m3(seen_m) if gas_sinks else slices.volume_above_m3(-seen_m)


def _slice_area_m2(slices: PieceSlices, seen_m: Floats, gas_sinks: bool) -> Floats:
    height_m = seen_m if gas_sinks else -seen_m
    # Where one upright piece ends and the next begins, rounding may leave a face in neither of them.
    beside = [slices.slice_area_m2(height_m + side) for side in (-_FACE_M, _FACE_M)]
    return np.asarray(np.maximum(beside[0], beside[1]))


def _seen_m(case: SpoolCase, point: Point) -> float:
    return case.above_pool_m(case.spool.height_m(point))


def _leak_m3_s(case: SpoolCase, edge_m: Floats, bottom_m: float) -> Floats:
    leaks = np.zeros(edge_m.size - 1)
    for leak in case.leaks:
        if leak.height_frac is None and case.spool.joint_at:
            low_m, high_m = _ring_m(case, case.spool.joint_at, bottom_m)
            leaks += leak.flow_m3_s * ring_frac(
                edge_m,
                centre_m=(low_m + high_m) / 2.0,
                half_height_m=(high_m - low_m) / 2.0,
                smooth_m=float(edge_m[1]),
            )
        elif leak.height_frac is not None:
            seen_frac = leak.height_frac if sinks_in_air(case.gas) else 1.0 - leak.height_frac
            leaks += leak.flow_m3_s * point_frac(edge_m, height_m=seen_frac * float(edge_m[-1]))
    return leaks


def _returned_m3_s(case: SpoolCase, edge_m: Floats) -> Floats:
    returned = np.zeros(edge_m.size - 1)
    for leak in case.leaks:
        if leak.leaves_at_frac is not None:
            seen_frac = leak.leaves_at_frac if sinks_in_air(case.gas) else 1.0 - leak.leaves_at_frac
            returned += leak.flow_m3_s * point_frac(edge_m, height_m=seen_frac * float(edge_m[-1]))
    return returned


def _ring_m(case: SpoolCase, joint: Point, bottom_m: float) -> tuple[float, float]:
    piece = case.spool.pieces[case.spool.piece_at(joint)]
    axis = Point(part=joint.part, along_frac=joint.along_frac)
    centre_m = _seen_m(case, axis) - bottom_m
    return centre_m - piece.leaning_m / 2.0, centre_m + piece.leaning_m / 2.0


def _root_weight_frac(case: SpoolCase, edge_m: Floats, bottom_m: float) -> Floats | None:
    if case.spool.joint_at is None:
        return None
    heights = np.linspace(*_ring_m(case, case.spool.joint_at, bottom_m), _RING_POINTS_COUNT)
    return np.array([point_frac(edge_m, height_m=float(height_m)) for height_m in heights])
