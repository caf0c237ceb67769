"""Forms of practice."""

from collections.abc import Sequence
from dataclasses import dataclass

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


@dataclass(frozen=True, kw_only=True)
class PracticeOffer:
    """What there is to practise: the skills trained, the one that was asked for, and what trains it."""

    skills: tuple[int, ...]
    only: int | None
    shown: tuple[PracticeFamily, ...]

    @classmethod
    def of(cls, families: Sequence[PracticeFamily], *, only: str) -> "PracticeOffer":
        """The families of one skill; all of them where none is asked for, or one that nothing trains."""
        skills = tuple(sorted({each for family in families for each in family.skills}))
        asked = next((each for each in skills if str(each) == only), None)
        return cls(
            skills=skills,
            only=asked,
            shown=tuple(each for each in families if asked is None or asked in each.skills),
        )


class PracticeForm(PageForm):
    """How hard, and what to practise."""

    difficulty = RadioField(
        _l("How hard?"), choices=offered(DIFFICULTIES), validators=[DataRequired(_l("Choose how hard."))]
    )
    family = RadioField(_l("What do you want to practise?"), validators=[DataRequired(_l("Choose one."))])

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
