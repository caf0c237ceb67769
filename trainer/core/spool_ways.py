"""The ways that the gas takes through a spool, and what lies on them or off: height alone does not decide."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from trainer.core.spool_case import Spool
from trainer.core.spool_high_points import HighPoint, neighbours_of, unvented_high_points
from trainer.core.spool_parts import SpoolPart
from trainer.core.spool_piece import Piece
from trainer.core.spool_pieces import spool_pieces

# What lies less than this below the highest place of a way is level with it: gas spills over it and runs on.
_CREST_PER_BORE = 0.5
# Steeper than this the gas falls through the pipe beyond a crest and stirs it, flatter it runs down along it.
STEEP_DEG = 45.0


@dataclass(frozen=True, kw_only=True)
class Crossing:
    """A high point without a vent that the gas has to cross on its way to one.

    Args:
        high [record]: the high point
        crest [-]: numbers of the pieces of the way that lie highest in it
        is_barrier [bool]: whether the bottom of the pipe there lies above the crown beside it, so that the
            gas has to spill over; else it passes below the pocket

    Reference: own definition.
    """

    high: HighPoint
    crest: frozenset[int]
    is_barrier: bool


@dataclass(frozen=True, kw_only=True)
class SpoolLayout:
    """What the gas reaches in a spool, and what it passes by.

    Args:
        way [-]: numbers of the pieces between the inlet and the vents
        crossings [record]: high points that the way leads over
        dead [record]: high points off the way, with all that lies beyond them
        body [-]: numbers of all pieces but the dead ones

    Reference: own definition.
    """

    way: frozenset[int]
    crossings: tuple[Crossing, ...]
    dead: tuple[HighPoint, ...]
    body: frozenset[int]

    @property
    def barriers(self) -> tuple[Crossing, ...]:
        """The high points that the gas has to spill over.

        Returns:
            [record] crossings
        """
        return tuple(each for each in self.crossings if each.is_barrier)


def layout_of(spool: Spool, *, gas_sinks: bool, flowing: tuple[int, ...] | None = None) -> SpoolLayout:
    """What of a spool the gas reaches.

    Args:
        spool [record]: the spool
        gas_sinks [bool]: whether air stays at the top
        flowing [-]: numbers of the vents through which gas leaves; all when left out
    Returns:
        [record] ways, high points on them and off them, and the body

    Example:
        >>> from trainer.core.spool_places import RISER_SPOOL
        >>> layout = layout_of(RISER_SPOOL, gas_sinks=True)
        >>> len(layout.crossings), len(layout.dead)
        (0, 1)

    Reference: own definition.
    """
    vents = tuple(spool.piece_at(vent.at) for vent in spool.vents)
    ends = vents if flowing is None else tuple(vents[number] for number in flowing)
    return _layout(spool.path, spool.piece_at(spool.inlet_at), vents, ends, gas_sinks)


# Spools that differ in the size of a vent, or in its place on the bore, lie alike.
@lru_cache(maxsize=64)
def _layout(
    path: tuple[SpoolPart, ...], inlet: int, vents: tuple[int, ...], ends: tuple[int, ...], gas_sinks: bool
) -> SpoolLayout:
    pieces = spool_pieces(path)
    way = frozenset().union(*(way_between(pieces, start=inlet, end=end) for end in ends))
    served = {inlet, *vents}
    crossings: list[Crossing] = []
    found = unvented_high_points(pieces, served=served, gas_sinks=gas_sinks)
    while crossed := [high for high in found if high.pieces & way]:
        for high in crossed:
            crossings.append(_crossing(pieces, high, way, gas_sinks))
            served |= crossings[-1].crest
        found = unvented_high_points(pieces, served=served, gas_sinks=gas_sinks)
    crossings += _inlets_own(pieces, inlet, vents, way, gas_sinks)
    if crossings:
        found = unvented_high_points(pieces, served={*served, *way}, gas_sinks=gas_sinks)
    dead = _dead_legs(pieces, found, way)
    body = frozenset(range(len(pieces))).difference(*(high.pieces for high in dead))
    return SpoolLayout(way=way, crossings=tuple(crossings), dead=dead, body=body)


def _inlets_own(
    pieces: Sequence[Piece], inlet: int, vents: Sequence[int], way: frozenset[int], gas_sinks: bool
) -> list[Crossing]:
    """A level high point with the inlet in it, from which the gas has to spill over an edge and fall."""
    own = []
    for high in unvented_high_points(pieces, served=vents, gas_sinks=gas_sinks):
        if inlet in high.pieces and not _is_steep(pieces[inlet]):
            crossing = _crossing(pieces, high, way, gas_sinks)
            beyond = (high.pieces & way) - crossing.crest
            falls = any(_is_steep(pieces[number]) for number in beyond)
            if crossing.is_barrier and inlet in crossing.crest and falls:
                own.append(crossing)
    return own


def _is_steep(piece: Piece) -> bool:
    return abs(piece.slope_deg) >= STEEP_DEG


def way_between(pieces: Sequence[Piece], *, start: int, end: int) -> tuple[int, ...]:
    """The pieces from one to another; there is but one way in a tree.

    Args:
        pieces [record]: the spool's pieces
        start [-]: number of the first
        end [-]: number of the last
    Returns:
        [-] numbers, in order, both ends among them

    Example:
        >>> from trainer.core.spool_parts import Run
        >>> from trainer.core.spool_pieces import spool_pieces
        >>> way_between(spool_pieces([Run(name="run", bore_m=0.1, length_m=0.15)]), start=2, end=0)
        (2, 1, 0)

    Reference: own definition.
    """
    from_start, from_end = _to_the_first(pieces, start), _to_the_first(pieces, end)
    common = set(from_start).intersection(from_end)
    meeting = next(number for number in from_start if number in common)
    there = from_start[: from_start.index(meeting) + 1]
    return (*there, *reversed(from_end[: from_end.index(meeting)]))


def _to_the_first(pieces: Sequence[Piece], number: int) -> list[int]:
    way = []
    while number >= 0:
        way.append(number)
        number = pieces[number].before
    return way


def patch_of(joined: Sequence[Sequence[int]], *, start: int, within: Collection[int]) -> frozenset[int]:
    """The pieces that hang together with one of them.

    Args:
        joined [-]: numbers of the neighbours of each
        start [-]: number of the piece
        within [-]: numbers of those that count
    Returns:
        [-] numbers

    Example:
        >>> sorted(patch_of([[1], [0, 2], [1]], start=0, within={0, 2}))
        [0]

    Reference: own definition.
    """
    patch, edge = {start}, [start]
    while edge:
        for number in joined[edge.pop()]:
            if number in within and number not in patch:
                patch.add(number)
                edge.append(number)
    return frozenset(patch)


def _crossing(pieces: Sequence[Piece], high: HighPoint, way: frozenset[int], gas_sinks: bool) -> Crossing:
    on_way = sorted(high.pieces & way)
    bottom = {number: _side_m(pieces[number], gas_sinks, -1.0) for number in on_way}
    highest = max(on_way, key=lambda number: bottom[number])
    least_m = bottom[highest] - _CREST_PER_BORE * pieces[highest].bore_m
    level = {number for number in on_way if bottom[number] >= least_m}
    beside_m = max(_side_m(pieces[number], gas_sinks, 1.0) for number in high.mouths)
    return Crossing(
        high=high,
        crest=patch_of(neighbours_of(pieces), start=highest, within=level),
        is_barrier=bottom[highest] > beside_m,
    )


def _side_m(piece: Piece, gas_sinks: bool, side: float) -> float:
    """Height of the crown (1) or the bottom (-1) at a piece's middle, as the gas sees it."""
    return (piece.middle_m if gas_sinks else -piece.middle_m) + side * piece.leaning_m / 2.0


