"""The closed high points of a spool that no vent serves, as the gas sees high."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from trainer.core.spool_piece import Piece

# Pieces whose crowns differ by less than this lie level.
_LEVEL_M = 1e-6
# A rise of less than a twentieth of the bore holds no pocket worth the name.
_LEAST_RISE_PER_BORE = 0.05


@dataclass(frozen=True, kw_only=True)
class HighPoint:
    """A closed high point without a vent.

    Args:
        pieces [-]: numbers of its pieces
        mouths [-]: numbers of the pieces outside, next to it
        top [-]: number of its highest piece, the farthest from a mouth among equals
        length_m [m]: along the pipe from a mouth to the place farthest from all of them

    Reference: own definition.
    """

    pieces: frozenset[int]
    mouths: tuple[int, ...]
    top: int
    length_m: float


def unvented_high_points(
    pieces: Sequence[Piece], *, served: Iterable[int], gas_sinks: bool
) -> tuple[HighPoint, ...]:
    """The high points of a spool in which air stays, from the highest mouth down.

    The crown is flooded downwards: where a high point without a vent meets a vented one, there is its mouth.

    Args:
        pieces [record]: the spool's pieces
        served [-]: numbers of the pieces with a vent or the inlet
        gas_sinks [bool]: whether air stays at the top
    Returns:
        [record] high points; none where each has a vent or the inlet

    Example:
        >>> from trainer.core.spool_parts import Cap, Run, Tee
        >>> from trainer.core.spool_pieces import spool_pieces
        >>> riser = Tee(name="tee", bore_m=0.1, run_length_m=0.2, outlet_m=0.1, outlet_slope_deg=90.0,
        ...     branch=(Run(name="riser", bore_m=0.1, length_m=0.4, slope_deg=90.0),))
        >>> pieces = spool_pieces([Run(name="one", bore_m=0.1, length_m=0.5), riser])
        >>> found = unvented_high_points(pieces, served=[0, 13], gas_sinks=True)
        >>> [pieces[high.top].part for high in found]
        ['riser']

    Reference: own definition; the merge tree of the crown's heights.
    """
    crown = [_crown_m(piece, gas_sinks) for piece in pieces]
    flood = _Flood(pieces, crown, set(served))
    order = sorted(range(len(pieces)), key=lambda number: -crown[number])
    first = 0
    while first < len(order):
        level_m, last = crown[order[first]] - _LEVEL_M, first
        while last < len(order) and crown[order[last]] >= level_m:
            last += 1
        flood.lower_to(order[first:last])
        first = last
    return tuple(flood.found)


def neighbours_of(pieces: Sequence[Piece]) -> tuple[tuple[int, ...], ...]:
    """Which pieces join on to each.

    Args:
        pieces [record]: the spool's pieces
    Returns:
        [-] numbers of the neighbours of each

    Example:
        >>> from trainer.core.spool_parts import Run
        >>> from trainer.core.spool_pieces import spool_pieces
        >>> neighbours_of(spool_pieces([Run(name="run", bore_m=0.1, length_m=0.15)]))
        ((1,), (0, 2), (1,))

    Reference: own definition.
    """
    return _neighbours(tuple(piece.before for piece in pieces))


@lru_cache(maxsize=16)
def _neighbours(before: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    joined: list[list[int]] = [[] for _ in before]
    for number, other in enumerate(before):
        if other >= 0:
            joined[number].append(other)
            joined[other].append(number)
    return tuple(tuple(sorted(each)) for each in joined)


def _crown_m(piece: Piece, gas_sinks: bool) -> float:
    half_m = piece.leaning_m / 2.0
    return piece.middle_m + half_m if gas_sinks else half_m - piece.middle_m


class _Flood:
    """Components of what lies above the level, as the level sinks."""

    def __init__(self, pieces: Sequence[Piece], crown: list[float], served: set[int]) -> None:
        self._pieces = pieces
        self._crown = crown
        self._served = served
        self._joined = neighbours_of(pieces)
        self._component: dict[int, set[int]] = {}
        self.found: list[HighPoint] = []

    def lower_to(self, plateau: Sequence[int]) -> None:
        """Add the pieces of one level, all at once."""
        left = set(plateau)
        while left:
            patch = self._patch(left.pop(), left)
            above = self._components_beside(patch)
            if any(not part.isdisjoint(self._served) for part in (patch, *above)):
                for component in above:
                    self._keep_if_dead(component)
            self._join(patch, above)

    def _join(self, patch: set[int], above: list[set[int]]) -> None:
        """The largest takes the others in, so that few pieces change hands."""
        whole, *others = sorted((patch, *above), key=len, reverse=True)
        for each in [patch, *others]:
            whole |= each
            for number in each:
                self._component[number] = whole

    def _patch(self, start: int, left: set[int]) -> set[int]:
        patch, edge = {start}, [start]
        while edge:
            for number in self._joined[edge.pop()]:
                if number in left:
                    left.remove(number)
                    patch.add(number)
                    edge.append(number)
        return patch

    def _components_beside(self, patch: set[int]) -> list[set[int]]:
        beside: list[set[int]] = []
        for number in sorted(patch):
            for other in self._joined[number]:
                component = self._component.get(other)
                if component is not None and all(component is not known for known in beside):
                    beside.append(component)
        return beside

    def _keep_if_dead(self, component: set[int]) -> None:
        if not component.isdisjoint(self._served):
            return
        self._served |= component  # found; nothing below finds it again
        mouths = tuple(sorted({other for number in component for other in self._joined[number]} - component))
        distance = self._distance_m(component, mouths)
        top = max(sorted(component), key=lambda number: (round(self._crown[number], 6), distance[number]))
        rise_m = self._crown[top] - max(self._crown[number] for number in mouths)
        if rise_m >= _LEAST_RISE_PER_BORE * self._pieces[top].bore_m:
            farthest_m = max(distance[n] + self._pieces[n].length_m / 2.0 for n in component)
            self.found.append(
                HighPoint(pieces=frozenset(component), mouths=mouths, top=top, length_m=farthest_m)
            )

    def _distance_m(self, component: set[int], mouths: Sequence[int]) -> dict[int, float]:
        """From the nearest mouth's face to the middle of each piece."""
        distance: dict[int, float] = {}
        queue = [
            (self._pieces[number].length_m / 2.0, number)
            for mouth in mouths
            for number in self._joined[mouth]
            if number in component
        ]
        heapq.heapify(queue)
        while queue:
            so_far, number = heapq.heappop(queue)
            if number in distance:
                continue
            distance[number] = so_far
            for other in self._joined[number]:
                if other in component and other not in distance:
                    step = (self._pieces[number].length_m + self._pieces[other].length_m) / 2.0
                    heapq.heappush(queue, (so_far + step, other))
        return distance
