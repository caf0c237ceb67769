"""Cautions of the air, its answers through the command, its faults, and what a scenario may ask about it."""

import json
import math

import pytest
from air_examples import DEWAR, PIT, people_at, standing
from click.testing import CliRunner
from set_up_examples import POLICY, codes, document, set_up

from trainer.cli import main
from trainer.domain.core_results import CoreResults, NotKnown
from trainer.domain.run_breathing import breathing_result
from trainer.domain.set_up import SetUp
from trainer.set_up_files import SetUpFaults, read_set_up


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"surroundings": PIT, "scene": people_at(("pit", "1.9 m")), "gas__symbol": "I2"}, "collects-at-ceiling"),
        ({"scene": people_at(("pipe", "0.05 m"))}, "inside-purged-pipe"),
        ({"surroundings": standing(), "supply": DEWAR, "flow": None}, "boil-off-collects"),
        ({"surroundings": standing("room", volume="50 m^3")}, "supply-could-empty-here"),
        ({"surroundings": standing("vessel", supply_inside=True)}, "supply-could-empty-here"),
        ({"surroundings__fresh_oxygen": "24 %"}, "enriched-air"),
    ],
    ids=lambda value: str(value)[:40],
)  # fmt: skip
def test_what_endangers_people_is_said(changes, code):
    assert code in codes(**changes)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"surroundings": PIT, "scene": people_at(("pit", "1.7 m")), "gas__symbol": "I2"}, "collects-at-ceiling"),
        ({"surroundings": PIT, "scene": people_at(("pit", "1.9 m"))}, "collects-at-ceiling"),
        ({"scene": people_at(("room", "0.05 m"))}, "inside-purged-pipe"),
        ({"scene": people_at(("pipe", "0.05 m")), "flow": None}, "inside-purged-pipe"),
        ({"surroundings": standing(air_changes_per_h=1), "supply": DEWAR, "flow": None}, "boil-off-collects"),
        ({"surroundings": standing("pit")}, "supply-could-empty-here"),
        ({"surroundings": standing(supply_inside=False)}, "supply-could-empty-here"),
        ({"surroundings__fresh_oxygen": "23.5 %"}, "enriched-air"),
    ],
    ids=lambda value: str(value)[:40],
)  # fmt: skip
def test_what_does_not_is_not(changes, code):
    assert code not in codes(**changes)


def test_nobody_is_warned_of_a_layer_that_is_not_there():
    away = {"vent_leads_to": "open air", **people_at(("pit", "0 m"))}
    around = {key: each for key, each in PIT.items() if key != "release"}
    assert "asphyxiation" not in codes(surroundings=around, scene=away)


def _solve(given):
    return CliRunner().invoke(main, ["solve", "-"], input=json.dumps(given))


def test_the_command_answers_for_every_person_and_for_the_rescue():
    given = document(
        surroundings={**PIT, "blower": "0.5 m^3/min"}, scene=people_at(("pit", "0.2 m"), ("room", "1 m"))
    )
    answered = _solve(given)
    assert answered.exit_code == 0
    air = json.loads(answered.stdout)["breathing"]
    inside, outside = air["people"]
    assert outside == {"where": "room", "face_height_m": 1.0}
    assert (inside["oxygen_percent"], inside["in_layer"], inside["effect"]) == (0.0, True, "unconscious")
    assert set(inside) == {
        "where", "face_height_m", "oxygen_percent", "in_layer", "effect", "effect_source", "time_to_19_5_s",
        "time_to_10_s", "time_to_6_s",
    }  # fmt: skip
    assert {"pool_side", "release_l_min", "supply_emptied_percent", "supply_leaked_percent",
            "air_changes_needed_per_h", "ventilated_s"} <= set(air)  # fmt: skip


def test_a_time_that_never_comes_is_null():
    given = document(surroundings=PIT, scene={"vent_leads_to": "open air", **people_at(("pit", "1 m"))})
    del given["surroundings"]["release"]
    air = json.loads(_solve(given).stdout)["breathing"]
    assert air["people"][0]["time_to_6_s"] is None
    assert air["time_to_6_s"] is None


