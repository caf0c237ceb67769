"""Words and figures on the sheet, in the reader's units; they stay level whatever the pipe does."""

from collections.abc import Sequence
from typing import NamedTuple

from trainer.domain.set_up import SetUp, Side
from trainer.drawing.free_places import FreePlaces, Place
from trainer.drawing.layout import CAPTION_Y, SHEET, Layout
from trainer.drawing.reader import Reader
from trainer.drawing.section_ends import SectionEnd
from trainer.drawing.svg import group
from trainer.drawing.text_width import LARGEST_TYPE, text_width

DISTANCE_ABOVE_PIPE = 26.0
NARROW_UNITS = 112.0  # a dimension shorter than its figure is written beside, not above
BELOW_PIPE = 27.0
UNDER_GROUND = 38.0
ROW = (150.0, 724.0)  # ends of the row of sizes under a level pipe, clear of the hoses on both sides
APART = 16.0  # between words side by side
EDGE, TOP_WORDS_Y = 4.0, 28.0


class _Sizes(NamedTuple):
    """Diameter, gap and vent in words, empty where there is nothing to say."""

    diameter: str
    gap: str
    vent: str


def sheet_words(
    set_up: SetUp,
    ends: Sequence[SectionEnd | None],
    *,
    layout: Layout,
    outside_diameter_m: float | None,
    reader: Reader,
) -> str:
    """Dimensions of the pipe, and captions at the foot."""
    stand = [end for end in ends if end is not None]
    vent_end = next((end for end in stand if end.side is Side.RIGHT), None)
    sizes = _sizes_of(set_up, vent_end, outside_diameter_m=outside_diameter_m, reader=reader)
    return group(
        _captions(set_up, layout, reader),
        *(_distance(end, layout, reader) for end in stand if end.dam_handle is None),
        _in_a_row(sizes, layout) if layout.is_flat else _each_where_it_belongs(sizes, vent_end, layout),
    )


def _distance(end: SectionEnd, layout: Layout, reader: Reader) -> str:
    words = "?" if end.distance_m is None else reader.length(end.distance_m)
    v = layout.dimension_side * (layout.outer / 2 + DISTANCE_ABOVE_PIPE)
    if not layout.is_flat:
        x, y = layout.sheet(end.u / 2, v + layout.dimension_side * 8)
        return layout.free.write(words, Place(x, y + 8, "end"))
    if abs(end.u) < NARROW_UNITS:
        x, y = layout.sheet(end.u, v)
        beside, anchor = (-10, "end") if end.u < 0 else (10, "start")
        return layout.free.write(words, Place(x + beside, y + 8, anchor))
    x, y = layout.sheet(end.u / 2, v)
    return layout.free.write(words, Place(x, y - 5))


def _sizes_of(
    set_up: SetUp, vent_end: SectionEnd | None, *, outside_diameter_m: float | None, reader: Reader
) -> _Sizes:
    return _Sizes(
        diameter="" if outside_diameter_m is None else f"Ø {reader.outside_diameter(outside_diameter_m)}",
        gap=_gap(set_up, reader),
        vent=_vent_size(set_up, reader) if vent_end else "",
    )


def _in_a_row(sizes: _Sizes, layout: Layout) -> str:
    """Under a level pipe."""
    left_x, right_x = ROW
    middle_x = layout.centre[0]
    feet = (layout.sheet(side * layout.half_length, layout.outer / 2)[1] for side in (-1.0, 1.0))
    y = max(feet) + BELOW_PIPE
    under_y = layout.ground_y + UNDER_GROUND  # where a hose that is led into a pit runs through the row
    return group(
        layout.free.write(sizes.diameter, Place(left_x, y, "start")),
        layout.free.write(sizes.vent, Place(right_x, y, "end"), Place(SHEET[0] - EDGE, under_y, "end")),
        layout.free.write(sizes.gap, Place(middle_x, y), Place(middle_x, y + LARGEST_TYPE)),
    )


