"""The layers of a section by hand: four level segments, discs, slices, and every opening at its height."""

import math
from dataclasses import replace

import numpy as np
import pytest
from purge_cases import base_case

from trainer.core.column import Column, circle_area_below, point_frac
from trainer.core.gas_column import gas_column, one_layer
from trainer.core.openings import hole_frac, ring_frac
from trainer.core.purge_parts import InLeak
from trainer.core.sloped_column import height_above_pool_m, returned_by_layer_m3_s, vent_above_pool_frac
from trainer.core.tilted_cylinder import TiltedCylinder
from trainer.core.vent_place import VentPlace, beyond_vent_frac, vent_height_frac

BORE, LENGTH = 0.2, 1.0
AREA = math.pi / 4.0 * BORE**2
# the segment below a quarter of the height: (theta - sin theta) / (2 pi) with theta 120 degrees
QUARTER = (2.0 * math.pi / 3.0 - math.sqrt(3.0) / 2.0) / (2.0 * math.pi)
AROUND = InLeak(height_frac=None, flow_m3_s=6e-6)


def _case(**changes):
    return base_case(**({"bore_m": BORE, "length_m": LENGTH, "vent_height_frac": 0.5} | changes))


def test_four_level_layers_are_segments_with_chords_between_them():
    column = gas_column(_case(), layers_count=4)
    assert column.edge_m == pytest.approx([0.0, 0.05, 0.1, 0.15, 0.2])
    shares = np.array([QUARTER, 0.5 - QUARTER, 0.5 - QUARTER, QUARTER])
    assert column.volume_m3 == pytest.approx(shares * AREA * LENGTH)
    # chords d sqrt(3)/2, d and d sqrt(3)/2, over a depth of 50 mm
    chords = BORE * np.array([math.sqrt(0.75), 1.0, math.sqrt(0.75)])
    assert column.exchange_length_m == pytest.approx(chords * LENGTH / 0.05)
    assert column.supply_frac.tolist() == [1.0, 0.0, 0.0, 0.0]
    assert column.exit_frac == pytest.approx([0.0, 0.5, 0.5, 0.0])
    assert column.leak_m3_s.tolist() == [0.0] * 4
    assert column.returned_m3_s.tolist() == [0.0] * 4
    assert (column.root_weight_frac, column.is_turned_over) == (None, False)
    assert column.total_volume_m3 == pytest.approx(AREA * LENGTH)


def test_gas_enters_the_lowest_fifteen_millimetres_or_a_third_of_a_narrow_bore():
    column = gas_column(_case(), layers_count=20)
    below_10, below_15 = circle_area_below(BORE, height_m=np.array([0.010, 0.015]))
    assert column.supply_frac[:3] == pytest.approx([below_10 / below_15, 1.0 - below_10 / below_15, 0.0])
    narrow = gas_column(_case(bore_m=0.03, vent_diameter_m=0.005, inlet_height_frac=0.5), layers_count=6)
    # a third of the bore is two of six layers: segments of a sixth and a third of the height
    sixth, third = circle_area_below(0.03, height_m=np.array([0.005, 0.010]))
    assert narrow.supply_frac[:3] == pytest.approx([sixth / third, 1.0 - sixth / third, 0.0])


def test_leaks_come_in_at_their_height_or_evenly_all_round_the_joint():
    # the ring: arcs of 60, 30, 30 and 60 degrees of 180
    ring = gas_column(_case(leaks=(AROUND,)), layers_count=4)
    assert ring.leak_m3_s == pytest.approx([2e-6, 1e-6, 1e-6, 2e-6])
    # a point at 0.6 of the height lies at 2.4 layers: nine tenths in the third, a tenth in the second
    point = InLeak(height_frac=0.6, flow_m3_s=1e-6)
    assert gas_column(_case(leaks=(point,)), layers_count=4).leak_m3_s == pytest.approx([0, 1e-7, 9e-7, 0])
    both = gas_column(_case(leaks=(AROUND, point)), layers_count=4).leak_m3_s
    assert both == pytest.approx([2e-6, 1.1e-6, 1.9e-6, 2e-6])
    # helium counts from the top
    helium = gas_column(_case(symbol="I2", leaks=(point,)), layers_count=4)
    assert helium.leak_m3_s == pytest.approx([0, 9e-7, 1e-7, 0])
    assert helium.is_turned_over is True


def test_what_leaves_elsewhere_leaves_at_its_own_height():
    leak = InLeak(height_frac=0.9, flow_m3_s=1e-6, leaves_at_frac=0.1)
    column = gas_column(_case(leaks=(leak, AROUND)), layers_count=4)
    assert column.returned_m3_s == pytest.approx([1e-6, 0.0, 0.0, 0.0])
    assert column.through_leak_m3_s == pytest.approx(6e-6)
    turned = gas_column(_case(symbol="I2", leaks=(leak,)), layers_count=4)
    assert turned.returned_m3_s == pytest.approx([0.0, 0.0, 0.0, 1e-6])
    twice = returned_by_layer_m3_s(_case(leaks=(leak, leak)), edge_m=np.linspace(0.0, BORE, 5))
    assert twice == pytest.approx([2e-6, 0.0, 0.0, 0.0])


