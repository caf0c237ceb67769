"""The form of an observation in the booth."""

from flask_babel import lazy_gettext as _l
from wtforms import BooleanField, HiddenField, RadioField, StringField, TextAreaField
from wtforms.validators import DataRequired, Length

from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.quantities import Dimension
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import KindField, QuantityField, offered
from trainer.web.forms.numbers import DayField
from trainer.web.gases import GAS_CHOICES


class ObservationForm(PageForm):
    """What was seen: on what, what the analyser read, how the root came out, whether it was accepted."""

    observation_id = HiddenField(validators=[DataRequired()])
    observed_on = DayField(_l("Day of the observation"))
    material = KindField(_l("Material"), MaterialGroup)
    gas = RadioField(
        _l("Purge gas"), choices=offered(GAS_CHOICES), validators=[DataRequired(_l("Choose the gas."))]
    )
    outside_diameter = QuantityField(
        _l("Outside diameter of the pipe"), Dimension.LENGTH, limits=(0.003, 2.5, _l("3 mm to 2.5 m"))
    )
    oxygen_at_strike = QuantityField(
        _l("Oxygen read at strike"), Dimension.FRACTION, limits=(0.0, 0.2095, _l("0 to 20.95 %"))
    )
    root_grade = KindField(_l("Root as seen"), RootGrade)
    confined_space = BooleanField(_l("The purge was made in or beside a confined space"))
    analyser_serial = StringField(_l("Serial number of the analyser"), validators=[Length(max=100)])
    analyser_calibrated_until = DayField(_l("Analyser calibrated until"), required=False)
    notes = TextAreaField(_l("What you saw"), validators=[Length(max=2000)])
    accepted = BooleanField(_l("I saw this myself and accept it"))
