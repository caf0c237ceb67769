"""The gas filling a section on the bench: the frames, and the drawing, trace and root that they move."""

from dataclasses import dataclass

from markupsafe import Markup

from trainer.domain.policy import Policy
from trainer.drawing.inside import Inside
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.drawing.trace_plot import trace_plot
from trainer.services.bench_set_up import WorkedOut
from trainer.web.dead_legs import crossed_places, dead_places
from trainer.web.preferences import drawing_reader
from trainer.web.purge_shown import PurgeShown, purge_shown
from trainer.web.run_pictures import at_its_moment, root_grade_of, root_of, trace_marks


@dataclass(frozen=True, kw_only=True)
class FillingView:
    """What the script plays, and what it plays it on."""

    shown: PurgeShown
    drawing: Markup
    trace: Markup
    root: Markup | None


def filling_view(worked: WorkedOut, *, policy: Policy) -> FillingView | None:
    """The view; None where there is no purge to show."""
    set_up, run = worked.set_up, worked.run
    marks = trace_marks(set_up, run)
    grade_of = root_grade_of(set_up.material, policy)
    shown = purge_shown(set_up, run, grade_of=grade_of, marks=marks, number=1)
    if shown is None or marks is None or run.purge is None:
        return None
    trace = run.purge.trace
    inside = Inside(dead_legs=dead_places(run), crossed=crossed_places(run), bands=shown.opening_bands)
    moving = at_its_moment(marks, run)
    reader = drawing_reader("bench-filling")
    return FillingView(
        shown=shown,
        drawing=Markup(set_up_drawing(set_up, reader=reader, inside=inside)),
        trace=Markup(
            trace_plot(trace, marks=moving, grade_of=grade_of, reader=drawing_reader("bench-filling-trace"))
        ),
        root=root_of(run, name="bench-root-filling"),
    )
