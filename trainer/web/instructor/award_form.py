"""The form of an award: which evidence, sent once."""

from flask_babel import lazy_gettext as _l
from wtforms import HiddenField
from wtforms.validators import DataRequired

from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import TicksField


class AwardForm(PageForm):
    """Passed assessed attempts and observations; the scope follows from them and is never typed.

    It is looked at by GET before it is signed by POST; what is posted carries the site's token all the same.
    """

    class Meta(PageForm.Meta):
        """The application checks the token of every POST; a look by GET has none."""

        csrf = False

    attempts = TicksField(_l("Passed assessed attempts"), choices=[])
    observations = TicksField(_l("Observations in the booth"), choices=[])
    award_token = HiddenField(validators=[DataRequired()])
