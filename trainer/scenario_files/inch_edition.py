"""A family as it is drawn for people who read inches and pounds: every amount is one that their tapes read.

A file is written in metric units. 300 mm is not 11.8 in on the shop floor but 12, so each amount is taken to
the nearest that the trade uses, in the texts as in the set-up, and the core works from that: nothing is
fudged. Times, shares, currents and pipe sizes are the same for everybody.
"""

import re
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from trainer.domain.quantities import Dimension
from trainer.scenario_files.inch_scales import step_near, with_inch_scale
from trainer.units import in_unit, parse
from trainer.wording.quantities import plain_number

# What a family becomes here follows from its file and from this module and `inch_scales`. The number goes
# into the content version of the edition: raise it with every change of what they make of an amount.
INCH_EDITION = "3"

_MOST_IN = 36.0  # from here on lengths are in feet
_LEAST_FT = 2.0  # below, a length given in metres is in inches


@dataclass(frozen=True)
class _Scale:
    """A unit with its steps: from which size on people read it in which step, the largest size first."""

    unit: str
    steps: tuple[tuple[float, Fraction], ...]

    def nearest(self, size: float) -> Fraction:
        """The mark nearest to a size, never the mark at nothing for a size that is something."""
        step = next(step for starts, step in self.steps if abs(size) >= starts)
        return (round(size / step) or (1 if size > 0.0 else 0)) * step


def _scale(unit: str, *steps: tuple[float, str]) -> _Scale:
    return _Scale(unit, tuple((starts, Fraction(step)) for starts, step in steps))


# Common practice, no source: how rules, tapes, flow meters and gauges in inch-pound shops are marked.
_INCHES = _scale(
    "in", (24.0, "2"), (10.0, "1"), (2.0, "1/2"), (1.0, "1/8"), (0.35, "1/16"), (0.1, "1/32"), (0.0, "1/64")
)
_FEET = _scale("ft", (300.0, "50"), (60.0, "5"), (8.0, "1"), (0.0, "1/2"))
_FLOW = _scale("cfh", (200.0, "10"), (60.0, "5"), (6.0, "1"), (2.0, "1/2"), (0.5, "1/10"), (0.0, "1/50"))
# Between the marks of a rule and of a float tube, where an amount was read and not chosen.
_MEASURED_FROM_MM = 50.0
_TENTHS_FROM_MM = 15.0
_FINER = {
    _INCHES: _scale("in", (2.0, "1/16"), (0.0, "1/64")),
    _FLOW: _scale("cfh", (20.0, "1/2"), (1.0, "1/10"), (0.0, "1/50")),
}
_GAUGE = _scale("psi", (200.0, "50"), (40.0, "5"), (10.0, "1"), (0.0, "1/2"))
_VOLUME = _scale("ft^3", (1000.0, "100"), (100.0, "10"), (10.0, "1"), (1.0, "1/10"), (0.0, "1/100"))
_AREA = _scale("ft^2", (100.0, "10"), (10.0, "1"), (0.0, "1/10"))
_FACE = _scale("in^2", (10.0, "1"), (1.0, "1/10"), (0.1, "1/100"), (0.01, "1/1000"), (0.0, "1/10000"))
_SPEED = _scale("in/min", (10.0, "1"), (0.0, "1/10"))
_WIND = _scale("mph", (0.0, "1"))
_DRAUGHT = _scale("inH2O", (20.0, "1"), (1.0, "1/10"), (0.0, "1/100"))
_FAHRENHEIT = _scale("degF", (0.0, "1"))
_FOAM = _scale("lb/ft^3", (0.0, "1/10"))

