"""The forms of the bench. They ask and change nothing, so they are sent by GET and an address shares them."""

from flask_babel import lazy_gettext as _l

from trainer.core.terms import MaterialGroup
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import DamKind
from trainer.services.bench import HeatQuestion
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import KindField, QuantityField
from trainer.web.forms.numbers import CountField, NumberField

_AMBIENT_K = 293.15


class HeatForm(PageForm):
    """A weld and the dam beside it."""

    class Meta(PageForm.Meta):
        """A question needs no token."""

        csrf = False

    material = KindField(_l("Material"), MaterialGroup)
    dam = KindField(_l("Dam"), DamKind)
    wall = QuantityField(_l("Wall"), Dimension.LENGTH, limits=(0.0005, 0.05, _l("0.5 mm to 50 mm")))
    current = QuantityField(_l("Current"), Dimension.CURRENT, limits=(1.0, 1000.0, _l("1 to 1000 A")))
    voltage = QuantityField(_l("Voltage"), Dimension.VOLTAGE, limits=(1.0, 100.0, _l("1 to 100 V")))
    speed = QuantityField(_l("Travel speed"), Dimension.SPEED, limits=(1e-4, 0.1, _l("6 mm/min to 6 m/min")))
    efficiency = NumberField(
        _l("Share of the arc's power that enters the metal"), low=0.05, high=1.0, example="0.7"
    )
    passes = CountField(_l("Passes"), low=1, high=12, example="3")
    between = QuantityField(
        _l("From one pass to the next"), Dimension.DURATION, limits=(1.0, 86400.0, _l("1 s to a day"))
    )

    def question(self) -> HeatQuestion:
        """The question of a form that holds."""
        return HeatQuestion(
            material=self.material.kind,
            dam=self.dam.kind,
            wall_m=self.wall.data,
            current_a=self.current.data,
            voltage_v=self.voltage.data,
            efficiency_frac=self.efficiency.number,
            travel_speed_m_s=self.speed.data,
            passes_count=self.passes.count,
            between_passes_s=self.between.data,
            ambient_k=_AMBIENT_K,
        )
