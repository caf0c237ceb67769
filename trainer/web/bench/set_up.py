"""A set-up on the bench: built by a form, worked out at once, shared by its address. Nothing is kept."""

from dataclasses import dataclass, field

from flask import jsonify, redirect, render_template, request
from flask.typing import ResponseReturnValue
from flask_babel import gettext
from flask_babel import lazy_gettext as _l

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.domain.people import UnitSystem
from trainer.domain.set_up_faults import fault_from
from trainer.services.bench_set_up import WorkedOut, helped_by, work_out
from trainer.set_up_files import Fault, SetUpFaults
from trainer.set_up_files.addresses import ReadAddress
from trainer.set_up_files.starting_points import NAMES, US_EDITION
from trainer.web.access import public, site
from trainer.web.bench.asked import Asked, asked, values_in
from trainer.web.bench.blueprint import blueprint
from trainer.web.bench.card import READINGS_COUNT, card_view
from trainer.web.bench.change_words import HelpView, help_view
from trainer.web.bench.comparing import Comparison, compared
from trainer.web.bench.filling_view import FillingView, filling_view
from trainer.web.bench.set_up_form import SetUpForm
from trainer.web.bench.set_up_rows import with_row_changed
from trainer.web.bench.set_up_view import BenchView, bench_view
from trainer.web.limits import BENCH_HELP, BENCH_LIVE, limiter
from trainer.web.preferences import unit_system

STARTS = {
    "shop": _l("Shop joint, level"),
    "long-run": _l("Long run with paper dams"),
    "trench": _l("Joint in a trench"),
    "riser": _l("Riser, gas from below"),
    "spool-riser": _l("Spool with a riser"),
    "spool-branch": _l("Spool with a closed branch"),
    "spool-over": _l("Spool over the top"),
}


@dataclass(kw_only=True)
class Bench:
    """One question answered as far as it can be: the page, its fragments and the card all show this."""

    question: Asked
    faults: list[Fault] = field(default_factory=list)
    worked: WorkedOut | None = None
    view: BenchView | None = None
    comparison: Comparison | None = None
    against_fault: str = ""
    help: HelpView | None = None
    filling: FillingView | None = None


def _answered(question: Asked) -> Bench:
    bench = Bench(question=question)
    try:
        bench.worked = work_out(site(), question.values)
        bench.view = bench_view(bench.worked, policy=site().content.policy)
    except SetUpFaults as error:
        bench.faults = error.faults
    except (OutOfRange, UnknownName) as error:
        bench.faults = [Fault(path="", value=None, message=str(error), cause=fault_from(error, path=""))]
    except UnknownSize as error:
        bench.faults = [Fault(path="", value=None, message=str(error))]
    if question.against and bench.view is not None:
        _compare(bench)
    return bench


def _compare(bench: Bench) -> None:
    assert bench.worked is not None
    assert bench.view is not None
    try:
        kept = work_out(site(), values_in(bench.question.against).values)
        kept_view = bench_view(kept, policy=site().content.policy, letter="a")
    except (SetUpFaults, OutOfRange, UnknownName, UnknownSize) as error:
        bench.against_fault = gettext("A cannot be worked out: %(why)s", why=str(error).splitlines()[0])
        return
    bench.comparison = compared(kept, bench.worked, a_view=kept_view, b_view=bench.view)


@blueprint.get("/set-up")
@public
def set_up() -> ResponseReturnValue:
    """The page of a set-up; what the form sends leads on to the short address of the same."""
    question = asked()
    if question.do:
        values = with_row_changed(question.values, question.do)
        return redirect(f"{question.with_values(values).address()}#{_row_anchor(question.do)}", 303)
    if question.was_typed and question.read.is_whole:
        return redirect(question.address(), 303)
    bench = _answered(question)
    if question.wants_help:
        _help(bench)
    if question.wants_flow:
        _fill(bench)
    form = SetUpForm(question.values)
    form.tell(bench.faults)
    page = render_template(
        "bench/set_up.html", bench=bench, form=form, notes=_notes(question.read), starts=_starts()
    )
    return (page, 422) if bench.faults else page


def _row_anchor(do: str) -> str:
    path = do.partition(":")[2]
    return "".join(sign for sign in path if sign.isalnum() or sign in ".-_")


@blueprint.get("/set-up/results")
@public
@limiter.limit(BENCH_LIVE)
def results() -> ResponseReturnValue:
    """The same as parts of the page, for the script that swaps them in."""
    bench = _answered(asked())
    form = None
    if bench.faults:
        form = SetUpForm(bench.question.values)
        form.tell(bench.faults)
    return jsonify(
        address=bench.question.address(),
        card=bench.question.address(".card"),
        keep=bench.question.address(against=bench.question.query),
        live=None if bench.faults else render_template("bench/live.html", bench=bench),
        results=None if bench.faults else render_template("bench/results.html", bench=bench),
        faults=form.faults if form else [],
    )


@blueprint.get("/set-up/help")
@public
@limiter.limit(BENCH_HELP)
def what_helps() -> ResponseReturnValue:
    """Which single change helps most, as a part of the page."""
    bench = _answered(asked())
    _help(bench)
    return jsonify(html=render_template("bench/help.html", bench=bench))


@blueprint.get("/set-up/filling")
@public
@limiter.limit(BENCH_HELP)
def filling() -> ResponseReturnValue:
    """The gas filling the section, as a part of the page."""
    bench = _answered(asked())
    _fill(bench)
    return jsonify(html=render_template("bench/filling.html", bench=bench))


@blueprint.get("/set-up/card")
@public
def card() -> ResponseReturnValue:
    """The purge card of a set-up, for one page of paper; back to the form where it cannot be worked out."""
    question = asked()
    bench = _answered(question)
    if bench.worked is None:
        return redirect(question.address(), 303)
    return render_template(
        "bench/card.html", bench=bench, card=card_view(bench.worked), readings_count=READINGS_COUNT
    )


def _help(bench: Bench) -> None:
    if bench.worked is not None:
        bench.help = help_view(helped_by(site(), bench.worked), bench.worked, bench.question)


def _fill(bench: Bench) -> None:
    if bench.worked is not None:
        bench.filling = filling_view(bench.worked, policy=site().content.policy)


def _starts() -> list[tuple[str, str]]:
    """The starting points, in the reader's edition, as (query, words)."""
    ending = US_EDITION if unit_system() is UnitSystem.INCH_POUND else ""
    units = f"&units={request.args['units']}" if request.args.get("units") else ""
    return [(f"v=1&start={name}{ending}{units}", str(STARTS[name])) for name in NAMES]


def _notes(read: ReadAddress) -> list[str]:
    """What of the address could not be read, and what was done about it."""
    notes = []
    if read.other_version:
        notes.append(
            gettext(
                "This address was made for another version of the bench (%(version)s). What this one knows of"
                " it was read.",
                version=read.other_version[:20],
            )
        )
    if read.unknown_start:
        notes.append(
            gettext(
                "There is no starting point called '%(name)s', so only what the address tells beside it was"
                " read.",
                name=read.unknown_start[:40],
            )
        )
    if read.unknown:
        names = ", ".join(each[:40] for each in read.unknown[:6])
        notes.append(
            gettext(
                "Not read, since no set-up has it: %(names)s. Everything else in the address was.",
                names=names,
            )
        )
    return notes
