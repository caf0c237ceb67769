"""The code on a certificate: typed from paper, checked, not guessed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.verification_code import ALPHABET, NUMBER_BITS, code_for, read_code

NUMBERS = st.integers(0, 2**NUMBER_BITS - 1)


def test_alphabet_has_no_letter_that_looks_like_another() -> None:
    """Crockford's base 32, from memory of the published page: no I, L, O, U."""
    assert len(set(ALPHABET)) == 32
    assert not set("ILOU") & set(ALPHABET)


def test_number_1234_is_written_16j_with_check_d() -> None:
    """Worked by hand: 1234 = 1 x 1024 + 6 x 32 + 18, symbols 1, 6, J; 1234 mod 37 = 13, symbol D."""
    assert code_for(1234) == "0000-0000-16JD"


@given(NUMBERS)
def test_code_is_three_groups_of_four_and_reads_back(number: int) -> None:
    code = code_for(number)
    assert [len(each) for each in code.split("-")] == [4, 4, 4]
    assert set(code) <= {*ALPHABET, "-"}
    assert read_code(code) == code


@given(NUMBERS)
def test_code_reads_in_lower_case_with_blanks_and_lookalikes(number: int) -> None:
    code = code_for(number)
    typed = code.lower().replace("-", " ").replace("0", "o").replace("1", "i")
    assert read_code(f" {typed} ") == code


@given(NUMBERS, st.integers(0, 11), st.sampled_from(ALPHABET))
def test_one_wrong_symbol_is_noticed(number: int, place: int, symbol: str) -> None:
    """37 is prime and larger than 32, so no single symbol can be changed without changing the rest."""
    symbols = code_for(number).replace("-", "")
    typed = symbols[:place] + symbol + symbols[place + 1 :]
    if typed != symbols:
        assert read_code(typed) is None


@given(NUMBERS, st.integers(0, 9))
def test_two_neighbours_swapped_are_noticed(number: int, place: int) -> None:
    symbols = code_for(number).replace("-", "")
    typed = symbols[:place] + symbols[place + 1] + symbols[place] + symbols[place + 2 :]
    if typed != symbols:
        assert read_code(typed) is None


@pytest.mark.parametrize(
    "typed", ["", "16JD", "0000-0000-16J", "0000-0000-16JD0", "0000-0000-16J*", "0000-0000-16JÑ"]
)
def test_what_cannot_be_a_code_reads_as_none(typed: str) -> None:
    assert read_code(typed) is None


@pytest.mark.parametrize("number", [-1, 2**NUMBER_BITS])
def test_number_out_of_range_is_refused(number: int) -> None:
    with pytest.raises(ValueError, match="32"):
        code_for(number)
