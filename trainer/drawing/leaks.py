"""Leaks, where they are in plain sight: a few short strokes of moving gas at the place."""

from collections.abc import Sequence

from trainer.domain.set_up import Leak
from trainer.drawing.layout import Layout
from trainer.drawing.section_ends import SectionEnd
from trainer.drawing.supply_hose import supply_route
from trainer.drawing.svg import group, path


def leaks_drawing(
    leaks: Sequence[Leak], *, layout: Layout, left: SectionEnd | None, right: SectionEnd | None
) -> str:
    """Every leak whose place is drawn."""
    places = _places(layout, left, right)
    return group(
        *(_wisp(*places[each.where], each.where) for each in leaks if each.where in places and each.where)
    )


def _places(
    layout: Layout, left: SectionEnd | None, right: SectionEnd | None
) -> dict[str, tuple[float, float]]:
    """Where on the sheet the places are that the core's table of leaks names."""
    route = supply_route(layout)
    (x0, y0), (x1, y1) = route[0], route[1]
    edge = right or left
    places = {
        "hose fitting": (x0, y0),
        "regulator": (x0 - 24, y0 + 4),
        "hose": ((x0 + x1) / 2, (y0 + y1) / 2),
        "joint tape": layout.sheet(0.0, -layout.outer / 2),
        "branch": layout.sheet(-layout.half_length * 0.3, -layout.outer / 2),
    }
    if edge is not None:
        places["dam edge"] = layout.sheet(edge.back, -layout.bore / 2 + 8)
    return places


def _wisp(x: float, y: float, where: str | None) -> str:
    strokes = [
        path(
            "thin",
            "M",
            x + dx * 0.4,
            y + dy * 0.4,
            "q",
            dx * 0.5 + 4,
            dy * 0.2,
            dx * 0.5,
            dy * 0.6,
            "t",
            dx * 0.3,
            dy * 0.5,
        )
        for dx, dy in ((16, -14), (22, -2), (8, -22))
    ]
    return group(*strokes, data_part=f"leak {where}")
