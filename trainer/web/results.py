"""A marked attempt as its page shows it, whoever reads it: what happened, figures, trace, root, items."""

from dataclasses import dataclass
from functools import partial
from typing import Any

from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension
from trainer.drawing.inside import Inside
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.services.results import ResultPage, ScenarioResult
from trainer.set_up_files import write_run
from trainer.web.access import site
from trainer.web.answers import ItemResult, item_results
from trainer.web.bead_and_heat import bead_and_heat
from trainer.web.dead_legs import crossed_places, dead_legs_in_words, dead_places
from trainer.web.figures import caution_shown, hear_scenario, sentence, shown, why_shown
from trainer.web.gas_account import AccountLine, gas_account
from trainer.web.happened import what_happened
from trainer.web.preferences import drawing_reader
from trainer.web.purge_shown import PurgeShown, purge_shown
from trainer.web.run_figures import lowest_air, oxygen_words, spread_words
from trainer.web.run_pictures import Trace, at_its_moment, root_grade_of, root_of, trace_marks, trace_of
from trainer.web.short_of_air import ShortOfAir, short_of_air
from trainer.web.time_line_words import hold_in_words, readings_in_words, stages_in_words
from trainer.wording.cautions import CautionWords


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One figure: what it is, how it reads, and the number that `trainer solve` prints under its key."""

    label: str
    words: str
    key: str = ""
    exact: float | None = None
    beside: str = ""


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
    marks = trace_marks(result.own_set_up, result.run)
    if marks is not None and result.run is not None:
        marks = at_its_moment(marks, result.run)
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
        trace=trace_of(result.run, marks, grade_of=grade_of, name=f"trace-{number}"),
        stages=stages_in_words(result.run),
        seen=(*hold_in_words(result.run), *readings_in_words(result.own_set_up, result.run)),
        dead_legs=dead_legs_in_words(result.run),
        root=root_of(result.run, name=f"root-{number}"),
        cautions=_cautions(result.run),
        air=short_of_air(set_up, result.run, number=number),
        gas=gas_account(result.run),
        heat=bead_and_heat(set_up, result.run),
        items=item_results(result),
    )


def _unfolded_words(result: ScenarioResult) -> str:
    """How a diagnosis ended, where there was one: the set-up as it was left does not tell what happened."""
    marks = (result.mark(each.id) for each in result.scenario.items if each.diagnosis is not None)
    return next((why_shown(each.why[0]) for each in marks if each.answered and each.why), "")


def _figures(run: PurgeRun | None) -> tuple[Figure, ...]:
    if run is None:
        return ()
    written = write_run(run)
    used, vent, lowest = run.gas_used, run.vent, lowest_air(run)
    after = run.purge.oxygen_after_wait_frac if run.purge else None
    figure = partial(_figure, written)
    return (
        figure(
            gettext("Oxygen at strike"),
            oxygen_words(after.expected if after else None),
            "purge.oxygen_after_wait_ppm.expected",
            beside=spread_words(run, after),
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
            lowest.words,
            lowest.key,
            beside=lowest.beside,
        ),
    )


def _figure(written: dict[str, Any], label: str, words: str, key: str, beside: str = "") -> Figure:
    value: Any = written
    for part in key.split("."):
        if isinstance(value, list):
            value = value[int(part)]
        else:
            value = value.get(part) if isinstance(value, dict) else None
    return Figure(label=label, words=words, key=key, exact=value, beside=beside)


def _cautions(run: PurgeRun | None) -> tuple[CautionWords, ...]:
    if run is None:
        return ()
    return tuple(caution_shown(each) for each in run.cautions)
