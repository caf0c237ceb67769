"""Set-ups that this program wrote itself: every quantity comes back bit for bit, nothing is asked again."""

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

from trainer import units
from trainer.domain.quantities import Dimension, FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import spec_at

_SI_UNITS = {
    Dimension.LENGTH: "m",
    Dimension.AREA: "m^2",
    Dimension.VOLUME: "m^3",
    Dimension.VOLUME_FLOW: "m^3/s",
    Dimension.DURATION: "s",
    Dimension.PRESSURE: "Pa",
    Dimension.TEMPERATURE: "K",
    Dimension.ANGLE: "deg",
    Dimension.CURRENT: "A",
    Dimension.VOLTAGE: "V",
    Dimension.SPEED: "m/s",
    Dimension.DENSITY: "kg/m^3",
}
_FRACTION_UNITS = {"ppm": 1e-6, "%": 1e-2, "ppb": 1e-9}


@lru_cache(maxsize=4096)
def exact_text(value: float, dimension: Dimension) -> str:
    """The quantity in a readable unit, or in its SI unit where only that reads back to the same float."""
    readable = units.written(value, dimension)
    if exact_value(readable, dimension) == value:
        return readable
    if dimension is Dimension.FRACTION:
        return _exact_fraction(value)
    return f"{value!r} {_SI_UNITS[dimension]}"


@lru_cache(maxsize=4096)
def exact_value(text: str, dimension: Dimension) -> float:
    """The SI value of a quantity; raises UnitFault."""
    return units.parse(text, dimension)


def _exact_fraction(value: float) -> str:
    """A fraction has no unit of 1: what lies next to it in one of its units is tried until one reads back."""
    for unit, factor in _FRACTION_UNITS.items():
        for number in _beside(value / factor):
            text = f"{number!r} {unit}"
            if exact_value(text, Dimension.FRACTION) == value:
                return text
    return f"{value / _FRACTION_UNITS['ppm']!r} ppm"


def _beside(number: float) -> Iterator[float]:
    """The number and the two floats next to it on either side."""
    yield number
    for end in (0.0, math.inf):
        nearer = math.nextafter(number, end)
        yield nearer
        yield math.nextafter(nearer, end)


def value_from_document(path: str, written: Any) -> Any:
    """One set-up value from a document."""
    return _in(spec_at(path), written)


def set_up_from_document(document: Mapping[str, Any]) -> SetUp:
    """The set-up that a document of ours holds."""
    found: SetUp = _part_in(SetUp, document)
    return found


def _part_in(part_class: type[Any], document: Mapping[str, Any]) -> Any:
    known = specs_of(part_class)
    return part_class(**{known[key].attribute: _in(known[key], value) for key, value in document.items()})


def _in(spec: FieldSpec, written: Any) -> Any:
    if written is None:
        return None
    if spec.kind is FieldKind.PARTS and spec.part is not None:
        return tuple(_part_in(spec.part, each) for each in written)
    if spec.kind is FieldKind.PART and spec.part is not None:
        return _part_in(spec.part, written)
    if spec.kind is FieldKind.MEASURED and spec.dimension is not None:
        return exact_value(written, spec.dimension)
    if spec.kind is FieldKind.CHOICE and spec.choices is not None:
        return spec.choices(written)
    return float(written) if spec.kind is FieldKind.NUMBER else written
