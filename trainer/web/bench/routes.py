"""Routes of the bench; open to anybody, and nothing that is asked here is kept."""

from flask import redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext
from markupsafe import Markup
from werkzeug.datastructures import MultiDict

from trainer.core.errors import OutOfRange
from trainer.domain.set_up_faults import fault_from
from trainer.drawing.heat_plot import heat_plot
from trainer.services.bench import HeatAnswer, heat_along_pipe
from trainer.web.access import public
from trainer.web.bench import set_up  # noqa: F401  # registers its pages
from trainer.web.bench.blueprint import blueprint
from trainer.web.bench.forms import HeatForm
from trainer.web.forms.addresses import asked, told_again, was_typed
from trainer.web.forms.typed import as_typed
from trainer.web.preferences import drawing_reader, language
from trainer.wording.faults import fault_words

# What the page opens with: a root and two more passes on thin stainless pipe beside a foam dam.
_EXAMPLE = {
    "material": "austenitic stainless", "dam": "foam", "wall": "3.4", "current": "80",
    "voltage": "11", "speed": "60", "efficiency": "0.7", "passes": "3", "between": "10",
}  # fmt: skip


@blueprint.get("")
@public
def start() -> ResponseReturnValue:
    """What can be asked here."""
    return render_template("bench/start.html")


@blueprint.get("/one-foot")
@public
def one_foot() -> ResponseReturnValue:
    """Where "about one foot from the joint" holds, and where it stops holding."""
    example = MultiDict({name: as_typed(each) for name, each in _EXAMPLE.items()})
    form = HeatForm(asked(HeatForm) or example)
    answer = _answer(form) if form.validate() else None
    if was_typed() and answer:
        return redirect(f"{url_for('.one_foot')}?{told_again(HeatForm)}", 303)
    plot = (
        Markup(heat_plot(answer.curves, limit_k=answer.limit_k, reader=drawing_reader(prefix="heat")))
        if answer
        else None
    )
    page = render_template("bench/one_foot.html", form=form, answer=answer, plot=plot)
    return page if answer else (page, 422)


def _answer(form: HeatForm) -> HeatAnswer | None:
    try:
        return heat_along_pipe(form.question())
    except OutOfRange as error:
        form.say(fault_words(fault_from(error, path="bench"), gettext, language=language()))
        return None