def test_every_fault_of_the_surroundings_is_told_at_once():
    around = {
        "kind": "pit", "volume": "12 m^3", "floor_area": "6 m^2", "fan": "blows in", "fan_flow": "1 m^3/h",
        "air_changes_per_h": 2, "blower": "5 m^3/min",
    }  # fmt: skip
    given = document(surroundings=around, wait=None, scene=people_at(("pit", "2.5 m"), ("room", "2.5 m")))
    answered = _solve(given)
    assert (answered.exit_code, answered.stdout) == (2, "")
    told = dict(line.split(": ", 1) for line in answered.stderr.splitlines())
    assert set(told) == {
        "surroundings.air_changes_per_h", "surroundings.blower", "scene.people.0.face_height",
    }  # fmt: skip
    assert "contradict fan 'blows in'" in told["surroundings.air_changes_per_h"]
    assert "surroundings.after or wait" in told["surroundings.blower"]
    assert "2000 mm" in told["scene.people.0.face_height"]


@pytest.mark.parametrize(
    ("around", "path", "says"),
    [
        ({"kind": "pit", "volume": "12 m^3", "gas_temperature": "-100 degC"}, "surroundings.gas_temperature", "floor_area"),
        ({"kind": "pipe", "volume": "12 m^3", "floor_area": "1 m^2"}, "surroundings.volume", "up to a bore of 3 m"),
        ({"kind": "pipe", "volume": "120 m^3"}, "surroundings.volume", "1000 m of length"),
        ({"kind": "room", "fresh_oxygen": "41 %"}, "surroundings.fresh_oxygen", "enriched"),
    ],
)  # fmt: skip
def test_a_space_that_cannot_be_is_refused(around, path, says):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(surroundings=around))
    told = {each.path: each.message for each in caught.value.faults}
    assert says in told[path]


def test_a_face_under_the_crown_of_its_pipe_fits_and_one_above_it_does_not():
    with pytest.raises(SetUpFaults, match="scene.people.0.face_height"):
        read_set_up(document(surroundings={"kind": "pipe"}, scene=people_at(("pipe", "0.17 m"))))
    assert isinstance(
        read_set_up(document(surroundings={"kind": "pipe"}, scene=people_at(("pipe", "161.5 mm")))), SetUp
    )


@pytest.mark.parametrize(
    ("name", "by_hand"),
    [
        ("oxygen at a face", 0.0),
        ("air changes needed", 0.9 * 20.9 / 1.4 / 12.0),  # 0.9 m3/h into 12 m3, drawn out
        ("time to blow out", 24 * 60 * math.log(20.9 / 1.4)),  # 12 m3 over 0.5 m3/min, from no oxygen at all
    ],
)
def test_a_scenario_may_ask_for_it(name, by_hand):
    pit = {**PIT, "blower": "0.5 m^3/min"}
    asked = set_up(surroundings=pit, scene=people_at(("pit", "0.2 m"), ("pit", "1.5 m"), ("room", "0.2 m")))
    assert CoreResults(POLICY).number(asked, name) == pytest.approx(by_hand)


def test_of_a_face_that_nothing_is_known_of_nothing_is_answered():
    results = CoreResults(POLICY)
    unknown_height = {"people": [{"where": "pit", "face_height": "1 m"}, {"where": "pit"}]}
    for scene in (people_at(("room", "0.2 m")), {"people": []}, unknown_height):
        with pytest.raises(NotKnown):
            results.number(set_up(surroundings=PIT, scene=scene), "oxygen at a face")


def test_a_supply_that_stands_there_may_be_asked_about():
    asked = set_up(surroundings=standing(air_changes_per_h=1), supply=DEWAR, flow=None)
    results = CoreResults(POLICY)
    assert results.number(asked, "whole supply oxygen") == 0.0
    assert 0.0 < results.number(asked, "leaked supply oxygen") < 1e-4
    air = breathing_result(asked)
    assert results.number(asked, "oxygen with boil-off") == air.boil_off_steady_frac
