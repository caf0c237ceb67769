"""The form of a certificate's code."""

from flask_babel import lazy_gettext as _l
from wtforms import StringField
from wtforms.validators import DataRequired, Length, Regexp

from trainer.web.forms.base import PageForm

LONGEST_CODE = 40


class CodeForm(PageForm):
    """A code typed from paper. It asks and changes nothing, so it is sent by GET."""

    class Meta(PageForm.Meta):
        """A question needs no token."""

        csrf = False

    code = StringField(
        _l("Code"),
        validators=[
            DataRequired(_l("Type the code on the certificate.")),
            Regexp(r"^[0-9A-Za-z -]*$", message=_l("A code has letters, digits and hyphens only.")),
            Length(max=LONGEST_CODE, message=_l("A code has twelve letters and digits.")),
        ],
    )
