"""Fractions that a display shows come back from a document bit for bit."""

import pytest

from trainer.domain.quantities import Dimension
from trainer.set_up_files import exact_text, exact_value


@pytest.mark.parametrize("power", range(-7, 0))
def test_three_digits_of_oxygen_come_back_to_the_last_bit(power):
    for digits in range(100, 1000):
        value = float(f"{digits}e{power - 2}")
        assert exact_value(exact_text(value, Dimension.FRACTION), Dimension.FRACTION) == value
