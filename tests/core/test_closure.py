"""The closure: every constant with its origin, and no jump where one rule hands over to another."""

import math
from dataclasses import replace

import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN, base_case

from trainer.core.closure import CONSTANTS, constant
from trainer.core.dilution import InletEnd, purge
from trainer.core.gas import AIR, gas
from trainer.core.purge_groups import situation
from trainer.core.stirring import closure
from trainer.core.stirring_parts import Situation

BASE = Situation(
    end=InletEnd.DIFFUSER,
    rise_deg=0.0,
    bulk_froude_ratio=0.0159,
    jet_length_ratio=0.07,
    length_ratio=3.73,
    plume_fall_ratio=0.0,
    density_difference_frac=0.38,
)
HAIR = 1e-9
RISES_DEG = (0.0, 90.0, -90.0, 10.0, -5.0)


def numbers(situation_):
    expected = closure(situation_).expected
    return [
        expected.exchange_ratio,
        expected.beyond_vent_ratio,
        expected.short_cut_ratio,
        expected.lower_ratio,
        expected.upper_ratio,
        expected.vent_margin_ratio,
    ]


def test_every_constant_is_positive_and_says_where_it_comes_from():
    for entry in CONSTANTS.values():
        assert entry.value > 0.0
        assert len(entry.origin) > 10


def test_an_unknown_constant_is_refused():
    with pytest.raises(KeyError):
        constant("wishful thinking")


def test_every_interval_holds_its_expected_value():
    lowers = [entry.value for name, entry in CONSTANTS.items() if name.endswith(", lower")]
    uppers = [entry.value for name, entry in CONSTANTS.items() if name.endswith(", upper")]
    assert max(lowers) < 1.0 < min(uppers)


@pytest.mark.parametrize("end", list(InletEnd))
@pytest.mark.parametrize("rise_deg", RISES_DEG)
@pytest.mark.parametrize(
    ("group", "hand_over"),
    [
        ("jet_length_ratio", "jet length over bore, tube turns strong from"),
        ("jet_length_ratio", "jet length over bore, tube is strong at"),
        ("bulk_froude_ratio", "bulk Froude, narrow pipe from"),
        ("bulk_froude_ratio", "bulk Froude, narrow pipe at"),
        ("bulk_froude_ratio", "bulk Froude, gentle flow is fast from"),
        ("bulk_froude_ratio", "bulk Froude, gentle flow is fast at"),
        ("density_difference_frac", "density difference over air, mixed at"),
        ("density_difference_frac", "density difference over air, layered at"),
        ("length_ratio", "length over bore, long from"),
        ("length_ratio", "length over bore, long at"),
    ],
)
def test_no_jump_where_one_rule_hands_over_to_another(end, rise_deg, group, hand_over):
    at = replace(BASE, end=end, rise_deg=rise_deg)
    below, above = (
        numbers(replace(at, **{group: constant(hand_over) * factor})) for factor in (1.0 - HAIR, 1.0 + HAIR)
    )
    assert below == pytest.approx(above, rel=1e-7)


@tried(300)
@given(
    group=st.sampled_from(
        [
            "jet_length_ratio",
            "bulk_froude_ratio",
            "density_difference_frac",
            "length_ratio",
            "plume_fall_ratio",
        ]
    ),
    value=st.floats(1e-3, 20.0),
    end=st.sampled_from(list(InletEnd)),
    rise_deg=st.floats(-90.0, 90.0),
)
def test_a_hair_s_difference_in_a_group_is_a_hair_s_in_the_closure(group, value, end, rise_deg):
    at = replace(BASE, end=end, rise_deg=rise_deg, **{group: value})
    near = replace(at, **{group: value * (1.0 + 1e-6)})
    assert numbers(near) == pytest.approx(numbers(at), rel=1e-4)


@tried(300)
@given(froude=st.floats(0.01, 1.0), more=st.floats(1.0001, 1.05), jet=st.floats(0.1, 5.0))
def test_the_short_cut_grows_slower_than_the_flow_itself(froude, more, jet):
    at = replace(BASE, end=InletEnd.OPEN_TUBE, bulk_froude_ratio=froude, jet_length_ratio=jet)
    faster = replace(at, bulk_froude_ratio=froude * more, jet_length_ratio=jet * more)
    growth = closure(faster).expected.short_cut_ratio / closure(at).expected.short_cut_ratio
    assert math.log(growth) < math.log(more)


