"""A line that falls out, worked by hand: which opening the gas leaves by, where the air comes in, how fast."""

import math
from dataclasses import replace

import pytest
from purge_cases import base_case

from trainer.core.gas import AIR, density_kg_m3, gas
from trainer.core.in_leaks import circle_air_inflow_m3_s
from trainer.core.interruption import line_fallen_out
from trainer.core.purge_parts import InLeak

OPENING_M, VENT_M, BORE, LENGTH = 0.01, 0.019, 0.161, 0.6


def _area(diameter_m, count=1):
    return count * math.pi / 4.0 * diameter_m**2


def _drained_m3_s(gas_m2, air_m2, apart_m, symbol="I1", temperature_k=293.15):
    """0.61 sqrt(2 |rho_i - rho_o| g h / (rho_i / A_i^2 + rho_o / A_o^2)), Linden 1999."""
    inside, outside = (density_kg_m3(each, temperature_k=temperature_k) for each in (gas(symbol), AIR))
    head_pa = abs(inside - outside) * 9.80665 * apart_m
    return 0.61 * math.sqrt(2.0 * head_pa / (inside / gas_m2**2 + outside / air_m2**2))


def _lost(**changes):
    vents = changes.pop("vents", 1)
    case = base_case(**({"inlet_height_frac": 0.2, "vent_height_frac": 0.8} | changes))
    case = replace(case, vent=replace(case.vent, count=vents))
    return case, line_fallen_out(case, opening_m=OPENING_M, duration_s=90.0)


def test_argon_runs_out_of_a_low_opening_and_air_comes_in_by_the_vents():
    _, lost = _lost(vents=3)
    through, at_line, at_vents = lost.air_in
    by_hand = _drained_m3_s(_area(OPENING_M), _area(VENT_M, 3), 0.6 * BORE)
    assert through.flow_m3_s == pytest.approx(by_hand)
    assert (through.height_frac, through.leaves_at_frac) == pytest.approx((0.8, 0.2))
    assert (lost.flow_m3_s, lost.duration_s) == (0.0, 90.0)
    # what gas and air exchange within one opening comes and goes at its height, its own net flow known
    assert (at_line.height_frac, at_line.leaves_at_frac) == pytest.approx((0.2, 0.2))
    assert (at_vents.height_frac, at_vents.leaves_at_frac) == pytest.approx((0.8, 0.8))
    each = circle_air_inflow_m3_s(by_hand / 3.0, diameter_m=VENT_M, gas=gas("I1"))
    assert at_vents.flow_m3_s == pytest.approx(3.0 * each)
    assert at_line.flow_m3_s == circle_air_inflow_m3_s(by_hand, diameter_m=OPENING_M, gas=gas("I1"))


def test_argon_runs_out_of_a_low_vent_and_air_comes_in_where_the_line_was():
    _, lost = _lost(inlet_height_frac=0.8, vent_height_frac=0.2)
    through = lost.air_in[0]
    assert through.flow_m3_s == pytest.approx(_drained_m3_s(_area(VENT_M), _area(OPENING_M), 0.6 * BORE))
    assert (through.height_frac, through.leaves_at_frac) == pytest.approx((0.8, 0.2))


def test_helium_leaves_by_the_higher_opening():
    _, lost = _lost(symbol="I2")
    through = lost.air_in[0]
    by_hand = _drained_m3_s(_area(VENT_M), _area(OPENING_M), 0.6 * BORE, symbol="I2")
    assert through.flow_m3_s == pytest.approx(by_hand)
    assert (through.height_frac, through.leaves_at_frac) == pytest.approx((0.2, 0.8))


@pytest.mark.parametrize(
    ("slope_deg", "symbol", "line_is_low"),
    [(90.0, "I1", True), (-90.0, "I1", False), (90.0, "I2", True), (-90.0, "I2", False)],
)
def test_in_an_upright_section_the_openings_are_its_length_apart(slope_deg, symbol, line_is_low):
    _, lost = _lost(slope_deg=slope_deg, symbol=symbol)
    through = lost.air_in[0]
    line_leaks_gas = line_is_low == (symbol == "I1")
    areas = (_area(OPENING_M), _area(VENT_M)) if line_leaks_gas else (_area(VENT_M), _area(OPENING_M))
    assert through.flow_m3_s == pytest.approx(_drained_m3_s(*areas, LENGTH, symbol=symbol))
    air_enters, gas_leaves = (1.0, 0.0) if symbol == "I1" else (0.0, 1.0)
    assert (through.height_frac, through.leaves_at_frac) == pytest.approx((air_enters, gas_leaves))


@pytest.mark.parametrize(("slope_deg", "line_s", "vent_s"), [(30.0, 0.0, 0.3), (-30.0, 0.3, 0.0)])
def test_in_a_sloping_section_each_opening_lies_on_its_own_dam(slope_deg, line_s, vent_s):
    _, lost = _lost(slope_deg=slope_deg)
    leaning = BORE * math.cos(math.radians(30.0))
    line_m, vent_m = line_s + 0.2 * leaning, vent_s + 0.8 * leaning
    through = lost.air_in[0]
    low_is_line = line_m < vent_m
    areas = (_area(OPENING_M), _area(VENT_M)) if low_is_line else (_area(VENT_M), _area(OPENING_M))
    assert through.flow_m3_s == pytest.approx(_drained_m3_s(*areas, abs(vent_m - line_m)))
    tall = 0.3 + leaning
    ends = (max(line_m, vent_m) / tall, min(line_m, vent_m) / tall)
    assert (through.height_frac, through.leaves_at_frac) == pytest.approx(ends)


def test_leaks_of_the_purge_go_on_and_a_warmer_pipe_drains_by_its_own_densities():
    leak = InLeak(height_frac=0.5, flow_m3_s=1e-7)
    case, lost = _lost(leaks=(leak,), temperature_k=330.0)
    assert lost.air_in[0] is leak
    assert len(lost.air_in) == 4
    by_hand = _drained_m3_s(_area(OPENING_M), _area(VENT_M), 0.6 * BORE, temperature_k=330.0)
    assert lost.air_in[1].flow_m3_s == pytest.approx(by_hand)
    assert case.leaks == (leak,)
