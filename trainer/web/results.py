"""A marked attempt as its page shows it, whoever reads it: what happened, figures, trace, root, items."""

from dataclasses import dataclass
from functools import partial
from typing import Any

from flask_babel import gettext
from markupsafe import Markup

from trainer.core.oxidation import grade_thresholds
from trainer.core.pool import PoolSide
from trainer.core.terms import MaterialGroup
from trainer.domain.policy import Policy
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.quantities import Dimension
from trainer.drawing.inside import Inside
from trainer.drawing.oxygen_scale import GradeOf, grade_by, written_oxygen
from trainer.drawing.root_drawing import root_drawing
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.drawing.trace_plot import TraceMarks, trace_legend, trace_plot, trace_rows
from trainer.services.results import ResultPage, ScenarioResult
from trainer.set_up_files import write_run
from trainer.web.access import site
from trainer.web.answers import ItemResult, item_results
from trainer.web.bead_and_heat import bead_and_heat
from trainer.web.dead_legs import crossed_places, dead_legs_in_words, dead_places
from trainer.web.figures import hear_scenario, sentence, shown, wording_system
from trainer.web.gas_account import AccountLine, gas_account
from trainer.web.happened import grade_words, what_happened
from trainer.web.preferences import drawing_reader
from trainer.web.purge_shown import PurgeShown, purge_shown
from trainer.web.short_of_air import ShortOfAir, short_of_air
from trainer.web.time_line_words import hold_in_words, readings_in_words, stage_marks_of, stages_in_words
from trainer.wording.cautions import CautionWords, caution_words


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One figure: what it is, how it reads, and the number that `trainer solve` prints under its key."""

    label: str
    words: str
    key: str = ""
    exact: float | None = None
    beside: str = ""


@dataclass(frozen=True, kw_only=True)
class Trace:
    """Oxygen against time, drawn, with its legend and the same as rows."""

    drawing: Markup
    legend: Markup
    rows: list[tuple[str, str, str, str]]


@dataclass(frozen=True, kw_only=True)
class ScenarioView:
    """One scenario of a result."""

    result: ScenarioResult
    happened: str
    drawing: Markup
    figures: tuple[Figure, ...]
    shown: PurgeShown | None
    trace: Trace | None
    stages: tuple[str, ...]
    seen: tuple[str, ...]
    dead_legs: tuple[str, ...]
    root: Markup | None
    cautions: tuple[CautionWords, ...]
    air: ShortOfAir | None
    gas: tuple[AccountLine, ...]
    heat: tuple[AccountLine, ...]
    items: tuple[ItemResult, ...]

    @property
    def is_bad(self) -> bool:
        """Whether the root or a life was lost."""
        return (
            any(each.critical for each in self.items)
            or self.result.run is None
            or self.result.passed is False
        )


def scenario_views(page: ResultPage) -> list[ScenarioView]:
    """All scenarios of a marked attempt."""
    policy = site().content.policy
    return [scenario_view(each, policy=policy) for each in page.scenarios]


def attempt_title(page: ResultPage) -> str:
    """What an attempt is called: its scenario, where there is one only."""
    if len(page.scenarios) == 1:
        return sentence(hear_scenario(page.scenarios[0].scenario).title)
    return gettext("assessed attempt of %(day)s", day=page.attempt.started_at.date().isoformat())


def scenario_view(result: ScenarioResult, *, policy: Policy) -> ScenarioView:
    """The page of one scenario of a marked attempt."""
    hear_scenario(result.scenario)
    set_up = result.own_set_up or result.scenario.set_up
    number = result.scenario_no
    grade_of = root_grade_of(set_up.material, policy)
    marks = _marks(result)
    shown_purge = purge_shown(set_up, result.run, grade_of=grade_of, marks=marks, number=number)
    return ScenarioView(
        result=result,
        happened=_unfolded_words(result) or what_happened(result.own_set_up, result.run),
        drawing=Markup(
            set_up_drawing(
                set_up,
                reader=drawing_reader(f"own-{number}"),
                inside=Inside(
                    dead_legs=dead_places(result.run),
                    crossed=crossed_places(result.run),
                    bands=shown_purge.opening_bands if shown_purge else (),
                ),
            )
        ),
        figures=_figures(result.run),
        shown=shown_purge,
        trace=_trace(result, marks, grade_of),
        stages=stages_in_words(result.run),
        seen=(*hold_in_words(result.run), *readings_in_words(result.own_set_up, result.run)),
        dead_legs=dead_legs_in_words(result.run),
        root=_root(result),
        cautions=_cautions(result.run),
        air=short_of_air(set_up, result.run, number=number),
        gas=gas_account(result.run),
        heat=bead_and_heat(set_up, result.run),
        items=item_results(result),
    )


def _unfolded_words(result: ScenarioResult) -> str:
    """How a diagnosis ended, where there was one: the set-up as it was left does not tell what happened."""
    marks = (result.mark(each.id) for each in result.scenario.items if each.diagnosis is not None)
    return next((sentence(each.why[0]) for each in marks if each.answered and each.why), "")


def root_grade_of(material: MaterialGroup | None, policy: Policy) -> GradeOf:
    """How the root of a material comes out, by the oxygen that it sees."""
    group = material or MaterialGroup.AUSTENITIC_STAINLESS
    return grade_by(policy.root_grades.get(group) or grade_thresholds(group))


def _figures(run: PurgeRun | None) -> tuple[Figure, ...]:
    if run is None:
        return ()
    written = write_run(run)
    used, vent, air = run.gas_used, run.vent, run.breathing
    after = run.purge.oxygen_after_wait_frac if run.purge else None
    figure = partial(_figure, written)
    return (
        figure(
            gettext("Oxygen at strike"),
            _oxygen_words(after),
            "purge.oxygen_after_wait_ppm.expected",
            beside=_spread_words(run, after),
        ),
        figure(
            gettext("Gas used until the arc"),
            shown(used.before_arc_m3 if used else None, Dimension.VOLUME),
            "gas_used.before_arc_l",
        ),
        figure(
            gettext("Pressure on the bead"),
            shown(vent.pressure_rise_pa if vent else None, Dimension.PRESSURE),
            "vent.pressure_rise_pa",
        ),
        figure(
            gettext("Lowest oxygen to breathe nearby"),
            written_oxygen(air.oxygen_mixed_frac) if air and air.oxygen_mixed_frac is not None else "–",
            "breathing.oxygen_mixed_percent",
            beside=pool_words(run),
        ),
    )


def _figure(written: dict[str, Any], label: str, words: str, key: str, beside: str = "") -> Figure:
    value: Any = written
    for part in key.split("."):
        value = value.get(part) if isinstance(value, dict) else None
    return Figure(label=label, words=words, key=key, exact=value, beside=beside)


def _oxygen_words(value: Expected | None) -> str:
    return "–" if value is None else written_oxygen(value.expected)


def _spread_words(run: PurgeRun, value: Expected | None) -> str:
    """The root's colour in a word, and between which ends nine runs in ten fall."""
    if value is None:
        return ""
    return gettext(
        "%(colour)s; nine runs in ten fall between %(low)s and %(high)s",
        colour=grade_words(run.root.grade if run.root else None),
        low=written_oxygen(value.lower),
        high=written_oxygen(value.upper),
    )


