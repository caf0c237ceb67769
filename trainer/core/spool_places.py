"""Places on a spool: what the gas reaches, how high a point lies in it, and which way a hole there faces."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from trainer.core.gas import gas
from trainer.core.purge_parts import FlowSegment, Inlet
from trainer.core.spool_case import Point, Spool, SpoolCase, SpoolVent
from trainer.core.spool_parts import Run, Tee
from trainer.core.spool_piece import Piece, PieceSlices
from trainer.core.spool_ways import layout_of
from trainer.core.terms import InletEnd

_END = 1e-9


def body_of(spool: Spool, *, gas_sinks: bool) -> tuple[Piece, ...]:
    """The pieces of a spool that the gas reaches.

    Args:
        spool [record]: the spool
        gas_sinks [bool]: whether air stays at the top
    Returns:
        [record] all pieces but those of dead legs

    Example:
        >>> sorted({piece.part for piece in body_of(RISER_SPOOL, gas_sinks=True)})
        ['one', 'tee']

    Reference: own definition.
    """
    layout = layout_of(spool, gas_sinks=gas_sinks)
    return tuple(spool.pieces[number] for number in sorted(layout.body))


def height_in_body_frac(spool: Spool, *, point: Point, body: Sequence[Piece]) -> float:
    """Height of a point as a share of the height that a spool's body spans.

    (z - z_lowest) / (z_highest - z_lowest)

    Args:
        spool [record]: the spool
        point [record]: the point
        body [record]: the pieces that the gas reaches
    Returns:
        [-] share, 0 at the lowest point of the body and below, 1 at the highest and above

    Example:
        >>> run = RISER_SPOOL.pieces[:10]
        >>> round(height_in_body_frac(RISER_SPOOL, point=Point(part="one", across_frac=0.75), body=run), 6)
        0.75

    Reference: geometry.
    """
    low_m, high_m = min(piece.lowest_m for piece in body), max(piece.highest_m for piece in body)
    return min(1.0, max(0.0, (spool.height_m(point) - low_m) / (high_m - low_m)))


def is_in_end_face(spool: Spool, *, point: Point) -> bool:
    """Whether a point lies in the face that closes the path or a branch, and not in the wall.

    Args:
        spool [record]: the spool
        point [record]: the point
    Returns:
        [bool] true at the beginning of the path, and where a part ends that nothing joins on to

    Example:
        >>> [is_in_end_face(RISER_SPOOL, point=Point(part="riser", along_frac=along)) for along in (0.5, 1.0)]
        [False, True]

    Reference: own definition.
    """
    number = spool.piece_at(point)
    if point.along_frac >= 1.0 - _END:
        return all(piece.before != number for piece in spool.pieces)
    return number == 0 and point.along_frac <= _END


def facing_up_deg(spool: Spool, *, point: Point) -> float:
    """By how much a hole at a point of a spool faces up.

    in an end face: the slope at which it looks out; in the wall: asin((2 h - 1) cos(slope)), h its height

    Args:
        spool [record]: the spool
        point [record]: the hole's centre
    Returns:
        [deg] 0 to the side, 90 up, -90 down

    Example:
        >>> [round(facing_up_deg(RISER_SPOOL, point=Point(part="one", along_frac=along, across_frac=h)))
        ...  for along, h in ((0.0, 1.0), (0.5, 1.0), (0.5, 0.5), (0.5, 0.0))]
        [0, 90, 0, -90]

    Reference: geometry.
    """
    piece = spool.pieces[spool.piece_at(point)]
    if is_in_end_face(spool, point=point):
        return piece.slope_deg if point.along_frac >= 0.5 else -piece.slope_deg
    up = (2.0 * point.across_frac - 1.0) * math.cos(math.radians(piece.slope_deg))
    return math.degrees(math.asin(max(-1.0, min(1.0, up))))


def beyond_vents_frac(spool: Spool, *, gas_sinks: bool) -> float:
    """Share of a spool's volume that lies beyond its vents, on the side where the air stays.

    1 - V_body(z_vent) / V, the vent being the one farthest from the side where the gas settles; where the gas
    has to spill over a high point, all of the body lies before a vent: 1 - V_body / V

    Args:
        spool [record]: the spool
        gas_sinks [bool]: whether the gas is heavier than air
    Returns:
        [-] share, dead legs among it

    Example:
        >>> round(beyond_vents_frac(RISER_SPOOL, gas_sinks=True), 2)
        0.37

    Reference: geometry.
    """
    body = body_of(spool, gas_sinks=gas_sinks)
    if layout_of(spool, gas_sinks=gas_sinks).barriers:
        return max(0.0, 1.0 - sum(piece.volume_m3 for piece in body) / spool.volume_m3)
    heights = [spool.height_m(vent.at) for vent in spool.vents]
    vent_m = np.array(max(heights) if gas_sinks else min(heights))
    below = float(PieceSlices(body).volume_below_m3(vent_m))
    filled = below if gas_sinks else sum(piece.volume_m3 for piece in body) - below
    return max(0.0, 1.0 - filled / spool.volume_m3)  # rounding may fill a hair more than there is


# What the examples go by: a run, and a tee with a closed riser that has no vent.
RISER_SPOOL = Spool(
    path=(
        Run(name="one", bore_m=0.1, length_m=0.5),
        Tee(
            name="tee",
            bore_m=0.1,
            run_length_m=0.2,
            outlet_m=0.1,
            outlet_slope_deg=90.0,
            branch=(Run(name="riser", bore_m=0.1, length_m=0.3, slope_deg=90.0),),
        ),
    ),
    inlet_at=Point(part="one", along_frac=0.0, across_frac=0.15),
    vents=(SpoolVent(at=Point(part="tee", along_frac=1.0, across_frac=0.9), diameter_m=0.006),),
)
RISER_CASE = SpoolCase(
    spool=RISER_SPOOL,
    inlet=Inlet(height_frac=0.15, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
    gas=gas("I1"),
    source_o2_frac=5e-6,
    segments=(FlowSegment(flow_m3_s=1.5e-4, duration_s=math.inf),),
)
