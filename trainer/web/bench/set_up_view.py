"""What the core says of a set-up on the bench, ready for the page: drawing, figures, trace, cautions."""

from dataclasses import dataclass

from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.policy import Policy
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.quantities import Dimension, Never
from trainer.domain.run_people_air import LEAST_TO_BREATHE_FRAC
from trainer.drawing.inside import Inside
from trainer.drawing.oxygen_scale import film_legend
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.services.bench_set_up import WorkedOut
from trainer.web.bead_and_heat import bead_and_heat
from trainer.web.dead_legs import crossed_places, dead_legs_in_words, dead_places
from trainer.web.figures import caution_shown, oxygen_shown, plain, shown
from trainer.web.gas_account import AccountLine, gas_account
from trainer.web.happened import grade_words
from trainer.web.preferences import drawing_reader
from trainer.web.run_figures import lowest_air, oxygen_words, spread_words, time_words
from trainer.web.run_pictures import Trace, root_grade_of, root_of, trace_marks, trace_of
from trainer.web.short_of_air import ShortOfAir, air_near
from trainer.web.time_line_words import hold_in_words, readings_in_words, stages_in_words
from trainer.wording.cautions import CautionWords


@dataclass(frozen=True, kw_only=True)
class BenchFigure:
    """One figure under its name, with what stands beside it; bad where it lies beyond its limit."""

    key: str
    label: str
    words: str
    beside: str = ""
    is_bad: bool = False


@dataclass(frozen=True, kw_only=True)
class BenchView:
    """One set-up worked out; A and B of a comparison are told apart by their letter."""

    letter: str
    summary: str
    is_bad: bool
    drawing: Markup
    legend: Markup
    figures: tuple[BenchFigure, ...]
    trace: Trace | None
    root: Markup | None
    cautions: tuple[CautionWords, ...]
    dead_legs: tuple[str, ...]
    stages: tuple[str, ...]
    seen: tuple[str, ...]
    air: ShortOfAir | None
    gas: tuple[AccountLine, ...]
    heat: tuple[AccountLine, ...]


def bench_view(worked: WorkedOut, *, policy: Policy, letter: str = "") -> BenchView:
    """The page's view of a set-up that was worked out."""
    set_up, run = worked.set_up, worked.run
    grade_of = root_grade_of(set_up.material, policy)
    bands = tuple(grade_of(each) for each in worked.bands_frac)
    inside = Inside(dead_legs=dead_places(run), crossed=crossed_places(run), bands=bands)
    reader = drawing_reader(f"bench{letter}")
    figures = figures_of(worked)
    return BenchView(
        letter=letter,
        summary=summary_of(worked),
        is_bad=any(each.is_bad for each in figures)
        or any(each.code == "asphyxiation" for each in run.cautions),
        drawing=Markup(set_up_drawing(set_up, reader=reader, inside=inside)),
        legend=Markup(film_legend(bands, reader=reader)) if bands else Markup(""),
        figures=figures,
        trace=trace_of(run, trace_marks(set_up, run), grade_of=grade_of, name=f"bench-trace{letter}"),
        root=root_of(run, name=f"bench-root{letter}"),
        cautions=tuple(caution_shown(each) for each in run.cautions),
        dead_legs=dead_legs_in_words(run),
        stages=stages_in_words(run),
        seen=(*hold_in_words(run), *readings_in_words(set_up, run)),
        air=air_near(set_up, run),
        gas=gas_account(run),
        heat=bead_and_heat(set_up, run),
    )


def summary_of(worked: WorkedOut) -> str:
    """The line that stays in sight: oxygen and colour at the strike, and when the target is there."""
    after = worked.run.purge.oxygen_after_wait_frac if worked.run.purge else None
    if after is None or worked.set_up.wait_s is None:
        return gettext(
            "Too little is told for an oxygen level: pipe, section, inlet, vent, gas, flow and wait."
        )
    struck = gettext(
        "Struck after %(wait)s, the root sees %(oxygen)s: %(colour)s.",
        wait=shown(worked.set_up.wait_s, Dimension.DURATION),
        oxygen=oxygen_shown(after.expected),
        colour=grade_words(worked.run.root.grade if worked.run.root else None),
    )
    return f"{struck} {_reached_words(worked.run)}".strip()


