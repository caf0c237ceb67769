"""Things in the scene that may or may not be a hazard, each drawn in its box and numbered as in the list.

A sign says what a thing is, never whether it hurts: hazards and innocent things are drawn with the same pens,
in the order given, and nothing but the mark that the person sets tells them apart.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.domain.errors import Missing
from trainer.domain.scenario import SceneObject
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader
from trainer.drawing.sign_cold import COLD_SIGNS
from trainer.drawing.sign_fire import FIRE_SIGNS
from trainer.drawing.sign_gas import GAS_SIGNS
from trainer.drawing.sign_people import PEOPLE_SIGNS
from trainer.drawing.sign_pipe import PIPE_SIGNS
from trainer.drawing.svg import DANGER, INK, PAPER, TEXT_SIZE, drawn, group, line, tag

SHAPES: Mapping[str, str] = {**COLD_SIGNS, **FIRE_SIGNS, **GAS_SIGNS, **PEOPLE_SIGNS, **PIPE_SIGNS}
SIDE = 100.0  # shapes are drawn in a square of this side
HIT_SIDE = 66.0
STRIP_MARGIN = 12.0
BADGE_HEIGHT, DIGIT_WIDTH = 27.0, 17.0


@dataclass(frozen=True, kw_only=True)
class Strip:
    """The part of the picture where the things to be marked stand; the set-up is drawn above it."""

    top: float
    bottom: float


def strip_of(objects: Sequence[SceneObject]) -> Strip | None:
    """The strip that holds every box; None without any."""
    if not objects:
        return None
    return Strip(
        top=min(each.box[1] for each in objects) - STRIP_MARGIN,
        bottom=max(each.box[1] + max(each.box[3], HIT_SIDE) for each in objects) + STRIP_MARGIN,
    )


def signs_drawing(asked: Asked, *, reader: Reader) -> str:
    """All scene objects, each a thing that can be marked, under a rule that parts them from the set-up."""
    strip = strip_of(asked.objects)
    if strip is None:
        return ""
    return group(
        line("dim", 0.0, strip.top, 800.0, strip.top),
        *(_sign(each, i, asked, reader) for i, each in enumerate(asked.objects, start=1)),
        data_part="signs",
    )


def _sign(thing: SceneObject, order: int, asked: Asked, reader: Reader) -> str:
    x, y, width, height = thing.box
    side = min(width, height)
    # the shape keeps to the lower right, the number has the upper left corner
    placed = f"translate({x + width - side:.1f} {y + height - side:.1f}) scale({side / SIDE:.4f})"
    hit_w, hit_h = max(width, HIT_SIDE), max(height, HIT_SIDE)
    hit = {"x": x + (width - hit_w) / 2, "y": y, "width": hit_w, "height": hit_h}
    frame = {"x": x, "y": y, "width": width, "height": height}
    is_marked = thing.id in asked.marked
    return group(
        drawn("rect", "hit", **hit),
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
