"""How questions behave over all answers given here."""

from flask import render_template
from flask.typing import ResponseReturnValue

from trainer.domain.permissions import Permission
from trainer.services import item_results, teaching
from trainer.web.access import access, acting, site
from trainer.web.figures import family_title, question_words
from trainer.web.instructor.blueprint import blueprint
from trainer.web.item_table import item_table
from trainer.web.preferences import language
from trainer.web.said import hear


@blueprint.get("/questions")
@access(Permission.TEACH)
def items() -> ResponseReturnValue:
    """Every question that was marked here, those that ask for a look first."""
    texts = teaching.question_texts(site(), acting())
    hear(site().content.told(language(), of_own_jobs=texts.values()))
    known = teaching.family_titles(site(), acting())
    titles = {family: family_title(title) for family, title in known.items()}
    asked = {key: question_words(text) for key, text in texts.items()}
    found = item_table(item_results.items_here(site(), acting()), titles=titles, asked=asked)
    return render_template("instructor/items.html", found=found)
