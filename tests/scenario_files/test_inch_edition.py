"""Families for readers of inches and pounds. Which marks tapes and gauges have is common practice, no source."""

import pytest

from trainer.domain.people import UnitSystem
from trainer.scenario_files import load_content
from trainer.scenario_files.content_check import checked_family
from trainer.scenario_files.inch_edition import in_inches

CONTENT = load_content()


@pytest.mark.parametrize(
    ("metric", "inch"),
    [
        ("300 mm", "12 in"),
        ("600 mm", "24 in"),
        ("6 mm", "1/4 in"),
        ("2.5 mm", "3/32 in"),
        ("12 mm", "1/2 in"),
        ("35 mm", "1 3/8 in"),
        ("161 mm", "6 5/16 in"),
        ("0.6 m", "24 in"),
        ("9 m", "30 ft"),
        ("15 L/min", "32 cfh"),
        ("0.25 L/min", "0.52 cfh"),
        ("0.5 L/min", "1.1 cfh"),
        ("50 m", "165 ft"),
        ("300 m", "1000 ft"),  # hose is sold by fifties
        ("12 bar", "175 psi"),
        ("200 bar", "2900 psi"),
        ("60 mm/min", "2.4 in/min"),
        ("20 °C", "68 °F"),
        ("0 mm^2", "0 in^2"),
        ("60 mm²", "0.093 in^2"),
        ("22 Pa", "0.09 inH2O"),
        ("8 m/s", "18 mph"),
        ("24.8 mm", "31/32 in"),
        # said twice, the inches are those that the writer gave
        ("24 ft (7.3 m)", "24 ft"),
        ("11 m (35 ft)", "35 ft"),
        ("2.1 mm (0.083 in)", "0.083 in"),
        ("card · (100 mm / thickness)", "card · (4 in / thickness)"),
    ],
)
def test_an_amount_is_the_nearest_that_tapes_and_gauges_read(metric, inch):
    assert in_inches({"situation": metric}) == {"situation": inch}


@pytest.mark.parametrize(
    ("key", "metric", "inch"),
    [
        ("nearest", "10 L/min", "20 cfh"),
        ("nearest", "0.5 bar", "5 psi"),
        ("nearest", "0.5 m", "2 ft"),
        ("step", "10 mm", "1/2 in"),
        ("wall", "2.77 mm", "0.109 in"),  # ASME B36.19M, NPS 1 to 2 schedule 10S
        ("words", "a gap of 6 mm", "a gap of 1/4 in"),  # a draw's own name, and no working
    ],
)
def test_steps_are_round_and_walls_are_in_thousandths(key, metric, inch):
    assert in_inches({key: metric}) == {key: inch}


def test_a_constant_of_a_formula_keeps_three_figures_where_nobody_was_told_it():
    """98 Pa are 0.3934 inches of water, 5 L/min 10.59 cfh, 4 mm 0.1575 in (NIST SP 811, appendix B.8, from memory)."""
    solution = {
        "formula": "98 Pa · (Q / 5 L/min)² · (4 mm / d)⁴",
        "numbers": "98 Pa · (12 L/min / 5 L/min)²",
        "words": "V / 0.05 m³ · 1 bar",
    }
    family = {"set_up": {"flow": "12 L/min"}, "item": [{"solution": [solution]}]}
    assert in_inches(family)["item"][0]["solution"] == [
        {
            "formula": "0.393 inH2O · (Q / 10.6 cfh)² · (0.157 in / d)⁴",
            "numbers": "0.393 inH2O · (25 cfh / 10.6 cfh)²",
            "words": "V / 1.77 ft^3 · 14.5 psi",
        }
    ]


def test_what_was_told_is_the_same_mark_in_the_working():
    family = {
        "fact": [{"text": "4 mm at 10 L/min: 390 Pa"}],
        "item": [{"solution": [{"words": "390 Pa, 4 mm"}]}],
    }
    inch = in_inches(family)
    assert inch["fact"] == [{"text": "5/32 in at 21 cfh: 1.6 inH2O"}]
    assert inch["item"] == [{"solution": [{"words": "1.6 inH2O, 5/32 in"}]}]


@pytest.mark.parametrize(
    "text",
    [
        "NPS 6 schedule 10S",
        "ISO 14175",
        "0.1 %",
        "12 min",
        "50 L argon",
        "{pipe.nps}",
        "a 3 mm-thick plate",
    ],
)
def test_what_is_no_metric_amount_of_its_own_stays(text):
    assert in_inches({"situation": text}) == {"situation": text}


def test_both_ends_of_a_range_and_every_level_of_the_file_are_converted():
    family = {
        "draw": [{"of": [{"is": "4 to 8 mm", "from": 0.3}]}],
        "set_up": {"dams": [{"thickness": "100 mm"}]},
    }
    assert in_inches(family) == {
        "draw": [{"of": [{"is": "5/32 to 5/16 in", "from": 0.3}]}],
        "set_up": {"dams": [{"thickness": "4 in"}]},
    }


@pytest.mark.parametrize(
    ("metric", "inch"),
    [
        (("bar", "25 bar", "0.5 bar"), ("psi", "365 psi", "5 psi")),  # 25 bar are 362.6 psi
        (("bar", "250 bar", "5 bar"), ("psi", "3650 psi", "50 psi")),
        (("L/min", "20 L/min", "1 L/min"), ("cfh", "44 cfh", "2 cfh")),  # 42.4 cfh
        (("Pa", "600 Pa", "10 Pa"), ("inH2O", "2.45 inH2O", "0.05 inH2O")),  # 2.41 inches of water
    ],
)
def test_an_instrument_has_the_scale_of_its_inch_pound_counterpart(metric, inch):
    def scale(unit, high, division):
        dial = {"instrument": "pressure gauge", "unit_hint": unit, "low": f"0 {unit}"}
        return {**dial, "high": high, "division": division}

    assert in_inches({"item": [scale(*metric)]}) == {"item": [scale(*inch)]}


@pytest.mark.parametrize(
    "item",
    [
        {"instrument": "analyser", "unit_hint": "ppm", "high": "30000 ppm", "division": "1 ppm"},
        {"instrument": "pressure gauge", "unit_hint": "bar", "high": "much", "division": "1 min"},
        {"instrument": "pressure gauge", "unit_hint": "bar"},
        {"kind": "quantity", "unit_hint": "bar"},
    ],
)
def test_what_has_no_such_scale_keeps_its_unit(item):
    assert in_inches({"item": [item]}) == {"item": [item]}


def test_figures_of_the_working_are_in_the_same_units():
    family = {"figure": {"way": {"unit": "m"}, "part": {"unit": "%"}, "count": {"digits": 2}}}
    assert in_inches(family)["figure"] == {
        "way": {"unit": "ft"},
        "part": {"unit": "%"},
        "count": {"digits": 2},
    }


@pytest.mark.parametrize("family", sorted(CONTENT.families))
def test_the_inch_edition_draws_and_its_keys_score_one(family):
    inch = CONTENT.family(family, edition=UnitSystem.INCH_POUND)
    assert inch.content_version != CONTENT.families[family].content_version
    assert checked_family(inch, CONTENT, seeds=range(12)).faults == ()
