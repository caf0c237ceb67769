"""Things in the scene that may or may not be a hazard, each drawn in its box and numbered as in the list.

A sign says what a thing is, never whether it hurts: hazards and innocent things are drawn with the same pens,
in the order given, and nothing but the mark that the person sets tells them apart.
"""

from collections.abc import Mapping

from trainer.domain.errors import Missing
from trainer.domain.scenario import SceneObject
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader
from trainer.drawing.sign_cold import COLD_SIGNS
from trainer.drawing.sign_fire import FIRE_SIGNS
from trainer.drawing.sign_gas import GAS_SIGNS
from trainer.drawing.sign_people import PEOPLE_SIGNS
from trainer.drawing.sign_pipe import PIPE_SIGNS
from trainer.drawing.svg import drawn, group, label, tag

SHAPES: Mapping[str, str] = {**COLD_SIGNS, **FIRE_SIGNS, **GAS_SIGNS, **PEOPLE_SIGNS, **PIPE_SIGNS}
SIDE = 100.0  # shapes are drawn in a square of this side
HIT_SIDE = 66.0


def known_signs() -> tuple[str, ...]:
    """The keys that scene objects may use."""
    return tuple(sorted(SHAPES))


def signs_drawing(asked: Asked, *, reader: Reader) -> str:
    """All scene objects, each a thing that can be marked."""
    return group(*(_sign(each, i, asked, reader) for i, each in enumerate(asked.objects, start=1)))


def _sign(thing: SceneObject, order: int, asked: Asked, reader: Reader) -> str:
    x, y, width, height = thing.box
    side = min(width, height)
    placed = f"translate({x + (width - side) / 2:.1f} {y + height - side:.1f}) scale({side / SIDE:.4f})"
    hit_w, hit_h = max(width, HIT_SIDE), max(height, HIT_SIDE)
    hit = {"x": x + (width - hit_w) / 2, "y": y + (height - hit_h) / 2, "width": hit_w, "height": hit_h}
    is_marked = thing.id in asked.marked
    return group(
        drawn("rect", "hit", **hit),
        drawn("rect", "number", x=x, y=y, width=width, height=height),
        group(_shape(thing.sign), transform=placed),
        _number(order, x, y),
        tag(
            "rect", class_="d-mark", fill="none", stroke="#a3131b", stroke_width=3 if is_marked else 0, **hit
        ),
        class_="d-sign",
        role="checkbox",
        tabindex=0,
        aria_checked="true" if is_marked else "false",
        aria_label=f"{order}. {reader.words(thing.text)}",
        data_hazard=thing.id,
        data_sign=thing.sign,
    )


def _number(order: int, x: float, y: float) -> str:
    """The number in the corner, inside the frame: outside it would lie on the neighbour or on a dimension."""
    inset = 11
    return group(
        drawn("circle", "number", cx=x + inset, cy=y + inset, r=inset),
        label(str(order), x + inset, y + inset + 6, pen="small"),
    )


def _shape(sign: str) -> str:
    if sign not in SHAPES:
        raise Missing("drawn sign", sign)
    return SHAPES[sign]
