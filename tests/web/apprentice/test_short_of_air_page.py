"""Who is short of air, in words, person by person, on the page of a result."""

import pytest
import training_steps as steps
from answering import answers_for, fill_in
from set_up_examples import run_of, set_up

from trainer.services import practice
from trainer.web.short_of_air import short_of_air

_PIT = {
    "kind": "pit",
    "volume": "12 m^3",
    "floor_area": "6 m^2",
    "fan": "none",
    "release": "15 L/min",
    "after": "81 min",
}


@pytest.fixture
def told(app):
    """What a page says of a set-up, for somebody who is not signed in."""

    def words(**changes):
        with app.test_request_context():
            return short_of_air(set_up(**changes), run_of(**changes))

    return words


def _plain(words):
    return words.replace("\xa0", " ")


def _people(*people):
    return {"people": [{"where": where, "face_height": height} for where, height in people]}


def test_the_result_of_a_pit_says_what_the_man_in_it_breathes(visit_as, world):
    attempt_id = practice.start_practice(
        world.site, world.apprentice.acting, family="pump-pit", difficulty=0.5
    )
    scenario = steps.drawn(world.site, attempt_id)[1]
    page = visit_as("apprentice").open_page(f"/apprentice/attempts/{attempt_id}")

    result = page.submit("Strike the arc", **fill_in(scenario, answers_for(scenario)))

    assert "Who is short of air" in result.headings
    assert "Person 1, in the pit, face" in result.text
    assert "Nobody goes in to fetch anybody out without supplied air" in result.text


def test_each_person_is_told_apart(told):
    lying, standing, outside = told(
        surroundings=_PIT, scene=_people(("pit", "0.2 m"), ("pit", "1.5 m"), ("open air", "1.5 m"))
    ).people
    assert _plain(lying.who) == "Person 1, in the pit, face 200 mm above the floor"
    assert _plain(lying.air) == (
        "no oxygen, inside the layer of gas: unconscious within breaths to a minute, and dead without rescue."
        " Below 19.5 % once gas has escaped for 55 min 28 s."
    )  # mixed, 12 m3 / 15 L/min x ln(20.9 / 19.5) = 55.468 min, before the layer comes up in 80 min; by hand
    assert _plain(standing.air).startswith("18.8 % oxygen: too little; impaired without knowing it.")
    # 20.9 % x exp(-15 x 81 / 12000) = 18.887 %, rounded down; by hand
    assert (lying.is_short, standing.is_short, outside.is_short) == (True, True, False)
    assert outside.air == "not in the pit; the air elsewhere was not reckoned."


def test_where_the_vents_gas_is_led_the_air_is_not_called_safe(told):
    scene = {"vent_leads_to": "trench", **_people(("trench", "1 m"))}
    (person,) = told(surroundings=_PIT, scene=scene).people
    assert person.air.startswith("the vent's gas is led there")


def test_what_cannot_be_reckoned_is_to_be_tested(told):
    floorless = {key: each for key, each in _PIT.items() if key != "floor_area"}
    (person,) = told(surroundings=floorless, scene=_people(("pit", "1 m"))).people
    assert person.air.endswith("test it.")
    assert not person.is_short


def test_a_level_that_misses_the_limit_is_not_rounded_up_to_it(told):
    """12 m3, 15 L/min: 19.497 % after 12000 / 15 x ln(20.9 / 19.497) = 55.58 min, by hand."""
    (person,) = told(surroundings={**_PIT, "after": "55.58 min"}, scene=_people(("pit", "1.5 m"))).people
    assert _plain(person.air).startswith("19.4 % oxygen: too little")


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({}, "brings the place back to 19.5 %"),
        ({"after": "1 min"}, "not below 19.5 %"),
        ({"fresh_oxygen": "19 %"}, "never brings the place back"),
    ],
)
def test_a_blower_is_told_with_what_it_cannot_do(told, changes, says):
    assert says in _plain(told(surroundings={**_PIT, "blower": "30 m^3/h", **changes}).blower)


def test_where_nobody_is_near_nothing_is_said(told):
    assert told(surroundings=_PIT) is None
    assert told(surroundings=None) is None
