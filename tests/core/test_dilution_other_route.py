"""The layered purge against another route: method of lines on a grid of its own, with fluxes of its own."""

import math

import numpy as np
import pytest
from other_route import grid_of, root_air_frac
from purge_cases import L_MIN, base_case

from trainer.core.dilution import FlowSegment, InletEnd, Purge
from trainer.core.gas_column import gas_column

LOW, MID, HIGH = 0.075, 0.5, 0.925
LAYERS = 192
CHAIN = (
    FlowSegment(flow_m3_s=15.0 * L_MIN, duration_s=60.0),
    FlowSegment(flow_m3_s=4.0 * L_MIN, duration_s=90.0),
    FlowSegment(flow_m3_s=0.0, duration_s=20.0),
    FlowSegment(flow_m3_s=30.0 * L_MIN, duration_s=math.inf),
)
CASES = {
    "level, vent high": {},
    "level, vent at mid-height": {"vent_height_frac": MID},
    "level, vent low": {"vent_height_frac": LOW},
    "level, inlet high, vent low": {"inlet_height_frac": 0.9, "vent_height_frac": LOW},
    "level, narrow and fast": {"bore_m": 0.054, "vent_height_frac": 0.8, "vent_diameter_m": 0.0127},
    "level, open tube": {"end": InletEnd.OPEN_TUBE, "flow_m3_s": 5.0 * L_MIN},
    "level, helium": {"symbol": "I2", "inlet_height_frac": 0.9, "vent_height_frac": LOW},
    "upright, inlet below": {"slope_deg": 90.0},
    "upright, inlet above": {"slope_deg": -90.0},
    "rising 2 degrees": {"slope_deg": 2.0},
    "rising 10 degrees, vent low": {"slope_deg": 10.0, "vent_height_frac": LOW},
    "rising 45 degrees": {"slope_deg": 45.0},
    "falling 5 degrees": {"slope_deg": -5.0},
    "falling 5 degrees, vent at mid-height": {"slope_deg": -5.0, "vent_height_frac": MID},
    "falling 30 degrees": {"slope_deg": -30.0},
    "falling 10 degrees, open tube": {
        "slope_deg": -10.0,
        "end": InletEnd.OPEN_TUBE,
        "flow_m3_s": 5.0 * L_MIN,
    },
    "helium falling 10 degrees, inlet high": {"slope_deg": -10.0, "symbol": "I2", "inlet_height_frac": 0.9},
    "long, rising 5 degrees": {"slope_deg": 5.0, "length_m": 1.5},
    "four flows, level": {"segments": CHAIN},
    "four flows, rising 10 degrees": {"segments": CHAIN, "slope_deg": 10.0},
    "four flows, falling 5 degrees, vent low": {
        "segments": CHAIN,
        "slope_deg": -5.0,
        "vent_height_frac": LOW,
    },
}


# Fronts that stay sharp as they fill the pipe: the fitted flux of the layers smears them as its grid is.
SHARP = ("upright, inlet below", "rising 45 degrees")


@pytest.mark.parametrize("name", CASES)
def test_another_grid_and_scheme_give_the_same_air_at_the_root_and_the_same_times(name):
    case = base_case(**CASES[name])
    usual = Purge(case)
    fine = Purge(case, layers=lambda case: gas_column(case, layers_count=LAYERS))
    times_s = np.linspace(0.0, 1.1 * usual.time_to(0.001).expected, 300)
    air = root_air_frac(case, times_s)
    if name not in SHARP:
        # To half a thousandth of the air at the start, and to 1.5 % of what is left.
        ours = fine.trace(times_s)[:, 0] / 0.2095
        assert ours == pytest.approx(air, abs=5e-4)
        assert ours == pytest.approx(air, rel=1.5e-2)
    for o2_frac in (0.01, 0.001):
        later = times_s > 0.8 * usual.time_to(o2_frac).expected
        log_air = np.log(air[later])
        assert (np.diff(log_air) < 0.0).all()
        other_s = np.interp(-math.log(o2_frac / 0.2095), -log_air, times_s[later])
        assert fine.time_to(o2_frac).expected == pytest.approx(other_s, rel=0.03 if name in SHARP else 0.003)
        # With as many layers as are used: 2 %, and 5 % where the front stays sharp.
        assert usual.time_to(o2_frac).expected == pytest.approx(other_s, rel=0.05 if name in SHARP else 0.02)


@pytest.mark.parametrize("changes", CASES.values(), ids=CASES.keys())
def test_chords_integrated_fill_the_section(changes):
    case = base_case(**changes)
    grid = grid_of(case, cells_count=60)
    assert grid.volume_m3.sum() == pytest.approx(case.section.volume_m3, rel=1e-3)
