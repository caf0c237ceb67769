"""The gas supply, standing on the ground left of the pipe: cylinder, pack, dewar or tank, with its gauge."""

from collections.abc import Callable
from math import cos, radians, sin

from trainer.domain.set_up import Scene, Supply, SupplyKind
from trainer.drawing.layout import SUPPLY_X
from trainer.drawing.svg import drawn, group, line, path

FULL_SCALE_PA = 3.0e7  # contents gauges go to 300 bar
GAUGE_RADIUS = 19.0
BODY_TOP = 132.0  # height of a cylinder, drawing units
OUTLET_X = SUPPLY_X + 42.0
OUTLET_ABOVE_GROUND = BODY_TOP + 22.0


def supply_drawing(supply: Supply | None, *, scene: Scene | None, ground_y: float) -> str:
    """The supply and the spare beside it, where the scene speaks of one."""
    if supply is None:
        return ""
    kind = supply.kind or SupplyKind.SINGLE_CYLINDER
    chained = scene.cylinder_chained if scene else None
    shares_room = kind is SupplyKind.SINGLE_CYLINDER
    return group(
        _DRAWERS[kind](ground_y),
        _chain(ground_y, chained) if chained is not None and shares_room else "",
        _spare(ground_y, capped=scene.cap_on) if scene and scene.cap_on is not None and shares_room else "",
        _gauge(supply.pressure_pa, ground_y - OUTLET_ABOVE_GROUND - 4),
        data_part=f"supply {kind.value}",
    )


def _cylinder(x: float, ground_y: float, width: float, height: float) -> str:
    half, shoulder = width / 2, width * 0.5
    top = ground_y - height
    return path(
        "shape",
        "M", x - half, ground_y, "L", x - half, top + shoulder, "Q", x - half, top + 4, x - 5, top,
        "L", x + 5, top, "Q", x + half, top + 4, x + half, top + shoulder, "L", x + half, ground_y, "Z",
    )  # fmt: skip


def _valve(x: float, top: float) -> str:
    return group(
        drawn("rect", "solid", x=x - 4, y=top - 12, width=8, height=13),
        drawn("rect", "solid", x=x - 8, y=top - 15, width=16, height=4),
    )


def _single(ground_y: float) -> str:
    x, top = SUPPLY_X + 18, ground_y - BODY_TOP
    return group(_cylinder(x, ground_y, 36, BODY_TOP), _valve(x, top), _outlet(x, top - 7))


def _outlet(x: float, y: float) -> str:
    """Regulator and the stub that the hose sits on."""
    return group(
        line("line", x, y, OUTLET_X, y - 15),
        drawn("circle", "solid", cx=x + 10, cy=y - 7, r=6),
    )


def _spare(ground_y: float, *, capped: bool | None) -> str:
    """A spare cylinder; without its cap the valve stands bare."""
    x, height = SUPPLY_X - 28, BODY_TOP - 24
    top = ground_y - height
    cap = path(
        "shape",
        "M",
        x - 9,
        top + 2,
        "L",
        x - 9,
        top - 14,
        "Q",
        x,
        top - 26,
        x + 9,
        top - 14,
        "L",
        x + 9,
        top + 2,
        "Z",
    )
    return group(
        _cylinder(x, ground_y, 30, height), cap if capped else _valve(x, top),
        data_part="spare capped" if capped else "spare without cap",
    )  # fmt: skip


def _chain(ground_y: float, chained: bool) -> str:
    """A post with a chain: round the cylinder, or hanging from its hook."""
    y = ground_y - BODY_TOP * 0.6
    post = path("wall", "M", SUPPLY_X - 6, ground_y, "L", SUPPLY_X - 6, y - 22)
    if chained:
        links = path(
            "line", "M", SUPPLY_X - 6, y, "Q", SUPPLY_X + 18, y + 15, SUPPLY_X + 38, y, stroke_dasharray="5 3"
        )
        return group(post, links, data_part="chained")
    hanging = path("line", "M", SUPPLY_X - 6, y - 16, "q", -7, 26, -3, 50, stroke_dasharray="5 3")
    return group(post, hanging, data_part="not chained")


