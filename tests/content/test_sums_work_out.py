"""Every sum that a worked solution writes out comes to its result, reckoned by pint, which knows units."""

import math
import re
from functools import cache

import pint
import pytest

from trainer.domain.families import draw
from trainer.domain.family import ScenarioFamily
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
# The formula itself names what is not in the sum: gas of a litre of liquid, real gas being denser, money.
OWN_CONSTANTS = re.compile(r"litres · |V_liquid|contents · |real (?:gas|argon)|price")


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
    told = (str(numbers.drawn[name]) for name in NAME.findall(numbers.template) if name in family.figures)
    return ABOUT + sum(map(rounded_by, told)) + rounded_by(result)


@cache
def sums_of(family: str, edition: Edition) -> tuple[SolutionStep, ...]:
    source = CONTENT.family(family, edition=edition)
    drawn = (
        draw(source, seed=seed, difficulty=difficulty, policy=CONTENT.policy, hazards=CONTENT.hazards)
        for seed, difficulty in DRAWS
    )
    steps = (step for scenario in drawn for answer in scenario.answers.values() for step in answer.solution)
    return tuple(
        step
        for step in steps
        if line_of_working(step.numbers, step.result) == f"{step.numbers} ≈ {step.result}"
        # no symbol worked out on the line before, nor a sum that says that it is not all
        and not re.search(r"\b[a-zA-Z]\b(?!\w|/)", AMOUNT.sub("", step.numbers))
        and not OWN_CONSTANTS.search(step.formula)
    )


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("family", CONTENT.families)
def test_a_sum_comes_to_its_result(family: str, edition: Edition) -> None:
    for step in sums_of(family, edition):
        shown = AMOUNT.match(step.result)
        assert shown is not None, step.result
        wanted = reckoned(shown[0]) / (UNITS.Quantity("1 mm") if shown["unit"] == "J" else 1)
        ratio = (reckoned(step.numbers) / wanted).to("").magnitude
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
