"""A spool cut into short cylinders, each at its height and joined to its neighbours."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from trainer.core.errors import Limits
from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, SpoolPart, Tee
from trainer.core.spool_piece import Piece

# Pieces of a run are half a bore long at most: finer than any high point that could matter.
_PIECE_PER_BORE = 0.5
_PIECES_OF_A_FITTING = 12
# ... of a run so long that it would take more pieces than this, they are longer.
_MOST_PIECES_OF_A_RUN = 400
_PIECES = Limits(
    quantity="number of short pieces that the spool is cut into",
    unit="",
    high=4000,
    why="a fitting takes 12 and a run two for each bore of length, 400 at most; purge it in parts",
)
_BRANCH = " outlet"
_SLACK_DEG = 0.1  # slopes and angles are read off drawings


def spool_pieces(path: Sequence[SpoolPart]) -> tuple[Piece, ...]:
    """The pieces of a path and of the branches on it, in the order of the path.

    Args:
        path [record]: the parts, from the inlet's dam on
    Returns:
        [record] pieces; what stands on a tee's outlet carries the name of its own part
    Raises:
        OutOfRange: for a first part without a direction, a run that does not go on as the part before it
            ends, an elbow that cannot turn between its two slopes, or an outlet steeper than at right angles
            to its run

    Example:
        >>> pieces = spool_pieces([Run(name="run", bore_m=0.1, length_m=0.2)])
        >>> len(pieces), pieces[-1].before
        (4, 2)

    Reference: own definition; volumes of parts are kept.
    """
    return _laid_out(tuple(path))


# A path is laid out by each spool that differs in where gas enters, leaves or is looked at.
@lru_cache(maxsize=16)
def _laid_out(path: tuple[SpoolPart, ...]) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    _Walk(pieces, before=-1, height_m=0.0, slope_deg=None).along(path)
    return tuple(pieces)


@dataclass(frozen=True)
class _Short:
    """A short cylinder as its part sees it."""

    bore_m: float
    length_m: float
    slope_deg: float
    part_frac: float


class _Walk:
    """Lays parts end to end, and branches where they begin."""

    def __init__(self, pieces: list[Piece], *, before: int, height_m: float, slope_deg: float | None) -> None:
        self._pieces = pieces
        self._before = before
        self._height_m = height_m
        self._slope_deg = slope_deg

    def along(self, path: Sequence[SpoolPart]) -> None:
        for part in path:
            for short in _shorts(part, self._direction_deg(part)):
                self._lay(part.name, short)
            if isinstance(part, Tee):
                self._check_outlet(part, self._slope_deg or 0.0)
                self._branch(part)
            if isinstance(part, Elbow):
                self._slope_deg = part.to_slope_deg

    def _direction_deg(self, part: SpoolPart) -> float:
        if isinstance(part, Run):
            slope_deg = part.slope_deg if self._slope_deg is None else self._slope_deg
            why = "it goes on in the direction in which the part before it ends; an elbow turns the path"
            Limits(
                quantity=f"slope of {part.name}",
                unit="deg",
                low=slope_deg - _SLACK_DEG,
                high=slope_deg + _SLACK_DEG,
                why=why,
            ).check(part.slope_deg)
            self._slope_deg = part.slope_deg
        if self._slope_deg is None:
            why = "a path begins with a run, which gives it its direction"
            Limits(quantity=f"slope of {part.name}", unit="deg", why=why).check(math.nan)
        slope_deg = self._slope_deg or 0.0
        if isinstance(part, Elbow):
            self._check_turn(part, slope_deg)
        return slope_deg

    def _check_turn(self, elbow: Elbow, slope_deg: float) -> None:
        Limits(
            quantity=f"angle of {elbow.name}",
            unit="deg",
            low=abs(elbow.to_slope_deg - slope_deg) - _SLACK_DEG,
            high=180.0 - abs(elbow.to_slope_deg + slope_deg) + _SLACK_DEG,
            why=f"it turns the path from {slope_deg:.4g} to {elbow.to_slope_deg:.4g} deg of slope",
        ).check(elbow.angle_deg)

    def _check_outlet(self, tee: Tee, slope_deg: float) -> None:
        # An axis at right angles to one of slope s climbs at the most as steeply as 90 deg less s.
        steepest_deg = 90.0 - abs(slope_deg) + _SLACK_DEG
        Limits(
            quantity=f"slope of the outlet of {tee.name}",
            unit="deg",
            low=-steepest_deg,
            high=steepest_deg,
            why=f"it stands at right angles to a run of {slope_deg:.4g} deg of slope",
        ).check(tee.outlet_slope_deg)

    def _lay(self, part: str, short: _Short) -> None:
        piece = Piece(
            part=part,
            bore_m=short.bore_m,
            length_m=short.length_m,
            slope_deg=short.slope_deg,
            start_m=self._height_m,
            part_frac=short.part_frac,
            before=self._before,
        )
        self._before = len(self._pieces)
        self._height_m += piece.climb_m
        self._pieces.append(piece)
        _PIECES.check(len(self._pieces))

    def _branch(self, tee: Tee) -> None:
        run_count = sum(1 for piece in self._pieces if piece.part == tee.name)
        crossing = len(self._pieces) - (run_count + 1) // 2
        # The outlet's own volume begins where the run's ends, as far from the run's axis as that makes it.
        run_m3 = math.pi / 4.0 * tee.bore_m**2 * tee.run_length_m
        own_m = (tee.volume_m3 - run_m3) / (math.pi / 4.0 * tee.branch_bore_m**2)
        sine = math.sin(math.radians(tee.outlet_slope_deg))
        walk = _Walk(
            self._pieces,
            before=crossing,
            height_m=self._pieces[crossing].middle_m + (tee.outlet_m - own_m) * sine,
            slope_deg=tee.outlet_slope_deg,
        )
        for short in _straight(tee.branch_bore_m, own_m, tee.outlet_slope_deg):
            walk._lay(tee.name + _BRANCH, short)
        walk.along(tee.branch)


def _shorts(part: SpoolPart, slope_deg: float) -> Iterator[_Short]:
    match part:
        case Run():
            yield from _straight(part.bore_m, part.length_m, slope_deg)
        case Tee():
            yield from _straight(part.bore_m, part.run_length_m, slope_deg)
        case Elbow():
            yield from _bend(part, slope_deg)
        case Reducer():
            yield from _cone(part, slope_deg)
        case Cap():
            yield from _cap(part, slope_deg)


def _straight(bore_m: float, length_m: float, slope_deg: float) -> Iterator[_Short]:
    wanted = math.ceil(length_m / (_PIECE_PER_BORE * bore_m) - 1e-9)
    count = max(1, min(_MOST_PIECES_OF_A_RUN, wanted))
    for number in range(count):
        yield _Short(bore_m, length_m / count, slope_deg, (number + 0.5) / count)


def _bend(elbow: Elbow, slope_deg: float) -> Iterator[_Short]:
    """The axis turns evenly from one direction into the other."""
    turn = math.radians(elbow.angle_deg)
    start, end = math.sin(math.radians(slope_deg)), math.sin(math.radians(elbow.to_slope_deg))
    length_m = elbow.bend_radius_m * turn / _PIECES_OF_A_FITTING
    for number in range(_PIECES_OF_A_FITTING):
        share = (number + 0.5) / _PIECES_OF_A_FITTING
        if elbow.angle_deg < 180.0:
            rise = (math.sin((1.0 - share) * turn) * start + math.sin(share * turn) * end) / math.sin(turn)
        else:
            rise = start * math.cos(share * turn)
        yield _Short(elbow.bore_m, length_m, math.degrees(math.asin(max(-1.0, min(1.0, rise)))), share)


def _cone(reducer: Reducer, slope_deg: float) -> Iterator[_Short]:
    bores = np.linspace(reducer.bore_m, reducer.other_bore_m, _PIECES_OF_A_FITTING + 1)
    for number in range(_PIECES_OF_A_FITTING):
        first, second = float(bores[number]), float(bores[number + 1])
        bore_m = math.sqrt((first**2 + first * second + second**2) / 3.0)
        share = (number + 0.5) / _PIECES_OF_A_FITTING
        yield _Short(bore_m, reducer.length_m / _PIECES_OF_A_FITTING, slope_deg, share)


def _cap(cap: Cap, slope_deg: float) -> Iterator[_Short]:
    depth_m = cap.bore_m / 4.0
    whole_m = cap.straight_flange_m + depth_m
    if cap.straight_flange_m > 0.0:
        yield _Short(cap.bore_m, cap.straight_flange_m, slope_deg, cap.straight_flange_m / whole_m / 2.0)
    places = np.linspace(0.0, 1.0, _PIECES_OF_A_FITTING + 1)
    # Mean of d^2 (1 - x^2) over each slice of the half ellipsoid.
    means = 1.0 - np.diff(places**3) / 3.0 * _PIECES_OF_A_FITTING
    for number, mean in enumerate(means):
        middle_m = cap.straight_flange_m + (number + 0.5) / _PIECES_OF_A_FITTING * depth_m
        yield _Short(
            cap.bore_m * math.sqrt(float(mean)), depth_m / _PIECES_OF_A_FITTING, slope_deg, middle_m / whole_m
        )
