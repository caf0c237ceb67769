"""The analyser's line: a balance of what it carries, held to sums by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.core.errors import OutOfRange
from trainer.core.sample_line import sampled_o2_frac

FRACTIONS = st.floats(0.0, 1.0)


def test_a_tight_line_shows_what_it_is_given():
    assert sampled_o2_frac(123e-6) == 123e-6


def test_one_part_of_air_in_a_hundred_of_clean_gas_shows_a_hundredth_of_the_air():
    # by hand: 0.01 * 0.2095 = 0.002095; dry air holds 20.95 % (US Standard Atmosphere 1976: 0.209476)
    assert sampled_o2_frac(0.0, air_share_frac=0.01) == pytest.approx(0.002095, rel=1e-3)


@given(FRACTIONS, FRACTIONS, FRACTIONS)
def test_the_more_air_the_nearer_to_air_it_reads(oxygen, one, other):
    low, high = sorted((one, other))
    air = sampled_o2_frac(oxygen, air_share_frac=1.0)
    near, far = (abs(sampled_o2_frac(oxygen, air_share_frac=each) - air) for each in (high, low))
    assert near <= far + 1e-15


@pytest.mark.parametrize(("oxygen", "share"), [(-0.1, 0.0), (1.1, 0.0), (0.1, -0.1), (0.1, 1.1)])
def test_what_is_no_fraction_is_refused(oxygen, share):
    with pytest.raises(OutOfRange):
        sampled_o2_frac(oxygen, air_share_frac=share)
