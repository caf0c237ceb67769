"""Forms of printing sheets and of keying them in."""

from flask_babel import lazy_gettext as _l
from wtforms import HiddenField, RadioField, SelectField, StringField
from wtforms.validators import DataRequired

from trainer.domain.paper import MOST_BLANK_SHEETS
from trainer.domain.people import Language, UnitSystem
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import TicksField, offered
from trainer.web.forms.numbers import CountField, DayField
from trainer.web.preferences import language_word, units_word


class PrintForm(PageForm):
    """For whom sheets are printed: apprentices by name, and so many that are blank."""

    paper_set_id = HiddenField(validators=[DataRequired()])
    people = TicksField(_l("A sheet by name for"), choices=[])
    blank_count = CountField(_l("Blank sheets"), low=0, high=MOST_BLANK_SHEETS, example="2", default=0)
    blank_units = RadioField(
        _l("Units of blank sheets"),
        validators=[DataRequired(_l("Choose the units of blank sheets."))],
    )

    language = RadioField(
        _l("Language of the sheets"), validators=[DataRequired(_l("Choose the language of the sheets."))]
    )

    def __init__(self, **more: object) -> None:
        super().__init__(**more)
        self.blank_units.choices = offered((each.value, units_word(each)) for each in UnitSystem)
        self.language.choices = offered((each.value, language_word(each)) for each in Language)


class CodeForm(PageForm):
    """The code that stands on a sheet."""

    code = StringField(
        _l("Code on the sheet"), validators=[DataRequired(_l("Type the code, such as 132T-MY8N-EP0E."))]
    )


class HandInForm(PageForm):
    """Whose sheet it is, and the day on which it was sat."""

    person = SelectField(_l("Whose sheet it is"), validators=[DataRequired(_l("Choose whose sheet it is."))])
    sat_on = DayField(_l("Day on which it was sat"))
