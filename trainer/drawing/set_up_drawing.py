"""A set-up as an engineering section: drawn is what the set-up says, nothing that follows from it."""

from trainer.core.pipe import PipeSize, pipe_from_wall, pipe_size, pipe_size_by_dn
from trainer.domain.set_up import Pipe, Place, SetUp, Side
from trainer.domain.spool_path import path_of
from trainer.drawing.analyser import analyser_drawing
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.inside import NOTHING_KNOWN, Inside
from trainer.drawing.layout import SHEET, Layout, layout_for
from trainer.drawing.leaks import leaks_drawing
from trainer.drawing.people import people_drawing
from trainer.drawing.pipe_parts import centre_line, distance_lines, hatch_patterns, scale_breaks, tape, walls
from trainer.drawing.reader import ENGLISH_METRIC, Reader
from trainer.drawing.section_ends import SectionEnd, grips, section_end, section_end_drawing
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
    size = drawn_size(set_up.pipe)
    outside_m = size.outside_diameter_m if size else None
    layout = layout_for(
        set_up, asked=asked, outside_diameter_m=outside_m, wall_m=size.wall_m if size else None
    )
    left, right = (section_end(set_up, side, layout=layout, asked=asked) for side in (Side.LEFT, Side.RIGHT))
    around = _around(set_up)
    strip = strip_of(asked.objects)
    lift = SHEET[1] - strip.top if strip else 0.0
    around_it = _scene(set_up, (left, right), layout=layout, reader=reader)
    scene = group(
        surroundings_drawing(set_up.surroundings, layout=layout),
        supply_drawing(set_up.supply, scene=set_up.scene, ground_y=layout.ground_y),
        supply_hose(set_up, layout=layout),
        vent_hose(set_up, layout=layout, around=around),
        section_fill(inside.bands, (left, right), layout=layout, prefix=reader.prefix)
        if left and right
        else "",
        _pipe(
            set_up, [left, right], layout=layout, bore_m=size.bore_m if size else None, prefix=reader.prefix
        ),
        around_it,
        sheet_words(set_up, [left, right], layout=layout, outside_diameter_m=outside_m, reader=reader),
        group(
            *(
                grips(
                    end,
                    layout=layout,
                    asked=asked,
                    reader=reader,
                    bore_m=size.bore_m if size else None,
                )
                for end in (left, right)
                if end
            ),
            transform=layout.turned,
            data_frame="pipe",
        ),
        transform=f"translate(0 {-lift:g})" if strip else None,
        data_part="scene",
    )
    return picture(
        hatch_patterns(reader.prefix),
        scene,
        signs_drawing(asked, reader=reader),
        size=(SHEET[0], SHEET[1] + (strip.bottom - strip.top if strip else 0.0)),
        top=-lift,
        name=reader.words("The set-up, drawn in section"),
        told=told(set_up, outside_diameter_m=outside_m, asked=asked, reader=reader),
        prefix=reader.prefix,
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


def _scene(
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


def drawn_size(pipe: Pipe | None) -> PipeSize | None:
    """The pipe's sizes, where enough is known of it."""
    if pipe is None:
        return None
    if pipe.outside_diameter_m is not None and pipe.wall_m is not None:
        return pipe_from_wall(outside_diameter_m=pipe.outside_diameter_m, wall_m=pipe.wall_m)
    if pipe.schedule is None:
        return None
    if pipe.nps is not None:
        return pipe_size(nps=pipe.nps, schedule=pipe.schedule)
    return pipe_size_by_dn(dn=pipe.dn, schedule=pipe.schedule) if pipe.dn is not None else None