def _each_where_it_belongs(sizes: _Sizes, vent_end: SectionEnd | None, layout: Layout) -> str:
    """Beside a pipe that stands."""
    vent_u = vent_end.u + vent_end.thick / 2 if vent_end else 0.0
    return group(
        layout.free.write(sizes.vent, *_beside(vent_u, layout)),
        layout.free.write(sizes.gap, *_beside(0.0, layout)),
        layout.free.write(sizes.diameter, *_beside(40.0 - layout.half_length, layout)),
    )


def _beside(u: float, layout: Layout) -> list[Place]:
    """Places to the right of a pipe that stands, the best first."""
    v = -layout.dimension_side * (layout.outer / 2 + 14)
    there = [layout.sheet(u + shift, v) for shift in (0.0, -30.0, 30.0, -60.0, 60.0)]
    return [Place(x, y + 8, "start") for x, y in there]


def _gap(set_up: SetUp, reader: Reader) -> str:
    if set_up.joint is None or set_up.joint.gap_m is None:
        return ""
    return reader.words("gap {size}").format(size=reader.length(set_up.joint.gap_m))


def _vent_size(set_up: SetUp, reader: Reader) -> str:
    """Size and number of the vent's holes; the number alone where only that is known."""
    if set_up.vent is None:
        return ""
    times = f"×{set_up.vent.count}" if (set_up.vent.count or 1) > 1 else ""
    if set_up.vent.diameter_m is None:
        return times
    said = reader.words("vent {size}, blocked") if set_up.vent.blocked else reader.words("vent {size}")
    size = reader.length(set_up.vent.diameter_m)
    return said.format(size=f"{size} {times}" if times else size)


def _captions(set_up: SetUp, layout: Layout, reader: Reader) -> str:
    """The foot of the sheet: contents gauge, slope, the space, and where the vent gas is led."""
    pressure_pa = set_up.supply.pressure_pa if set_up.supply else None
    around = set_up.surroundings.kind if set_up.surroundings else None
    leads_to = set_up.scene.vent_leads_to if set_up.scene else None
    pressure = "" if pressure_pa is None else reader.pressure(pressure_pa)
    led = f"{reader.words('vent')} → {reader.words(leads_to.value)}" if leads_to else ""
    place, slope = reader.words(around.value) if around else "", _slope_words(layout, reader)
    pressure_y = min(layout.ground_y + UNDER_GROUND, CAPTION_Y)
    left = EDGE + (text_width(pressure) + APART if pressure and pressure_y == CAPTION_Y else 0.0)
    right = SHEET[0] - EDGE - (text_width(led) + APART if led else 0.0)
    return group(
        layout.free.write(pressure, Place(EDGE, pressure_y, "start")),
        layout.free.write(led, Place(SHEET[0] - EDGE, CAPTION_Y, "end")),
        _between(layout.free, (left, right), place, slope),
    )


def _between(free: FreePlaces, ends: tuple[float, float], place: str, slope: str) -> str:
    """The space, and the slope before it; where both do not fit there, the slope goes to the upper corner."""
    left, right = ends
    room = right - left - text_width(place) - text_width(slope) - APART
    if not slope or room < 0.0:
        middle = min(max(440.0, left + text_width(place) / 2), right - text_width(place) / 2)
        upper = Place(EDGE, TOP_WORDS_Y, "start")
        return group(free.write(place, Place(middle, CAPTION_Y)), free.write(slope, upper))
    return group(
        free.write(slope, Place(left + room / 3, CAPTION_Y, "start")),
        free.write(place, Place(right - room / 3, CAPTION_Y, "end")),
    )


def _slope_words(layout: Layout, reader: Reader) -> str:
    """The angle of a pipe that is neither level nor upright."""
    if layout.slope_deg == 0.0 or abs(layout.slope_deg) == 90.0:
        return ""
    return reader.words("slope {angle}").format(angle=f"{reader.number(layout.slope_deg, '+.3g')}°")
