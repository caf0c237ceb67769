"""Forms about oneself."""

from flask_babel import lazy_gettext as _l
from wtforms import EmailField, PasswordField, RadioField
from wtforms.validators import DataRequired, EqualTo, Length

from trainer.domain.people import Language, UnitSystem
from trainer.services.accounts import LONGEST_PASSWORD, SHORTEST_PASSWORD
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import offered
from trainer.web.preferences import Theme, language_word, theme_word, units_word

_LONGEST_EMAIL = 254


class SignInForm(PageForm):
    """Who signs in."""

    email = EmailField(
        _l("E-mail"), validators=[DataRequired(_l("Write your e-mail address.")), Length(max=_LONGEST_EMAIL)]
    )
    password = PasswordField(
        _l("Password"), validators=[DataRequired(_l("Write your password.")), Length(max=LONGEST_PASSWORD)]
    )


class _WantedPassword(PageForm):
    """A new password, written twice."""

    wanted = PasswordField(
        _l("New password"),
        validators=[
            DataRequired(_l("Write the new password.")),
            Length(
                min=SHORTEST_PASSWORD,
                max=LONGEST_PASSWORD,
                message=_l("Take %(min)d to %(max)d characters, several words for example."),
            ),
        ],
    )
    again = PasswordField(
        _l("New password again"),
        validators=[EqualTo("wanted", _l("This is not the same as the new password above. Write it again."))],
    )


class ChangePasswordForm(_WantedPassword):
    """A new password against the present one."""

    present = PasswordField(
        _l("Present password"),
        validators=[DataRequired(_l("Write your present password.")), Length(max=LONGEST_PASSWORD)],
    )


class InvitationForm(_WantedPassword):
    """The first password, or a new one where the old was lost."""


class PreferencesForm(PageForm):
    """How things are shown."""

    units = RadioField(_l("Units"), validators=[DataRequired(_l("Choose the units."))])
    language = RadioField(_l("Language"), validators=[DataRequired(_l("Choose the language."))])
    theme = RadioField(_l("Colours"), validators=[DataRequired(_l("Choose the colours."))])

    def __init__(self, **more: object) -> None:
        super().__init__(**more)
        self.units.choices = offered((each.value, units_word(each)) for each in UnitSystem)
        self.language.choices = offered((each.value, language_word(each)) for each in Language)
        self.theme.choices = offered((each.value, theme_word(each)) for each in Theme)
