"""Worked solutions against pencil and paper: what stands in the formula, in both unit systems, and what of the thumb.

Worked by hand: bore 104 - 2 x 2 = 100 mm; V = pi/4 x 0.1 m squared x 0.6 m = 4.712 L; t1 = 4.712 L / 10 L/min = 0.4712 min
= 28.27 s. One cubic foot is 28.3168 L and 1 L/min is 2.11888 cfh (NIST SP 811, appendix B): 0.1664 ft3 or 287.6 in3, 21.2 cfh.
"""

import math
import re
from dataclasses import replace

import pytest
from small_family import TEXT, drawn_of, small_family

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import QuantityBand, RuleOfThumb, ShownFigure, Verdict
from trainer.domain.worked import worked_solution
from trainer.scenario_files import ContentFault
from trainer.scenario_files.working_file import faults_of_working
from trainer.wording.both_systems import can_be_converted, in_system, other_system, system_of
from trainer.wording.quantities import UnitSystem

# A key of two minutes that its own uncertainty leaves between 1 1/3 and 3 minutes.
BAND = QuantityBand(key=120.0, band_ratio=1.5, safe_zero_ratio=3.0, unsafe_zero_ratio=2.0, more_is_safer=True)
METRIC, US = UnitSystem.METRIC, UnitSystem.US


def worked(thumb: str = 'says = "a minute a foot"', *, band: QuantityBand | None = BAND):
    family = small_family(thumb)
    (step,) = worked_solution(family.items[0], drawn=drawn_of(family), band=band)
    return step


def thumb_of(thumb: str, *, band: QuantityBand | None = BAND) -> RuleOfThumb:
    found = worked(thumb, band=band).thumb
    assert found is not None
    return found


def test_a_step_says_formula_words_numbers_result_rule_and_caution() -> None:
    step = worked()
    assert step.formula == "V = (π/4) · D² · L; t₁ = V / Q"
    assert step.words.startswith("volume V is the area of the bore times the length L")
    assert step.numbers == "4.71 L / 10 L/min"
    assert step.result == "0.47 min"
    assert (step.rule, step.caution) == ("Geometry.", "The analyser decides; the site's permit comes first.")


def test_each_figure_goes_with_its_exact_value_and_digits() -> None:
    volume, change = worked().figures
    assert (volume.text, volume.dimension, volume.digits) == ("4.71 L", Dimension.VOLUME, 3)
    assert volume.value == pytest.approx(math.pi / 4 * 0.1**2 * 0.6, rel=1e-12)
    assert (change.text, change.dimension) == ("0.47 min", Dimension.DURATION)
    assert change.value == pytest.approx(28.2743, abs=1e-4)


def test_a_figure_without_a_unit_has_no_other_system() -> None:
    family = small_family('says = "x"', ('result = "{change}"', 'result = "{changes} changes of {change}"'))
    (step,) = worked_solution(family.items[0], drawn=drawn_of(family), band=None)
    assert re.fullmatch(r"\d+(\.\d+)? changes of 0\.47 min", step.result)
    assert [each.text for each in step.figures] == ["4.71 L", "0.47 min"]


def test_a_figure_told_twice_is_listed_once() -> None:
    family = small_family(
        'says = "x"', ('numbers = "{volume} / {flow}"', 'numbers = "{volume} + {volume} / {flow}"')
    )
    (step,) = worked_solution(family.items[0], drawn=drawn_of(family), band=None)
    assert step.numbers == "4.71 L + 4.71 L / 10 L/min"
    assert [each.text for each in step.figures] == ["4.71 L", "0.47 min"]


