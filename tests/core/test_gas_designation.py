"""Gases by symbol and composition: what a designation says, and what it may hold."""

import pytest

from trainer.core.errors import CompositionNeeded, OutOfRange, UnknownGas, UnknownName
from trainer.core.gas_designation import gas_of_designation, purge_gas
from trainer.core.gas_mix import accepted_shares
from trainer.core.gas_shares import composition_of


@pytest.mark.parametrize(
    ("designation", "expected"),
    [
        ("Ar", {"Ar": 1.0}),
        ("ArHe \u2013 30", {"Ar": 0.7, "He": 0.3}),
        ("NH-5", {"N2": 0.95, "H2": 0.05}),
        ("ArHeN-20/2", {"Ar": 0.78, "He": 0.2, "N2": 0.02}),
    ],
)
def test_designation_is_read(designation, expected):
    assert composition_of(designation) == pytest.approx(expected)


@pytest.mark.parametrize("designation", ["", "ArHe", "ArHe-x", "ArAr-5", "Xe-5", "ArHe-30/2", "ArHe-1.2.3"])
def test_designation_that_cannot_be_read_is_refused(designation):
    with pytest.raises(UnknownName):
        composition_of(designation)


@pytest.mark.parametrize("designation", ["ArHe-130", "ArHeN-60/50", "NH-100.1"])
def test_mix_that_sums_over_the_whole_is_refused_saying_so(designation):
    with pytest.raises(OutOfRange, match="additions to the balance gas together is .* between 0 and 100 %"):
        composition_of(designation)


@pytest.mark.parametrize(
    ("symbol", "composition", "molar_mass_g"),
    [
        ("I1", None, 39.948),
        ("I1", "Ar", 39.948),
        ("I3", "ArHe-30", 0.7 * 39.948 + 0.3 * 4.0026),
        ("R1", "ArH-5", 0.95 * 39.948 + 0.05 * 2.01588),
        ("R2", "ArH-20", 0.8 * 39.948 + 0.2 * 2.01588),
        ("N2", "ArN-2", 0.98 * 39.948 + 0.02 * 28.0134),
        ("N3", "ArN-30", 0.7 * 39.948 + 0.3 * 28.0134),
        ("N4", "ArHN-5/2", 0.93 * 39.948 + 0.05 * 2.01588 + 0.02 * 28.0134),
        ("N5", "NH-10", 0.9 * 28.0134 + 0.1 * 2.01588),
    ],
)
def test_each_symbol_gives_its_gas(symbol, composition, molar_mass_g):
    """Molar masses by hand from IUPAC atomic weights."""
    made = purge_gas(symbol, composition=composition)
    assert made.symbol == symbol
    assert made.molar_mass_kg_mol * 1000 == pytest.approx(molar_mass_g, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("ISO 14175 - I3 - ArHe - 30", "argon with 30 % helium"),
        ("ISO 14175 \u2013 N5 \u2013 NH \u2013 5", "nitrogen with 5 % hydrogen"),
        ("R1-ArH-2", "argon with 2 % hydrogen"),
        ("I1", "argon"),
        ("N4-ArHN-5/2", "argon with 5 % hydrogen and 2 % nitrogen"),
    ],
)
def test_full_designation_is_read(text, name):
    assert gas_of_designation(text).name == name


@pytest.mark.parametrize("text", ["", "ISO 14175", "argon", "ISO 14175 - argon - 30"])
def test_designation_without_a_symbol_is_refused(text):
    with pytest.raises(UnknownName, match="gas designation"):
        gas_of_designation(text)


def test_range_symbol_without_composition_says_what_it_may_hold():
    with pytest.raises(
        CompositionNeeded, match="R1 is a range of mixtures; say which: .*H2 0.5 to 15 %"
    ) as raised:
        purge_gas("R1")
    assert raised.value.accepted == accepted_shares("R1")


@pytest.mark.parametrize(
    ("symbol", "composition", "words"),
    [
        ("R1", "ArH-15.1", "H2 in R1 is 15.1 % but must be between 0.5 and 15 %"),
        ("R2", "ArH-15", "more than 15 %"),
        ("N3", "ArN-5", "more than 5 %"),
        ("I3", "ArHe-96", "Ar in I3 is 4 %"),
        ("N5", "NH-51", "N2 in N5 is 49 %"),
        ("I1", "ArHe-30", "'He' is not a known gas; accepted: Ar"),
        ("M2", "ArH-5", "'M2' is not a known gas; accepted: I1, I2, I3, N1"),
    ],
)
def test_share_outside_the_symbol_is_named_with_what_is_accepted(symbol, composition, words):
    with pytest.raises((OutOfRange, UnknownGas), match=words.replace("(", "\\(")):
        purge_gas(symbol, composition=composition)


def test_share_on_the_symbols_limit_is_accepted():
    assert purge_gas("R1", composition="ArH-15").symbol == "R1"
    assert purge_gas("R2", composition="ArH-15.01").symbol == "R2"
    assert purge_gas("R2", composition="ArH-50").symbol == "R2"
    assert purge_gas("N5", composition="NH-50").symbol == "N5"
