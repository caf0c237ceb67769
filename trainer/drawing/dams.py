"""Dams, drawn by what they are made of: stippled foam, a solid plate, paper, an inflated ring, tape."""

from collections.abc import Callable

from trainer.domain.set_up import Dam, DamAge, DamKind
from trainer.drawing.layout import Layout
from trainer.drawing.svg import drawn, group, path

Drawer = Callable[[Layout, float, float, str], str]

_USUAL_UNITS = {
    DamKind.FOAM: 30.0,
    DamKind.METAL_PLATE: 9.0,
    DamKind.SOLUBLE_PAPER: 5.0,
    DamKind.INFLATABLE: 34.0,
    DamKind.TAPE: 5.0,
}


def thickness_units(dam: Dam | None) -> float:
    """Drawn thickness; foam follows what the set-up says, between thin and as thick as fits."""
    kind = dam.kind if dam and dam.kind else DamKind.METAL_PLATE
    if kind is DamKind.FOAM and dam is not None and dam.thickness_m is not None:
        return min(max(dam.thickness_m * 300.0, 16.0), 42.0)
    return _USUAL_UNITS[kind]


def dam_drawing(layout: Layout, *, dam: Dam | None, u: float, prefix: str) -> str:
    """A dam whose inner face stands at u."""
    side = 1 if u > 0 else -1
    kind = dam.kind if dam and dam.kind else DamKind.METAL_PLATE
    drawing = _DRAWERS[kind](layout, u, side * thickness_units(dam), prefix)
    worn = dam is not None and dam.age is DamAge.OLD and kind is DamKind.FOAM
    crumbs = _crumbs(layout, u, side) if worn else ""
    return group(drawing, crumbs, data_part=f"dam {kind.value}", data_worn="yes" if worn else None)


def _foam(layout: Layout, u: float, thick: float, prefix: str) -> str:
    half = layout.bore / 2
    bulge = thick * 0.18
    return path(
        "line",
        "M", u, -half, "Q", u - bulge, 0, u, half,
        "L", u + thick, half, "Q", u + thick + bulge, 0, u + thick, -half, "Z",
        fill=f"url(#{prefix}-foam)",
    )  # fmt: skip


def _crumbs(layout: Layout, u: float, side: float) -> str:
    """Old foam: bites out of its edge, and crumbs that lie before it."""
    half = layout.bore / 2
    bites = [
        path(
            "thin", "M", u, -half, "L", u + side * 9, -half + 7, "L", u + side * 15, -half, "Z", fill="none"
        ),
        drawn("rect", "plain", x=min(u, u + side * 12), y=-half + 1.5, width=12, height=8),
        drawn("rect", "plain", x=min(u, u + side * 9), y=half - 9.5, width=9, height=8),
    ]
    fallen = [
        drawn("circle", "line", cx=u - side * far, cy=half - r - 1, r=r)
        for far, r in ((6, 3.0), (14, 2.0), (21, 3.2), (30, 1.8))
    ]
    cracks = [
        path("thin", "M", u, -half * 0.35, "l", side * 7, 5, "l", side * 3, 9, "l", side * 6, 5),
        path("thin", "M", u, half * 0.3, "l", side * 8, -4, "l", side * 5, 7),
    ]
    return group(*bites, *fallen, *cracks)


def _plate(layout: Layout, u: float, thick: float, _prefix: str) -> str:
    return drawn(
        "rect", "solid", x=min(u, u + thick), y=-layout.bore / 2, width=abs(thick), height=layout.bore
    )


def _paper(layout: Layout, u: float, thick: float, _prefix: str) -> str:
    """Thin, bowed, with folded rims stuck to the wall."""
    half, rim = layout.bore / 2, 14 if thick > 0 else -14
    return group(
        path("line", "M", u + rim, -half + 2, "L", u, -half + 2, "Q", u + thick, 0, u, half - 2, "L",
            u + rim, half - 2),
        path("thin", "M", u + thick, -half + 6, "Q", u + 2 * thick, 0, u + thick, half - 6,
            stroke_dasharray="3 3"),
    )  # fmt: skip


def _inflatable(layout: Layout, u: float, thick: float, _prefix: str) -> str:
    half = layout.bore / 2
    return group(
        drawn("rect", "shape", x=min(u, u + thick), y=-half, width=abs(thick), height=layout.bore, rx=15),
        path("thin", "M", u + thick / 2, -half + 12, "L", u + thick / 2, half - 12),
    )


def _tape(layout: Layout, u: float, thick: float, _prefix: str) -> str:
    """Strips laid across the bore, overlapping."""
    half = layout.bore / 2
    strips = 5
    height = layout.bore / strips
    return group(
        *(
            drawn(
                "rect", "steel", x=min(u, u + thick) - (2 if i % 2 else 0), y=-half + i * height,
                width=abs(thick) + 2, height=height,
            )
            for i in range(strips)
        )
    )  # fmt: skip


_DRAWERS: dict[DamKind, Drawer] = {
    DamKind.FOAM: _foam,
    DamKind.METAL_PLATE: _plate,
    DamKind.SOLUBLE_PAPER: _paper,
    DamKind.INFLATABLE: _inflatable,
    DamKind.TAPE: _tape,
}
