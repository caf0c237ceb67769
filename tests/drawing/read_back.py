"""Reads a drawing back: where its shapes and words stand on the sheet, from the SVG alone.

Transforms are followed; words are as wide as the font's own advance widths make them at the largest type that the
style sheet sets, which a test in a real browser holds against what the browser measures.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, hypot, radians, sin
from xml.etree.ElementTree import Element

from trainer.drawing.text_width import text_box

SVG = "{http://www.w3.org/2000/svg}"
Matrix = tuple[float, float, float, float, float, float]
At = tuple[float, float]
SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
_TURN = re.compile(r"(translate|rotate|scale)\(([^)]*)\)")
_COMMAND = re.compile(r"([MLHVCQTAZmlhvcqtaz])([^MLHVCQTAZmlhvcqtaz]*)")
_NUMBER = re.compile(r"-?\d+\.?\d*")


@dataclass(frozen=True)
class Placed:
    """An element with the way from its own coordinates to the sheet."""

    element: Element
    matrix: Matrix

    @property
    def part(self) -> str:
        return self.element.get("data-part") or ""

    def number(self, name: str) -> float:
        return float(self.element.get(name, "0"))

    def on_sheet(self, x: float, y: float) -> At:
        a, b, c, d, e, f = self.matrix
        return a * x + c * y + e, b * x + d * y + f


@dataclass(frozen=True)
class Box:
    """Something on the sheet: left, top, right, bottom, and what it is."""

    left: float
    top: float
    right: float
    bottom: float
    what: str

    def overlap(self, other: "Box") -> float:
        """By how much two boxes lie on each other, the lesser of both ways; 0 where they do not."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return max(0.0, min(across, down))


def walked(element: Element, matrix: Matrix = SAME) -> Iterator[Placed]:
    """The element and all within, each with its place on the sheet."""
    matrix = _times(matrix, _read(element.get("transform")))
    yield Placed(element, matrix)
    for child in element:
        yield from walked(child, matrix)


def within(picture: Element, part: str) -> list[Placed]:
    """All elements of the parts whose name begins so, in the sheet's coordinates."""
    return [inner for each in walked(picture) if each.part.startswith(part) for inner in walked_from(each)]


def walked_from(placed: Placed) -> Iterator[Placed]:
    yield placed
    for child in placed.element:
        yield from walked(child, placed.matrix)


def words_on(picture: Element) -> list[Box]:
    """Every line of words but those that a sign or a ring holds as part of its own picture."""
    found = []
    for each in walked(picture):
        if each.element.tag != f"{SVG}text" or "d-badge" in (each.element.get("class") or ""):
            continue
        said = each.element.text or ""
        x, y = each.on_sheet(each.number("x"), each.number("y"))
        found.append(Box(*text_box(said, x, y, anchor=each.element.get("text-anchor", "middle")), said))
    return found


def signs_on(picture: Element) -> list[Box]:
    """The frames of all things to be marked."""
    return [
        Box(
            x, y, x + each.number("width"), y + each.number("height"), f"sign {sign.element.get('data-sign')}"
        )
        for sign in walked(picture)
        if sign.element.get("data-sign")
        for each in walked_from(sign)
        if each.element.get("class") == "d-number"
        for x, y in [each.on_sheet(each.number("x"), each.number("y"))]
    ]


def rings_on(picture: Element) -> list[tuple[At, float]]:
    """Middle and radius of every grip's ring."""
    return [
        (each.on_sheet(each.number("cx"), each.number("cy")), each.number("r"))
        for each in walked(picture)
        if each.element.get("class") == "d-handle"
    ]


def hoses_on(picture: Element, part: str) -> list[list[At]]:
    """The points that every hose of a part passes, one run of points for each."""
    return [
        [each.on_sheet(*corner) for corner in corners_of(each)]
        for each in within(picture, part)
        if each.element.get("class") == "d-hose" and each.element.tag == f"{SVG}path"
    ]


def box_of(picture: Element, part: str) -> Box | None:
    """What the shapes of a part cover, its words left out; None where nothing is drawn of it."""
    points: list[At] = []
    for each in within(picture, part):
        points += [each.on_sheet(*corner) for corner in corners_of(each)]
        if each.element.tag == f"{SVG}circle":
            x, y, r = each.number("cx"), each.number("cy"), each.number("r")
            points += [each.on_sheet(x - r, y - r), each.on_sheet(x + r, y + r)]
    if not points:
        return None
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs), min(ys), max(xs), max(ys), part)


def corners_of(placed: Placed) -> list[At]:
    """The points that a shape's outline passes through, in its own coordinates; control points left out."""
    tag = placed.element.tag.removeprefix(SVG)
    if tag == "rect":
        x, y = placed.number("x"), placed.number("y")
        right, bottom = x + placed.number("width"), y + placed.number("height")
        return [(x, y), (right, bottom)]
    if tag == "line":
        return [(placed.number("x1"), placed.number("y1")), (placed.number("x2"), placed.number("y2"))]
    return _passed(placed.element.get("d", "")) if tag == "path" else []


def frame_of(picture: Element) -> Box:
    left, top, width, height = (float(each) for each in picture.get("viewBox", "").split())
    return Box(left, top, left + width, top + height, "sheet")


def apart(one: tuple[At, float], other: tuple[At, float]) -> float:
    """Room between two rings."""
    (x1, y1), r1 = one
    (x2, y2), r2 = other
    return hypot(x1 - x2, y1 - y2) - r1 - r2


def _passed(data: str) -> list[At]:
    points: list[At] = []
    x = y = 0.0
    for letter, rest in _COMMAND.findall(data):
        numbers = [float(each) for each in _NUMBER.findall(rest)]
        size = {"M": 2, "L": 2, "Q": 4, "C": 6, "T": 2, "A": 7}.get(letter.upper(), 0)
        for i in range(0, len(numbers) if size else 0, size or 1):
            to_x, to_y = numbers[i + size - 2 : i + size]
            x, y = (x + to_x, y + to_y) if letter.islower() else (to_x, to_y)
            points.append((x, y))
    return points


def _read(transform: str | None) -> Matrix:
    matrix = SAME
    for name, numbers in _TURN.findall(transform or ""):
        matrix = _times(matrix, _one(name, [float(each) for each in re.split(r"[ ,]+", numbers.strip())]))
    return matrix


def _one(name: str, numbers: list[float]) -> Matrix:
    if name == "translate":
        return (1.0, 0.0, 0.0, 1.0, numbers[0], numbers[1] if len(numbers) > 1 else 0.0)
    if name == "scale":
        return (numbers[0], 0.0, 0.0, numbers[-1], 0.0, 0.0)
    angle = radians(numbers[0])
    turned = (cos(angle), sin(angle), -sin(angle), cos(angle), 0.0, 0.0)
    if len(numbers) == 1:
        return turned
    x, y = numbers[1:]
    return _times(_times((1.0, 0.0, 0.0, 1.0, x, y), turned), (1.0, 0.0, 0.0, 1.0, -x, -y))


def _times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f,
    )  # fmt: skip
