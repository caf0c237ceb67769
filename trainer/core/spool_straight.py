"""The straight section that stands for a spool, or for one of its reaches, where a closure is asked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from trainer.core.errors import Limits
from trainer.core.gas import sinks_in_air
from trainer.core.purge_case import GasSpace, PurgeCase
from trainer.core.purge_parts import FlowSegment, Inlet, PurgeSection, VentHole
from trainer.core.spool_case import SpoolCase, SpoolVent
from trainer.core.spool_piece import Piece
from trainer.core.spool_places import height_in_body_frac
from trainer.core.spool_ways import way_between
from trainer.core.vent import vent_area_m2


@dataclass(frozen=True, kw_only=True)
class StandIn(PurgeSection):
    """A straight section that stands for some pieces of a spool, be it as short as a slice of a cap.

    Args:
        bore_m [m]: bore
        length_m [m]: length that gives it the volume of the pieces
        slope_deg [deg]: by how much the end where gas leaves lies higher
        joint_from_inlet_dam_m [m]: half the length
    Raises:
        OutOfRange: as `PurgeSection`, but no length that a piece may have is too short

    Reference: own definition.
    """

    length_limits: ClassVar[Limits] = Limits(
        quantity="length of a reach", unit="m", low=1e-9, high=1000.0, why="a dammed section is shorter"
    )


@dataclass(frozen=True, kw_only=True)
class Through:
    """How the gas goes through some pieces of a spool.

    Args:
        start [-]: number of the piece where it enters
        end [-]: number of the piece where it leaves
        inlet [record]: what it enters through
        vent [record]: what it leaves through
        segments [record]: the flows, one after the other
        is_level [bool]: whether it runs along the pipe as in a level one, however the pipe slopes

    Reference: own definition.
    """

    start: int
    end: int
    inlet: Inlet
    vent: VentHole
    segments: tuple[FlowSegment, ...]
    is_level: bool = False


def straight_case(
    case: SpoolCase, *, body: Sequence[Piece], through: Through, space: GasSpace | None = None
) -> PurgeCase:
    """The straight section with the bore at the inlet, the volume of some pieces and their overall slope.

    sin(slope) = climb from middle to middle / way between them

    Args:
        case [record]: the purge of the spool
        body [record]: the pieces
        through [record]: how the gas goes through them
        space [record]: where openings lie in the gas space
    Returns:
        [record] case of the straight section

    Example:
        >>> from trainer.core.spool_places import RISER_CASE
        >>> through = Through(start=0, end=9, inlet=RISER_CASE.inlet, segments=RISER_CASE.segments,
        ...     vent=VentHole(height_frac=0.9, diameter_m=0.006))
        >>> run = RISER_CASE.spool.pieces[:10]
        >>> round(straight_case(RISER_CASE, body=run, through=through).section.length_m, 3)
        0.5

    Reference: own definition.
    """
    bore_m = case.spool.pieces[through.start].bore_m
    return PurgeCase(
        section=StandIn(
            bore_m=bore_m,
            length_m=sum(piece.volume_m3 for piece in body) / (math.pi / 4.0 * bore_m**2),
            slope_deg=0.0 if through.is_level else _overall_slope_deg(case.spool.pieces, through),
        ),
        inlet=through.inlet,
        vent=through.vent,
        gas=case.gas,
        source_o2_frac=case.source_o2_frac,
        segments=through.segments,
        temperature_k=case.temperature_k,
        leaks=case.leaks,
        model=case.model,
        space=space,
    )


def straight_case_of_body(case: SpoolCase, *, body: Sequence[Piece]) -> PurgeCase:
    """The straight section that stands for all of a spool that the gas reaches.

    Args:
        case [record]: the purge of the spool
        body [record]: the pieces that the gas reaches
    Returns:
        [record] case, with the highest vent as the gas sees it

    Example:
        >>> from trainer.core.spool_places import RISER_CASE
        >>> run = RISER_CASE.spool.pieces[:10]
        >>> straight_case_of_body(RISER_CASE, body=run).vent.height_frac
        0.9

    Reference: own definition.
    """
    spool = case.spool
    vent = max(spool.vents, key=lambda each: case.above_pool_m(spool.height_m(each.at)))
    start = spool.piece_at(spool.inlet_at)
    bore_m = spool.pieces[start].bore_m
    radius_frac = min(0.5, vent.diameter_m / 2.0 / bore_m)
    through = Through(
        start=start,
        end=spool.piece_at(vent.at),
        inlet=case.inlet,
        vent=VentHole(
            height_frac=min(max(vent.at.across_frac, radius_frac), 1.0 - radius_frac),
            diameter_m=min(vent.diameter_m, bore_m),
            count=vent.count,
        ),
        segments=case.segments,
    )
    return straight_case(case, body=body, through=through, space=_gas_space(case, body, vent))


def _gas_space(case: SpoolCase, body: Sequence[Piece], vent: SpoolVent) -> GasSpace:
    spool, gas_sinks = case.spool, sinks_in_air(case.gas)
    fracs = [height_in_body_frac(spool, point=point, body=body) for point in (spool.inlet_at, vent.at)]
    inlet_frac, vent_frac = (frac if gas_sinks else 1.0 - frac for frac in fracs)
    return GasSpace(
        height_m=max(piece.highest_m for piece in body) - min(piece.lowest_m for piece in body),
        inlet_frac=inlet_frac,
        vent_frac=vent_frac,
        vent_area_m2=sum(vent_area_m2(each.diameter_m, count=each.count) for each in spool.vents),
    )


def _overall_slope_deg(pieces: Sequence[Piece], through: Through) -> float:
    climb_m = pieces[through.end].middle_m - pieces[through.start].middle_m
    way = way_between(pieces, start=through.start, end=through.end)
    way_m = sum(
        (pieces[one].length_m + pieces[other].length_m) / 2.0
        for one, other in zip(way, way[1:], strict=False)
    )
    return math.degrees(math.asin(max(-1.0, min(1.0, climb_m / way_m)))) if way_m else 0.0
