"""Declares what a field of a set-up or a purge run holds, once, beside the field itself.

The declaration is data: the JSON reader and writer, the JSON Schema, the forms and the scenario files all
read it, so that no second list of fields, limits or units exists. Values are SI floats; the unit that people
type or read belongs to the edge.
"""

from dataclasses import dataclass, field, fields, replace
from enum import Enum, StrEnum
from typing import Any


class Dimension(StrEnum):
    """What kind of quantity a measured field holds; the SI unit follows from it."""

    LENGTH = "length"  # m
    AREA = "area"  # m2
    VOLUME = "volume"  # m3
    VOLUME_FLOW = "volume flow"  # m3/s
    DURATION = "duration"  # s
    PRESSURE = "pressure"  # Pa (gauge where the field says so)
    TEMPERATURE = "temperature"  # K
    FRACTION = "fraction"  # mole fraction, typed in % or ppm
    ANGLE = "angle"  # degrees: slopes are read in degrees everywhere
    CURRENT = "current"  # A
    VOLTAGE = "voltage"  # V
    SPEED = "speed"  # m/s
    DENSITY = "density"  # kg/m3


class FieldKind(StrEnum):
    """How a field is written: quantity with a unit, bare number, word, or a part with its own fields."""

    MEASURED = "measured"
    NUMBER = "number"
    COUNT = "count"
    CHOICE = "choice"
    TEXT = "text"
    FLAG = "flag"
    PART = "part"
    PARTS = "parts"


@dataclass(frozen=True, kw_only=True)
class FieldSpec:
    """One field: its key in files, its attribute, what it accepts, and why the limits are where they are."""

    key: str
    kind: FieldKind
    attribute: str = ""
    dimension: Dimension | None = None
    low: float | None = None
    high: float | None = None
    low_is_open: bool = False
    why: str = ""
    choices: type[StrEnum] | None = None
    part: type[Any] | None = None

    def accepts(self, value: float) -> bool:
        """Whether a number lies within the limits; one that another unit rounded past an end still does."""
        assert self.low is not None  # asked of numbers only, which are declared with both limits
        assert self.high is not None
        slack = 1e-12 * max(abs(self.low), abs(self.high), 1e-300)
        above = value > self.low if self.low_is_open else value >= self.low - slack
        return above and value <= self.high + slack


_SPEC = "field_spec"


def measured(  # noqa: PLR0913 (a declaration reads best on one line)
    key: str, dimension: Dimension, low: float, high: float, *, why: str, low_is_open: bool = False
) -> Any:
    """A quantity with a unit, held in SI, accepted from low to high (SI); low itself refused when open."""
    return _declared(
        FieldSpec(
            key=key, kind=FieldKind.MEASURED, dimension=dimension,
            low=low, high=high, why=why, low_is_open=low_is_open,
        )
    )  # fmt: skip


def number(key: str, low: float, high: float, *, why: str) -> Any:
    """A bare number without unit, accepted from low to high."""
    return _declared(FieldSpec(key=key, kind=FieldKind.NUMBER, low=low, high=high, why=why))


def whole_number(key: str, low: int, high: int, *, why: str) -> Any:
    """A whole number, accepted from low to high."""
    return _declared(FieldSpec(key=key, kind=FieldKind.COUNT, low=low, high=high, why=why))


def choice(key: str, choices: type[StrEnum]) -> Any:
    """One word of an enumeration."""
    return _declared(FieldSpec(key=key, kind=FieldKind.CHOICE, choices=choices))


def text(key: str, *, why: str) -> Any:
    """A short piece of text; why says what it names."""
    return _declared(FieldSpec(key=key, kind=FieldKind.TEXT, why=why))


def flag(key: str, *, why: str) -> Any:
    """True or false; why says what true means."""
    return _declared(FieldSpec(key=key, kind=FieldKind.FLAG, why=why))


def part(key: str, of: type[Any]) -> Any:
    """A part with fields of its own."""
    return _declared(FieldSpec(key=key, kind=FieldKind.PART, part=of))


def parts(key: str, of: type[Any]) -> Any:
    """A list of parts; empty when left out."""
    return _declared(FieldSpec(key=key, kind=FieldKind.PARTS, part=of), empty=())


def _declared(spec: FieldSpec, *, empty: Any = None) -> Any:
    return field(default=empty, metadata={_SPEC: spec})


# Asked for with every value that is read or written, and the same for ever.
_DECLARED: dict[type[Any], dict[str, FieldSpec]] = {}


def specs_of(part_class: type[Any]) -> dict[str, FieldSpec]:
    """The declared fields of a part, by key, in order of declaration."""
    if part_class not in _DECLARED:
        specs = ((each.metadata[_SPEC], each.name) for each in fields(part_class))
        _DECLARED[part_class] = {spec.key: replace(spec, attribute=name) for spec, name in specs}
    return _DECLARED[part_class]


class Never(Enum):
    """What never happens, told apart from what is not known (None)."""

    NEVER = "never"


NEVER = Never.NEVER
