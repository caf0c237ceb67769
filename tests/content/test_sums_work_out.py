"""Every sum that a worked solution writes out comes to its result, reckoned by pint, which knows units.

Where a line says that it leaves out what real argon takes, CoolProp says how much that is.
"""

import math
import re
from functools import cache

import pint
import pytest
from CoolProp.CoolProp import PropsSI

from trainer.domain.families import draw
from trainer.domain.family import ScenarioFamily
from trainer.domain.known_parts import temperature_of
from trainer.domain.people import UnitSystem as Edition
from trainer.domain.scenario import SolutionStep
from trainer.domain.templates import NAME, Said
from trainer.scenario_files import load_content
from trainer.wording.lines_of_working import line_of_working

CONTENT = load_content()
DRAWS = ((3, 0.0), (3, 0.5), (3, 1.0))
UNITS = pint.UnitRegistry()
# what the trade writes → what pint reads
WRITTEN = {
    "%": "0.01", "ppm": "1e-6", "L": "liter", "L/min": "liter/minute", "min": "minute", "h": "hour",
    "m³": "m**3", "m^3": "m**3", "m^2": "m**2", "m²": "m**2", "m/s²": "m/s**2", "kg/m³": "kg/m**3", "kg/m^3": "kg/m**3", "lb/ft^3": "lb/ft**3",
    "in": "inch", "cfh": "ft**3/hour", "°C": "kelvin", "ft³": "ft**3", "ft²": "ft**2", "ft^3": "ft**3", "ft^2": "ft**2",
    "in/min": "inch/minute", "inH₂O": "inH2O", "inH2O": "inH2O",
}  # fmt: skip
AMOUNT = re.compile(
    r"(?P<number>\d+ \d+/\d+(?! \d)|\d+/\d+(?= in)|\d+(?: \d{3})*(?:\.\d+)?)(?: (?P<unit>%|ppm|°C|cfh|ft(?:[²³]|\^[23])?|in(?:/min|H[₂2]O)?|psi|kg/m(?:³|\^3)|lb/ft\^3|J(?:/mm)?|L(?:/min)?|m(?:m(?:/min)?|in|/s²?|[²³]|\^[23])?|[hsVA]|k?Pa|bar)(?![\w°]))?"
)
# Beside what the figures of the core are rounded by: constants are told with two or three digits.
ABOUT = 0.025
# The formula counts a vessel's litres and says what gas one of them gives: the sum leaves out the litre.
COUNTS_LITRES = re.compile(r"litres · |V_liquid|contents · ")
GAS_OF_A_LITRE = re.compile(r"0\.7 m³|25 ft\^3")
# The formula says that its sum is the plain one and that real gas is denser.
REAL_GAS = re.compile(r"real (?:gas|argon)")
# What stands on a gauge; gas is counted at 1 bar absolute.
ON_A_GAUGE = re.compile(r"(?<![\d.])(?!1 bar|14\.5 psi)(?P<pressure>\d+(?:\.\d+)? (?:bar|psi))")
COUNTED_AT_PA, COUNTED_AT_K, ATMOSPHERE_PA = 1e5, 288.15, 101325.0


def reckoned(text: str) -> pint.Quantity:
    """The value of a sum as it is written."""

    def amount(found: re.Match[str]) -> str:
        unit = found["unit"] or "dimensionless"
        number = "+".join(found["number"].split(" ")) if "/" in found["number"] else found["number"]
        return f"(({number.replace(' ', '')}) * UNITS.Quantity('{WRITTEN.get(unit, unit)}'))"

    python = AMOUNT.sub(amount, text.replace("pi/4", "0.785398"))
    for sign, name in (("·", "*"), (")²", ")**2"), (")⁴", ")**4"), ("√", "sqrt")):
        python = python.replace(sign, name)
    return UNITS.Quantity(1) * eval(
        python, {"UNITS": UNITS, "ln": lambda each: math.log(each.to("").magnitude)}
    )


def without_what_is_left_out(text: str, *, formula: str, temperature_k: float) -> str:
    """A sum, or its result, with what its formula says in words and the line leaves out."""
    if COUNTS_LITRES.search(formula):
        text = GAS_OF_A_LITRE.sub(r"\g<0> / 1 L", text)
    if REAL_GAS.search(formula):
        text = ON_A_GAUGE.sub(lambda found: f"{plain_bar(found['pressure'], temperature_k)} bar", text)
    return text


def plain_bar(on_gauge: str, temperature_k: float) -> str:
    """The pressure at which as much argon would fill the cylinder if gas got denser with pressure alone."""
    pressure_pa = reckoned(on_gauge).to("Pa").magnitude + ATMOSPHERE_PA
    inside = PropsSI("D", "P", pressure_pa, "T", temperature_k, "Argon")
    counted = PropsSI("D", "P", COUNTED_AT_PA, "T", COUNTED_AT_K, "Argon")
    return f"{inside / counted:.6f}"


def rounded_by(figure: str) -> float:
    """By which share of itself a number may be off that is written so."""
    number = re.match(r"[\d.]+", figure)
    assert number is not None, figure
    digits = number[0]
    step = 10.0 ** -len(digits.partition(".")[2])
    if "." not in digits:  # the core's figures have two digits or more, the others are noughts to fill up
        step = 10.0 ** (len(digits) - max(2, len(digits.rstrip("0"))))
    return 0.5 * step / float(digits)


