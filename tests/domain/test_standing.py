"""How far a skill has been shown, against values computed with scipy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from trainer.domain.standing import Standing, chance_of_share, share_interval, skill_standing


@pytest.mark.parametrize(
    ("right_count", "of_count", "chance"),
    [
        # independent library: scipy 1.17.1, beta.sf(0.8, right + 1, wrong + 1)
        pytest.param(8, 9, 0.624190, id="8 of 9"),
        pytest.param(12, 12, 0.945024, id="12 of 12"),
        pytest.param(18, 20, 0.821, id="18 of 20"),
    ],
)
def test_chance_agrees_with_the_beta_distribution(right_count: int, of_count: int, chance: float) -> None:
    assert chance_of_share(right_count, of_count=of_count, cut_frac=0.8) == pytest.approx(chance, abs=5e-4)


@given(st.integers(0, 40), st.integers(0, 40), st.floats(0.05, 0.95))
def test_chance_agrees_with_scipy_everywhere(right_count: int, wrong_count: int, cut_frac: float) -> None:
    """Independent library: scipy's own beta distribution."""
    expected = stats.beta.sf(cut_frac, right_count + 1, wrong_count + 1)
    found = chance_of_share(right_count, of_count=right_count + wrong_count, cut_frac=cut_frac)
    assert found == pytest.approx(expected, abs=1e-9)


def test_more_right_than_there_are_is_refused() -> None:
    with pytest.raises(ValueError, match="3 right of 2"):
        chance_of_share(3, of_count=2, cut_frac=0.8)


def test_nothing_done_shows_nothing() -> None:
    found = skill_standing(3, means=[], cut_frac=0.05)
    assert (found.scenarios_count, found.standing) == (0, Standing.NOT_SHOWN)


@pytest.mark.parametrize(
    ("means", "standing"),
    [([1.0] * 2, Standing.NOT_SHOWN), ([1.0] * 3, Standing.LIKELY), ([0.8] * 12, Standing.SHOWN)],
    ids=["two", "three", "twelve at the cut"],
)
def test_standing_grows_with_scenarios_at_or_above_the_cut(means: list[float], standing: Standing) -> None:
    """1 - 0.8^3 = 0.488, 1 - 0.8^4 = 0.590 and 1 - 0.8^13 = 0.945, worked by hand."""
    assert skill_standing(3, means=means, cut_frac=0.8).standing is standing


@given(st.integers(0, 40), st.integers(0, 40))
def test_the_interval_agrees_with_scipy_everywhere(right_count: int, wrong_count: int) -> None:
    """Independent library: scipy's own beta distribution, its 5 % and 95 % points."""
    found = share_interval(right_count, of_count=right_count + wrong_count)
    expected = stats.beta.ppf([0.05, 0.95], right_count + 1, wrong_count + 1)
    assert found == pytest.approx(tuple(expected), abs=1e-7)


def test_more_scenarios_of_the_same_share_narrow_the_interval() -> None:
    few, many = (skill_standing(3, means=[1.0, 0.0] * each, cut_frac=0.8).interval_frac for each in (2, 20))
    assert few is not None
    assert many is not None
    assert few[0] < many[0] < 0.5 < many[1] < few[1]


def test_before_any_scenario_there_is_no_share_and_no_interval() -> None:
    found = skill_standing(3, means=[], cut_frac=0.8)
    assert (found.share_frac, found.interval_frac) == (None, None)
