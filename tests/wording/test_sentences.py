"""Amounts in the sentences of a scenario follow the reader's units, and nothing else in them changes."""

import pytest

from trainer.wording.quantities import UnitSystem
from trainer.wording.sentences import in_units_of


@pytest.mark.parametrize(
    ("metric", "inch_pound"),
    [
        # 1 ft is 0.3048 m, 1 in 25.4 mm, exactly (international yard and pound agreement of 1959)
        ("Each length runs 6 m from the joint.", "Each length runs 19.7 ft from the joint."),
        ("one 6 mm hole near the crown", "one 0.236 in hole near the crown"),
        ("12 L/min from this purge and 10 L/min from the next", "25.4 cfh from this purge and 21.2 cfh from the next"),
        ("2.0 m by 1.5 m, 1.2 m deep", "6.56 ft by 4.92 ft, 3.94 ft deep"),
        ("80 A, 11 V, 60 mm/min", "80 A, 11 V, 2.36 in/min"),
        # said twice, a rule is read as it was written: 29 CFR 1910.252 has 35 ft
        ("Sparks reach 11 m (35 ft).", "Sparks reach 35 ft."),
    ],
)  # fmt: skip
def test_amounts_are_written_in_the_units_of_the_reader(metric: str, inch_pound: str) -> None:
    assert in_units_of(metric, system=UnitSystem.US) == inch_pound
    assert in_units_of(metric, system=UnitSystem.METRIC) == metric


@pytest.mark.parametrize(
    "text",
    [
        "NPS 6 schedule 10S, 45 min, 0.15 %, 500 ppm",
        "a 50 L argon cylinder",
        "bay 7 m-shaped, part 12 mmx",
        "to the nearest half minute",
    ],
)
def test_sizes_times_shares_and_cylinders_keep_their_names(text: str) -> None:
    assert in_units_of(text, system=UnitSystem.US) == text


def test_squares_and_cubes_are_written_as_people_write_them():
    assert in_units_of("The vessel holds 8.0 m^3.", system=UnitSystem.METRIC) == "The vessel holds 8.0 m³."
    # 8 m3 is 282.5 ft3 (1 ft = 0.3048 m exactly)
    assert "ft" in in_units_of("The vessel holds 8.0 m^3.", system=UnitSystem.US)


@pytest.mark.parametrize(
    ("metric", "inch_pound"),
    [
        # degF = 1.8 degC + 32; 1 psi is 6894.757 Pa (NIST SP 811, appendix B)
        ("It froze: -8 °C in the yard.", "It froze: 17.6 °F in the yard."),
        ("Set 5 to 10 bar.", "Set 72.5 psi to 145 psi."),
        ("Between 2 to 3 m away.", "Between 6.56 ft to 9.84 ft away."),
    ],
)
def test_signs_and_both_ends_of_a_range_are_converted(metric: str, inch_pound: str) -> None:
    assert in_units_of(metric, system=UnitSystem.US) == inch_pound