def allowed_of(step: SolutionStep, family: ScenarioFamily) -> float:
    """How far a sum may be off, since figures of the core stand in it with few digits, and its result too."""
    numbers, result = step.numbers, step.result
    assert isinstance(numbers, Said)
    told = [str(numbers.drawn[name]) for name in NAME.findall(numbers.template) if name in family.figures]
    if COUNTS_LITRES.search(step.formula):  # told to one digit, as a litre gives more the lower its pressure
        told += GAS_OF_A_LITRE.findall(step.numbers)
    return ABOUT + sum(map(rounded_by, told)) + rounded_by(result)


@cache
def sums_of(family: str, edition: Edition) -> tuple[tuple[SolutionStep, float], ...]:
    """Sums written out, each with the temperature of its set-up in kelvin."""
    source = CONTENT.family(family, edition=edition)
    drawn = (
        draw(source, seed=seed, difficulty=difficulty, policy=CONTENT.policy, hazards=CONTENT.hazards)
        for seed, difficulty in DRAWS
    )
    steps = (
        (step, temperature_of(scenario.set_up))
        for scenario in drawn
        for answer in scenario.answers.values()
        for step in answer.solution
    )
    return tuple(
        (step, temperature_k)
        for step, temperature_k in steps
        if line_of_working(step.numbers, step.result) == f"{step.numbers} ≈ {step.result}"
        # no symbol worked out on the line before, nor a sum that says that it is not all
        and not re.search(r"\b[a-zA-Z]\b(?!\w|/)", AMOUNT.sub("", step.numbers))
    )


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("family", CONTENT.families)
def test_a_sum_comes_to_its_result(family: str, edition: Edition) -> None:
    for step, temperature_k in sums_of(family, edition):
        shown = AMOUNT.match(step.result)
        assert shown is not None, step.result
        numbers, result = (
            without_what_is_left_out(each, formula=step.formula, temperature_k=temperature_k)
            for each in (step.numbers, shown[0])
        )
        wanted = reckoned(result) / (UNITS.Quantity("1 mm") if shown["unit"] == "J" else 1)
        ratio = (reckoned(numbers) / wanted).to("").magnitude
        allowed = allowed_of(step, CONTENT.family(family, edition=edition))
        assert ratio == pytest.approx(1.0, rel=allowed), (
            f"{step.numbers} ≈ {step.result}: {step.formula}, off by more than {allowed:.3f}"
        )


@pytest.mark.parametrize("edition", Edition)
def test_most_families_write_out_sums(edition: Edition) -> None:
    assert sum(bool(sums_of(family, edition)) for family in CONTENT.families) > len(CONTENT.families) / 2


def test_the_reckoner_reads_what_the_trade_writes() -> None:
    """3 V · 2 A for 5 s is 30 J; ln(e) by its digits; 60 L/min for 1 h is 3.6 m³ (worked by hand)."""
    assert reckoned("3 V · 2 A · 5 s").to("J").magnitude == pytest.approx(30.0)
    assert reckoned("ln(2.718282 % / 1 %)").to("").magnitude == pytest.approx(1.0, rel=1e-6)
    assert reckoned("60 L/min · 1 h").to("m**3").magnitude == pytest.approx(3.6)


def test_what_a_sum_leaves_out_is_put_in() -> None:
    """0.7 m³ a litre: 10 L of liquid are 7 m³. Argon at 200 bar and 15 °C is 7 % denser than the plain law (CoolProp 8.0.0)."""
    of_litres = without_what_is_left_out("10 L · 0.7 m³", formula="V = litres · 0.7 m³", temperature_k=288.15)
    assert reckoned(of_litres).to("m**3").magnitude == pytest.approx(7.0)
    plain = "50 L · 200 bar / 1 bar"
    real = without_what_is_left_out(plain, formula="a bit more for real argon", temperature_k=288.15)
    assert (reckoned(real) / reckoned(plain)).magnitude == pytest.approx(1.07, abs=0.01)
    assert without_what_is_left_out(plain, formula="V = V_w · p", temperature_k=288.15) == plain


def test_the_reckoner_reads_inches_and_pounds() -> None:
    """An inch is 25.4 mm and a foot 12 of them (the agreement of 1959); 1 1/2 in less 1/4 in is 1 1/4 in."""
    assert reckoned("1 1/2 in - 1/4 in").to("mm").magnitude == pytest.approx(31.75)
    assert reckoned("24 cfh · 30 min").to("ft**3").magnitude == pytest.approx(12.0)
    assert reckoned("(1/2 in / 1/4 in)⁴").to("").magnitude == pytest.approx(16.0)


@pytest.mark.parametrize(
    ("written", "off"), [("10", 0.05), ("1.5", 0.1 / 3), ("120", 0.5 / 12), ("1570 ppm", 0.5 / 157)]
)
def test_a_figure_is_off_by_half_of_its_last_digit(written: str, off: float) -> None:
    assert rounded_by(written) == pytest.approx(off)
