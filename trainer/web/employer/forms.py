"""The employer's questions and confirmations."""

from flask_babel import lazy_gettext as _l
from wtforms import BooleanField, RadioField, SelectField, TextAreaField
from wtforms.validators import DataRequired, Length

from trainer.core.terms import MaterialGroup
from trainer.domain.quantities import Dimension
from trainer.domain.scope import JointSituation
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import KindField, QuantityField, offered
from trainer.web.forms.numbers import DayField
from trainer.web.gases import GAS_CHOICES


class JobForm(PageForm):
    """A job on a day. It asks and changes nothing, so it is sent by GET and can be kept as a link."""

    class Meta(PageForm.Meta):
        """A question needs no token."""

        csrf = False

    on = DayField(_l("Day of the job"))
    material = KindField(_l("Material"), MaterialGroup)
    gas = RadioField(
        _l("Purge gas"), choices=offered(GAS_CHOICES), validators=[DataRequired(_l("Choose the gas."))]
    )
    outside_diameter = QuantityField(
        _l("Outside diameter of the pipe"), Dimension.LENGTH, limits=(0.003, 2.5, _l("3 mm to 2.5 m"))
    )
    section_length = QuantityField(
        _l("Length between dams, if it matters"),
        Dimension.LENGTH,
        limits=(0.001, 100.0, _l("1 mm to 100 m")),
        required=False,
    )
    situation = SelectField(
        _l("Joint situation"),
        choices=offered([("", _l("any")), *((each.value, _l(each.value)) for each in JointSituation)]),
    )
    confined_space = BooleanField(_l("In or beside a confined space"))


class ConfirmForm(PageForm):
    """That the person kept purging, in the employer's words."""

    reason = TextAreaField(
        _l("What the person did in these months"),
        validators=[DataRequired(_l("Say on what proof of use; it stays on the record.")), Length(max=2000)],
    )
