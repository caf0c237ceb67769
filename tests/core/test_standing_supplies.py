"""Vessels in use and what stands around them: one answer whatever the reference condition, and limits by hand."""

import math

import pytest

from trainer.core.breathing import Space, oxygen_mixed_frac
from trainer.core.dewar import Dewar, evaporation_m3_s
from trainer.core.face_height import Place, air_at_face, rescue_times, time_to_danger_s
from trainer.core.gas import gas
from trainer.core.hose import Hose, is_choked
from trainer.core.liquid_supply import (
    LiquidSupply,
    boil_off_m3_s,
    deliverable_m3_s,
    liquid_joints_count,
    liquid_lasts_s,
    usable_liquid_m3,
)
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.standing_vessel import air_changes_needed_per_s, standing_space
from trainer.core.terms import Fan

VESSEL = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
SUPPLY = LiquidSupply(vessel=VESSEL)
NORMAL = ReferenceCondition.AT_0C_1ATM
# the same gas at 0 degC and 1 atm takes (273.15 / 288.15) (1e5 / 101325) of its volume at 15 degC and 1 bar
SMALLER = 273.15 / 288.15 * 1e5 / 101325.0


def test_time_that_a_vessel_lasts_standing_is_the_same_at_any_reference_condition():
    assert usable_liquid_m3(SUPPLY, reference=NORMAL) == pytest.approx(SMALLER * usable_liquid_m3(SUPPLY))
    standing_s = liquid_lasts_s(SUPPLY, flow_m3_s=0.0)
    # 95 % of the contents at 3 % a day
    assert standing_s == pytest.approx(0.95 / 0.03 * 86400.0)
    assert liquid_lasts_s(SUPPLY, flow_m3_s=0.0, reference=NORMAL) == pytest.approx(standing_s)
    drawn_s = liquid_lasts_s(SUPPLY, flow_m3_s=1e-3)
    assert drawn_s == pytest.approx(usable_liquid_m3(SUPPLY) / 1e-3)
    assert liquid_lasts_s(SUPPLY, flow_m3_s=SMALLER * 1e-3, reference=NORMAL) == pytest.approx(drawn_s)


def test_joints_so_far_apart_that_boil_off_decides_are_counted_in_days():
    # a tenth of a day takes 0.3 % of the contents: 0.95 / 0.003 = 316.7 joints, at either condition
    for reference in (ReferenceCondition.AT_15C_1BAR, NORMAL):
        joints = liquid_joints_count(
            SUPPLY, gas_per_joint_m3=0.001, joint_to_joint_s=8640.0, reference=reference
        )
        assert joints == 316
    large = usable_liquid_m3(SUPPLY, reference=NORMAL) / 10.5
    assert liquid_joints_count(SUPPLY, gas_per_joint_m3=large, joint_to_joint_s=60.0, reference=NORMAL) == 10


def test_a_vessel_loses_three_percent_of_its_contents_a_day_unless_told_otherwise():
    assert evaporation_m3_s(86400.0) == pytest.approx(0.03)
    assert boil_off_m3_s(LiquidSupply(vessel=VESSEL, daily_loss_frac=0.015)) == pytest.approx(
        boil_off_m3_s(SUPPLY) / 2.0
    )
    bulk = LiquidSupply(vessel=VESSEL, largest_draw_m3_s=None)
    assert deliverable_m3_s(bulk, wanted_m3_s=1.0) == 1.0
    assert deliverable_m3_s(SUPPLY, wanted_m3_s=1e-4) == 1e-4


def test_a_vessel_in_a_closed_van_has_no_draught_and_in_a_store_that_of_its_air_changes():
    van = standing_space(SUPPLY, volume_m3=10.0, air_changes_per_s=0.0)
    assert (van.fan, van.draught_m3_s) == (Fan.NONE, 0.0)
    store = standing_space(SUPPLY, volume_m3=10.0, air_changes_per_s=1e-3)
    assert (store.fan, store.draught_m3_s) == (Fan.NONE, pytest.approx(1e-2))
    # 15 degC and 1 bar to 20 degC and 1 atm
    assert van.release_m3_s == pytest.approx(boil_off_m3_s(SUPPLY) * 293.15 / 288.15 * 1e5 / 101325.0)
    assert store.release_m3_s == van.release_m3_s


