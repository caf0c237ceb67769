"""Compositions as people write them, the symbols that they go by, and what a purity leaves room for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.gas_designation import purge_gas
from trainer.core.gas_mix import shares_outside, symbol_limits, symbols_that_hold
from trainer.core.gas_purity import impurity_bound_frac, source_o2_frac
from trainer.core.gas_shares import composition_of


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Ar + 5 % H2", {"Ar": 0.95, "H2": 0.05}),
        ("95 % Ar + 5 % H2", {"Ar": 0.95, "H2": 0.05}),
        ("argon 70 %, helium 30 %", {"Ar": 0.7, "He": 0.3}),
        ("N2 and 5 vol % hydrogen", {"N2": 0.95, "H2": 0.05}),
        ("98 Ar; 2 N2", {"Ar": 0.98, "N2": 0.02}),
        ("Ar / 20 % He / 2 % N2", {"Ar": 0.78, "He": 0.2, "N2": 0.02}),
        ("ArC-18", {"Ar": 0.82, "CO2": 0.18}),
        ("Ar + 2 % O2", {"Ar": 0.98, "O2": 0.02}),
        ("helium", {"He": 1.0}),
    ],
)
def test_shares_are_read_as_people_write_them(text, expected):
    assert composition_of(text) == pytest.approx(expected)


@pytest.mark.parametrize(
    "text",
    ["Ar + H2", "Ar + Ar", "Ar + 5 % Xe", "5 % He 3 %", "Ar + ", "70 % Ar 30 % He", "Ar + 2,5 % H2", "%"],
)
def test_what_could_mean_several_gases_is_not_read(text):
    with pytest.raises(UnknownName, match="gas composition"):
        composition_of(text)


@pytest.mark.parametrize(("text", "total"), [("60 % Ar + 30 % He", 90.0), ("Ar + 60 % He + 50 % N2", 110.0)])
def test_shares_that_do_not_make_the_whole_are_refused_with_their_sum(text, total):
    with pytest.raises(OutOfRange) as caught:
        composition_of(text)
    assert caught.value.value == pytest.approx(total)


@SHAPE
@given(st.sampled_from(["He", "H2", "N2"]), st.integers(1, 9999))
def test_shares_and_designation_of_one_gas_agree(added, hundredths):
    percent = hundredths / 100
    token = {"He": "He", "H2": "H", "N2": "N"}[added]
    by_designation = composition_of(f"Ar{token}-{percent}")
    assert composition_of(f"Ar + {percent} % {added}") == by_designation
    assert composition_of(f"{percent} % {added} + Ar") == by_designation
    assert sum(by_designation.values()) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("composition", "symbols"),
    [
        ("Ar", ("I1",)),
        ("ArHe-30", ("I3",)),
        ("ArH-15", ("R1",)),
        ("ArH-15.1", ("R2",)),
        ("ArN-5", ("N2",)),
        ("ArN-6", ("N3",)),
        ("ArHN-5/2", ("N4",)),
        ("NH-10", ("N5",)),
        ("ArH-60", ()),
        ("ArC-18", ()),
    ],
)
def test_a_composition_tells_its_symbol(composition, symbols):
    """ISO 14175:2008, table of groups, from memory."""
    shares = composition_of(composition)
    assert symbols_that_hold(shares) == symbols
    for symbol in symbols:
        assert purge_gas(symbol, composition=composition).symbol == symbol


def test_every_share_outside_its_symbol_is_named():
    outside = shares_outside("I3", composition={"Ar": 0.04, "He": 0.96})
    assert [(each.component, percent) for each, percent in outside] == [("Ar", 4.0), ("He", 96.0)]
    assert shares_outside("R1", composition={"Ar": 0.85, "H2": 0.15}) == ()
    assert [each.words for each in symbol_limits("R2")][-1] == "H2 over 15 to 50 %"


@pytest.mark.parametrize(
    ("purity", "ppm"),
    # Grades of data/gas_grades.csv (common practice); 99.95 and 99.9 % carry at most all of their impurity, by hand.
    [(99.9, 1000.0), (99.95, 500.0), (99.99, 10.0), (99.995, 10.0), (99.996, 5.0), (99.999, 2.0), (99.9999, 1.0)],
)  # fmt: skip
def test_oxygen_of_a_purity_is_that_of_the_grade_that_it_reaches_or_its_whole_impurity(purity, ppm):
    assert source_o2_frac(purity) * 1e6 == pytest.approx(ppm)


@SHAPE
@given(st.floats(90.0, 100.0), st.floats(90.0, 100.0))
def test_purer_gas_never_carries_more_oxygen_and_none_more_than_its_impurity(one, other):
    low, high = sorted((one, other))
    assert source_o2_frac(high) <= source_o2_frac(low)
    assert source_o2_frac(one) <= impurity_bound_frac(one)
