"""From a day to a day."""

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from wtforms import Field
from wtforms.validators import ValidationError

from trainer.domain.people import Term
from trainer.web.forms.base import PageForm
from trainer.web.forms.numbers import DayField


class TermForm(PageForm):
    """A form with a first day and perhaps a last one."""

    starts = DayField(_l("From"))
    ends = DayField(_l("Until, if it ends"), required=False)

    def validate_ends(self, field: Field) -> None:
        """The last day does not lie before the first."""
        if self.starts.data and field.data and field.data < self.starts.data:
            raise ValidationError(gettext("The last day lies before the first."))

    def term(self) -> Term:
        """The days of a form that holds."""
        return Term(starts=self.starts.day, ends=self.ends.data)
