"""Fields of our own: a quantity (number + unit → SI), a choice from an enumeration, a day, a set of ticks."""

from collections.abc import Callable, Iterable
from enum import StrEnum
from typing import Any

from flask_babel import gettext
from markupsafe import Markup
from wtforms import Field, SelectChoice, SelectField, SelectMultipleField
from wtforms.utils import unset_value
from wtforms.validators import StopValidation
from wtforms.widgets import CheckboxInput, ListWidget, html_params

from trainer import units
from trainer.domain.quantities import Dimension
from trainer.web.forms.typed import as_typed, kept, unit_fault_words
from trainer.web.kinds import kind_words
from trainer.wording.quantities import unit_sign

# The units offered beside a field, the metric one first; what is typed may be in any unit that is known.
OFFERED: dict[Dimension, tuple[str, ...]] = {
    Dimension.LENGTH: ("mm", "m", "in", "ft"),
    Dimension.AREA: ("cm^2", "mm^2", "in^2", "m^2", "ft^2"),
    Dimension.VOLUME: ("L", "m^3", "ft^3"),
    Dimension.VOLUME_FLOW: ("L/min", "m^3/h", "cfh"),
    Dimension.DURATION: ("min", "s", "h"),
    Dimension.PRESSURE: ("Pa", "mbar", "bar", "inH2O", "psi"),
    Dimension.TEMPERATURE: ("degC", "degF"),
    Dimension.FRACTION: ("%", "ppm"),
    Dimension.ANGLE: ("deg",),
    Dimension.CURRENT: ("A",),
    Dimension.VOLTAGE: ("V",),
    Dimension.SPEED: ("mm/min", "in/min"),
    Dimension.DENSITY: ("kg/m^3", "lb/ft^3"),
}


def with_chosen_unit(typed: str, unit: str, dimension: Dimension) -> str:
    """What was typed as a quantity: a bare number takes the unit chosen beside it, any other has its own."""
    bare = typed.strip()
    if not bare or unit not in OFFERED[dimension] or not is_bare_number(bare):
        return bare
    return f"{bare} {unit}"


def is_bare_number(typed: str) -> bool:
    """Whether no unit was typed; signs that stand for one (', \", %) are units."""
    return not any(sign.isalpha() or sign in "'\"%°′″µ" for sign in _without_exponent(typed))


def _without_exponent(typed: str) -> str:
    head, mark, tail = typed.partition("e") if "e" in typed else typed.partition("E")
    is_exponent = bool(mark) and head[-1:].isdigit() and tail.lstrip("+-").isdigit()
    return head + tail if is_exponent else typed


class QuantityInput:
    """A text box with the units to choose from beside it."""

    def __call__(self, field: "QuantityField", **extra: Any) -> Markup:
        """The two controls as HTML."""
        box = html_params(
            type="text", id=field.id, name=field.name, value=field.typed, autocomplete="off", **extra
        )
        label = gettext("Unit of %(field)s", field=str(field.label.text))
        head = html_params(id=f"{field.id}-unit", name=f"{field.name}-unit", **{"aria-label": label})
        options = Markup("").join(
            Markup('<option value="{}"{}>{}</option>').format(
                each, Markup(" selected") if each == field.unit else "", unit_sign(each)
            )
            for each in OFFERED[field.dimension]
        )
        return Markup('<div class="field-row"><input {}><select {}>{}</select></div>').format(
            Markup(box), Markup(head), options
        )


class QuantityField(Field):
    """A number with a unit; `data` is the SI value, what was typed is kept as it was."""

    widget = QuantityInput()

    def __init__(
        self, label: str, dimension: Dimension, *, limits: tuple[float, float, str], **more: Any
    ) -> None:
        self.dimension = dimension
        self.low, self.high, self.accepted = limits  # SI ends and how they are said
        self.is_required = more.pop("required", True)
        self.typed = ""
        self.unit = OFFERED[dimension][0]
        super().__init__(label, **more)

    def process(self, formdata: Any, data: Any = None, extra_filters: Any = None) -> None:  # noqa: ARG002
        """Reads the box and the unit beside it."""
        self.process_errors: list[str] = []
        self.data: Any = None if data is unset_value else data
        if formdata is None or self.name not in formdata:
            return
        self.typed = formdata.get(self.name, "")
        chosen = formdata.get(f"{self.name}-unit", self.unit)
        self.unit = chosen if chosen in OFFERED[self.dimension] else self.unit
        self.data = None
        if self.typed.strip():
            self._read()

    def _read(self) -> None:
        try:
            value = units.parse(with_chosen_unit(kept(self.typed), self.unit, self.dimension), self.dimension)
        except units.UnitFault as fault:
            self.process_errors = [unit_fault_words(fault)]
            return
        if not self.low <= value <= self.high:
            self.process_errors = [
                gettext(
                    "'%(typed)s' is outside what is accepted: %(accepted)s.",
                    typed=self.typed,
                    accepted=as_typed(str(self.accepted)),
                )
            ]
            return
        self.data = value

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002
        """An empty box is a fault only where an answer is needed."""
        if self.is_required and not self.typed.strip():
            example = as_typed(units.example(self.dimension))
            raise StopValidation(
                gettext("Write a number with its unit, such as %(example)s.", example=example)
            )


def offered(pairs: Iterable[tuple[Any, Any]], *, group: str | None = None) -> list[SelectChoice]:
    """Pairs of key and words as what a select, a group of radios or of ticks offers."""
    return [SelectChoice(value=str(key), label=words, optgroup=group) for key, words in pairs]


class KindField(SelectField):
    """One member of an enumeration; `data` is the member."""

    def __init__(
        self, label: str, kinds: type[StrEnum], words: Callable[[Any], str] = kind_words, **more: Any
    ) -> None:
        self.kinds = kinds
        choices = offered((each.value, words(each)) for each in kinds)
        super().__init__(label, choices=choices, coerce=str, **more)

    @property
    def kind(self) -> Any:
        """The chosen member."""
        return self.kinds(self.data)


class TicksField(SelectMultipleField):
    """Any number of tick boxes."""

    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()
