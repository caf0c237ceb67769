"""Whatever a scenario tells, it tells in amounts that the reader's own trade reads, and with nothing left to fill in.

How finely an amount may be told is common practice, no source, as is what its marks are: rules and tapes, float tubes,
gauges and thermometers. Sizes of pipe are those of ASME B36.10M and B36.19M, as the library `fluids` lists them. What the
core works out keeps a rounding of its own, and so do the lines of a worked solution, which have to multiply out.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from fluids import piping

from trainer.domain.families import draw
from trainer.domain.family import ScenarioFamily
from trainer.domain.people import UnitSystem as Edition
from trainer.domain.scenario import Fact, InstrumentKind, Scenario, SolutionStep
from trainer.domain.templates import NAME, Said, filled
from trainer.drawing.reader import Reader
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.scenario_files import load_content
from trainer.wording.facts import told_amount
from trainer.wording.quantities import UnitSystem
from trainer.wording.sentences import in_units_of

CONTENT = load_content()
DRAWS = ((0, 0.0), (1, 0.3), (2, 0.55), (3, 0.8), (4, 1.0))
SYSTEMS = {Edition.METRIC: UnitSystem.METRIC, Edition.INCH_POUND: UnitSystem.US}
WORKED = ("formula", "words", "numbers", "result")
ON_A_SCALE = (InstrumentKind.PRESSURE_GAUGE, InstrumentKind.FLOW_TUBE)
PRINTED = {Edition.METRIC: ("bar", "Pa", "L/min"), Edition.INCH_POUND: ("psi", "inH2O", "cfh")}
WORKED_OUT = "■"  # stands for a figure of the core

_NUMBER = r"-?(?:(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)"
_UNITS = (
    "mm²|cm²|m²|mm|cm|m|m³/h|m³|L/min|mm/min|m/s|Pa|kPa|bar|°C|in²|ft²|in³|ft³|in/min|ft/min|in|ft|cfh|cfm|psi|mph"
    "|inH₂O|°F"
)
AMOUNT = re.compile(
    rf"(?<![\w.,/-])(?P<number>{_NUMBER})(?: to (?P<until>{_NUMBER}))?[ \u00a0](?P<unit>{_UNITS})(?![\w/²³⁴^-])"
)
# What a writer put behind an amount in the other system is its exact counterpart.
_IN_BRACKETS = re.compile(rf"\({_NUMBER} (?:{_UNITS})\)")
LEFT_OPEN = re.compile(r"[{}]|\$\{|%\(\w*\)?|%s|\bnan\b|<[a-z_]+>")

_PIPES = [
    name for name in dir(piping) if re.fullmatch(r"S(?:\d+S?|STD|XS|XXS)[iot]", name)
]  # inside, outside, wall
_PIPE_MM = {round(size, 2) for name in _PIPES for size in getattr(piping, name)}
# ASTM A270 and ASME BPE table DT-2: outsides and walls of hygienic tube, which is made in inches.
_TUBE_IN = {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0, 0.065, 0.083, 0.109}


_OF_A_PIPE = re.compile(r"wall|outside|diameter|Ø|tube|schedule|pipe|socket|thick|bore|root", re.IGNORECASE)


def is_of_the_tables(size_mm: float, text: str) -> bool:
    """Whether a text tells of pipe or tube, and such is made, to the digits that people write of it."""
    if not _OF_A_PIPE.search(text):
        return False
    made = _PIPE_MM | {round(each * 25.4, 2) for each in _TUBE_IN}
    # Editions differ in the last digit of large pipe: 273.0 and 273.1 mm.
    return any(abs(size_mm - each) < (0.11 if each > 200.0 else 0.06) for each in made)


def figures_of(number: str) -> int:
    """How many significant digits a number has been written with."""
    digits = number.lstrip("-").replace(".", "").lstrip("0")
    return len(digits if "." in number else digits.rstrip("0")) or 1


def decimals_of(number: str) -> int:
    return len(number.partition(".")[2])


def natural_length(number: str, unit: str, text: str) -> bool:
    size = float(Fraction(number.replace(" ", "+"))) if " " not in number else _mixed(number)
    if unit == "mm":
        if is_of_the_tables(size, text):
            return True
        # 12.7 and 25.4 are quarters of an inch, and no mark of a metric rule
        in_quarters = size / 25.4 * 4.0
        return decimals_of(number) <= (0 if size >= 100.0 else 1) and not (
            "." in number and abs(in_quarters - round(in_quarters)) < 1e-6
        )
    if unit in ("m", "cm"):
        return decimals_of(number) <= (2 if size < 1.0 or round(size * 20.0, 6).is_integer() else 1)
    if unit == "in":
        if "/" in number:
            marks = int(number.rpartition("/")[2])
            return marks in (2, 4, 8, 16, 32, 64) and (size < 2.0 or marks <= 16)
        return "." not in number or is_of_the_tables(size * 25.4, text) or is_a_drill(size)
    return "." not in number and (size < 60.0 or size % 5.0 == 0.0)


def _mixed(number: str) -> float:
    whole, part = number.split(" ")
    return float(int(whole) + Fraction(part))


def is_a_drill(size_in: float) -> bool:
    """A part of an inch as lists of drills give it: 0.25, 0.156, 0.313."""
    return any(abs(size_in - each / 32.0) < 0.0006 for each in range(1, 33))


# The most digits that an amount is told with, and the decimals that it may have at all.
_DIGITS = {
    "L/min": (3, 2), "cfh": (3, 2), "cfm": (2, 1), "m³/h": (2, 1), "bar": (3, 2), "kPa": (2, 1), "Pa": (3, 2),
    "psi": (3, 1), "inH₂O": (2, 2), "°C": (3, 0), "°F": (4, 0), "m/s": (2, 0), "mph": (2, 0), "ft/min": (2, 0),
    "mm/min": (3, 0), "in/min": (3, 1), "m³": (3, 2), "ft³": (3, 2), "in³": (2, 2), "m²": (3, 1), "ft²": (3, 1),
    "cm²": (2, 1), "mm²": (2, 1), "in²": (2, 4),
}  # fmt: skip


def is_natural(number: str, unit: str, text: str) -> bool:
    """Whether somebody who reads this unit would say the number so."""
    if unit in ("mm", "cm", "m", "in", "ft"):
        return natural_length(number, unit, text)
    digits, decimals = _DIGITS[unit]
    if figures_of(number) > digits or decimals_of(number) > decimals:
        return False
    if unit not in ("L/min", "cfh", "bar", "psi") or "." not in number:
        return True
    # Float tubes and gauges are read to hundredths at their foot only, to tenths in the middle, to halves higher up.
    return decimals_of(number) <= (2 if float(number) < 2.0 else 1) and (
        float(number) < 21.0 or number.endswith(".5")
    )


def told(said: Said, family: ScenarioFamily, system: UnitSystem) -> str:
    """A sentence in its reader's units, its figures of the core left out."""

    def put_in(found: re.Match[str]) -> str:
        return WORKED_OUT if found[1] in family.figures else str(filled(f"{{{found[1]}}}", said.drawn))

    return in_units_of(NAME.sub(put_in, said.template), system=system)


