"""The two ends of the dammed section: each dam, what goes through it, and the grips where it can be moved."""

from dataclasses import dataclass

from trainer.domain.scenario import Handle
from trainer.domain.set_up import Dam, SetUp, Side
from trainer.drawing.asked import Asked
from trainer.drawing.dams import dam_drawing, thickness_units
from trainer.drawing.fittings import inlet_drawing, unknown_hole, vent_diameter_units, vent_drawing
from trainer.drawing.free_places import Place
from trainer.drawing.handles import REACH, RING, Readout, grip, rides
from trainer.drawing.layout import Layout
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, path

NEUTRAL_SHARE = 0.62  # of the drawn half length: where a dam stands whose distance is not told
GRIP_ABOVE_PIPE = 26.0
GRIP_FROM_DAM = 58.0
FIGURE_OVER_RING = 29.0


@dataclass(frozen=True, kw_only=True)
class SectionEnd:
    """One end: where the dam's inner face and the middle of its opening are, in the pipe's frame."""

    side: Side
    dam: Dam | None
    distance_m: float | None
    u: float
    v: float | None  # None: no opening, or one whose height is not known
    thick: float  # away from the joint: negative on the left
    dam_handle: Handle | None
    height_handle: Handle | None

    @property
    def back(self) -> float:
        """Behind the dam, where the hose begins."""
        return self.u + self.thick + (10.0 if self.thick > 0 else -10.0)


def section_end(set_up: SetUp, side: Side, *, layout: Layout, asked: Asked) -> SectionEnd | None:
    """The end on one side; None where the set-up has no dam there."""
    section = set_up.section
    left = side is Side.LEFT
    distance_m = None if section is None else (section.left_dam_m if left else section.right_dam_m)
    dam = next((each for each in set_up.dams if each.side is side), None)
    dam_handle = asked.handle_for(f"section.{side.value}_dam")
    height_handle = asked.handle_for("inlet.height" if left else "vent.height")
    if distance_m is None and dam is None and dam_handle is None:
        return None
    sign = -1.0 if left else 1.0
    fitting = set_up.inlet if left else set_up.vent
    height = asked.start(height_handle) if height_handle else (fitting.height_frac if fitting else None)
    return SectionEnd(
        side=side,
        dam=dam,
        distance_m=distance_m,
        u=sign * _offset(distance_m, dam_handle, layout, asked),
        v=None if height is None else layout.heights.place(height),
        thick=sign * thickness_units(dam),
        dam_handle=dam_handle,
        height_handle=height_handle,
    )


def _offset(distance_m: float | None, handle: Handle | None, layout: Layout, asked: Asked) -> float:
    if handle is not None:
        return layout.along.place(asked.start(handle))
    if distance_m is not None:
        return layout.along.place(distance_m)
    return layout.along.pairs[-1][1] * NEUTRAL_SHARE


def section_end_drawing(
    end: SectionEnd, set_up: SetUp, *, layout: Layout, bore_m: float | None, prefix: str
) -> str:
    """The dam with the inlet or the vent through it, riding with their grips."""
    return group(
        _hose_behind(end, set_up, layout),
        rides(
            end.dam_handle,
            dam_drawing(layout, dam=end.dam, u=end.u, prefix=prefix),
            rides(end.height_handle, _opening(end, set_up, layout, bore_m)),
        ),
    )


def _opening(end: SectionEnd, set_up: SetUp, layout: Layout, bore_m: float | None) -> str:
    left = end.side is Side.LEFT
    asked = (set_up.inlet if left else set_up.vent) is not None or end.height_handle is not None
    if not asked:
        return ""
    if end.v is None:
        return unknown_hole(end.u + (end.thick + 34 if end.thick > 0 else end.thick - 34), 0.0)
    if left:
        inlet_end = set_up.inlet.end if set_up.inlet else None
        return inlet_drawing(u=end.u, v=end.v, end=inlet_end, thick=-end.thick)
    diameter_m = set_up.vent.diameter_m if set_up.vent else None
    hole = vent_diameter_units(layout, diameter_m, bore_m)
    half_left = layout.bore / 2
    v = min(max(end.v, -half_left + hole / 2), half_left - hole / 2)
    return vent_drawing(u=end.u, v=v, size=(hole, end.thick))


def _hose_behind(end: SectionEnd, set_up: SetUp, layout: Layout) -> str:
    """The hose inside the pipe, from its end to the dam; the script keeps it on the part that moves."""
    led = set_up.scene is not None and set_up.scene.vent_leads_to is not None
    if end.v is None or (end.side is Side.RIGHT and not led):
        return ""
    from_u = -layout.half_length if end.side is Side.LEFT else layout.half_length
    follows = {
        "data_follows_u": end.dam_handle.id if end.dam_handle else None,
        "data_follows_v": end.height_handle.id if end.height_handle else None,
    }
    places = {"x1": from_u, "y1": 0.0, "x2": end.back, "y2": end.v}
    return group(
        drawn("line", "line", **places, class_="d-hose", stroke_width=9, vector_effect="none", **follows),
        drawn("line", "line", **places, class_="d-hose-inside", stroke="#ffffff", stroke_width=5.6,
            vector_effect="none", **follows),
        data_part="hose in the pipe",
    )  # fmt: skip


