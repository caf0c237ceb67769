"""Forms of teaching: classes, modules, assignments, overrides."""

from flask_babel import lazy_gettext as _l
from wtforms import BooleanField, HiddenField, SelectField, StringField, TextAreaField
from wtforms.validators import DataRequired, Length

from trainer.domain.grades import LONGEST_COMMENT
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import TicksField
from trainer.web.forms.numbers import CountField, DayField, NumberField
from trainer.web.forms.terms import TermForm

_LONGEST_NAME = 200
_LONGEST_REASON = 2000


def _name(label: str, fault: str) -> StringField:
    return StringField(label, validators=[DataRequired(fault), Length(max=_LONGEST_NAME)])


def _reason(label: str) -> TextAreaField:
    return TextAreaField(
        label,
        validators=[
            DataRequired(_l("Write the reason; it stays on the record.")),
            Length(max=_LONGEST_REASON),
        ],
    )


class ClassForm(PageForm):
    """A new class."""

    name = _name(_l("Name of the class"), _l("Give the class a name."))


class MembersForm(PageForm):
    """Apprentices to add to a class."""

    people = TicksField(
        _l("Apprentices to add"), validators=[DataRequired(_l("Tick at least one apprentice."))]
    )


class AssignForm(PageForm):
    """A module for a class or a person, until a day."""

    to = SelectField(_l("To"), validators=[DataRequired(_l("Choose a class or a person."))])
    due_on = DayField(_l("Due on"))
    attempts_allowed = CountField(_l("Attempts allowed"), low=1, high=10, example="2", default=2)


class OverrideForm(PageForm):
    """Another score for one item, with its reason."""

    score = NumberField(_l("Score, 0 to 1"), low=0, high=1, example="0.5")
    critical_missed = BooleanField(_l("Something critical was missed"))
    of_version = HiddenField(validators=[DataRequired()])
    reason = _reason(_l("Reason"))


class GradeForm(PageForm):
    """What the writer is told beside the levels; those are radios of the rubric."""

    comment = TextAreaField(_l("Comment for the writer, if any"), validators=[Length(max=LONGEST_COMMENT)])


class ReasonForm(PageForm):
    """An act on a qualification that is recorded with its reason."""

    reason = _reason(_l("Reason"))


class ShareForm(TermForm):
    """Sight of a person's record for an employer, given by the provider with the person's consent."""

    employer = SelectField(_l("Employer"), validators=[DataRequired(_l("Choose the employer."))])
    basis = _name(_l("On what basis"), _l("Say on what basis, such as: asked for by the person."))
    consent_on_file = _name(
        _l("Where the consent is filed"), _l("Say where the person's signed consent is filed.")
    )
