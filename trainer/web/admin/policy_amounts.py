"""The numbers of a policy as people write them: 80 %, 50 ppm, 2 in, 36 °F; kept as plain SI numbers."""

import re
from decimal import Decimal
from enum import Enum
from math import isfinite

from flask_babel import gettext

from trainer import units
from trainer.domain.quantities import Dimension
from trainer.web.figures import wording_system
from trainer.web.forms.typed import as_typed, kept
from trainer.web.preferences import reads_us_units
from trainer.wording.quantities import reading_unit, unit_sign

_PARTS = Decimal("0.001")  # a smaller share is read in parts per million
_KELVIN_IN_A_DEGREE = {"k": 1.0, "c": 1.0, "f": 5 / 9}
_DEGREES = re.compile(r"(?P<number>[^A-Za-z°]+?)\s*(?:°|deg)?\s*(?P<scale>[KkCcFf])")
_FIGURES = 4  # of what stands in a box; unless it is changed, the number behind it stays as it was
_DIGITS = 12  # of what somebody typed; further ones only tell the unit that it was typed in


class Kind(Enum):
    """How a number of a policy is written; what is a count of something has no unit of its own."""

    BARE = "bare"
    SHARE = "share"
    LENGTH = "length"  # m
    PRESSURE = "pressure"  # Pa
    DEGREES = "degrees"  # K between two temperatures


_DIMENSIONS = {
    Kind.SHARE: Dimension.FRACTION,
    Kind.LENGTH: Dimension.LENGTH,
    Kind.PRESSURE: Dimension.PRESSURE,
}


def read(typed: str, kind: Kind) -> str | None:
    """What was typed as a policy keeps it; None where it is no such number."""
    plain = kept(typed)
    if kind is Kind.DEGREES:
        value = _degrees(plain)
    else:
        value = _bare(plain) if kind in (Kind.BARE, Kind.SHARE) else None
        value = _measured(plain, kind) if value is None else value
    return f"{value:.{_DIGITS}g}" if value is not None and isfinite(value) else None


def not_read_words(kind: Kind) -> str:
    """What is said of what could not be read."""
    if kind is Kind.BARE:
        return gettext("This is not a number. Write it like %(example)s.", example=_example(kind))
    return gettext("This is not a number with its unit. Write it like %(example)s.", example=_example(kind))


def written(number: Decimal, kind: Kind) -> str:
    """A kept number in the reader's units."""
    if kind is Kind.BARE:
        return _plain(number)
    if kind is Kind.SHARE:
        is_small = number < _PARTS and bool(number)
        return f"{_plain(number * 1_000_000)} ppm" if is_small else f"{_plain(number * 100)} %"
    if kind is Kind.DEGREES:
        return f"{_typed(float(number) * 9 / 5)} °F" if reads_us_units() else f"{_plain(number)} K"
    unit = reading_unit(float(number), _DIMENSIONS[kind], system=wording_system())
    return f"{_typed(units.in_unit(float(number), _DIMENSIONS[kind], unit))} {unit_sign(unit)}"


def _example(kind: Kind) -> str:
    given = {
        Kind.BARE: Decimal("0.8"),
        Kind.SHARE: Decimal("0.8"),
        Kind.LENGTH: Decimal("0.0508"),
        Kind.PRESSURE: Decimal(50),
        Kind.DEGREES: Decimal(20),
    }
    return written(given[kind], kind)


def _bare(plain: str) -> float | None:
    try:
        return units.parse_bare(plain)
    except units.UnitFault:
        return None


def _measured(plain: str, kind: Kind) -> float | None:
    try:
        return units.parse(plain, _DIMENSIONS[kind]) if kind in _DIMENSIONS else None
    except units.UnitFault:
        return None


def _degrees(plain: str) -> float | None:
    """A difference, of which 1 °F is five ninths of 1 K."""
    found = _DEGREES.fullmatch(plain.strip())
    number = None if found is None else _bare(found["number"].strip())
    return None if found is None or number is None else number * _KELVIN_IN_A_DEGREE[found["scale"].lower()]


def _typed(number: float) -> str:
    return as_typed(f"{number:.{_FIGURES}g}")


def _plain(number: Decimal) -> str:
    return as_typed(f"{number.normalize():f}")