_SCALES: Mapping[str, tuple[Dimension, _Scale]] = {
    "mm": (Dimension.LENGTH, _INCHES), "cm": (Dimension.LENGTH, _INCHES), "m": (Dimension.LENGTH, _FEET),
    "L/min": (Dimension.VOLUME_FLOW, _FLOW), "m^3/h": (Dimension.VOLUME_FLOW, _FLOW),
    "bar": (Dimension.PRESSURE, _GAUGE), "kPa": (Dimension.PRESSURE, _GAUGE),
    "Pa": (Dimension.PRESSURE, _DRAUGHT), "m/s": (Dimension.SPEED, _WIND),
    "m^3": (Dimension.VOLUME, _VOLUME), "mm/min": (Dimension.SPEED, _SPEED),
    "m^2": (Dimension.AREA, _AREA), "cm^2": (Dimension.AREA, _FACE), "mm^2": (Dimension.AREA, _FACE),
    "m³": (Dimension.VOLUME, _VOLUME), "m²": (Dimension.AREA, _AREA), "cm²": (Dimension.AREA, _FACE),
    "mm²": (Dimension.AREA, _FACE),
    "°C": (Dimension.TEMPERATURE, _FAHRENHEIT), "degC": (Dimension.TEMPERATURE, _FAHRENHEIT),
    "kg/m^3": (Dimension.DENSITY, _FOAM),
}  # fmt: skip
_NUMBER = r"-?\d+(?:[.,]\d+)?"  # with a point in English, a comma in Spanish
_UNIT = "|".join(sorted(map(re.escape, _SCALES), key=len, reverse=True))
# Not a part of a word or of another number.
_AMOUNT = re.compile(
    rf"(?<![\w.,/-])(?:(?P<from>{_NUMBER}) (?P<until>to|a) )?(?P<to>{_NUMBER}) (?P<unit>{_UNIT})(?![\w/²³^-])"
)
_INCH_POUND = r"(?:(?:\d+ )?\d+/\d+|\d+(?:[.,]\d+)?) (?:in|ft|cfh|psi|°F)"
# The same amount twice, one of them in brackets: the one that the writer gave in inches and pounds is read.
_TWICE = re.compile(
    rf"(?:{_NUMBER} (?:{_UNIT}) \((?P<behind>{_INCH_POUND})\))"
    rf"|(?P<before>{_INCH_POUND}) \({_NUMBER} (?:{_UNIT})\)"
)
_KEPT = ("unit", "unit_hint")  # names of units, not amounts
_STEPS = ("nearest", "step")  # what something goes in: 1, 2 or 5 of a unit, or a half of it halved again
_WALLS = ("wall", "thick")  # tables of pipe give walls in thousandths of an inch
WORKED = ("formula", "words", "numbers")  # constants that have to multiply out as they stand
_SOLUTION = "solution"  # the tables that these stand in; elsewhere such a name is a draw's own
_AFTERWARDS = (_SOLUTION, "thumb", "rule")  # what nobody is told before they have decided
# Figures of the core in worked solutions.
_FIGURE_UNITS = {
    "mm": "in", "cm": "in", "m": "ft", "L/min": "cfh", "m^3/h": "cfh", "L": "ft^3", "m^3": "ft^3",
    "bar": "psi", "kPa": "psi", "Pa": "inH2O", "degC": "degF", "°C": "°F", "m^2": "ft^2", "cm^2": "in^2",
    "mm^2": "in^2", "m³": "ft^3", "m²": "ft^2", "cm²": "in^2", "mm²": "in^2",
}  # fmt: skip
_DECIMAL = (
    "psi",
    "in/min",
    "cfh",
    "ft^3",
    "ft^2",
    "in^2",
    "degF",
    "inH2O",
    "mph",
    "lb/ft^3",
)  # the others are written in fractions


def in_inches(family: Mapping[str, Any]) -> dict[str, Any]:
    """A family's document with every metric amount taken to the nearest inch-pound mark."""
    told = told_amounts(family)
    return with_inch_figures({name: _in_inches(each, key=name, told=told) for name, each in family.items()})


def told_amounts(family: Mapping[str, Any]) -> frozenset[str]:
    """The amounts that a family tells or sets outside its workings: the same marks there as in them."""
    return frozenset(f"{found['to']} {found['unit']}" for found in _told(family))


def _told(written: Any) -> Iterator[re.Match[str]]:
    if isinstance(written, Mapping):
        for name, each in written.items():
            if name not in _AFTERWARDS:
                yield from _told(each)
    elif isinstance(written, list):
        for each in written:
            yield from _told(each)
    elif isinstance(written, str):
        yield from _AMOUNT.finditer(written)


def with_inch_figures(family: Mapping[str, Any]) -> dict[str, Any]:
    """A family's document as it is, with the figures of worked solutions in inches and pounds."""
    figures = family.get("figure")
    if not isinstance(figures, Mapping):
        return dict(family)
    return {**family, "figure": {name: _in_inch_unit(each) for name, each in figures.items()}}