def test_a_warmer_room_needs_more_air_and_a_vessel_without_loss_needs_none():
    cold, warm = (
        air_changes_needed_per_s(SUPPLY, volume_m3=10.0, temperature_k=kelvin) for kelvin in (273.15, 313.15)
    )
    assert warm == pytest.approx(cold * 313.15 / 273.15)
    tight = LiquidSupply(vessel=VESSEL, daily_loss_frac=0.0)
    assert air_changes_needed_per_s(tight, volume_m3=10.0) == 0.0


# --- a face in the same air ------------------------------------------------------------------------------------


def _pit(*, fan=Fan.NONE, fresh_o2_frac=0.209, face_height_m=0.2):
    space = Space(
        volume_m3=12.0, release_m3_s=2.5e-4, fan=fan, fan_flow_m3_s=1e-3, fresh_o2_frac=fresh_o2_frac
    )
    return Place(space=space, gas=gas("I1"), floor_area_m2=6.0, face_height_m=face_height_m)


def test_where_a_fan_stirs_there_is_no_layer_and_the_mixed_air_is_the_worst():
    place = _pit(fan=Fan.BLOWS_IN)
    air = air_at_face(place, time_s=3600.0)
    mixed = oxygen_mixed_frac(place.space, time_s=3600.0)
    assert (air.mixed_o2_frac, air.worst_o2_frac, air.layer_depth_m) == (mixed, mixed, None)
    assert air.layer_covers_face is False
    # Q y0 / (Q + R) = 0.8 * 0.209 in the end: danger comes at 18 % and never at 16 %
    assert time_to_danger_s(place, o2_frac=0.16) is None
    # (V / (Q + R)) ln((y0 - y_end) / (y - y_end))
    by_hand = 12.0 / 1.25e-3 * math.log((0.209 - 0.1672) / (0.18 - 0.1672))
    assert time_to_danger_s(place, o2_frac=0.18) == pytest.approx(by_hand)


def test_a_layer_that_holds_some_air_is_as_much_deeper_in_the_space_s_own_fresh_air():
    for fresh in (0.209, 0.2):
        air = air_at_face(_pit(fresh_o2_frac=fresh), time_s=2401.0, layer_o2_frac=0.1)
        # R t / (A (1 - y / y0)) = 0.60025 m3 / (6 m2 * (1 - 0.1 / y0))
        assert air.layer_depth_m == pytest.approx(0.60025 / 6.0 / (1.0 - 0.1 / fresh))
        assert air.layer_covers_face is (fresh == 0.2)
    pure_s = time_to_danger_s(_pit(fresh_o2_frac=0.196), o2_frac=0.06)
    assert pure_s == pytest.approx(6.0 * 0.2 / 2.5e-4)


def test_rescue_levels_are_those_below_the_space_s_fresh_air():
    place = _pit(fresh_o2_frac=0.195)
    times = rescue_times(place, found_after_s=60.0, blower_m3_s=0.1, safe_o2_frac=0.19)
    assert list(times.by_level_s) == [0.18, 0.16, 0.10, 0.06]
    assert times.ventilated_s == 0.0
    found = rescue_times(_pit(fresh_o2_frac=0.2), found_after_s=7200.0, blower_m3_s=0.1, safe_o2_frac=0.19)
    # covered by pure argon: (V / Q) ln(0.2 / (0.2 - 0.19))
    assert found.ventilated_s == pytest.approx(120.0 * math.log(20.0))


# --- a hose that chokes ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pressure_pa", "bore_m", "length_m", "open_frac", "choked"),
    [
        (
            3e5,
            0.00635,
            15.24,
            0.02,
            True,
        ),  # a tight kink alone: 3 bar over 1 is past the critical ratio of 2.05
        (1.2e5, 0.00635, 1.0, 0.02, False),  # the same kink at a pressure below the critical one
        (3e5, 0.00635, 15.24, 0.7, False),  # the hose takes the pressure, not the kink
        (1.2e5, 0.00635, 15.24, 1.0, False),
        (4e6, 0.02, 1.0, 1.0, True),  # a short wide hose at 40 bar is choked at its open end
        (4e6, 0.02, 1.0, 0.99, True),
    ],
)
def test_a_hose_chokes_in_a_tight_kink_or_at_its_end(pressure_pa, bore_m, length_m, open_frac, choked):
    hose = Hose(bore_m=bore_m, length_m=length_m, open_frac=open_frac)
    assert is_choked(pressure_pa, hose=hose, gas=gas("I1")) is choked
