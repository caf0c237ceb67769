"""The space around the joint, the fan in it, and where the vent gas goes."""

from collections.abc import Callable

from trainer.core.terms import Fan
from trainer.domain.set_up import Place, Surroundings
from trainer.drawing.layout import FLOOR_Y, GROUND_OVER_A_PIT_Y, SUNKEN, Layout
from trainer.drawing.svg import drawn, group, line, path

RIGHT = 782.0
OUTSIDE_Y = 42.0  # where a hose leaves the sheet for the open air, under the analyser
BESIDE_X = 620.0  # where a hose goes along a pipe that stands, clear of the words beside it
WHEELS_X = (190, 620)
SUNKEN_SPANS = {Place.PIT: (190.0, 690.0), Place.TRENCH: (290.0, 600.0)}
UPRIGHT_SPANS = {Place.PIT: (124.0, 786.0), Place.TRENCH: (150.0, 740.0)}


def span_of(place: Place, layout: Layout) -> tuple[float, float]:
    """Left and right wall of a pit or trench; wider under a pipe that stands in it."""
    return (SUNKEN_SPANS if layout.is_flat else UPRIGHT_SPANS)[place]


def surroundings_drawing(surroundings: Surroundings | None, *, layout: Layout) -> str:
    """Ground or walls, and the fan where one runs."""
    place = surroundings.kind if surroundings and surroundings.kind else Place.OPEN_AIR
    fan = _fan(surroundings.fan) if surroundings and surroundings.fan in (Fan.BLOWS_IN, Fan.DRAWS_OUT) else ""
    outline = _sunken(place, layout) if place in SUNKEN else _OUTLINES[place]()
    return group(outline, fan, data_part=f"surroundings {place.value}")


def ground_drawing(surroundings: Surroundings | None, *, layout: Layout) -> str:
    """The ground of any space, a pit or a trench in it, without walls or roof; and the fan where one runs."""
    place = surroundings.kind if surroundings and surroundings.kind else Place.OPEN_AIR
    fan = _fan(surroundings.fan) if surroundings and surroundings.fan in (Fan.BLOWS_IN, Fan.DRAWS_OUT) else ""
    return group(
        _sunken(place, layout) if place in SUNKEN else _open_air(), fan, data_part=f"ground {place.value}"
    )


def _ground(x1: float, x2: float, y: float) -> str:
    """Ground with the earth hatched under it."""
    strokes = [line("dim", x, y, x - 8, y + 9) for x in range(int(x1) + 10, int(x2), 22)]
    return group(line("earth", x1, y, x2, y), *strokes)


def _open_air() -> str:
    return _ground(2, 798, FLOOR_Y)


def _room() -> str:
    """Floor, ceiling and walls; a doorway on the right."""
    return group(
        path("earth", "M", RIGHT, 286, "L", RIGHT, 4, "L", 3, 4, "L", 3, FLOOR_Y, "L", 798, FLOOR_Y),
        path("dim", "M", RIGHT, 286, "L", 797, 292, "L", 797, FLOOR_Y),
        _ground(3, 798, FLOOR_Y),
    )


def _sunken(place: Place, layout: Layout) -> str:
    left, right = span_of(place, layout)
    top = GROUND_OVER_A_PIT_Y
    wall_strokes = [
        line("dim", x, y, x + d, y + 9)
        for y in range(int(top) + 12, int(FLOOR_Y), 22)
        for x, d in ((left, -9), (right, 9))
    ]
    return group(
        _ground(2, left, top),
        _ground(right, 798, top),
        path("earth", "M", left, top, "L", left, FLOOR_Y, "L", right, FLOOR_Y, "L", right, top),
        _ground(left, right, FLOOR_Y),
        *wall_strokes,
    )


def _vessel() -> str:
    """A shell with domed ends and a manway on top."""
    return group(
        drawn("rect", "earth", x=103, y=4, width=RIGHT - 103, height=FLOOR_Y - 4, rx=74),
        drawn("rect", "dim", x=109, y=10, width=RIGHT - 115, height=FLOOR_Y - 16, rx=68),
        path("shape", "M", 590, 12, "L", 590, 1, "L", 650, 1, "L", 650, 12),
        _ground(2, 103, FLOOR_Y),
    )


def _pipe() -> str:
    """A pipe so large that people work in it: two walls that go on."""
    walls = [line("earth", 106, y, 798, y) for y in (4, 10, FLOOR_Y, FLOOR_Y + 6)]
    ends = [path("broken", "M", x, 0, "q", 9, 95, 0, 190, "t", 0, 186) for x in (106,)]
    return group(*walls, *ends, _ground(2, 98, FLOOR_Y))


