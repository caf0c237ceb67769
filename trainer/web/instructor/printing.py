"""Printing a module on paper: for whom, the worksheets, and their answer key."""

from uuid import UUID, uuid4

from flask import Response, abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Refused
from trainer.domain.people import Language, UnitSystem
from trainer.domain.permissions import Permission
from trainer.services import paper
from trainer.services.paper import Printing, PrintPage
from trainer.web.access import access, acting, site
from trainer.web.figures import family_title
from trainer.web.forms.fields import offered
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.paper_forms import PrintForm
from trainer.web.paper.answer_keys import answer_key_pdf
from trainer.web.paper.sheet_parts import PageSize, Printed, usual_size
from trainer.web.paper.worksheets import worksheet_pdf
from trainer.web.preferences import language, language_word, unit_system, writing_in


@blueprint.get("/assignments/<uuid:assignment_id>/paper")
@access(Permission.PRINT_ON_PAPER)
def print_on_paper(assignment_id: UUID) -> ResponseReturnValue:
    """For whom sheets are printed, what of the module is left out, and what was printed before."""
    page = paper.print_page(site(), acting(), assignment_id=assignment_id)
    form = PrintForm(
        paper_set_id=uuid4(),
        people=[str(each.person_id) for each in page.people],
        blank_units=unit_system().value,
        language=language(),
    )
    return _print_page(page, form)


@blueprint.post("/assignments/<uuid:assignment_id>/paper")
@access(Permission.PRINT_ON_PAPER)
def do_print(assignment_id: UUID) -> ResponseReturnValue:
    """Draws the sheets; the same form sent twice prints once."""
    page = paper.print_page(site(), acting(), assignment_id=assignment_id)
    form = PrintForm()
    form.people.choices = _people(page)
    if form.validate():
        try:
            paper_set_id = paper.print_sheets(
                site(), acting(), assignment_id=assignment_id, printing=_printing(form)
            )
        except Refused as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The sheets are drawn. Open the worksheets and print them."))
            return redirect(url_for(".paper_set", paper_set_id=paper_set_id), 303)
    return _print_page(page, form), 422


@blueprint.get("/paper/<uuid:paper_set_id>")
@access(Permission.PRINT_ON_PAPER)
def paper_set(paper_set_id: UUID) -> ResponseReturnValue:
    """A set: its documents, and sheet by sheet what became of it."""
    page = paper.set_page(site(), acting(), paper_set_id=paper_set_id)
    in_language = language_word(page.paper_set.language)
    return render_template("instructor/paper_set.html", page=page, sizes=_sizes(), in_language=in_language)


@blueprint.get("/paper/<uuid:paper_set_id>/worksheets.pdf")
@access(Permission.PRINT_ON_PAPER)
def worksheets(paper_set_id: UUID) -> ResponseReturnValue:
    """The worksheets of a set."""
    printed = _printed(paper_set_id)
    sheets = paper.shown_sheets(site(), acting(), paper_set_id=paper_set_id)
    with writing_in(printed.page.paper_set.language):
        made = worksheet_pdf(printed, sheets, address_of=_address_of)
    return _pdf(made, f"worksheets-{paper_set_id}.pdf")


@blueprint.get("/paper/<uuid:paper_set_id>/answer-key.pdf")
@access(Permission.READ_ANSWER_KEY)
def answer_key(paper_set_id: UUID) -> ResponseReturnValue:
    """The answers to a set, but for a sheet that was printed for whoever asks."""
    printed = _printed(paper_set_id)
    keys = paper.sheet_keys(site(), acting(), paper_set_id=paper_set_id)
    if not keys:
        flash(gettext("The only sheet of this set is your own, and its key is not yours to see."), "refused")
        return redirect(url_for(".paper_set", paper_set_id=paper_set_id))
    with writing_in(printed.page.paper_set.language):
        made = answer_key_pdf(printed, keys)
    return _pdf(made, f"ANSWER-KEY-{paper_set_id}.pdf")


def _address_of(code: str) -> str:
    return url_for(".keying", code=code, _external=True)


def _printed(paper_set_id: UUID) -> Printed:
    asked = request.args.get("paper", usual_size().value)
    if asked not in set(PageSize):
        abort(404)
    page = paper.set_page(site(), acting(), paper_set_id=paper_set_id)
    return Printed(page=page, size=PageSize(asked))


def _pdf(made: bytes, name: str) -> Response:
    response = Response(made, mimetype="application/pdf")
    response.headers["Content-Disposition"] = f'inline; filename="{name}"'
    response.headers["Cache-Control"] = "no-store"
    return response


def _sizes() -> tuple[tuple[str, str], ...]:
    """The papers to choose from, the reader's usual one first."""
    words = {PageSize.A4: gettext("A4"), PageSize.LETTER: gettext("US Letter")}
    usual = usual_size()
    return tuple((each.value, words[each]) for each in sorted(PageSize, key=lambda size: size is not usual))


def _printing(form: PrintForm) -> Printing:
    try:
        paper_set_id = UUID(form.paper_set_id.data or "")
    except ValueError:
        abort(400)
    return Printing(
        paper_set_id=paper_set_id,
        person_ids=tuple(UUID(each) for each in form.people.data or ()),
        blank_count=form.blank_count.count,
        blank_units=UnitSystem(form.blank_units.data),
        language=Language(form.language.data),
    )


def _people(page: PrintPage) -> list[object]:
    return [*offered((each.person_id, each.name) for each in page.people)]


def _print_page(page: PrintPage, form: PrintForm) -> str:
    form.people.choices = _people(page)
    left_out = [family_title(each) for each in page.left_out_titles]
    return render_template("instructor/print_on_paper.html", page=page, form=form, left_out=left_out)
