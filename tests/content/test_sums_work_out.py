"""Every sum that a worked solution writes out comes to its result, reckoned by pint, which knows units."""

import math
import re

import pint
import pytest
from few_draws import few_draws

from trainer.scenario_files import load_content
from trainer.wording.lines_of_working import line_of_working

CONTENT = load_content()
UNITS = pint.UnitRegistry()
# what the trade writes → what pint reads
WRITTEN = {
    "%": "0.01", "ppm": "1e-6", "L": "liter", "L/min": "liter/minute", "min": "minute", "h": "hour",
    "m³": "m**3", "m^3": "m**3", "m^2": "m**2", "m²": "m**2", "m/s²": "m/s**2", "kg/m³": "kg/m**3",
    "in": "inch", "cfh": "ft**3/hour", "°C": "kelvin", "ft³": "ft**3", "ft²": "ft**2",
}  # fmt: skip
AMOUNT = re.compile(
    r"(?P<number>\d+(?: \d{3})*(?:\.\d+)?)(?: (?P<unit>%|ppm|°C|cfh|ft[²³]?|in|psi|kg/m³|J(?:/mm)?|L(?:/min)?|m(?:m(?:/min)?|in|/s²?|[²³]|\^[23])?|[hsVA]|Pa|bar)(?![\w°]))?"
)
# Numbers are shown to two or three figures, and gas is counted at 15 °C and 1 bar, a tenth more in the cold.
ABOUT = 0.1
# The formula itself names what is not in the sum: gas of a litre of liquid, real gas being denser, money.
OWN_CONSTANTS = re.compile(r"litres · |V_liquid|contents · |real (?:gas|argon)|price")


def reckoned(text: str) -> pint.Quantity:
    """The value of a sum as it is written."""

    def amount(found: re.Match[str]) -> str:
        unit = found["unit"] or "dimensionless"
        return f"UNITS.Quantity('{found['number'].replace(' ', '')} * {WRITTEN.get(unit, unit)}')"

    python = AMOUNT.sub(amount, text.replace("pi/4", "0.785398"))
    for sign, name in (("·", "*"), (")²", ")**2"), ("ln(", "ln("), ("√", "sqrt")):
        python = python.replace(sign, name)
    return UNITS.Quantity(1) * eval(
        python, {"UNITS": UNITS, "ln": lambda each: math.log(each.to("").magnitude)}
    )


def sums_of(family: str) -> list[tuple[str, str, str]]:
    found = []
    for scenario in few_draws(CONTENT, family, at=((3, 0.0), (3, 0.5), (3, 1.0))):
        for answer in scenario.answers.values():
            for step in answer.solution:
                if line_of_working(step.numbers, step.result) == f"{step.numbers} ≈ {step.result}":
                    found.append((step.formula, step.numbers, step.result))
    return found


@pytest.mark.parametrize("family", CONTENT.families)
def test_a_sum_comes_to_its_result(family):
    for formula, numbers, result in sums_of(family):
        if re.search(r"\b[a-zA-Z]\b(?!\w|/)", AMOUNT.sub("", numbers)) or OWN_CONSTANTS.search(formula):
            continue  # a symbol worked out on the line before, or a sum that says that it is not all
        shown = AMOUNT.match(result)
        assert shown is not None, result
        wanted = reckoned(shown[0]) / (UNITS.Quantity("1 mm") if shown["unit"] == "J" else 1)
        ratio = (reckoned(numbers) / wanted).to("").magnitude
        assert ratio == pytest.approx(1.0, rel=ABOUT), f"{numbers} ≈ {result}: {formula}"


def test_the_reckoner_reads_what_the_trade_writes():
    """3 V · 2 A for 5 s is 30 J; ln(e) by its digits; 60 L/min for 1 h is 3.6 m³ (worked by hand)."""
    assert reckoned("3 V · 2 A · 5 s").to("J").magnitude == pytest.approx(30.0)
    assert reckoned("ln(2.718282 % / 1 %)").to("").magnitude == pytest.approx(1.0, rel=1e-6)
    assert reckoned("60 L/min · 1 h").to("m**3").magnitude == pytest.approx(3.6)