def sentences(part: Any, *, worked: bool) -> Iterator[Said]:
    """The sentences of a scenario, or the lines of its worked solutions that have to multiply out."""
    if isinstance(part, Said) and not worked:
        yield part
    for name, each in parts_of(part):
        if not (isinstance(part, SolutionStep) and name in WORKED):
            yield from sentences(each, worked=worked)
        elif worked:
            yield from sentences(each, worked=False)


def parts_of(part: Any) -> list[tuple[str, Any]]:
    """What a part of a scenario is made of, by name; a fact is read as a whole, with its label."""
    if isinstance(part, Fact | str):
        return []
    if is_dataclass(part):
        return [(each.name, getattr(part, each.name)) for each in fields(part)]
    if isinstance(part, Mapping):
        return [("", each) for each in part.values()]
    return [("", each) for each in part] if isinstance(part, tuple | list) else []


def drawn_words(scenario: Scenario, system: UnitSystem) -> Iterator[str]:
    """What the drawing of a scenario says; its levels are worked out of the lengths."""
    svg = set_up_drawing(scenario.set_up, reader=Reader(units="us" if system is UnitSystem.US else "metric"))
    for found in re.findall(r"<(?:text|title|desc)[^>]*>.*?</(?:text|title|desc)>", svg, re.DOTALL):
        words = re.sub(r"<[^>]+>", "", found)
        if not words.startswith("+"):
            yield words


def fact_words(fact: Fact, family: ScenarioFamily, system: UnitSystem) -> str:
    if fact.value is None or fact.dimension is None:
        said = told(fact.text, family, system) if isinstance(fact.text, Said) else fact.text
    else:
        said = told_amount(fact.path, fact.value, fact.dimension, system=system)
    return f"{fact.label}: {said}"