def grips(
    end: SectionEnd,
    *,
    layout: Layout,
    asked: Asked,
    reader: Reader,
    bore_m: float | None = None,
) -> str:
    """The grips of one end, on top of everything else."""
    return group(_dam_grip(end, layout, asked, reader), _height_grip(end, layout, asked, reader, bore_m))


def room_for_fingers(layout: Layout, asked: Asked) -> float:
    """By how much the touch area of a dam's grip rises over the sheet, wherever along the pipe it is put."""
    v = layout.dimension_side * (layout.outer / 2 + GRIP_ABOVE_PIPE)
    furthest = layout.along.pairs[-1][1]
    tops = [
        layout.sheet(outward * (_aside(handle, layout) + u), v)[1] - REACH
        for side, outward in ((Side.LEFT, -1.0), (Side.RIGHT, 1.0))
        if (handle := asked.handle_for(f"section.{side.value}_dam"))
        for u in (0.0, furthest)
    ]
    return max((-top for top in tops if top < 0.0), default=0.0)


def _dam_grip(end: SectionEnd, layout: Layout, asked: Asked, reader: Reader) -> str:
    handle = end.dam_handle
    if handle is None:
        return ""
    left = end.side is Side.LEFT
    knots = layout.along.mirrored() if left else layout.along
    side, outward = layout.dimension_side, -1.0 if left else 1.0
    v = side * (layout.outer / 2 + GRIP_ABOVE_PIPE)
    # where a grip for the height stands beside the dam as well, there is no room to stand aside
    aside = 0.0 if end.height_handle else _aside(handle, layout)
    ring_u = end.u + outward * aside
    readout_of = Readout(handle=handle, asked=asked, reader=reader)
    return rides(
        handle,
        _lever(end.u, ring_u, v, layout),
        grip(handle, at=(ring_u, v), knots=knots, asked=asked, reader=reader),
        _figure(
            readout_of,
            _over_the_ring(ring_u, v, outward, layout),
            ends_here=left or not layout.is_flat,
            layout=layout,
        ),
    )


def _aside(handle: Handle, layout: Layout) -> float:
    """How far from its dam, away from the joint, a ring stands.

    Two dams put as near to the joint as they may be still leave each grip a finger's room of its own.
    """
    return max(0.0, REACH - layout.along.place(handle.low))


def _lever(dam_u: float, ring_u: float, v: float, layout: Layout) -> str:
    """From the ring over to the dam and down to the pipe."""
    side = layout.dimension_side
    wall = side * layout.outer / 2
    if abs(ring_u - dam_u) <= RING:
        return path("handle-line", "M", dam_u, v - side * RING, "L", dam_u, wall)
    return path("handle-line", "M", ring_u + (RING if dam_u > ring_u else -RING), v, "L", dam_u, v, "L",
        dam_u, wall)  # fmt: skip


def _over_the_ring(u: float, v: float, outward: float, layout: Layout) -> tuple[float, float]:
    """Where the readout of a dam's grip begins: over the ring and on outwards, or beside an upright pipe."""
    side = layout.dimension_side
    if layout.is_flat:
        return u - outward * RING, v + side * FIGURE_OVER_RING
    return u, v + side * 26


def _figure(of: Readout, at: tuple[float, float], *, ends_here: bool, layout: Layout) -> str:
    """The figure of a grip, level whatever the pipe does, with room for the longest that it may show."""
    x, y = layout.sheet(*at)
    place = layout.free.place(of.longest, [Place(x, y + 8, "end" if ends_here else "start")])
    u, v = layout.pipe_frame(place.x, place.y)
    turned = f"translate({u:.1f} {v:.1f}) rotate({layout.slope_deg:.2f})"
    return group(of.drawn(anchor=place.anchor), transform=turned)


def _height_grip(end: SectionEnd, layout: Layout, asked: Asked, reader: Reader, bore_m: float | None) -> str:
    handle = end.height_handle
    if handle is None or end.v is None:
        return ""
    left = end.side is Side.LEFT
    u = end.u + end.thick + (-GRIP_FROM_DAM if left else GRIP_FROM_DAM)
    stalk = drawn("line", "handle-line", x1=end.u + end.thick, y1=end.v, x2=u, y2=end.v)
    ring = grip(handle, at=(u, end.v), knots=layout.heights, asked=asked, reader=reader, bore_m=bore_m)
    readout_of = Readout(handle=handle, asked=asked, reader=reader)
    figure = _figure(readout_of, _by_the_end(end, layout), ends_here=not left, layout=layout)
    return group(rides(end.dam_handle, rides(handle, stalk, ring)), figure)


def _by_the_end(end: SectionEnd, layout: Layout) -> tuple[float, float]:
    """Where the figure of a height stands: above the pipe's end, or beyond it with a dam's figure above."""
    outward = -1.0 if end.side is Side.LEFT else 1.0
    if end.dam_handle is None:
        return outward * (layout.half_length + 8.0), layout.dimension_side * (layout.outer / 2 + 18.0)
    return outward * (layout.half_length + 76.0), -18.0
