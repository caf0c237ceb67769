"""The hose against an integration and fluids, its kink, and its shape."""

import math

import pytest
from fluids import friction_factor as fluids_friction_factor
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from shape import L_MIN, SHAPE, flows_l_min

from trainer.core.errors import OutOfRange
from trainer.core.gas import gas
from trainer.core.hose import (
    Hose,
    friction_factor,
    is_choked,
    largest_flow_m3_s,
    pressure_drop_pa,
    pressure_drop_with_friction_pa,
)
from trainer.core.nozzle import Nozzle, critical_pressure_ratio, nozzle_flow_m3_s

ARGON = gas("I1")
ATM = 101325.0
HOSES = st.builds(Hose, bore_m=st.floats(0.003, 0.012), length_m=st.floats(1.0, 60.0))
PRESSURES = st.floats(1.1e5, 8e5)


@SHAPE
@given(HOSES, flows_l_min(1.0, 60.0), st.floats(1.0, 3.0))
def test_pressure_drop_rises_with_flow_and_length(hose, flow, times_more):
    drop = pressure_drop_pa(flow, hose=hose, gas=ARGON)
    assert drop >= 0.0
    assert pressure_drop_pa(flow * times_more, hose=hose, gas=ARGON) >= drop
    longer = Hose(bore_m=hose.bore_m, length_m=hose.length_m * times_more)
    assert pressure_drop_pa(flow, hose=longer, gas=ARGON) >= drop


@SHAPE
@given(HOSES, PRESSURES)
def test_largest_flow_is_the_inverse_of_the_pressure_drop(hose, inlet_pa):
    flow = largest_flow_m3_s(inlet_pa, hose=hose, gas=ARGON)
    drop = pressure_drop_pa(flow, hose=hose, gas=ARGON)
    assert drop == pytest.approx(inlet_pa - ATM, rel=1e-6)


@SHAPE
@given(HOSES, PRESSURES, st.floats(0.001, 1.0), st.floats(0.0, 1.0))
def test_a_tighter_kink_never_lets_more_through(hose, inlet_pa, open_frac, tighter):
    flows = [
        largest_flow_m3_s(
            inlet_pa, hose=Hose(bore_m=hose.bore_m, length_m=hose.length_m, open_frac=o), gas=ARGON
        )
        for o in (1.0, open_frac, open_frac * tighter)
    ]
    assert flows == sorted(flows, reverse=True)


@SHAPE
@given(st.floats(1.0, 1e6), st.floats(1.0, 1.01))
def test_friction_factor_has_no_jump(reynolds, step):
    assert friction_factor(reynolds * step) == pytest.approx(friction_factor(reynolds), rel=0.03)


@pytest.mark.parametrize("reynolds", [100.0, 1500.0, 5000.0, 2e4, 1e5])
def test_friction_factor_agrees_with_fluids_outside_the_transition(reynolds):
    """fluids 1.3.1, smooth pipe."""
    assert friction_factor(reynolds) == pytest.approx(fluids_friction_factor(Re=reynolds, eD=0.0), rel=0.01)


def test_pressure_drop_agrees_with_an_integration_along_the_hose():
    """scipy solve_ivp of dP/dx with the kinetic term, backwards from the open end."""
    flow, friction, bore, length = 45 * L_MIN, 0.03, 0.00635, 15.24
    specific = 8.314462618 * 293.15 / 0.039948
    flux = flow * ATM / specific / (math.pi / 4 * bore**2)

    def slope(_, pressure):
        density = pressure[0] / specific
        return [flux**2 * friction / (2 * bore * density) / (1 - flux**2 * specific / pressure[0] ** 2)]

    run = solve_ivp(slope, (0.0, length), [ATM], rtol=1e-10, atol=1e-6)
    ours = pressure_drop_with_friction_pa(
        flow, hose=Hose(bore_m=bore, length_m=length), gas=ARGON, friction_ratio=friction
    )
    assert ours == pytest.approx(run.y[0, -1] - ATM, rel=1e-5)


def test_only_a_hose_nearly_shut_starves_a_purge():
    at_two_bar = {
        open_frac: largest_flow_m3_s(
            2e5 + ATM, hose=Hose(bore_m=0.00635, length_m=15.24, open_frac=open_frac), gas=ARGON
        )
        / L_MIN
        for open_frac in (0.3, 0.05, 0.02, 0.0)
    }
    assert at_two_bar[0.3] > 100
    assert at_two_bar[0.05] > 30
    assert at_two_bar[0.02] < 20
    assert at_two_bar[0.0] == pytest.approx(0.0, abs=1e-6)


def test_choking_shows_at_a_kink_and_at_the_open_end_of_a_short_hose():
    sound = Hose(bore_m=0.00635, length_m=15.24)
    kinked = Hose(bore_m=0.00635, length_m=15.24, open_frac=0.03)
    stub = Hose(bore_m=0.00635, length_m=0.05)
    assert [is_choked(4e5, hose=h, gas=ARGON) for h in (sound, kinked, stub)] == [False, True, True]


def test_no_flow_takes_no_pressure():
    assert pressure_drop_pa(0.0, hose=Hose(bore_m=0.006, length_m=10.0), gas=ARGON) == 0.0


@SHAPE
@given(st.floats(1e5, 2e6), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_nozzle_flow_never_falls_with_lower_pressure_behind_it(upstream, one, other):
    nozzle = Nozzle(open_area_m2=1e-6, gas=ARGON)
    low, high = sorted((one, other))
    flows = [nozzle_flow_m3_s(nozzle, upstream_pa=upstream, downstream_pa=s * upstream) for s in (low, high)]
    assert flows[0] >= flows[1]
    choked = critical_pressure_ratio(ARGON) * upstream
    assert nozzle_flow_m3_s(nozzle, upstream_pa=upstream, downstream_pa=choked) == pytest.approx(
        nozzle_flow_m3_s(nozzle, upstream_pa=upstream, downstream_pa=0.0)
    )


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Hose(bore_m=0.006, length_m=0.0),
        lambda: Hose(bore_m=0.006, length_m=1.0, open_frac=1.5),
        lambda: pressure_drop_pa(-1e-4, hose=Hose(bore_m=0.006, length_m=1.0), gas=ARGON),
        lambda: largest_flow_m3_s(5e4, hose=Hose(bore_m=0.006, length_m=1.0), gas=ARGON),
        lambda: friction_factor(0.0),
        lambda: nozzle_flow_m3_s(Nozzle(open_area_m2=1e-6, gas=ARGON), upstream_pa=1e5, downstream_pa=2e5),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