@cache
def scenarios(edition: Edition, family: str) -> tuple[Scenario, ...]:
    source = CONTENT.family(family, edition=edition)
    return tuple(
        draw(source, seed=seed, difficulty=difficulty, policy=CONTENT.policy, hazards=CONTENT.hazards)
        for seed, difficulty in DRAWS
    )


def unnatural(text: str) -> list[str]:
    found = AMOUNT.finditer(_IN_BRACKETS.sub("", text))
    return [
        f"{number} {each['unit']}: {text}"
        for each in found
        for number in (each["number"], each["until"])
        if number is not None and not is_natural(number, each["unit"], text)
    ]


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("family", CONTENT.families)
def test_what_is_told_reads_naturally_in_the_units_of_its_edition(family: str, edition: Edition) -> None:
    system, source = SYSTEMS[edition], CONTENT.family(family, edition=edition)
    for scenario in scenarios(edition, family):
        texts = [told(each, source, system) for each in sentences(scenario, worked=False)]
        texts += [fact_words(each, source, system) for each in (*scenario.facts, *scenario.given)]
        texts += drawn_words(scenario, system)
        assert [fault for text in texts for fault in unnatural(text)] == [], scenario.seed


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("family", CONTENT.families)
def test_no_text_in_any_language_has_a_place_left_open(family: str, edition: Edition) -> None:
    for drawn in scenarios(edition, family):
        scenario = CONTENT.in_other_languages(drawn, edition=edition)
        texts = [str(each) for worked in (False, True) for each in sentences(drawn, worked=worked)]
        texts += [text for said in scenario.said.values() for text in said.values()]
        texts += [f"{each.label}: {each.text}" for each in (*drawn.facts, *drawn.given)]
        texts += drawn_words(drawn, SYSTEMS[edition])
        assert [text for text in texts if LEFT_OPEN.search(text)] == [], drawn.seed


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("family", CONTENT.families)
def test_constants_of_a_working_are_told_with_few_digits(family: str, edition: Edition) -> None:
    """Four, of which a pipe's outside of 273.1 mm has need; the rest is for a calculator's display."""
    system, source = SYSTEMS[edition], CONTENT.family(family, edition=edition)
    for scenario in scenarios(edition, family):
        for each in sentences(scenario, worked=True):
            for found in AMOUNT.finditer(told(each, source, system)):
                if "/" not in found["number"]:
                    assert figures_of(found["number"]) <= 4, each


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("family", CONTENT.families)
def test_scales_and_steps_are_round_in_the_unit_that_is_printed_on_them(
    family: str, edition: Edition
) -> None:
    for scenario in scenarios(edition, family):
        for instrument in (each.instrument for each in scenario.items if each.instrument is not None):
            if instrument.kind not in ON_A_SCALE:
                continue
            assert instrument.unit in PRINTED[edition]
            first, last, division = (
                each / instrument.si_per_unit
                for each in (instrument.low, instrument.high, instrument.division)
            )
            assert f"{division:.0e}"[0] in "125"
            assert division == pytest.approx(float(f"{division:.0e}"))
            assert (last - first) / division == pytest.approx(round((last - first) / division))


@pytest.mark.parametrize(
    "amount",
    ["3.937 in", "11.81 in", "2 1/64 in", "1/3 in", "25.4 mm", "304.8 mm", "6.35 mm", "0.984 ft", "1.83 m", "9.44 L/min",
     "31.78 cfh", "2901 psi", "20.35 bar", "67.9 °F", "37.8 °C", "2469 ft³", "162 ft", "0.393 inH₂O"],
)  # fmt: skip
def test_conversions_are_seen(amount: str) -> None:
    assert unnatural(f"The dam stands {amount} from the joint") != []


@pytest.mark.parametrize(
    "amount",
    ["4 in", "1 1/2 in", "6 5/16 in", "0.313 in", "300 mm", "2.5 mm", "161 mm", "1.2 m",
     "32 cfh", "15 L/min", "2900 psi", "12 bar", "68 °F", "165 ft", "7 1/2 ft", "4 to 8 mm"],
)  # fmt: skip
def test_marks_of_the_trade_are_none(amount: str) -> None:
    assert unnatural(f"The dam stands {amount} from the joint") == []


def test_sizes_of_pipe_are_natural_where_pipe_is_told_of() -> None:
    assert unnatural("A pipe of 168.3 mm outside and 7.11 mm wall, a tube of 0.065 in wall") == []
    assert unnatural("A pipe of 168.4 mm outside and 7.4 mm wall") != []