def test_upright_layers_are_discs_from_the_inlet_s_end_up_for_argon():
    case = _case(slope_deg=90.0, joint_from_inlet_dam_m=0.375, leaks=(AROUND,))
    column = gas_column(case, layers_count=4)
    assert column.edge_m == pytest.approx([0.0, 0.25, 0.5, 0.75, 1.0])
    assert column.volume_m3 == pytest.approx([AREA / 4.0] * 4)
    assert column.exchange_length_m == pytest.approx([AREA / 0.25] * 3)
    assert column.supply_frac.tolist() == [1.0, 0.0, 0.0, 0.0]
    assert column.exit_frac.tolist() == [0.0, 0.0, 0.0, 1.0]
    # the joint in the middle of the second disc: root and ring are all there
    assert column.root_weight_frac == pytest.approx(np.array([[0.0, 1.0, 0.0, 0.0]]))
    assert column.leak_m3_s == pytest.approx([0.0, 6e-6, 0.0, 0.0])


def test_a_vent_on_the_pool_s_side_of_an_upright_section_takes_what_comes_in():
    below = gas_column(_case(slope_deg=-90.0, joint_from_inlet_dam_m=0.375), layers_count=4)
    # the inlet is above, argon settles at the vent: gas and outflow share the lowest disc
    assert below.exit_frac.tolist() == [1.0, 0.0, 0.0, 0.0]
    assert below.supply_frac.tolist() == [1.0, 0.0, 0.0, 0.0]
    assert below.root_weight_frac == pytest.approx(np.array([[0.0, 0.0, 1.0, 0.0]]))


def test_one_layer_is_the_whole_section():
    leak = InLeak(height_frac=0.9, flow_m3_s=1e-6, leaves_at_frac=0.1)
    column = one_layer(_case(leaks=(leak, AROUND), symbol="I2"))
    assert column.edge_m.tolist() == [0.0, BORE]
    assert column.volume_m3 == pytest.approx([AREA * LENGTH])
    assert (column.exchange_length_m.size, column.root_weight_frac) == (0, None)
    assert (column.supply_frac.tolist(), column.exit_frac.tolist()) == ([1.0], [1.0])
    assert column.leak_m3_s == pytest.approx([7e-6])
    assert column.returned_m3_s == pytest.approx([1e-6])
    assert column.is_turned_over is True
    assert one_layer(_case()).is_turned_over is False


# --- slices ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("slope_deg", [30.0, -30.0])
@pytest.mark.parametrize("symbol", ["I1", "I2"])
def test_openings_of_a_sloping_section_lie_at_the_heights_that_geometry_says(slope_deg, symbol):
    leak = InLeak(height_frac=0.3, flow_m3_s=1e-6)
    case = _case(slope_deg=slope_deg, symbol=symbol, vent_height_frac=0.7, leaks=(leak, AROUND))
    case = replace(case, section=replace(case.section, joint_from_inlet_dam_m=0.4))
    column = gas_column(case, layers_count=400)
    middle = (column.edge_m[1:] + column.edge_m[:-1]) / 2.0
    # heights above the lowest point: s sin 30 + h d cos 30, s counted from the lower end
    tall = BORE * math.sqrt(0.75) + 0.5
    vent_s, joint_s = (1.0, 0.4) if slope_deg > 0.0 else (0.0, 0.6)
    vent, joint = (s * 0.5 + h * BORE * math.sqrt(0.75) for s, h in ((vent_s, 0.7), (joint_s, 0.5)))
    turned = symbol == "I2"
    vent, joint, low = ((tall - z) if turned else z for z in (vent, joint, 0.3 * tall))
    assert column.edge_m[-1] == pytest.approx(tall)
    assert (column.exit_frac * middle).sum() == pytest.approx(vent, abs=2e-3)
    assert (column.leak_m3_s * middle).sum() / 7e-6 == pytest.approx((6 * joint + low) / 7, abs=2e-3)
    heights = column.root_weight_frac @ middle
    half_ring = BORE * math.sqrt(0.75) / 2.0
    assert (heights.min(), heights.max()) == pytest.approx((joint - half_ring, joint + half_ring), abs=2e-3)
    assert (column.supply_frac * middle).sum() < 0.02
    for share in (column.exit_frac, column.supply_frac):
        assert share.sum() == pytest.approx(1.0)
    assert column.root_weight_frac.sum(axis=1) == pytest.approx(np.ones(len(heights)))
    # the middle of the section: an ellipse pi/4 d^2 / sin 30 over the depth of a layer
    assert column.exchange_length_m[199] == pytest.approx(2.0 * AREA / column.edge_m[1])
    assert vent_above_pool_frac(case) == pytest.approx(vent / tall)
    assert column.is_turned_over is turned