@pytest.mark.parametrize(
    ("thumb", "verdict", "is_unsafe"),
    [
        # 120 s x or / 1.5: the answer itself lies between 80 and 180 s
        ('low = "81 s", high = "100 s"', Verdict.AGREES, False),
        ('low = "150 s", high = "179 s"', Verdict.AGREES, False),
        ('high = "79 s"', Verdict.GIVES_LESS, True),
        ('low = "1 s", high = "79 s"', Verdict.GIVES_LESS, True),
        ('low = "181 s"', Verdict.GIVES_MORE, False),
        ('low = "181 s", high = "10 min"', Verdict.GIVES_MORE, False),
        ('low = "1 s"', Verdict.AGREES, False),
        ('high = "10 min"', Verdict.AGREES, False),
        # four to ten changes of 28.27 s are 113 to 283 s; one or two at the most 57 s
        ('low = { result = "one volume change", times = 4.0 }, high = { result = "one volume change", times = 10.0 }',
         Verdict.AGREES, False),
        ('high = { result = "one volume change", times = 2.0 }', Verdict.GIVES_LESS, True),
        ('low = { result = "one volume change", times = 7.0 }', Verdict.GIVES_MORE, False),
    ],
)  # fmt: skip
def test_a_rule_of_thumb_agrees_within_the_band_or_says_on_which_side_it_lies(
    thumb: str, verdict: Verdict, is_unsafe: bool
) -> None:
    found = thumb_of(f'says = "by heart", {thumb}')
    assert (found.verdict, found.is_unsafe) == (verdict, is_unsafe)
    assert found.dimension is Dimension.DURATION


def test_where_less_is_safer_the_rule_that_gives_more_is_the_unsafe_one() -> None:
    band = replace(BAND, more_is_safer=False)
    assert thumb_of('says = "x", low = "181 s"', band=band).is_unsafe
    assert not thumb_of('says = "x", high = "79 s"', band=band).is_unsafe


def test_what_a_rule_of_thumb_comes_to_is_worked_out() -> None:
    found = thumb_of('says = "four changes", low = { result = "one volume change", times = 4.0 }')
    assert found.low == pytest.approx(4 * 28.2743, abs=1e-3)
    assert found.high is None


def test_a_rule_without_amounts_is_told_and_not_judged() -> None:
    found = thumb_of('says = "a minute a foot"')
    assert (found.says, found.verdict, found.is_unsafe, found.dimension) == (
        "a minute a foot", None, False, None,
    )  # fmt: skip


def test_without_a_quantity_to_hold_it_against_a_rule_is_not_judged() -> None:
    found = thumb_of('says = "x", high = "1 s"', band=None)
    assert (found.verdict, found.is_unsafe) == (None, False)


def test_a_step_of_another_difficulty_is_left_out() -> None:
    family = small_family('says = "x"', ('rule = "Geometry."', 'rule = "Geometry."\nfrom = 0.5'))
    item = family.items[0]
    assert worked_solution(item, drawn=drawn_of(family, difficulty=0.4), band=None) == ()
    assert len(worked_solution(item, drawn=drawn_of(family, difficulty=0.5), band=None)) == 1


VOLUME = ShownFigure(text="4.71 L", value=0.00471239, dimension=Dimension.VOLUME, digits=3)


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("4.71 L / 10 L/min", "0.166 ft³ / 21.2 cfh"),
        ("300 mm", "11.8 in"),  # 300 / 25.4 = 11.811
        ("6.35 mm", "1/4 in"),
        ("2 bar", "29 psi"),  # 2e5 / 6894.757 = 29.0
        ("20 °C and 0.47 min", "68 °F and 0.47 min"),
        ("249 Pa", "1 inH₂O"),  # 249.089 Pa an inch of water
    ],
)
def test_amounts_are_told_in_the_other_system_and_times_stay(metric: str, us: str) -> None:
    assert in_system(metric, system=US, figures=(VOLUME,)) == us
    assert in_system(metric, system=METRIC, figures=(VOLUME,)) == metric


@pytest.mark.parametrize(
    ("us", "metric"),
    [("1 1/2 in", "38.1 mm"), ("3/8 in", "9.52 mm"), ("30 cfh", "14.2 L/min"), ("10 ft", "3.05 m"), ("100 psi", "6.89 bar")],
)  # fmt: skip
def test_and_back(us: str, metric: str) -> None:
    assert in_system(us, system=METRIC) == metric


