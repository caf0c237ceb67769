"""A set-up as an engineering section: drawn is what the set-up says, nothing that follows from it."""

from collections.abc import Iterator

from trainer.core.pipe import PipeSize
from trainer.domain.known_parts import size_of
from trainer.domain.set_up import Place, SetUp, Side
from trainer.domain.spool_path import path_of
from trainer.drawing.analyser import analyser_drawing
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.inside import NOTHING_KNOWN, Inside
from trainer.drawing.layout import SHEET, Layout, layout_for
from trainer.drawing.leaks import leaks_drawing
from trainer.drawing.people import people_drawing
from trainer.drawing.pipe_parts import centre_line, distance_lines, hatch_patterns, scale_breaks, tape, walls
from trainer.drawing.reader import ENGLISH_METRIC, Reader
from trainer.drawing.section_ends import (
    SectionEnd,
    grips,
    room_for_fingers,
    section_end,
    section_end_drawing,
)
from trainer.drawing.section_fill import section_fill
from trainer.drawing.sheet_words import DISTANCE_ABOVE_PIPE, sheet_words
from trainer.drawing.signs import signs_drawing, strip_of
from trainer.drawing.spool_drawing import spool_drawing
from trainer.drawing.supply import supply_drawing
from trainer.drawing.supply_hose import supply_hose, vent_hose
from trainer.drawing.surroundings import surroundings_drawing
from trainer.drawing.svg import group, picture
from trainer.drawing.wording_of_drawing import told


def set_up_drawing(
    set_up: SetUp,
    *,
    asked: Asked = NOTHING_ASKED,
    reader: Reader = ENGLISH_METRIC,
    inside: Inside = NOTHING_KNOWN,
) -> str:
    """The SVG of a set-up with the parts still to be placed as grips, and the things to be marked.

    A spool is drawn in elevation, with the parts marked of which it is known that air stays in them, or
    lingers there while the gas crosses; a section is filled with the bands that are given.
    """
    if path_of(set_up):
        return spool_drawing(
            set_up, dead_legs=inside.dead_legs, crossed=inside.crossed, asked=asked, reader=reader
        )
    size = size_of(set_up.pipe)
    outside_m = size.outside_diameter_m if size else None
    layout = layout_for(
        set_up, asked=asked, outside_diameter_m=outside_m, wall_m=size.wall_m if size else None
    )
    strip = strip_of(asked.objects)
    lift = SHEET[1] - strip.top if strip else 0.0
    over = room_for_fingers(layout, asked)
    return picture(
        hatch_patterns(reader.prefix),
        group(
            *_scene(set_up, size, layout=layout, asked=asked, reader=reader, inside=inside),
            transform=f"translate(0 {-lift:g})" if strip else None,
            data_part="scene",
        ),
        signs_drawing(asked, reader=reader),
        size=(SHEET[0], over + SHEET[1] + (strip.bottom - strip.top if strip else 0.0)),
        top=-lift - over,
        name=reader.words("The set-up, drawn in section"),
        told=told(set_up, outside_diameter_m=outside_m, asked=asked, reader=reader),
        prefix=reader.prefix,
    )


def _scene(  # noqa: PLR0913 - a drawing is of a set-up, on a sheet, asked of and read by somebody
    set_up: SetUp, size: PipeSize | None, *, layout: Layout, asked: Asked, reader: Reader, inside: Inside
) -> Iterator[str]:
    """Everything on the sheet but the signs, from the back to the front."""
    left, right = (section_end(set_up, side, layout=layout, asked=asked) for side in (Side.LEFT, Side.RIGHT))
    outside_m, bore_m = (size.outside_diameter_m, size.bore_m) if size else (None, None)
    around = _around(set_up)
    hose_away = vent_hose(set_up, layout=layout, around=around)
    # words take their places in this order, beside the hose: those of people and leaks before the sheet's own
    around_it = _around_the_pipe(set_up, (left, right), layout=layout, reader=reader)
    yield surroundings_drawing(set_up.surroundings, layout=layout)
    yield supply_drawing(set_up.supply, scene=set_up.scene, ground_y=layout.ground_y)
    yield supply_hose(set_up, layout=layout)
    yield hose_away
    if left and right:
        yield section_fill(inside.bands, (left, right), layout=layout, prefix=reader.prefix)
    yield _pipe(set_up, [left, right], layout=layout, bore_m=bore_m, prefix=reader.prefix)
    yield around_it
    yield sheet_words(set_up, [left, right], layout=layout, outside_diameter_m=outside_m, reader=reader)
    yield group(
        *(
            grips(end, layout=layout, asked=asked, reader=reader, bore_m=bore_m)
            for end in (left, right)
            if end
        ),
        transform=layout.turned,
        data_frame="pipe",
    )


def _around(set_up: SetUp) -> Place:
    kind = set_up.surroundings.kind if set_up.surroundings else None
    return kind or Place.OPEN_AIR


def _pipe(
    set_up: SetUp, ends: list[SectionEnd | None], *, layout: Layout, bore_m: float | None, prefix: str
) -> str:
    """Everything that turns with the pipe."""
    stand = [end for end in ends if end is not None]
    return group(
        walls(layout, joint=set_up.joint, prefix=prefix),
        tape(layout, set_up.joint),
        scale_breaks(layout),
        centre_line(layout),
        *(section_end_drawing(end, set_up, layout=layout, bore_m=bore_m, prefix=prefix) for end in stand),
        *(
            distance_lines(layout, end.u, layout.dimension_side * (layout.outer / 2 + DISTANCE_ABOVE_PIPE))
            for end in stand
            if end.dam_handle is None
        ),
        transform=layout.turned,
    )


def _around_the_pipe(
    set_up: SetUp,
    ends: tuple[SectionEnd | None, SectionEnd | None],
    *,
    layout: Layout,
    reader: Reader,
) -> str:
    scene = set_up.scene
    left, right = ends
    people = scene.people if scene else ()
    return group(
        people_drawing(people, layout=layout, around=_around(set_up), reader=reader),
        analyser_drawing(scene.analyser_at if scene else None, layout=layout, left=left, right=right),
        leaks_drawing(set_up.leaks, layout=layout, left=left, right=right),
    )
