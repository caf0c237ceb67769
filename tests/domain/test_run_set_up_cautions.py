"""Cautions of whole set-ups: what raises each, and what does not."""

import math
from dataclasses import replace

import pytest
from set_up_examples import POLICY, codes, run_of, set_up

from trainer.domain.run_set_up import run


def test_a_sound_set_up_raises_nothing():
    assert run_of(wait="6 min").cautions == ()


@pytest.mark.parametrize("place", ["pit", "trench", "vessel", "pipe", "van"])
def test_gas_led_into_a_closed_place_endangers_whoever_goes_in(place):
    assert codes(scene={"vent_leads_to": place}) == ["asphyxiation"]


@pytest.mark.parametrize("place", ["open air", "room"])
def test_gas_led_to_an_open_place_does_not(place):
    assert codes(scene={"vent_leads_to": place}) == []


def test_a_face_in_the_layer_is_in_danger_while_the_mixed_air_still_seems_fine():
    trench = {"kind": "trench", "volume": "20 m^3", "floor_area": "1 m^2", "fan": "none", "after": "30 min"}
    kneeling = {"people": [{"where": "trench", "face_height": "0.4 m"}]}
    (caution,) = run_of(surroundings=trench, scene=kneeling).cautions
    assert caution.code == "asphyxiation"
    # Worked by hand: 15 L/min x 30 min / 1 m2 = 0.45 m.
    assert dict(caution.facts)["pool_depth_m"] == pytest.approx(0.45)
    assert codes(surroundings=trench, scene={"people": [{"where": "trench", "face_height": "0.5 m"}]}) == []
    assert codes(surroundings={**trench, "fan": "blows in", "fan_flow": "50 m^3/h"}, scene=kneeling) == []
    assert (
        codes(surroundings=trench, scene=kneeling, gas__symbol="I2", vent__height=0.05, inlet__height=0.9)
        == []
    )


def test_nitrogen_is_never_used_on_titanium_and_only_by_procedure_on_stainless():
    titanium = run_of(material="titanium", gas__symbol="N1", target=None).cautions
    assert dict(titanium[0].facts)["verdict"] == "never"
    stainless = run_of(gas__symbol="N1").cautions
    assert (stainless[0].code, dict(stainless[0].facts)["verdict"]) == (
        "gas-not-for-material",
        "by procedure",
    )
    assert "gas-not-for-material" not in codes(material="duplex", gas__symbol="N1")


def test_carbon_steel_needs_no_purge():
    assert "no-purge-needed" in codes(material="carbon steel")


def test_nitrogen_is_trusted_with_no_placement_and_gets_no_word_about_the_pocket():
    low = codes(material="duplex", gas__symbol="N1", vent__height=0.1)
    assert "placement-untrusted" in low
    assert "vent-beyond-pool" not in low


def test_a_low_vent_traps_air_behind_a_gentle_inlet_and_not_behind_a_strong_jet():
    assert "vent-beyond-pool" in codes(vent__height=0.5)
    jet = {"end": "open tube", "height": 0.1, "bore": "0.25 in"}
    assert "vent-beyond-pool" not in codes(vent__height=0.5, inlet=jet, flow__purge="20 L/min")


def test_an_upright_pipe_filled_from_the_wrong_end_traps_air():
    assert "vent-beyond-pool" in codes(section__slope="-90 deg")
    assert "vent-beyond-pool" not in codes(section__slope="90 deg")


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"vent__diameter": "60 mm", "vent__height": 0.8}, "vent-too-large"),
        ({"vent__diameter": "2.5 mm"}, "vent-too-small"),
        ({"flow__hold": "12 L/min"}, "pressure-on-bead"),
        ({"section__left_dam": "80 mm"}, "dam-too-close"),
        ({"supply__pressure": "4 bar"}, "supply-runs-out"),
        ({"hose__open_fraction": 0.01}, "hose-starves-flow"),
        ({"supply__pressure": "8 bar"}, "change-before-next-joint"),
        ({"supply__largest_draw": "12 L/min"}, "supply-cannot-deliver"),
        ({"gas__frost_point": "-30 degC"}, "gas-is-damp"),
        ({"target__oxygen": "4 ppm"}, "floor-above-target"),
        ({"target__oxygen": "50 ppm"}, "beyond-tested-range"),
        ({"section__left_dam": "4 m"}, "beyond-tested-range"),
        ({"flow__purge": "50 L/min", "vent__diameter": "12 mm", "vent__height": 0.9}, "beyond-tested-range"),
        ({"wait": "1 min"}, "root-lost"),
        ({"wait": "1 min"}, "oxygen-above-target"),
        ({"vent__diameter": "30 mm", "vent__height": 0.85}, "hold-lets-air-in"),
        ({"vent__height": 0.5, "scene": {"analyser_at": "vent"}}, "vent-reading-flatters"),
    ],
    ids=lambda value: str(value),
)  # fmt: skip
def test_a_set_up_with_the_fault_raises_its_caution(changes, code):
    assert code in codes(**changes)


def test_a_site_may_set_another_threshold():
    rows = tuple(
        replace(each, value=30.0) if each.code == "dam-too-close" else each for each in POLICY.thresholds
    )
    strict = replace(POLICY, thresholds=rows)  # dams at least 30 K below their limit
    near = set_up(section__left_dam="150 mm")  # 94 degC, limit 100
    assert "dam-too-close" not in [each.code for each in run(near, policy=POLICY).cautions]
    assert "dam-too-close" in [each.code for each in run(near, policy=strict).cautions]


def test_a_table_without_a_row_raises_nothing_of_its_kind():
    empty = replace(POLICY, thresholds=())
    assert run(set_up(wait="1 min", target__oxygen="4 ppm"), policy=empty).cautions == ()


def test_each_code_is_raised_once_with_the_value_and_the_limit_as_facts():
    for caution in run_of(wait="1 min", target__oxygen="50 ppm", section__left_dam="4 m").cautions:
        facts = dict(caution.facts)
        assert any(name.startswith("limit_") for name in facts)
        assert all(isinstance(each, str) or math.isfinite(each) for each in facts.values())
    found = codes(wait="1 min", target__oxygen="50 ppm", section__left_dam="4 m")
    assert len(found) == len(set(found))