def _reached_words(run: PurgeRun) -> str:
    needed = run.purge.time_to_target_s if run.purge else None
    if isinstance(needed, Expected):
        time = shown(needed.expected, Dimension.DURATION)
        return gettext("The target is reached after %(time)s.", time=time)
    return gettext("The target is never reached.") if isinstance(needed, Never) else ""


def figures_of(worked: WorkedOut) -> tuple[BenchFigure, ...]:
    """The figures of a set-up, the root's first."""
    return (
        _oxygen(worked),
        _time(worked.run),
        _gas(worked.run),
        _cost(worked.run),
        _pressure(worked.run),
        _air(worked.run),
    )


def _oxygen(worked: WorkedOut) -> BenchFigure:
    run, target = worked.run, worked.set_up.target
    after = run.purge.oxygen_after_wait_frac if run.purge else None
    limit_frac = target.oxygen_frac if target else None
    return BenchFigure(
        key="oxygen",
        label=gettext("Oxygen at strike"),
        words=oxygen_words(after.expected if after else None),
        beside=spread_words(run, after),
        is_bad=after is not None and limit_frac is not None and after.expected > limit_frac,
    )


def _time(run: PurgeRun) -> BenchFigure:
    needed = run.purge.time_to_target_s if run.purge else None
    return BenchFigure(
        key="time",
        label=gettext("Time to the target"),
        words=time_words(needed),
        beside=gettext(
            "nine runs in ten between %(low)s and %(high)s",
            low=shown(needed.lower, Dimension.DURATION),
            high=shown(needed.upper, Dimension.DURATION),
        )
        if isinstance(needed, Expected)
        else "",
        is_bad=isinstance(needed, Never),
    )


def _gas(run: PurgeRun) -> BenchFigure:
    used = run.gas_used
    total_m3 = used.total_m3 if used else None
    return BenchFigure(
        key="gas",
        label=gettext("Gas used until the arc"),
        words=shown(used.before_arc_m3 if used else None, Dimension.VOLUME),
        beside=""
        if total_m3 is None
        else gettext("%(total)s for the whole joint", total=shown(total_m3, Dimension.VOLUME)),
    )


def _cost(run: PurgeRun) -> BenchFigure:
    cost = run.cost
    words = "–" if cost is None or cost.total is None else plain(cost.total)
    is_lost = bool(cost and cost.lost_joint)
    beside = (
        gettext("a root cut out is in it")
        if is_lost
        else gettext("gas and waiting, in the money of your prices")
    )
    return BenchFigure(
        key="cost", label=gettext("Cost of the joint"), words=words, beside=beside, is_bad=is_lost
    )


def _pressure(run: PurgeRun) -> BenchFigure:
    vent = run.vent
    welding_pa = vent.pressure_while_welding_pa if vent else None
    return BenchFigure(
        key="pressure",
        label=gettext("Pressure on the bead"),
        words=shown(welding_pa, Dimension.PRESSURE),
        beside=gettext(
            "while welding; %(rise)s while purging",
            rise=shown(vent.pressure_rise_pa if vent else None, Dimension.PRESSURE),
        ),
        is_bad=any(each.code in ("pressure-on-bead", "vent-too-small") for each in run.cautions),
    )


def _air(run: PurgeRun) -> BenchFigure:
    lowest = lowest_air(run)
    return BenchFigure(
        key="air",
        label=gettext("Lowest oxygen to breathe nearby"),
        words=lowest.words,
        beside=lowest.beside,
        is_bad=lowest.oxygen_frac is not None and lowest.oxygen_frac < LEAST_TO_BREATHE_FRAC,
    )
