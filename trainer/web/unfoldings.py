"""A diagnosis as its page shows it: what each step showed, what the oxygen did, and what may follow."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from flask_babel import gettext
from markupsafe import Markup

from trainer.core.oxidation import grade_thresholds
from trainer.core.terms import MaterialGroup
from trainer.domain.diagnosis_parts import DiagnosisSheet, Move, MoveKind, Shows, Watched
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Item, Scenario
from trainer.domain.unfolding import Outcome, Seen, StepSeen, Unfolding, unfold, unfolded_trace
from trainer.drawing.oxygen_scale import grade_by
from trainer.drawing.trace_plot import TraceMarks, trace_plot
from trainer.web.figures import number_shown, oxygen_shown, sentence, shown
from trainer.web.preferences import drawing_reader


@dataclass(frozen=True, kw_only=True)
class UnfoldedRow:
    """One line of the table: when, what was done, what was seen, what the oxygen and the gas stood at."""

    time: str
    step: str
    seen: str
    oxygen: tuple[str, ...]
    gas: str


@dataclass(frozen=True, kw_only=True)
class OfferedMove:
    """One thing that may be done next, and how long it takes."""

    move: Move
    takes: str


@dataclass(frozen=True, kw_only=True)
class UnfoldingView:
    """The steps taken so far and those offered, by kind; nothing is offered once it is over."""

    rows: tuple[UnfoldedRow, ...]
    heads: tuple[str, ...]  # of the columns of oxygen
    taken: str  # ids, as the form sends them back
    left: str  # time that is left
    ended: str  # how it ended, in words that give no key away
    offered: tuple[tuple[str, tuple[OfferedMove, ...]], ...]
    trace: Markup | None = None

    @property
    def is_over(self) -> bool:
        """Whether no further step is taken."""
        return not self.offered


def unfolding_view(item: Item, unfolding: Unfolding) -> UnfoldingView:
    """What an open attempt shows."""
    sheet = item.diagnosis
    assert sheet is not None  # an item of this kind has one
    return UnfoldingView(
        rows=tuple(_row(sheet, each) for each in unfolding.steps),
        heads=_heads(sheet),
        taken=" ".join(each.move_id for each in unfolding.steps[1:]),
        left=_minutes(max(0.0, sheet.limit_s - unfolding.time_s)),
        ended=_ended_words(unfolding.outcome),
        offered=() if unfolding.is_over else _offered(sheet),
    )


def unfolded_result(scenario: Scenario, item: Item, steps: list[str], *, name: str) -> UnfoldingView:
    """The same after marking, with the oxygen against time."""
    view = unfolding_view(item, unfold(scenario, item=item, steps=steps))
    return UnfoldingView(**{**vars(view), "offered": (), "trace": _trace(scenario, item, steps, name)})


def steps_words(item: Item, steps: Sequence[str]) -> str:
    """Steps in a line, those done again in a row told once with their number."""
    assert item.diagnosis is not None
    told = []
    for step, again in groupby(steps):
        count, text = len(list(again)), sentence(item.diagnosis.move(step).text)
        told.append(text if count == 1 else gettext("%(step)s (%(count)s times)", step=text, count=count))
    return " → ".join(told)


def _row(sheet: DiagnosisSheet, step: StepSeen) -> UnfoldedRow:
    figures = (_figure_words(each) for each in step.figures)
    return UnfoldedRow(
        time=_minutes(step.time_s),
        step=sentence(sheet.move(step.move_id).text) if step.move_id else gettext("As found"),
        seen=" ".join((sentence(step.seen), *figures)).strip(),
        oxygen=tuple(map(oxygen_shown, step.shown_frac)),
        gas=shown(step.gas_m3, Dimension.VOLUME),
    )


def _figure_words(figure: Seen) -> str:
    value = shown(figure.value, figure.dimension)
    if figure.shows is Shows.GAUGE:
        return gettext("The gauge shows %(value)s.", value=value)
    return gettext("The flow is %(value)s.", value=value)


def _heads(sheet: DiagnosisSheet) -> tuple[str, ...]:
    if sheet.watches is Watched.AIR:
        return gettext("Oxygen where he lies"), gettext("Oxygen if it mixed")
    return gettext("Oxygen at the crown"), gettext("Oxygen at the vent")


def _minutes(time_s: float) -> str:
    """Steps are counted in minutes, the shortest of them too."""
    return gettext("%(minutes)s min", minutes=number_shown(time_s / 60.0))


def _offered(sheet: DiagnosisSheet) -> tuple[tuple[str, tuple[OfferedMove, ...]], ...]:
    heads = {
        MoveKind.CHECK: gettext("Look"),
        MoveKind.ACTION: gettext("Act"),
        MoveKind.WAIT: gettext("Wait"),
        MoveKind.FINISH: gettext("End it"),
    }
    offered = [(each.kind, OfferedMove(move=each, takes=_minutes(each.takes_s))) for each in sheet.moves]
    found = ((heads[kind], tuple(each for of, each in offered if of is kind)) for kind in MoveKind)
    return tuple((head, moves) for head, moves in found if moves)


def _ended_words(outcome: Outcome) -> str:
    """How it ended, without saying whether that was right: before marking nobody is told."""
    if not outcome.is_over:
        return ""
    if outcome is Outcome.LOST:
        return gettext("The time is up: nothing more is done here.")
    return gettext("You brought it to its end: nothing more is done here.")


def _trace(scenario: Scenario, item: Item, steps: list[str], name: str) -> Markup | None:
    rows = unfolded_trace(scenario, item=item, steps=steps)
    if len(rows) < 2:
        return None
    material = scenario.set_up.material or MaterialGroup.AUSTENITIC_STAINLESS
    grade_of = grade_by(grade_thresholds(material))
    target = scenario.set_up.target
    marks = TraceMarks(target_frac=target.oxygen_frac if target else None)
    return Markup(trace_plot(rows, marks=marks, grade_of=grade_of, reader=drawing_reader(name)))
