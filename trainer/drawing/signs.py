"""Things in the scene that may or may not be a hazard, each drawn in a cell of its own with its number.

The places that the scenario gave them are taken up in the order of the numbers, and spread over the width
of the sheet, so that each cell is as large as a finger on a phone and touches no other.

A sign says what a thing is, never whether it hurts: hazards and innocent things are drawn with the same pens,
in the order given, and nothing but the mark that the person sets tells them apart.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.domain.errors import Missing
from trainer.domain.scenario import SceneObject
from trainer.drawing.asked import Asked
from trainer.drawing.layout import SHEET
from trainer.drawing.reader import Reader
from trainer.drawing.sign_cold import COLD_SIGNS
from trainer.drawing.sign_fire import FIRE_SIGNS
from trainer.drawing.sign_gas import GAS_SIGNS
from trainer.drawing.sign_people import PEOPLE_SIGNS
from trainer.drawing.sign_pipe import PIPE_SIGNS
from trainer.drawing.svg import DANGER, INK, PAPER, TEXT_SIZE, drawn, group, line, tag

SHAPES: Mapping[str, str] = {**COLD_SIGNS, **FIRE_SIGNS, **GAS_SIGNS, **PEOPLE_SIGNS, **PIPE_SIGNS}
At = tuple[float, float]

SHEET_WIDTH = SHEET[0]
SIDE = 100.0  # shapes are drawn in a square of this side
CELL = 112.0  # a phone 360 px wide draws the sheet at 0.4: a finger's 44 px are as wide as this
CELLS_ACROSS = 7  # as many as a row holds at that size
LARGER = 1.4  # by how much boxes are drawn larger, so that what they hold can be told apart there
FRAME_MARGIN = 5.0
STRIP_MARGIN = 12.0
BADGE_HEIGHT, DIGIT_WIDTH = 27.0, 17.0


@dataclass(frozen=True, kw_only=True)
class Strip:
    """The part of the picture where the things to be marked stand; the set-up is drawn above it."""

    top: float
    cells: tuple[At, ...]  # the middle of each thing's cell, in the order of their numbers
    pitch: float  # from one cell to the next in a row

    @property
    def bottom(self) -> float:
        """Where it ends."""
        return max(y for _, y in self.cells) + CELL / 2 + STRIP_MARGIN


def strip_of(objects: Sequence[SceneObject]) -> Strip | None:
    """The strip that holds a cell for each; None without any."""
    if not objects:
        return None
    rows, columns = (sorted({each.box[way] for each in objects}) for way in (1, 0))
    top, pitch = rows[0] - STRIP_MARGIN, SHEET_WIDTH / max(len(columns), CELLS_ACROSS)
    left = (SHEET_WIDTH - pitch * len(columns)) / 2
    places = sorted((rows.index(each.box[1]), columns.index(each.box[0])) for each in objects)
    cells = tuple(
        (left + (column + 0.5) * pitch, top + STRIP_MARGIN + (row + 0.5) * CELL) for row, column in places
    )
    return Strip(top=top, cells=cells, pitch=pitch)


def signs_drawing(asked: Asked, *, reader: Reader) -> str:
    """All scene objects, each a thing that can be marked, under a rule that parts them from the set-up."""
    strip = strip_of(asked.objects)
    if strip is None:
        return ""
    numbered = enumerate(zip(asked.objects, strip.cells, strict=True), start=1)
    return group(
        line("dim", 0.0, strip.top, SHEET_WIDTH, strip.top),
        *(
            _sign(thing, order, cell=cell, pitch=strip.pitch, asked=asked, reader=reader)
            for order, (thing, cell) in numbered
        ),
        data_part="signs",
    )


def _sign(  # noqa: PLR0913 - a thing, its number and cell, of what is asked, read by somebody
    thing: SceneObject, order: int, *, cell: At, pitch: float, asked: Asked, reader: Reader
) -> str:
    _, _, box_width, box_height = thing.box
    larger = min(LARGER, (pitch - 2 * FRAME_MARGIN) / box_width, (CELL - 2 * FRAME_MARGIN) / box_height)
    width, height = box_width * larger, box_height * larger
    x, y = cell[0] - width / 2, cell[1] - height / 2
    side = min(width, height)
    # the shape keeps to the lower right, the number has the upper left corner
    placed = f"translate({x + width - side:.1f} {y + height - side:.1f}) scale({side / SIDE:.4f})"
    frame = {"x": x, "y": y, "width": width, "height": height}
    is_marked = thing.id in asked.marked
    return group(
        drawn("rect", "hit", x=cell[0] - pitch / 2, y=cell[1] - CELL / 2, width=pitch, height=CELL),
        drawn("rect", "number", **frame),
        group(_shape(thing.sign), transform=placed),
        tag("rect", class_="d-mark", fill="none", stroke=DANGER, stroke_width=4 if is_marked else 0, **frame),
        _badge(order, x, y, is_marked=is_marked),
        class_="d-sign",
        role="checkbox",
        tabindex=0,
        aria_checked="true" if is_marked else "false",
        aria_label=f"{order}. {reader.words(thing.text)}",
        data_hazard=thing.id,
        data_sign=thing.sign,
    )


def _badge(order: int, x: float, y: float, *, is_marked: bool) -> str:
    """The number of the thing: in an open ring until it is marked, in a solid mark after that."""
    width = BADGE_HEIGHT + DIGIT_WIDTH * (len(str(order)) - 1)
    ring = drawn(
        "rect", "badge", x=x - 3, y=y - 3, width=width, height=BADGE_HEIGHT, rx=BADGE_HEIGHT / 2,
        fill=DANGER if is_marked else PAPER,
    )  # fmt: skip
    figure = tag(
        "text", str(order), class_="d-badge-figure", x=x - 3 + width / 2, y=y + 19, text_anchor="middle",
        fill=PAPER if is_marked else INK, font_size=TEXT_SIZE, font_family="system-ui, sans-serif",
    )  # fmt: skip
    return group(ring, figure, data_part=f"mark {order}" if is_marked else f"number {order}")


def _shape(sign: str) -> str:
    if sign not in SHAPES:
        raise Missing("drawn sign", sign)
    return SHAPES[sign]
