"""The pipe in section: cut walls, joint with gap and tape, break lines where the length leaves its scale."""

from trainer.domain.set_up import Joint
from trainer.drawing.layout import BREAK_AT_M, Layout
from trainer.drawing.svg import PAPER, STEEL_5, drawn, group, line, path, tag

LARGEST_GAP_M = 0.02
TAPE_UNITS = 5.0


def hatch_patterns(prefix: str) -> str:
    """Hatching for cut metal, the other way on the other side of the joint; stipple for foam.

    They are told apart in print without colour.
    """
    metals = [_hatching(f"{prefix}-{name}", turn) for name, turn in (("metal", 45), ("metal-right", -45))]
    dots = ((2, 2, 1.3), (7, 4, 1.0), (4, 7.5, 1.5), (9, 9, 1.1))
    foam = tag(
        "pattern",
        tag("rect", width=11, height=11, fill=PAPER, class_="d-plain"),
        *(tag("circle", cx=x, cy=y, r=r, fill=STEEL_5, class_="d-stipple") for x, y, r in dots),
        id=f"{prefix}-foam",
        width=11,
        height=11,
        patternUnits="userSpaceOnUse",
    )
    return tag("defs", *metals, foam)


def _hatching(name: str, turn: int) -> str:
    return tag(
        "pattern",
        tag("rect", width=7, height=7, fill=PAPER, class_="d-plain"),
        tag("path", d="M 0 0 L 0 7", stroke=STEEL_5, stroke_width=2.4, class_="d-hatching"),
        id=name,
        width=7,
        height=7,
        patternUnits="userSpaceOnUse",
        patternTransform=f"rotate({turn})",
    )


def gap_units(joint: Joint | None) -> float:
    """Drawn root gap: wide enough to be seen, wider for a wider gap, none where the ends touch."""
    if joint is None or joint.gap_m is None:
        return 4.0
    return 4.0 + 12.0 * min(joint.gap_m / LARGEST_GAP_M, 1.0) if joint.gap_m else 0.0


def walls(layout: Layout, *, joint: Joint | None, prefix: str) -> str:
    """Both walls, cut at the joint with bevelled ends; square where they touch."""
    gap = gap_units(joint) / 2
    inner, outer, end = layout.bore / 2, layout.outer / 2, layout.half_length
    bevel = layout.wall * 0.55 if gap else 0.0
    pieces = []
    for side in (-1, 1):
        for edge in (-1, 1):
            pieces.append(
                path(
                    "wall",
                    "M", side * end, edge * outer,
                    "L", side * (gap + bevel), edge * outer,
                    "L", side * gap, edge * inner,
                    "L", side * end, edge * inner,
                    fill=f"url(#{prefix}-metal{'-right' if side > 0 else ''})",
                    data_part="wall",
                )
            )  # fmt: skip
    return group(*pieces, *(_end_break(layout, side) for side in (-1, 1)))


def _end_break(layout: Layout, side: int) -> str:
    """The pipe goes on: a wavy line across its end."""
    u, half = side * layout.half_length, layout.outer / 2 + 7
    return path(
        "broken", "M", u, -half, "C", u + 9, -half / 3, u - 9, half / 3, u, half, data_part="pipe goes on"
    )  # fmt: skip


def scale_breaks(layout: Layout) -> str:
    """A pair of zigzags on either side of the joint where the length stops being in scale."""
    if not layout.broken:
        return ""
    return group(*(_scale_break(layout, side * layout.along.place(BREAK_AT_M)) for side in (-1, 1)))


def _scale_break(layout: Layout, u: float) -> str:
    half = layout.outer / 2 + 9
    gap = 5.0

    def zigzag(at: float) -> tuple[str | float, ...]:
        return ("L", at, -9.0, "L", at + 7, -3.0, "L", at - 7, 3.0, "L", at, 9.0, "L", at, half)

    strip = drawn("rect", "plain", x=u - gap, y=-layout.outer / 2 - 3, width=2 * gap, height=layout.outer + 6)
    lines = [path("thin", "M", at, -half, *zigzag(at)) for at in (u - gap, u + gap)]
    return group(strip, *lines, data_part="length broken")


def tape(layout: Layout, joint: Joint | None) -> str:
    """Tape over the gap: round the whole joint, or as far as it goes."""
    if joint is None or not joint.taped_frac:
        return ""
    half, outer = gap_units(joint) / 2 + layout.wall * 0.55 + 12, layout.outer / 2
    edges = (-1, 1) if joint.taped_frac >= 1.0 else (1,)
    strips = [
        drawn(
            "rect", "steel", x=-half, y=edge * outer - (TAPE_UNITS if edge < 0 else 0), width=2 * half,
            height=TAPE_UNITS, data_part="tape",
        )
        for edge in edges
    ]  # fmt: skip
    return group(*strips)


def centre_line(layout: Layout) -> str:
    """The axis, dash-dotted as on every sheet."""
    end = layout.half_length + 14
    return path("dim", "M", -end, 0, "L", end, 0, stroke_dasharray="16 4 3 4", data_part="axis")


def distance_lines(layout: Layout, u: float, v: float) -> str:
    """A dimension line along the axis from the joint to u, at v, with its two extension lines."""
    tip = 9.0 if u > 0 else -9.0
    side = 1 if v > 0 else -1
    wall = side * (layout.outer / 2 + 4)
    return group(
        line("dim", 0, wall, 0, v + side * 6),
        line("dim", u, wall, u, v + side * 6),
        line("dim", 0, v, u, v),
        path("dim", "M", tip, v - 4, "L", 0, v, "L", tip, v + 4),
        path("dim", "M", u - tip, v - 4, "L", u, v, "L", u - tip, v + 4),
        data_part="distance",
    )
