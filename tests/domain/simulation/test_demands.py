"""What is counted as having to be noticed in a scenario."""

import pytest

from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import with_values
from trainer.domain.simulation.demands import amounts_in, effects_of, marks_in, units_mixed


def set_up(**values):
    return with_values(SetUp(), {path.replace("__", "."): value for path, value in values.items()})


PLAIN = {
    "gas__symbol": "I1", "inlet__end": "diffuser", "inlet__height": 0.15, "vent__height": 0.85,
    "vent__diameter": 0.006, "section__slope": 0.0, "section__left_dam": 0.3, "section__right_dam": 0.3,
    "material": "austenitic stainless", "temperature": 293.15,
}  # fmt: skip


def test_the_plain_case_has_no_effect_and_what_is_not_told_is_plain():
    assert effects_of(set_up(**PLAIN)) == ()
    assert effects_of(SetUp()) == ()


@pytest.mark.parametrize(
    ("changed", "effect"),
    [
        ({"gas__symbol": "I2"}, "a gas other than argon"),
        ({"inlet__end": "open tube"}, "an inlet that stirs"),
        ({"vent__height": 0.15}, "a vent away from the crown"),
        ({"section__slope": -0.05}, "a slope"),
        ({"section__right_dam": 1.2}, "dams not alike"),
        ({"temperature": 263.15}, "cold or heat"),
        ({"meter__calibrated_for": "N1"}, "a meter for another gas"),
    ],
)
def test_each_thing_beside_it_is_one_effect(changed, effect):
    assert effects_of(set_up(**{**PLAIN, **changed})) == (effect,)


@pytest.mark.parametrize(
    ("text", "mixed"),
    [
        ("300 mm either side, 12 L/min", 0),
        ("300 mm either side, 25 cfh", 1),
        ("The rack stands 300 mm off, in 8 in pipe", 0),
        ("1 ft and 0.25 in, 12 L/min, 300 mm, 50 L", 2),
        ("Put 3 in the box, 300 mm away", 0),
        ("masking tape 151 °F, the pipe 20 °C", 1),
    ],
)
def test_units_are_mixed_where_amounts_stand_in_both_systems(text, mixed):
    assert units_mixed([text]) == mixed


def test_amounts_are_counted_whatever_their_unit():
    assert amounts_in(["12 L/min for 8 min, 0.1 % at most", "then 25 cfh at 70 °F"]) == 5


def test_marks_are_designations_and_neither_schedules_nor_words():
    assert marks_in(["Argon in NPS 4 schedule 10S stainless"]) == ()
    assert marks_in(["marked A106 B and P91"]) == ("A106", "P91")
    assert marks_in(["P91 again, P91"]) == ("P91",)