def _van() -> str:
    """The load space of a van, on its wheels."""
    return group(
        path("earth", "M", 3, FLOOR_Y, "L", 3, 22, "Q", 3, 4, 22, 4, "L", 716, 4, "Q", 744, 8, RIGHT, 190,
            "L", RIGHT, FLOOR_Y, "Z"),
        *(path("shape", "M", x - 20, FLOOR_Y, "A", 20, 20, 0, 1, 0, x + 20, FLOOR_Y, "Z") for x in WHEELS_X),
        path("earth", "M", 3, FLOOR_Y, "L", RIGHT, FLOOR_Y),
    )  # fmt: skip


def _fan(fan: Fan | None) -> str:
    """A fan with three blades and an arrow for the way the air goes."""
    x, y = 742.0, 322.0
    arrow = ("M", x - 28, y, "l", -28, 0, "m", 9, -6, "l", -9, 6, "l", 9, 6)
    if fan is Fan.DRAWS_OUT:
        arrow = ("M", x - 56, y, "l", 28, 0, "m", -9, -6, "l", 9, 6, "l", -9, 6)
    blades = [
        path(
            "shape",
            "M",
            x,
            y,
            "q",
            10,
            -16,
            0,
            -19,
            "q",
            -9,
            4,
            0,
            19,
            transform=f"rotate({turn} {x:.0f} {y:.0f})",
        )
        for turn in (0, 120, 240)
    ]
    return group(
        drawn("circle", "shape", cx=x, cy=y, r=22), *blades, path("line", *arrow),
        data_part=f"fan {fan.value}" if fan else "fan",
    )  # fmt: skip


_OUTLINES: dict[Place, Callable[[], str]] = {
    Place.OPEN_AIR: _open_air,
    Place.ROOM: _room,
    Place.VESSEL: _vessel,
    Place.PIPE: _pipe,
    Place.VAN: _van,
}


def vent_route(
    start: tuple[float, float], *, leads_to: Place, layout: Layout, around: Place
) -> list[tuple[float, float]]:
    """Where the vent hose runs: from the pipe's end to the space that it is led to."""
    if not layout.is_flat:
        return _route_beside(start, leads_to=leads_to, layout=layout, around=around)
    x, y = start
    out_x = x + 22
    if leads_to in SUNKEN and around is leads_to:
        right, over_y = span_of(leads_to, layout)[1] - 26, GROUND_OVER_A_PIT_Y - 14
        return [start, (out_x, y), (out_x, over_y), (right, over_y), (right, FLOOR_Y - 34)]
    if leads_to is Place.OPEN_AIR and around is not Place.OPEN_AIR:
        return [start, (out_x, y), (out_x, OUTSIDE_Y), (798, OUTSIDE_Y)]
    return [start, (out_x, y), (out_x, min(y + 90, layout.ground_y - 22))]


def _route_beside(
    start: tuple[float, float], *, leads_to: Place, layout: Layout, around: Place
) -> list[tuple[float, float]]:
    """The same beside a pipe that stands: out of its upper or lower end, then along."""
    x, y = start
    turn_y = max(y - 14, 8.0) if layout.slope_deg > 0 else y + 14
    if leads_to is Place.OPEN_AIR and around is not Place.OPEN_AIR:
        return [start, (x, turn_y), (BESIDE_X, turn_y), (BESIDE_X, OUTSIDE_Y), (798, OUTSIDE_Y)]
    if layout.slope_deg < 0:
        return [start, (x, turn_y), (BESIDE_X, turn_y)]
    low_y = FLOOR_Y - 34 if leads_to in SUNKEN and around is leads_to else 120.0
    return [start, (x, turn_y), (BESIDE_X, turn_y), (BESIDE_X, low_y)]


def gas_leaving(at: tuple[float, float], *, towards: tuple[float, float]) -> str:
    """Gas coming out of the hose's end: three short strokes, spread about the way that it goes."""
    (x, y), (along_x, along_y) = at, towards
    strokes = [(-9, 14), (0, 18), (9, 14)]
    ends = [(far * along_x - off * along_y, far * along_y + off * along_x) for off, far in strokes]
    return group(
        *(line("thin", x + dx * 0.3, y + dy * 0.3, x + dx, y + dy) for dx, dy in ends),
        data_part="gas leaving",
    )