def test_heights_above_the_pool_are_counted_from_its_own_side():
    argon, helium = (_case(slope_deg=30.0, symbol=symbol) for symbol in ("I1", "I2"))
    cylinder = argon.section.tilted
    assert height_above_pool_m(argon, cylinder=cylinder, from_inlet_m=0.0, across_frac=0.0) == 0.0
    # helium settles at the upper end, which is the vent's
    at_vent = height_above_pool_m(helium, cylinder=cylinder, from_inlet_m=1.0, across_frac=1.0)
    assert at_vent == pytest.approx(0.0, abs=1e-12)
    assert vent_above_pool_frac(_case(symbol="I2", vent_height_frac=0.9)) == pytest.approx(0.1)


def test_a_vent_s_place_and_what_lies_beyond_it():
    up, down = (
        VentPlace(bore_m=BORE, length_m=LENGTH, slope_deg=slope, across_frac=0.5) for slope in (30.0, -30.0)
    )
    tall = BORE * math.sqrt(0.75) + 0.5
    assert vent_height_frac(up) == pytest.approx((0.5 + 0.1 * math.sqrt(0.75)) / tall)
    assert vent_height_frac(down) == pytest.approx(0.1 * math.sqrt(0.75) / tall)
    # turned end for end, what is above in one lies below in the other
    assert beyond_vent_frac(up, gas_sinks=True) == pytest.approx(beyond_vent_frac(down, gas_sinks=False))
    assert beyond_vent_frac(up, gas_sinks=True) + beyond_vent_frac(up, gas_sinks=False) == pytest.approx(1.0)
    level = replace(up, slope_deg=0.0, across_frac=0.75)
    assert beyond_vent_frac(level, gas_sinks=True) == pytest.approx(QUARTER)
    assert beyond_vent_frac(level, gas_sinks=False) == pytest.approx(1.0 - QUARTER)
    for slope, sinks, beyond in (
        (90.0, True, 0.0),
        (90.0, False, 1.0),
        (-90.0, True, 1.0),
        (-90.0, False, 0.0),
    ):
        assert beyond_vent_frac(replace(up, slope_deg=slope), gas_sinks=sinks) == beyond
    assert (vent_height_frac(level), vent_height_frac(replace(up, slope_deg=90.0))) == (0.75, 1.0)
    assert vent_height_frac(replace(up, slope_deg=-90.0)) == 0.0


# --- pieces of the geometry ------------------------------------------------------------------------------------


def test_a_point_is_spread_over_one_layer_and_stays_whole_at_the_ends():
    edge = np.array([0.0, 2.0, 4.0, 6.0])
    assert point_frac(edge, height_m=3.0).tolist() == [0.0, 1.0, 0.0]
    assert point_frac(edge, height_m=2.5).tolist() == [0.25, 0.75, 0.0]
    assert point_frac(edge, height_m=-1.0).tolist() == [1.0, 0.0, 0.0]
    assert point_frac(edge, height_m=9.0).tolist() == [0.0, 0.0, 1.0]


def test_holes_and_rings_are_shared_by_area_and_by_arc():
    edge = np.array([0.0, 0.5, 1.0, 1.5, 2.0])
    hole = hole_frac(edge, centre_m=1.0, half_height_m=1.0, smooth_m=0.0)
    assert hole == pytest.approx([QUARTER, 0.5 - QUARTER, 0.5 - QUARTER, QUARTER])
    ring = ring_frac(edge, centre_m=1.0, half_height_m=1.0, smooth_m=0.0)
    assert ring == pytest.approx([1 / 3, 1 / 6, 1 / 6, 1 / 3])
    # what reaches over an end belongs to the layer there, and smoothing keeps the middle
    assert hole_frac(edge, centre_m=2.0, half_height_m=0.1, smooth_m=0.0).tolist() == [0.0, 0.0, 0.0, 1.0]
    smooth = ring_frac(edge, centre_m=1.0, half_height_m=0.1, smooth_m=1.0)
    assert smooth == pytest.approx(smooth[::-1])
    assert smooth.sum() == pytest.approx(1.0)
    assert smooth[1] > 0.3


def test_the_worst_of_the_root_is_the_largest_of_its_heights():
    air = np.array([[0.1, 0.9], [0.4, 0.2], [0.3, 0.3]])
    column = gas_column(_case(), layers_count=3)
    assert column.root_air_frac(air).tolist() == [0.4, 0.9]
    weights = np.array([[0.5, 0.5, 0.0], [0.0, 0.0, 1.0]])
    at_joint: Column = replace(column, root_weight_frac=weights)
    assert at_joint.root_air_frac(air) == pytest.approx([0.3, 0.55])


def test_a_tilted_cylinder_seen_from_above_and_from_the_side():
    cylinder = TiltedCylinder(bore_m=BORE, length_m=LENGTH, tilt_deg=30.0)
    assert cylinder.height_m == pytest.approx(BORE * math.sqrt(0.75) + 0.5)
    # a rectangle L cos 30 by D, and an ellipse of axes D and D sin 30
    assert cylinder.plan_area_m2 == pytest.approx(BORE * math.sqrt(0.75) + math.pi / 4.0 * BORE**2 * 0.5)
    assert cylinder.height_of_m(0.4, across_frac=0.25) == pytest.approx(0.2 + 0.05 * math.sqrt(0.75))
