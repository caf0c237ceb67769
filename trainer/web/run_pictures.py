"""The trace and the root of a run, drawn, for results and the bench alike."""

from dataclasses import dataclass, replace

from markupsafe import Markup

from trainer.core.oxidation import grade_thresholds
from trainer.core.terms import MaterialGroup
from trainer.domain.policy import Policy
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.set_up import SetUp
from trainer.drawing.oxygen_scale import GradeOf, grade_by
from trainer.drawing.root_drawing import root_drawing
from trainer.drawing.trace_plot import TraceMarks, trace_legend, trace_plot, trace_rows
from trainer.web.preferences import drawing_reader
from trainer.web.time_line_words import stage_marks_of


@dataclass(frozen=True, kw_only=True)
class Trace:
    """Oxygen against time, drawn, with its legend and the same as rows."""

    drawing: Markup
    legend: Markup
    rows: list[tuple[str, str, str, str]]


def root_grade_of(material: MaterialGroup | None, policy: Policy) -> GradeOf:
    """How the root of a material comes out, by the oxygen that it sees."""
    group = material or MaterialGroup.AUSTENITIC_STAINLESS
    return grade_by(policy.root_grades.get(group) or grade_thresholds(group))


def trace_marks(set_up: SetUp | None, run: PurgeRun | None) -> TraceMarks | None:
    """What is drawn beside the trace; None where there is none."""
    purge = run.purge if run is not None else None
    if set_up is None or purge is None or not purge.trace:
        return None
    needed = purge.time_to_target_s
    return TraceMarks(
        target_frac=set_up.target.oxygen_frac if set_up.target else None,
        floor_frac=purge.floor_frac,
        strike_s=set_up.wait_s,
        shaded_s=(needed.lower, needed.upper) if isinstance(needed, Expected) else None,
        stages=stage_marks_of(purge),
    )


def at_its_moment(marks: TraceMarks, run: PurgeRun) -> TraceMarks:
    """The same marks for a trace that moves: it stands at the strike, or at its end where none is."""
    assert run.purge is not None  # it has a trace, or it had no marks
    return replace(marks, moment_s=run.purge.trace[-1][0] if marks.strike_s is None else marks.strike_s)


def trace_of(run: PurgeRun | None, marks: TraceMarks | None, *, grade_of: GradeOf, name: str) -> Trace | None:
    """The trace with its marks; the name keeps its ids apart from others on the page."""
    if marks is None or run is None or run.purge is None:
        return None
    trace, reader = run.purge.trace, drawing_reader(name)
    return Trace(
        drawing=Markup(trace_plot(trace, marks=marks, grade_of=grade_of, reader=reader)),
        legend=Markup(trace_legend(trace, grade_of=grade_of, reader=reader)),
        rows=trace_rows(trace, reader=reader),
    )


def root_of(run: PurgeRun | None, *, name: str) -> Markup | None:
    """The root as the core has it come out; the name keeps its ids apart from others on the page."""
    after = run.purge.oxygen_after_wait_frac if run and run.purge else None
    if run is None or run.root is None or run.root.grade is None or after is None:
        return None
    reader = drawing_reader(name)
    words = reader.oxygen(after.expected)
    return Markup(
        root_drawing(run.root.grade, peak_colour=run.root.colour, oxygen_words=words, reader=reader)
    )