def pool_words(run: PurgeRun) -> str:
    """How deep the gas lies unmixed: the mixed figure says nothing of a face at the floor."""
    if run.breathing is None or run.breathing.oxygen_mixed_frac is None:
        return gettext("not reckoned for this place; test the air all the same")
    depth_m = run.breathing.pool_depth_m
    if not depth_m:
        return gettext("if it mixes")
    depth = shown(depth_m, Dimension.LENGTH)
    if run.breathing.pool_side == PoolSide.CEILING:
        return gettext(
            "if it mixes; unmixed, a layer without oxygen %(depth)s deep under the ceiling", depth=depth
        )
    return gettext("if it mixes; unmixed, a layer without oxygen %(depth)s deep at the floor", depth=depth)


def _marks(result: ScenarioResult) -> TraceMarks | None:
    run, own = result.run, result.own_set_up
    if run is None or own is None or run.purge is None or not run.purge.trace:
        return None
    needed = run.purge.time_to_target_s
    return TraceMarks(
        target_frac=own.target.oxygen_frac if own.target else None,
        floor_frac=run.purge.floor_frac,
        strike_s=own.wait_s,
        shaded_s=(needed.lower, needed.upper) if isinstance(needed, Expected) else None,
        stages=stage_marks_of(run.purge),
        moment_s=run.purge.trace[-1][0] if own.wait_s is None else own.wait_s,
    )


def _trace(result: ScenarioResult, marks: TraceMarks | None, grade_of: GradeOf) -> Trace | None:
    if marks is None or result.run is None or result.run.purge is None:
        return None
    trace = result.run.purge.trace
    reader = drawing_reader(f"trace-{result.scenario_no}")
    return Trace(
        drawing=Markup(trace_plot(trace, marks=marks, grade_of=grade_of, reader=reader)),
        legend=Markup(trace_legend(trace, grade_of=grade_of, reader=reader)),
        rows=trace_rows(trace),
    )


def _root(result: ScenarioResult) -> Markup | None:
    run = result.run
    after = run.purge.oxygen_after_wait_frac if run and run.purge else None
    if run is None or run.root is None or run.root.grade is None or after is None:
        return None
    reader = drawing_reader(f"root-{result.scenario_no}")
    words = written_oxygen(after.expected)
    return Markup(
        root_drawing(run.root.grade, peak_colour=run.root.colour, oxygen_words=words, reader=reader)
    )


def _cautions(run: PurgeRun | None) -> tuple[CautionWords, ...]:
    if run is None:
        return ()
    return tuple(caution_words(each, gettext, system=wording_system()) for each in run.cautions)
