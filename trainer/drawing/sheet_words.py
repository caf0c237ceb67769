"""Words and figures on the sheet, in the reader's units; they stay level whatever the pipe does."""

from collections.abc import Sequence

from trainer.domain.set_up import SetUp, Side
from trainer.drawing.layout import CAPTION_Y, Layout
from trainer.drawing.reader import Reader
from trainer.drawing.section_ends import SectionEnd
from trainer.drawing.svg import group, label

DISTANCE_ABOVE_PIPE = 26.0
NARROW_UNITS = 112.0  # a dimension shorter than its figure is written beside, not above
BELOW_PIPE = 27.0


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
    return group(
        *(_distance(end, layout, reader) for end in stand if end.dam_handle is None),
        _diameter(layout, outside_diameter_m, reader),
        _gap(set_up, layout, reader),
        *(_vent_size(set_up, end, layout, reader) for end in stand if end.side is Side.RIGHT),
        _slope(layout, reader),
        _captions(set_up, layout, reader),
    )


def _distance(end: SectionEnd, layout: Layout, reader: Reader) -> str:
    words = "?" if end.distance_m is None else reader.length(end.distance_m)
    v = layout.dimension_side * (layout.outer / 2 + DISTANCE_ABOVE_PIPE)
    if not layout.is_flat:
        x, y = layout.sheet(end.u / 2, v + layout.dimension_side * 8)
        return label(words, x, y + 8, anchor="end")
    if abs(end.u) < NARROW_UNITS:
        x, y = layout.sheet(end.u, v)
        beside, anchor = (-10, "end") if end.u < 0 else (10, "start")
        return label(words, x + beside, y + 8, anchor=anchor)
    x, y = layout.sheet(end.u / 2, v)
    return label(words, x, y - 5)


def _beside_pipe(words: str, u: float, layout: Layout) -> str:
    """A figure below a level pipe, or to the right of one that stands."""
    if layout.is_flat:
        x, y = layout.sheet(u, layout.outer / 2)
        return label(words, x, y + BELOW_PIPE)
    x, y = layout.sheet(u, -layout.dimension_side * (layout.outer / 2 + 14))
    return label(words, x, y + 8, anchor="start")


def _diameter(layout: Layout, outside_diameter_m: float | None, reader: Reader) -> str:
    if outside_diameter_m is None:
        return ""
    u = -layout.half_length + (74.0 if layout.is_flat else 40.0)
    return _beside_pipe(f"Ø {reader.length(outside_diameter_m)}", u, layout)


def _gap(set_up: SetUp, layout: Layout, reader: Reader) -> str:
    if set_up.joint is None or set_up.joint.gap_m is None:
        return ""
    words = reader.words("gap {size}").format(size=reader.length(set_up.joint.gap_m))
    return _beside_pipe(words, 0.0, layout)


def _vent_size(set_up: SetUp, end: SectionEnd, layout: Layout, reader: Reader) -> str:
    if set_up.vent is None or set_up.vent.diameter_m is None:
        return ""
    said = reader.words("vent {size}, blocked") if set_up.vent.blocked else reader.words("vent {size}")
    words = said.format(size=reader.length(set_up.vent.diameter_m))
    u = (
        min(max(end.u + end.thick, 150.0), layout.half_length - 55)
        if layout.is_flat
        else end.u + end.thick / 2
    )
    return _beside_pipe(words, u, layout)


def _slope(layout: Layout, reader: Reader) -> str:
    """The angle of a pipe that is neither level nor upright."""
    if layout.slope_deg == 0.0 or abs(layout.slope_deg) == 90.0:
        return ""
    words = reader.words("slope {angle}").format(angle=f"{layout.slope_deg:+g}°")
    if not layout.is_flat:
        return label(words, 150.0, 40.0, anchor="start")
    x, y = layout.sheet(layout.half_length * 0.4, layout.outer / 2)
    return label(words, x, y + 2 * BELOW_PIPE)


def _captions(set_up: SetUp, layout: Layout, reader: Reader) -> str:
    """Contents gauge, the space, and where the vent gas is led."""
    pressure_pa = set_up.supply.pressure_pa if set_up.supply else None
    around = set_up.surroundings.kind if set_up.surroundings else None
    leads_to = set_up.scene.vent_leads_to if set_up.scene else None
    supply_y = min(layout.ground_y + 38, CAPTION_Y)
    return group(
        label(reader.pressure(pressure_pa), 4, supply_y, anchor="start") if pressure_pa is not None else "",
        label(reader.words(around.value), 440, CAPTION_Y) if around else "",
        label(f"{reader.words('vent')} → {reader.words(leads_to.value)}", 796, CAPTION_Y, anchor="end")
        if leads_to
        else "",
    )
