"""Layers of unmixed gas, and whole supplies let go."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.errors import OutOfRange
from trainer.core.gas import gas
from trainer.core.gas_mix import mixture
from trainer.core.pool import PoolSide, pool_depth_m, pool_side, pool_time_s
from trainer.core.release import (
    OxygenEffect,
    fatality_ratio,
    gas_added_frac,
    long_term_fall_frac,
    oxygen_effect,
    slow_release_frac,
    whole_release_frac,
)

ARGON = gas("I1")
MM_HG_PA = 133.322387415


@SHAPE
@given(st.floats(0.0, 500.0), st.floats(0.1, 500.0))
def test_a_sudden_release_is_never_milder_than_a_slow_one(gas_m3, space_m3):
    assert whole_release_frac(gas_m3, volume_m3=space_m3) <= slow_release_frac(gas_m3, volume_m3=space_m3)


@SHAPE
@given(st.floats(0.001, 0.209), st.floats(0.1, 500.0))
def test_gas_added_is_the_inverse_of_a_whole_release(level, space_m3):
    gas_m3 = gas_added_frac(level) * space_m3
    assert whole_release_frac(gas_m3, volume_m3=space_m3) == pytest.approx(level)


@SHAPE
@given(st.floats(0.01, 3.0), st.floats(1e-5, 0.01), st.floats(0.1, 100.0), st.floats(0.0, 0.2))
def test_pool_time_and_depth_are_inverse(depth_m, release_m3_s, area_m2, layer):
    time_s = pool_time_s(depth_m, release_m3_s=release_m3_s, floor_area_m2=area_m2, layer_o2_frac=layer)
    back = pool_depth_m(release_m3_s * time_s, gas=ARGON, floor_area_m2=area_m2, layer_o2_frac=layer)
    assert back == pytest.approx(depth_m)


@SHAPE
@given(st.floats(0.0, 200.0), st.floats(0.0, 200.0))
def test_less_oxygen_is_never_less_deadly(one_mm_hg, other_mm_hg):
    low, high = sorted((one_mm_hg, other_mm_hg))
    assert 0.0 <= fatality_ratio(high * MM_HG_PA) <= fatality_ratio(low * MM_HG_PA) <= 1.0


def test_argon_pools_on_the_floor_helium_under_the_ceiling_nitrogen_nowhere():
    assert [pool_side(gas(s)) for s in ("I1", "I2", "N1")] == [
        PoolSide.FLOOR,
        PoolSide.CEILING,
        PoolSide.NOWHERE,
    ]
    assert pool_side(mixture({"Ar": 0.7, "He": 0.3}, symbol="I3")) is PoolSide.NOWHERE
    assert pool_depth_m(1.0, gas=gas("N1"), floor_area_m2=2.0) is None
    assert pool_depth_m(1.0, gas=gas("I2"), floor_area_m2=2.0) == 0.5


def test_no_release_never_makes_a_pool():
    assert pool_time_s(0.5, release_m3_s=0.0, floor_area_m2=2.0) == math.inf


def test_exactly_19_5_percent_is_not_deficient():
    """29 CFR 1910.146(b): deficient is less than 19.5 % by volume."""
    assert oxygen_effect(0.195) is OxygenEffect.NORMAL
    assert oxygen_effect(math.nextafter(0.195, 0.0)) is OxygenEffect.IMPAIRED_UNAWARE
    assert [oxygen_effect(y) for y in (0.13, 0.11, 0.05)] == [
        OxygenEffect.JUDGEMENT_LOST,
        OxygenEffect.COLLAPSE_LIKELY,
        OxygenEffect.UNCONSCIOUS,
    ]


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: pool_depth_m(1.0, gas=ARGON, floor_area_m2=0.0),
        lambda: pool_depth_m(1.0, gas=ARGON, floor_area_m2=1.0, layer_o2_frac=0.209),
        lambda: whole_release_frac(-1.0, volume_m3=1.0),
        lambda: gas_added_frac(0.21),
        lambda: oxygen_effect(1.1),
        lambda: long_term_fall_frac(1.0, volume_m3=10.0, air_changes_per_s=1e-3),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()


@pytest.mark.parametrize(
    ("mm_hg", "deadly"),
    [(136.0, 0.0), (135.5, 0.0), (135.0, 1e-7), (75.0, 0.1), (65.5, 10**-0.05), (65.0, 1.0), (20.0, 1.0)],
)
def test_deadliness_runs_between_the_two_ends_of_its_scale(mm_hg, deadly):
    """f = 10 ^ ((65 - p) / 10) from 135 to 65 mmHg, the formula's own ends, by hand."""
    assert fatality_ratio(mm_hg * MM_HG_PA) == pytest.approx(deadly, rel=1e-6)


def test_five_per_cent_of_difference_is_where_layering_begins():
    """Molar masses made to lie just inside and outside 5 % of air's 28.9647 g/mol, by hand."""
    heavier, lighter = (
        mixture({"Ar": share, "He": 1.0 - share}, symbol="I3")
        for share in ((28.9647 * f - 4.0026) / 35.9454 for f in (1.051, 0.949))
    )
    near = mixture(
        {"Ar": (28.9647 * 1.049 - 4.0026) / 35.9454, "He": 1.0 - (28.9647 * 1.049 - 4.0026) / 35.9454},
        symbol="I3",
    )
    assert [pool_side(made) for made in (heavier, lighter, near)] == [
        PoolSide.FLOOR,
        PoolSide.CEILING,
        PoolSide.NOWHERE,
    ]