def _pack(ground_y: float) -> str:
    top = ground_y - BODY_TOP + 14
    cylinders = [_cylinder(x, ground_y - 5, 24, BODY_TOP - 22) for x in (18, 44, 70)]
    frame = path("wall", "M", 4, ground_y, "L", 4, top - 4, "L", 86, top - 4, "L", 86, ground_y, "Z")
    header = path("line", "M", 18, top + 2, "L", 70, top + 2, "L", 78, top - 22, "L", OUTLET_X, top - 36)
    return group(*cylinders, frame, header)


def _dewar(ground_y: float) -> str:
    top = ground_y - BODY_TOP + 8
    return group(
        path(
            "shape", "M", 14, ground_y, "L", 14, top + 26, "Q", 16, top + 2, 46, top, "Q", 76, top + 2, 78,
                top + 26,
            "L", 78, ground_y, "Z",
        ),
        path("thin", "M", 22, ground_y - 6, "L", 22, top + 30, "Q", 24, top + 12, 46, top + 9, "Q", 68,
            top + 12, 70, top + 30,
             "L", 70, ground_y - 6, "Z"),
        path("thin", "M", 22, top + 62, "q", 6, -5, 12, 0, "q", 6, 5, 12, 0, "q", 6, -5, 12, 0, "q", 6, 5,
            12, 0),
        _valve(46, top), _outlet(46, top - 12),
    )  # fmt: skip


def _tank(ground_y: float) -> str:
    top = ground_y - BODY_TOP + 6
    fins = [line("thin", 66 + 6 * i, ground_y - 54, 66 + 6 * i, ground_y - 12) for i in range(5)]
    return group(
        drawn("rect", "shape", x=10, y=top, width=46, height=BODY_TOP - 30, rx=22),
        path("line", "M", 18, ground_y - 28, "L", 12, ground_y, "M", 48, ground_y - 28, "L", 54, ground_y),
        path("line", "M", 33, ground_y - 24, "L", 33, ground_y - 8, "L", 64, ground_y - 8),
        drawn("rect", "thin", x=62, y=ground_y - 56, width=30, height=46), *fins,
        path("line", "M", 78, ground_y - 56, "L", 78, ground_y - 140, "L", OUTLET_X,
            ground_y - OUTLET_ABOVE_GROUND),
    )  # fmt: skip


def _gauge(pressure_pa: float | None, y: float) -> str:
    """A dial whose needle stands where the contents do; without a reading there is no needle."""
    x = SUPPLY_X + 12
    marks = [_at_dial(x, y, share / 6) for share in range(7)]
    ticks = [line("thin", *_at_dial(x, y, share / 6, 0.75), *end) for share, end in enumerate(marks)]
    needle = ""
    if pressure_pa is not None:
        share = min(pressure_pa / FULL_SCALE_PA, 1.0)
        needle = line("line", x, y, *_at_dial(x, y, share, 0.85))
    return group(
        drawn("circle", "shape", cx=x, cy=y, r=GAUGE_RADIUS), *ticks, needle, drawn("circle", "solid", cx=x,
            cy=y, r=3),
        data_part="gauge",
    )  # fmt: skip


def _at_dial(x: float, y: float, share: float, reach: float = 1.0) -> tuple[float, float]:
    """From lower left over the top to lower right, 240 degrees in all."""
    angle = radians(210 - 240 * share)
    return x + GAUGE_RADIUS * reach * cos(angle), y - GAUGE_RADIUS * reach * sin(angle)


_DRAWERS: dict[SupplyKind, Callable[[float], str]] = {
    SupplyKind.SINGLE_CYLINDER: _single,
    SupplyKind.CYLINDER_PACK: _pack,
    SupplyKind.LIQUID_DEWAR: _dewar,
    SupplyKind.BULK_TANK: _tank,
}