def _in_inch_unit(figure: Any) -> Any:
    if not isinstance(figure, Mapping) or figure.get("unit") not in _FIGURE_UNITS:
        return figure
    return {**figure, "unit": _FIGURE_UNITS[figure["unit"]]}


def _in_inches(written: Any, *, key: str, told: Set[str], under: str = "") -> Any:
    if isinstance(written, dict):
        scaled = with_inch_scale(written)
        return {name: _in_inches(each, key=name, told=told, under=key) for name, each in scaled.items()}
    if isinstance(written, list):
        return [_in_inches(each, key=key, told=told, under=under) for each in written]
    if isinstance(written, str) and key not in _KEPT:
        return text_in_inches(written, key="" if key in WORKED and under != _SOLUTION else key, told=told)
    return written


def text_in_inches(text: str, *, key: str = "", told: Set[str] = frozenset()) -> str:
    """A text with every metric amount taken to the nearest inch-pound mark, in English or Spanish.

    The key that it stands under tells steps, walls and workings from what is only said. A constant of a
    working that is not among what the family told is no mark: it keeps three figures, so the sum comes out.
    """
    once = _TWICE.sub(lambda found: found["behind"] or found["before"], text)
    return _AMOUNT.sub(lambda found: _converted(found, key, told), once)


def _converted(found: re.Match[str], key: str, told: Set[str]) -> str:
    """One amount, or both ends of a range, whose unit stands at the second only."""
    dimension, scale = _SCALES[found["unit"]]
    given = [each.replace(",", ".") for each in found.group("from", "to") if each]
    ends = [parse(f"{each} {found['unit']}", dimension) for each in given]
    if key in _WALLS and dimension is Dimension.LENGTH:
        return f"{in_unit(ends[-1], dimension, 'in'):.3f} in"
    if dimension is Dimension.LENGTH:
        scale = _length_scale(max(ends), scale, is_step=key in _STEPS)
    scale = _FINER.get(scale, scale) if _was_measured(given, found["unit"]) else scale
    sizes = [in_unit(end, dimension, scale.unit) for end in ends]
    if key in _STEPS:
        marks = [_written(step_near(each, scale.unit), scale.unit) for each in sizes]
    elif key in WORKED and _is_constant(f"{given[-1]} {found['unit']}", dimension, told):
        marks = [plain_number(each) for each in sizes]
    else:
        marks = [_written(scale.nearest(each), scale.unit) for each in sizes]
    until = f" {found['until']} "
    return f"{until.join(marks)} {'°F' if scale.unit == 'degF' else scale.unit}"


def _is_constant(amount: str, dimension: Dimension, told: Set[str]) -> bool:
    """Whether an amount of a working belongs to its formula, not to what was told; degrees are always whole.

    One of a unit, 1 bar, is what a sum counts in, and no mark wherever it is told.
    """
    return dimension is not Dimension.TEMPERATURE and (amount not in told or amount.startswith("1 "))


def _was_measured(given: list[str], unit: str) -> bool:
    """Whether an amount is a reading, to odd millimetres or tenths of a litre, and not a chosen size."""
    if unit == "mm":
        longest = max(map(float, given))
        in_tenths = any("." in each for each in given) and longest >= _TENTHS_FROM_MM
        return in_tenths or (any(float(each) % 5.0 for each in given) and longest >= _MEASURED_FROM_MM)
    return unit == "L/min" and any("." in each for each in given)


def _length_scale(longest_m: float, scale: _Scale, *, is_step: bool) -> _Scale:
    if is_step:
        return scale if in_unit(longest_m, Dimension.LENGTH, "ft") >= 1.0 else _INCHES
    if in_unit(longest_m, Dimension.LENGTH, "in") >= _MOST_IN:
        return _FEET
    return _INCHES if in_unit(longest_m, Dimension.LENGTH, "ft") < _LEAST_FT else scale


def _written(mark: Fraction, unit: str) -> str:
    """A mark as it is called: 1 1/2 in, 12.5 cfh."""
    if unit in _DECIMAL or mark.denominator == 1:
        return f"{float(mark):.6f}".rstrip("0").rstrip(".")
    whole, rest = divmod(mark.numerator, mark.denominator)
    return f"{whole} {rest}/{mark.denominator}" if whole else f"{rest}/{mark.denominator}"
