"""Finds room for words: the first of several places where they lie on no other words and on the sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise
from math import ceil, cos, dist, inf, pi, sin

from trainer.drawing.svg import label
from trainer.drawing.text_width import text_box

Box = tuple[float, float, float, float]
Point = tuple[float, float]
_AROUND = 12  # directions that are tried at each distance
_RINGS = 16
_RING_UNITS = 26.0
_OFF_SHEET = 100.0  # how much worse a unit off the sheet is than one square unit over other words


@dataclass(frozen=True)
class Place:
    """Where a line of words begins, or has its middle or its end, on its baseline."""

    x: float
    y: float
    anchor: str = "middle"


class FreePlaces:
    """The sheet's free room, which becomes less with everything that is placed on it."""

    def __init__(self, sheet: Box, taken: Sequence[Box] = ()) -> None:
        self._sheet = sheet
        self._taken = list(taken)
        self._metal: list[Box] = []

    def place(self, words: str, wished: Sequence[Place]) -> Place:
        """The first wished place that is free, or the nearest around the first one; takes it."""
        least, found = inf, wished[0]
        for each in chain(wished, _around(wished[0])):
            covered = self._covered(words, each, self._metal)
            if covered < least:
                least, found = covered, each
            if covered == 0.0:
                break
        self._take(words, found)
        return found

    def place_on_metal(self, words: str, wished: Sequence[Place]) -> Place | None:
        """The first wished place where nothing but a pipe lies; takes it. None where there is none."""
        found = next((each for each in wished if self._covered(words, each, ()) == 0.0), None)
        if found is not None:
            self._take(words, found)
        return found

    def _take(self, words: str, place: Place) -> None:
        self._taken.append(text_box(words, place.x, place.y, anchor=place.anchor))

    def write(self, words: str, *wished: Place) -> str:
        """The words where they have room; nothing where there are none."""
        if not words:
            return ""
        found = self.place(words, wished)
        return label(words, found.x, found.y, anchor=found.anchor)

    def block(self, left: float, top: float, right: float, bottom: float) -> None:
        """Keeps words off a part of the sheet."""
        self._taken.append((left, top, right, bottom))

    def block_along(self, points: Sequence[tuple[float, float]], *, half: float) -> None:
        """Keeps words off runs from point to point, level or upright, that are twice half as wide."""
        for (x1, y1), (x2, y2) in pairwise(points):
            self.block(min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half)

    def lay_metal(self, begins: Point, ends: Point, *, half: float) -> None:
        """Keeps words off a piece of pipe that is twice half as thick."""
        steps = 1 if begins[0] == ends[0] or begins[1] == ends[1] else max(1, ceil(dist(begins, ends) / half))
        way = [_between(begins, ends, step / steps) for step in range(steps + 1)]
        for (x1, y1), (x2, y2) in pairwise(way):
            across, down = (half, 0.0) if begins[0] == ends[0] else (0.0, half)
            self._metal.append(
                (min(x1, x2) - across, min(y1, y2) - down, max(x1, x2) + across, max(y1, y2) + down)
            )

    def _covered(self, words: str, place: Place, metal: Sequence[Box]) -> float:
        """By how much words there would lie on others or off the sheet, 0 where they are free."""
        box = text_box(words, place.x, place.y, anchor=place.anchor)
        left, top, right, bottom = self._sheet
        off = sum(max(0.0, each) for each in (left - box[0], top - box[1], box[2] - right, box[3] - bottom))
        return sum(_overlap(box, each) for each in (*self._taken, *metal)) + _OFF_SHEET * off


def _between(begins: Point, ends: Point, frac: float) -> Point:
    return begins[0] + frac * (ends[0] - begins[0]), begins[1] + frac * (ends[1] - begins[1])


def _overlap(one: Box, other: Box) -> float:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return max(0.0, across) * max(0.0, down)


def _around(place: Place) -> Iterator[Place]:
    for ring in range(1, _RINGS + 1):
        for turn in range(_AROUND):
            angle = 2.0 * pi * turn / _AROUND
            reach = ring * _RING_UNITS
            yield Place(place.x + reach * cos(angle), place.y - reach * sin(angle), place.anchor)
