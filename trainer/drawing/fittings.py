"""Inlet, vent and hose."""

from collections.abc import Sequence

from trainer.core.terms import InletEnd
from trainer.domain.set_up import Hose
from trainer.drawing.layout import Layout
from trainer.drawing.svg import PAPER, drawn, group, label, line, path

HOSE_UNITS = 9.0
HALF_A_HOSE = HOSE_UNITS / 2 + 1.0  # with the width of its line: no words lie so near its middle
VENT_LOW, VENT_HIGH = 7.0, 60.0
FOLD = ((-18.0, 0.0), (5.0, 16.0), (-5.0, -16.0), (18.0, 0.0))  # along and across the hose


def inlet_drawing(*, u: float, v: float, end: InletEnd | None, thick: float) -> str:
    """The tube through the left dam and what it ends in; u is the dam's inner face, v the inlet's height."""
    tube = _tube(u - thick - 10, u + 13, v)
    tip = u + 13
    if end is InletEnd.DIFFUSER:
        ending = _diffuser(tip, v)
    elif end is InletEnd.RAG:
        ending = _rag(tip, v)
    else:
        ending = path("line", "M", tip + 14, v, "l", 10, 0, "m", -4, -4, "l", 4, 4, "l", -4, 4)
    return group(ending, tube, data_part=f"inlet {end.value}" if end else "inlet", data_v=v)


def _tube(from_u: float, to_u: float, v: float) -> str:
    half = HOSE_UNITS / 2
    body = drawn("rect", "plain", x=from_u, y=v - half, width=to_u - from_u, height=HOSE_UNITS)
    return group(
        body, line("line", from_u, v - half, to_u, v - half), line("line", from_u, v + half, to_u, v + half)
    )


def _diffuser(u: float, v: float) -> str:
    """A porous plug: wide, blunt, full of holes, with gas leaving all round it."""
    holes = [
        drawn("circle", "solid", cx=u + 5 + 5.5 * i, cy=v - 5 + 5 * j, r=1.2)
        for i in range(4)
        for j in range(3)
    ]
    breath = [
        path("thin", "M", u + 6 + 8 * i, v + side * 12, "l", 0, side * 5)
        for i in range(3)
        for side in (-1, 1)
    ]
    return group(drawn("rect", "shape", x=u, y=v - 9, width=27, height=18, rx=7), *holes, *breath)


def _rag(u: float, v: float) -> str:
    """Cloth stuffed round the end of the tube."""
    return group(
        path(
            "shape",
            "M", u - 4, v - 8, "q", 8, -8, 14, -1, "q", 12, -5, 11, 5, "q", 8, 7, -3, 11, "q", -5, 8, -13, 3,
            "q", -12, 4, -10, -8, "Z",
        ),
        path("thin", "M", u + 2, v - 4, "q", 6, 4, 12, -1, "m", -10, 8, "q", 6, -5, 13, 1),
    )  # fmt: skip


def vent_diameter_units(layout: Layout, diameter_m: float | None, bore_m: float | None) -> float:
    """Drawn vent: in scale with the bore, between what can be seen and what fits the dam."""
    if diameter_m is None or not bore_m:
        return VENT_LOW + 3
    return min(max(layout.bore * diameter_m / bore_m, VENT_LOW), VENT_HIGH)


def vent_drawing(*, u: float, v: float, size: tuple[float, float]) -> str:
    """A hole through the right dam at v; size is its drawn diameter and the dam's thickness."""
    hole, thick = size
    half, last = hole / 2, u + thick + 8
    arrow = path("thin", "M", last + 2, v, "l", 14, 0, "m", -5, -4, "l", 5, 4, "l", -5, 4)
    return group(
        drawn("rect", "plain", x=u - 2, y=v - half, width=thick + 10, height=hole, data_part="hole"),
        line("line", u - 2, v - half, last, v - half),
        line("line", u - 2, v + half, last, v + half),
        arrow,
        data_part="vent",
        data_v=v,
    )


def unknown_hole(u: float, v: float) -> str:
    """A vent or inlet whose height is not known: drawn beside the pipe's end as a question."""
    return group(drawn("circle", "dashed", cx=u, cy=v, r=13), label("?", u, v + 8), data_part="not known")


def hose_corners(points: Sequence[tuple[float, float]], *, hose: Hose | None) -> list[tuple[float, float]]:
    """The points that a hose turns at, those of its fold among them."""
    return _folded(points) if _is_kinked(hose) else list(points)


def _is_kinked(hose: Hose | None) -> bool:
    return hose is not None and hose.open_frac is not None and hose.open_frac < 1.0


def hose_drawing(points: Sequence[tuple[float, float]], *, hose: Hose | None) -> str:
    """A hose through points on the sheet; folded sharply in its longest run when it is not fully open."""
    kinked = _is_kinked(hose)
    route = _with_fold(points) if kinked else _rounded(points)
    return group(
        path("line", *route, stroke_width=HOSE_UNITS, vector_effect="none", class_="d-hose"),
        path(
            "line",
            *route,
            stroke=PAPER,
            stroke_width=HOSE_UNITS - 3.4,
            vector_effect="none",
            class_="d-hose-inside",
        ),
        _pinch(points) if kinked else "",
        data_part="hose kinked" if kinked else "hose",
    )


def _rounded(points: Sequence[tuple[float, float]]) -> list[str | float]:
    """Straight runs joined by curves: the corner points are the curves' control points."""
    (x, y), *_ = points
    route: list[str | float] = ["M", x, y]
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        route += ["L", *_towards(corner, before), "Q", *corner, *_towards(corner, after)]
    return [*route, "L", *points[-1]]


def _towards(corner: tuple[float, float], other: tuple[float, float]) -> tuple[float, float]:
    dx, dy = other[0] - corner[0], other[1] - corner[1]
    length = max((dx * dx + dy * dy) ** 0.5, 1e-6)
    share = min(22.0, length / 2) / length
    return corner[0] + dx * share, corner[1] + dy * share


def _longest_run(points: Sequence[tuple[float, float]]) -> int:
    """Index of the run that a fold shows best in."""
    runs = list(zip(points, points[1:], strict=False))
    return max(
        range(len(runs)),
        key=lambda i: abs(runs[i][0][0] - runs[i][1][0]) + abs(runs[i][0][1] - runs[i][1][1]),
    )


def _fold(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The corners of a sharp zigzag across the longest run."""
    i = _longest_run(points)
    (x0, y0), (x1, y1) = points[i], points[i + 1]
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    length = max(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5, 1e-6)
    along, across = ((x1 - x0) / length, (y1 - y0) / length), (-(y1 - y0) / length, (x1 - x0) / length)
    return [(x + a * along[0] + c * across[0], y + a * along[1] + c * across[1]) for a, c in FOLD]


def _folded(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    i = _longest_run(points)
    return [*points[: i + 1], *_fold(points), *points[i + 1 :]]


def _with_fold(points: Sequence[tuple[float, float]]) -> list[str | float]:
    corners = _folded(points)
    route: list[str | float] = ["M", *corners[0]]
    for corner in corners[1:]:
        route += ["L", *corner]
    return route


def _pinch(points: Sequence[tuple[float, float]]) -> str:
    """Creases at the two corners of the fold, where the hose is flat."""
    creases = [
        path("line", "M", x - 6, y - 6, "L", x + 6, y + 6, "M", x - 6, y + 6, "L", x + 6, y - 6)
        for x, y in _fold(points)[1:3]
    ]
    return group(*creases, data_part="kink")