def test_the_stirred_tube_hand_over_leaves_no_step_in_the_time():
    case = base_case(end=InletEnd.OPEN_TUBE)
    per_flow = situation(case, flow_m3_s=15 * L_MIN).jet_length_ratio / (15 * L_MIN)
    for limit in (0.65, 0.9, 1.2):
        flow = limit / per_flow
        below, above = (
            purge(base_case(end=InletEnd.OPEN_TUBE, flow_m3_s=flow * factor)).time_to(0.001).expected
            for factor in (1.0 - 1e-7, 1.0 + 1e-7)
        )
        assert below == pytest.approx(above, rel=1e-5)


def test_groups_of_the_base_run():
    # Run A01 lists Fr_bulk 0.0159 and L/D 3.73.
    groups = situation(base_case(), flow_m3_s=15 * L_MIN)
    assert groups.bulk_froude_ratio == pytest.approx(0.0159, rel=0.01)
    assert groups.length_ratio == pytest.approx(3.73, rel=0.001)
    assert groups.plume_fall_ratio == pytest.approx(0.0, abs=1e-12)


def test_a_gas_as_heavy_as_air_has_endless_groups_and_is_mixed():
    same = replace(gas("I1"), molar_mass_kg_mol=AIR.molar_mass_kg_mol)
    groups = situation(replace(base_case(), gas=same), flow_m3_s=15 * L_MIN)
    assert groups.bulk_froude_ratio == groups.jet_length_ratio == math.inf
    assert closure(groups).expected.short_cut_ratio == 1.0
    assert len(closure(groups).ends) == 2


def test_a_plume_from_a_high_inlet_stirs_more_than_a_low_one():
    high = closure(replace(BASE, plume_fall_ratio=0.8)).expected.exchange_ratio
    assert high > 4.0 * closure(BASE).expected.exchange_ratio


@pytest.mark.parametrize("end", list(InletEnd))
@pytest.mark.parametrize("rise_deg", [0.0, 90.0, -90.0])
def test_the_closure_of_a_slope_meets_those_of_level_and_upright_pipe(end, rise_deg):
    off = replace(BASE, end=end, rise_deg=rise_deg - math.copysign(1e-5, rise_deg))
    assert numbers(off) == pytest.approx(numbers(replace(BASE, end=end, rise_deg=rise_deg)), rel=1e-4)


def test_a_plume_draws_in_as_much_as_morton_taylor_and_turner_say():
    # Q_e = 0.153 B^(1/3) z^(5/3) from a point (Proc. R. Soc. A 234 (1956) 1, entrainment coefficient 0.1, from
    # memory), so that far from a weak source K L/Q grows as F_b^(-2/3): 100^(2/3) = 21.5.
    weak, weaker = (
        closure(replace(BASE, plume_fall_ratio=0.8, bulk_froude_ratio=froude)).expected.exchange_ratio
        for froude in (1e-6, 1e-8)
    )
    assert weaker / weak == pytest.approx(100.0 ** (2.0 / 3.0), rel=0.03)
    by_hand = 0.28 * 0.153 * (math.pi / 4.0) ** (-2.0 / 3.0) * 0.8 ** (5.0 / 3.0) * (1e-8) ** (-2.0 / 3.0)
    assert weaker == pytest.approx(by_hand, rel=0.03)


def test_the_interval_is_wider_where_no_run_is_near():
    def width(**changes):
        expected = closure(replace(BASE, **changes)).expected
        return math.log(expected.upper_ratio / expected.lower_ratio)

    tube = {"end": InletEnd.OPEN_TUBE, "jet_length_ratio": 0.5}
    assert width(plume_fall_ratio=0.8) > 1.1 * width()
    assert width(density_difference_frac=0.86) > 1.1 * width()
    assert width(rise_deg=-5.0) > width(rise_deg=5.0) > width()
    assert width(**tube, rise_deg=10.0) > 1.3 * width(**tube)
    assert width(rise_deg=90.0, bulk_froude_ratio=0.06) > 1.3 * width(rise_deg=90.0)
    assert width(rise_deg=-5.0, density_difference_frac=0.86) > width(rise_deg=-5.0)


def test_a_rising_pipe_is_stirred_less_and_gas_runs_past_the_layers_only_in_a_falling_one():
    rising, falling = (closure(replace(BASE, rise_deg=slope)).expected for slope in (10.0, -10.0))
    assert rising.exchange_ratio < 0.2 * closure(BASE).expected.exchange_ratio
    assert rising.short_cut_ratio == 1.0
    assert falling.short_cut_ratio > 1.2
