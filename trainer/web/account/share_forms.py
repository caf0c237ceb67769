"""Forms about who sees one's record."""

from flask_babel import lazy_gettext as _l
from wtforms import SelectField, StringField
from wtforms.validators import DataRequired, Length

from trainer.web.forms.base import PageForm
from trainer.web.forms.terms import TermForm


class OwnShareForm(TermForm):
    """To whom one shows one's own record; the person's signing in is the consent."""

    employer = SelectField(_l("Employer"), validators=[DataRequired(_l("Choose the employer."))])


class EndShareForm(PageForm):
    """Why a share ends."""

    reason = StringField(
        _l("Reason"),
        validators=[DataRequired(_l("Write the reason; it stays on the record.")), Length(max=500)],
    )