def _dead_legs(
    pieces: Sequence[Piece], found: Sequence[HighPoint], way: frozenset[int]
) -> tuple[HighPoint, ...]:
    """High points off the way, each with what is joined to the rest of the spool through it only."""
    joined, everything = neighbours_of(pieces), frozenset(range(len(pieces)))
    closed = frozenset().union(*(high.pieces for high in found))
    cut_off = everything - patch_of(joined, start=min(way), within=everything - closed)
    taken: set[int] = set(closed)
    dead = []
    for high in found:
        whole = patch_of(joined, start=high.top, within=cut_off)
        if whole == high.pieces:
            dead.append(high)
            continue
        own = high.pieces | (whole - taken)
        taken |= own
        mouths = tuple(sorted({other for number in whole for other in joined[number]} - whole))
        dead.append(replace(high, pieces=own, mouths=mouths, length_m=_longest_m(pieces, own, mouths)))
    return tuple(dead)


def _longest_m(pieces: Sequence[Piece], numbers: Collection[int], mouths: Sequence[int]) -> float:
    """Along the pipe from the nearest mouth to the end of the piece farthest from it."""
    return max(
        min(
            sum(pieces[each].length_m for each in way_between(pieces, start=mouth, end=number)[1:])
            for mouth in mouths
        )
        for number in numbers
    )
