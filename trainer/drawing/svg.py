"""SVG text from plain function calls: escaped, with short numbers and the pens that the style sheet knows.

Each pen sets plain attributes and a class: the attributes make a drawing that stands alone (print, a file),
the class lets the style sheet follow the reader's theme. No style attribute is ever written, because the
site's content security policy refuses it.
"""

from collections.abc import Mapping
from html import escape

INK, PAPER = "#14191d", "#ffffff"
STEEL_2, STEEL_4, STEEL_5 = "#dde2e5", "#727e87", "#515d66"
DANGER, ASK = "#a3131b", "#0a6338"

TEXT_SIZE = 22  # for a drawing that stands alone; the style sheet sets what suits the screen

Attribute = str | float | int | None

_STEADY = {"vector-effect": "non-scaling-stroke"}


def _stroke(colour: str, width: float, **more: str) -> dict[str, str]:
    joined = {"stroke-linejoin": "round", "stroke-linecap": "round"}
    hyphened = {key.replace("_", "-"): value for key, value in more.items()}
    return {"fill": "none", "stroke": colour, "stroke-width": f"{width:g}", **_STEADY, **joined, **hyphened}


PENS: Mapping[str, Mapping[str, str]] = {
    "line": _stroke(INK, 2),
    "thin": _stroke(INK, 1),
    "wall": _stroke(INK, 3),
    "dim": _stroke(STEEL_5, 1),
    "broken": _stroke(INK, 1.5),
    "earth": _stroke(STEEL_5, 2),
    "dashed": _stroke(STEEL_5, 1.5, stroke_dasharray="5 4"),
    "shape": {**_stroke(INK, 2), "fill": PAPER},
    "steel": {**_stroke(INK, 2), "fill": STEEL_2},
    "plain": {"fill": PAPER, "stroke": "none"},
    "solid": {"fill": INK, "stroke": "none"},
    "metal": {"stroke": "none"},
    "air": {"fill": STEEL_2, "stroke": "none"},
    "handle": {**_stroke(ASK, 2), "fill": PAPER},
    "handle-line": _stroke(ASK, 2),
    "number": {**_stroke(INK, 1), "fill": PAPER},
    "badge": _stroke(INK, 1),
    "hit": {"fill": "transparent", "stroke": "none"},
    "target": _stroke(DANGER, 2, stroke_dasharray="9 4"),
    "grid": _stroke(STEEL_2, 1),
    "mean": _stroke(INK, 1.5, stroke_dasharray="10 5"),
    "vent": _stroke(INK, 1.5, stroke_dasharray="2 5"),
    "moment": _stroke(INK, 2.5),
    "root-edge": _stroke(INK, 6.5),
    "bead": {**_stroke(INK, 1.5), "fill": "#e9e7e4"},
    "grain": {**_stroke("#55575a", 1), "fill": "#1b1b1d"},
    "film-edge": _stroke(STEEL_4, 1),
}


def number(value: float) -> str:
    """A coordinate with one decimal at the most: a tenth is less than a pixel and tells nothing."""
    short = f"{value:.1f}"
    short = short.removesuffix(".0")
    return "0" if short == "-0" else short


def tag(name: str, *children: str, **attributes: Attribute) -> str:
    """An element; `stroke_width=2` becomes stroke-width, `class_` class, and what is None is left out."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_value(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    inside = "".join(children)
    return f"<{name}{written}>{inside}</{name}>" if inside else f"<{name}{written}/>"


def drawn(name: str, pen: str, *children: str, **attributes: Attribute) -> str:
    """An element drawn with one of the pens; attributes given here win over the pen's."""
    with_pen: dict[str, Attribute] = {"class": f"d-{pen}"}
    with_pen.update(PENS[pen])
    for key, value in attributes.items():
        with_pen[key.rstrip("_").replace("_", "-")] = value
    return tag(name, *children, **with_pen)


def path(pen: str, *commands: str | float, **attributes: Attribute) -> str:
    """A path from letters and numbers: ``path("line", "M", 0, 0, "L", 10, 5)``."""
    data = " ".join(each if isinstance(each, str) else number(each) for each in commands)
    return drawn("path", pen, d=data, **attributes)


def line(pen: str, x1: float, y1: float, x2: float, y2: float) -> str:
    """A straight line."""
    return drawn("line", pen, x1=x1, y1=y1, x2=x2, y2=y2)


def label(words: str, x: float, y: float, *, anchor: str = "middle", pen: str = "text") -> str:
    """A word or figure that belongs to the drawing, its baseline at y; a rim of paper sets it off."""
    return tag(
        "text",
        escape(words),
        class_=f"d-{pen}",
        x=x,
        y=y,
        fill=INK,
        stroke=PAPER,
        stroke_width=4,
        paint_order="stroke",
        font_size=TEXT_SIZE,
        font_family="system-ui, sans-serif",
        text_anchor=anchor,
    )


def group(*children: str, **attributes: Attribute) -> str:
    """A group."""
    return tag("g", *children, **attributes)


def picture(  # noqa: PLR0913 - each is one attribute of the outermost element
    *children: str, size: tuple[float, float], name: str, told: str, prefix: str, top: float = 0.0
) -> str:
    """The outermost element, named and told in words for those who do not see it; `top` is its least y."""
    width, height = size
    return tag(
        "svg",
        tag("title", escape(name), id=f"{prefix}-title"),
        tag("desc", escape(told), id=f"{prefix}-desc"),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 {number(top)} {number(width)} {number(height)}",
        role="group",
        aria_labelledby=f"{prefix}-title",
        aria_describedby=f"{prefix}-desc",
        class_="d-picture",
    )


def _value(value: str | float) -> str:
    return escape(value) if isinstance(value, str) else number(value)
