"""Forms of practice."""

from collections.abc import Sequence

from flask_babel import gettext, ngettext
from flask_babel import lazy_gettext as _l
from wtforms import RadioField
from wtforms.validators import DataRequired

from trainer.domain.skills import skill
from trainer.services.practice import PracticeFamily
from trainer.web.figures import family_title
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import offered

DIFFICULTIES = (
    ("0", _l("One thing at a time")),
    ("0.5", _l("Some things interact")),
    ("1", _l("As on a bad day")),
)


class PracticeForm(PageForm):
    """What to practise, and how hard."""

    family = RadioField(_l("What do you want to practise?"), validators=[DataRequired(_l("Choose one."))])
    difficulty = RadioField(
        _l("How hard?"), choices=offered(DIFFICULTIES), validators=[DataRequired(_l("Choose how hard."))]
    )

    def offer(self, families: Sequence[PracticeFamily]) -> None:
        """The families to choose from, each with its skills and how often it was practised."""
        self.family.choices = offered((each.family, _family_words(each)) for each in families)


def _family_words(family: PracticeFamily) -> str:
    skills = ", ".join(gettext(skill(each).name) for each in family.skills)
    title = family_title(family.title)
    if not family.attempts_count:
        return gettext("%(title)s (%(skills)s)", title=title, skills=skills)
    return ngettext(
        "%(title)s (%(skills)s; practised once)",
        "%(title)s (%(skills)s; practised %(num)s times)",
        family.attempts_count,
        title=title,
        skills=skills,
    )
