"""A spool seen from the side, in metres: each piece at its true height, the path unrolled to the right.

A branch is seen as it would be from there: straight up or down where it leaves so, on end where it comes
towards the reader.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.core.spool_case import Point
from trainer.core.spool_parts import SpoolPart
from trainer.core.spool_piece import Piece
from trainer.core.spool_pieces import spool_pieces
from trainer.domain.spool_path import OUTLET

_UPRIGHT = 1e-6
_STEEP_DEG = 45.0
_ON_END = 0.3  # a piece that is seen shorter than this share of its length is seen on end

At = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Seen:
    """A piece as it is seen: its axis from one end to the other, right and up, and half its bore."""

    piece: Piece
    begins: At
    ends: At

    @property
    def half_m(self) -> float:
        """Half the bore."""
        return self.piece.bore_m / 2.0

    @property
    def is_on_end(self) -> bool:
        """Whether it comes towards the reader."""
        return math.dist(self.begins, self.ends) < _ON_END * self.piece.length_m

    @property
    def along(self) -> At:
        """The direction in which it goes on."""
        way = math.dist(self.begins, self.ends)
        if way < _UPRIGHT * self.piece.length_m:
            return 1.0, 0.0
        return (self.ends[0] - self.begins[0]) / way, (self.ends[1] - self.begins[1]) / way

    @property
    def up(self) -> At:
        """Across it, towards its crown; to the right where it stands upright."""
        right, rise = self.along
        return (-rise, right) if right > _UPRIGHT else ((rise, -right) if right < -_UPRIGHT else (1.0, 0.0))

    def at(self, along_frac: float, across_frac: float = 0.5) -> At:
        """A point on it."""
        off_m = (across_frac - 0.5) * self.piece.bore_m
        right = self.begins[0] + along_frac * (self.ends[0] - self.begins[0]) + off_m * self.up[0]
        high = self.begins[1] + along_frac * (self.ends[1] - self.begins[1]) + off_m * self.up[1]
        return right, high


def seen_from_the_side(parts: tuple[SpoolPart, ...]) -> list[Seen]:
    """The pieces of a path as they are seen, in its order, branches after their tees."""
    seen: list[Seen] = []
    ways: list[float] = []
    pieces = spool_pieces(parts)
    elbows = _bends(pieces)
    for number, piece in enumerate(pieces):
        before = seen[piece.before] if piece.before >= 0 else None
        starts_branch = piece.part.endswith(OUTLET) and before is not None and before.piece.part != piece.part
        ways.append(_way(piece, before, ways, starts_branch, number in elbows))
        right_m = 0.0 if before is None else (before.at(0.5)[0] if starts_branch else before.ends[0])
        run_m = piece.length_m * math.cos(math.radians(piece.slope_deg)) * ways[-1]
        ends = right_m + run_m, piece.start_m + piece.climb_m
        seen.append(Seen(piece=piece, begins=(right_m, piece.start_m), ends=ends))
    return seen


def part_of(seen: Sequence[Seen], name: str) -> list[Seen]:
    """The pieces of one part."""
    return [each for each in seen if each.piece.part == name]


def place_of(seen: Sequence[Seen], point: Point) -> tuple[Seen, float]:
    """The piece that a point lies on, and how far along it."""
    of_part = part_of(seen, point.part)
    whole_m = sum(each.piece.length_m for each in of_part)
    way_m = point.along_frac * whole_m
    for each in of_part:
        if way_m <= each.piece.length_m or each is of_part[-1]:
            return each, min(1.0, way_m / each.piece.length_m)
        way_m -= each.piece.length_m
    raise AssertionError(point.part)  # a point is only asked for on a part that is there


def _bends(pieces: Sequence[Piece]) -> set[int]:
    """Numbers of the pieces whose slope is not that of the piece before them in the same part."""
    return {
        number
        for number, piece in enumerate(pieces)
        if piece.before >= 0
        and pieces[piece.before].part == piece.part
        and abs(pieces[piece.before].slope_deg - piece.slope_deg) > _UPRIGHT
    }


def _way(
    piece: Piece, before: Seen | None, ways: Sequence[float], starts_branch: bool, is_bend: bool
) -> float:
    """How much of a piece's way from above is seen: 1 all of it to the right, 0 none, it is on end."""
    if before is None:
        return 1.0
    if starts_branch:
        return _outlet_way(piece, before.piece.slope_deg)
    # A bend out of a steep branch turns in the plane of the drawing.
    return 1.0 if is_bend and abs(before.piece.slope_deg) > _STEEP_DEG else ways[piece.before]


def _outlet_way(outlet: Piece, run_slope_deg: float) -> float:
    """An outlet stands at right angles to its run, in the plane of the drawing as far as it slopes."""
    run, rise = math.radians(run_slope_deg), math.radians(outlet.slope_deg)
    if math.cos(run) < _UPRIGHT:
        return 1.0
    if math.cos(rise) < _UPRIGHT:
        return 0.0
    return max(-1.0, min(1.0, -math.tan(run) * math.tan(rise)))