def test_a_figure_of_the_core_is_converted_from_its_exact_value_not_from_its_digits() -> None:
    # 4.7499 L are 0.16774 ft3; the 4.7 L that are printed would be 0.16598
    figure = ShownFigure(text="4.7 L", value=0.0047499, dimension=Dimension.VOLUME, digits=2)
    assert in_system("4.7 L", system=US, figures=(figure,)) == "0.17 ft³"
    assert in_system("4.7 L", system=US, figures=(replace(figure, digits=3),)) == "0.168 ft³"
    assert in_system("4.7 L", system=US) == "0.166 ft³"


@pytest.mark.parametrize(
    ("text", "system"),
    [("4.71 L / 10 L/min", METRIC), ("30 cfh", US), ("12 in and 300 mm", None), ("0.47 min; 0.2 %", None)],
)
def test_a_line_is_in_one_system_or_in_none(text: str, system: UnitSystem | None) -> None:
    assert system_of(text) is system


def test_each_system_has_the_other() -> None:
    assert (other_system(METRIC), other_system(US)) == (US, METRIC)


@pytest.mark.parametrize("text", ["392 J in each mm", "50 L · 0.95 · 24.7 m³", "12 g of it", "1.66 kg/m³"])
def test_what_has_a_constant_of_one_unit_is_left_as_it_is(text: str) -> None:
    assert not can_be_converted(text)


def test_plain_amounts_can_be_converted() -> None:
    assert can_be_converted("4.71 L / 10 L/min")


def test_a_whole_working_has_no_faults() -> None:
    assert list(faults_of_working(small_family(), (0.0, 1.0))) == []


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ('words = "volume V is the area of the bore times the length L; the time t₁ is that volume divided by'
         ' the flow Q"\n', "", "the formula 'V = (π/4) · D² · L; t₁ = V / Q' is not said in words"),
        ('formula = "V = (π/4) · D² · L; t₁ = V / Q"\n', "", "no step has a formula, the numbers put in and the result"),
        ('numbers = "{volume} / {flow}"\n', "", "no step has a formula, the numbers put in and the result"),
        ('numbers = "{volume} / {flow}"', 'numbers = "5 L / 10 L/min"', "no drawn value and no figure of the core"),
        ('result = "{change}"\n', 'result = "half a minute"\n', "names no figure of the core"),
        ("thumb = { THUMB }\n", "", "no rule of thumb is held against the result"),
        ('caution = "The analyser decides; the site\'s permit comes first."\n', "", "no caution stands with the result"),
    ],
)  # fmt: skip
def test_what_a_working_leaves_out_is_said_of_its_item(old: str, new: str, fault: str) -> None:
    assert old in TEXT
    family = small_family('says = "x"', (old.replace("THUMB", 'says = "x"'), new))
    found = list(faults_of_working(family, (0.0, 1.0)))
    assert any(each.startswith("wait: ") and fault in each for each in found), found


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('what = "One change of the section"\n', "", "item[1].solution[1].what"),
        ('rule = "Geometry."', 'rules = "Geometry."', "item[1].solution[1].rules"),
        ('thumb = { says = "x" }', 'thumb = { low = "1 s" }', "item[1].solution[1].thumb.says"),
        (
            'thumb = { says = "x" }',
            'thumb = { says = "x", lower = "1 s" }',
            "item[1].solution[1].thumb.lower",
        ),
        ('numbers = "{volume} / {flow}"', 'numbers = "{volum} / {flow}"', "item wait.solution[1]"),
    ],
)
def test_a_fault_of_a_working_names_line_and_key(old: str, new: str, key: str) -> None:
    with pytest.raises(ContentFault) as refusal:
        small_family('says = "x"', (old, new))
    assert any(
        re.match(rf"by-hand\.toml: (line \d+: )?{re.escape(key)}", each) for each in refusal.value.lines
    ), refusal.value.lines
