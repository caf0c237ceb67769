"""Bare numbers and days as people type them: full-width digits and decimal commas are read, others named."""

import math
import unicodedata
from datetime import date
from typing import Any

from flask_babel import gettext
from wtforms import DateField, Field
from wtforms.validators import StopValidation
from wtforms.widgets import TextInput

from trainer import units
from trainer.web.forms.typed import as_typed, kept, unit_fault_words

_LONGEST = 30
EARLIEST, LATEST = date(2000, 1, 1), date(2100, 12, 31)


def _given(data: Any) -> Any:
    if data is None:
        raise ValueError("asked for a value that was left out or refused")
    return data


class NumberField(Field):
    """A number without a unit between two ends; `data` is a float, or None where it may be left out."""

    widget = TextInput()

    def __init__(self, label: str, *, low: float, high: float, example: str, **more: Any) -> None:
        self.low, self.high, self.example = low, high, example
        self.is_required = more.pop("required", True)
        self.typed = ""
        super().__init__(label, **more)

    def _value(self) -> str:
        if self.raw_data:
            return self.typed
        return "" if self.data is None else as_typed(f"{self.data:g}")

    def process_formdata(self, valuelist: list[str]) -> None:
        """Reads what was typed."""
        self.typed = valuelist[0] if valuelist else ""
        self.data = None
        if not self.typed.strip():
            return
        value = self._read()
        if not self.low <= value <= self.high:
            raise ValueError(
                gettext(
                    "'%(typed)s' lies outside %(low)s to %(high)s.",
                    typed=self.typed[:_LONGEST],
                    low=as_typed(f"{self.low:g}"),
                    high=as_typed(f"{self.high:g}"),
                )
            )
        self.data = value

    def _read(self) -> float:
        try:
            value = units.parse_bare(kept(self.typed)) if len(self.typed) <= _LONGEST else None
        except units.UnitFault as fault:
            raise ValueError(unit_fault_words(fault)) from fault
        if value is None or not math.isfinite(value):
            raise ValueError(
                gettext(
                    "'%(typed)s' is not a number. Write it like %(example)s.",
                    typed=self.typed[:_LONGEST],
                    example=as_typed(self.example),
                )
            )
        return value

    @property
    def number(self) -> float:
        """The number of a form that holds."""
        return float(_given(self.data))

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002
        """An empty box is a fault only where an answer is needed."""
        if self.is_required and not self.typed.strip():
            raise StopValidation(
                gettext("Write a number, such as %(example)s.", example=as_typed(self.example))
            )


class CountField(NumberField):
    """A whole number; `data` is an int."""

    @property
    def count(self) -> int:
        """The count of a form that holds."""
        return int(_given(self.data))

    def _value(self) -> str:
        return super()._value() if self.raw_data or self.data is None else str(self.data)

    def process_formdata(self, valuelist: list[str]) -> None:
        """Reads what was typed and refuses parts of one."""
        super().process_formdata(valuelist)
        if self.data is None:
            return
        if self.data != int(self.data):
            typed, self.data = self.data, None
            raise ValueError(gettext("'%(typed)s' is not a whole number.", typed=as_typed(f"{typed:g}")))
        self.data = int(self.data)


class DayField(DateField):
    """A day within this century, as the browser's date box or a person writes it: 2026-03-09."""

    def __init__(self, label: str, *, required: bool = True, **more: Any) -> None:
        self.is_required = required
        super().__init__(label, **more)

    def process_formdata(self, valuelist: list[str]) -> None:
        """Reads the day."""
        self.data = None
        typed = unicodedata.normalize("NFKC", valuelist[0]).strip() if valuelist else ""
        if not typed:
            return
        try:
            day = date.fromisoformat(typed)
        except ValueError as fault:
            raise ValueError(
                gettext("'%(typed)s' is not a day. Write it like 2026-03-09.", typed=typed[:_LONGEST])
            ) from fault
        if not EARLIEST <= day <= LATEST:
            raise ValueError(gettext("The day lies outside 2000 to 2100."))
        self.data = day

    @property
    def day(self) -> date:
        """The day of a form that holds."""
        day: date = _given(self.data)
        return day

    def pre_validate(self, form: Any) -> None:  # noqa: ARG002
        """An empty box is a fault only where a day is needed."""
        if self.is_required and not (self.raw_data and self.raw_data[0].strip()):
            raise StopValidation(gettext("Write the day, such as 2026-03-09."))
