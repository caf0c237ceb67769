"""Fields for the parts of a set-up, each by its path: how the file of a set-up writes what was typed."""

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from wtforms import Field, SelectField, StringField

from trainer.domain.own_job_faults import JobFault
from trainer.domain.quantities import Dimension, FieldKind
from trainer.domain.set_up_paths import spec_at
from trainer.domain.set_up_terms import Side
from trainer.set_up_files import Fault
from trainer.set_up_files.addresses import number_in_text
from trainer.web.forms.fields import QuantityField, offered, with_chosen_unit
from trainer.web.forms.typed import in_own_words, kept
from trainer.web.preferences import language, reads_us_units
from trainer.wording.faults import fault_words

# The unit that stands beside a box at first, metric and inch-pound: what such a thing is read in on site.
_FIRST_UNIT: Mapping[Dimension, tuple[str, str]] = {
    Dimension.LENGTH: ("mm", "in"),
    Dimension.AREA: ("cm^2", "in^2"),
    Dimension.VOLUME: ("m^3", "ft^3"),
    Dimension.VOLUME_FLOW: ("L/min", "cfh"),
    Dimension.DURATION: ("min", "min"),
    Dimension.PRESSURE: ("bar", "psi"),
    Dimension.TEMPERATURE: ("degC", "degF"),
    Dimension.FRACTION: ("%", "%"),
    Dimension.ANGLE: ("deg", "deg"),
    Dimension.CURRENT: ("A", "A"),
    Dimension.VOLTAGE: ("V", "V"),
    Dimension.SPEED: ("mm/min", "in/min"),
    Dimension.DENSITY: ("kg/m^3", "lb/ft^3"),
}
_OTHER_FIRST_UNIT: Mapping[str, tuple[str, str]] = {
    "hose.length": ("m", "ft"),
    "supply.water_volume": ("L", "L"),
    "gas.oxygen": ("ppm", "ppm"),
    "surroundings.floor_area": ("m^2", "ft^2"),
    "arc.between_passes": ("s", "s"),
}


NUMBERS = (
    FieldKind.MEASURED,
    FieldKind.NUMBER,
    FieldKind.COUNT,
)  # what holds a number, with a unit or without


class TypedQuantityField(QuantityField):
    """A number with a unit as it was typed: whoever reads the set-up says what is wrong with it."""

    def __init__(self, label: str, path: str, **more: Any) -> None:
        dimension = spec_at(path).dimension
        assert dimension is not None  # asked of measured fields only
        super().__init__(label, dimension, limits=(0.0, 0.0, ""), required=False, **more)
        metric, inch = _OTHER_FIRST_UNIT.get(path) or _FIRST_UNIT[dimension]
        self.unit = inch if reads_us_units() else metric

    def _read(self) -> None:
        self.data = with_chosen_unit(kept(self.typed), self.unit, self.dimension)


_SIDES = {Side.LEFT: _l("left side"), Side.RIGHT: _l("right side")}  # "right" alone is what an answer is, too


def _choice_words(choice: StrEnum) -> Any:
    return _SIDES[choice] if isinstance(choice, Side) else _l(choice.value)


def field_at(path: str, label: str) -> Field:
    """The field for one path, by what its declaration takes."""
    spec = spec_at(path)
    if spec.kind is FieldKind.MEASURED:
        return TypedQuantityField(label, path)
    if spec.kind is FieldKind.CHOICE and spec.choices is not None:
        choices = offered(
            [("", _l("not told")), *((each.value, _choice_words(each)) for each in spec.choices)]
        )
        return SelectField(label, choices=choices, default="")
    return StringField(label)


def set_up_fault_words(fault: Fault | JobFault) -> str:
    """What is wrong with a value, in the reader's language; what only a file can hold is said in English."""
    if fault.cause is not None:
        return fault_words(fault.cause, gettext, language=language())
    return in_own_words(fault.template, fault.facts) if fault.template else fault.message


def written_value(path: str, typed: Any) -> Any:
    """What was typed as a file writes it: a number where one is taken and was typed; None for nothing."""
    if typed is None or typed == "":
        return None
    kind = spec_at(path).kind
    if kind not in (FieldKind.NUMBER, FieldKind.COUNT):
        return typed
    return number_in_text(kind, kept(typed))
