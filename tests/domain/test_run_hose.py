"""The hose of a run: what it loses, what it passes at most, and when a kink starves the purge."""

import pytest
from set_up_examples import codes, run_of

L_MIN = 1.0 / 60000.0


def _hose(length, pressure="2 bar", **changes):
    hose = {"bore": "0.25 in", "length": length, "inlet_pressure": pressure}
    return run_of(hose={**hose, **changes}, gas__symbol="I1").hose


@pytest.mark.parametrize(
    ("length", "pressure", "l_min"),
    # 1/4 in hose, argon, 20 degC, to 1 atm: isothermal flow integrated by scipy, rows L-06 to L-09 of flow_checks.csv.
    [("25 ft", "2 bar", 258), ("50 ft", "2 bar", 180), ("100 ft", "2 bar", 123), ("100 ft", "1 bar", 71)],
)
def test_a_sound_hose_passes_far_more_than_a_purge_takes(length, pressure, l_min):
    hose = _hose(length, pressure)
    assert hose.largest_flow_m3_s / L_MIN == pytest.approx(l_min, rel=0.03)
    assert hose.choked is False


def test_a_hose_loses_what_the_sheet_says():
    # 15.5 kPa at 30 L/min over 50 ft, 9.7 at 15 L/min over 100 ft: rows L-03 and L-04.
    assert run_of(
        hose={"bore": "0.25 in", "length": "50 ft"}, flow__purge="30 L/min"
    ).hose.pressure_drop_pa == (pytest.approx(15.5e3, rel=0.03))
    assert run_of(hose={"bore": "0.25 in", "length": "100 ft"}).hose.pressure_drop_pa == pytest.approx(
        9.7e3, rel=0.05
    )


@pytest.mark.parametrize(("open_frac", "l_min"), [(0.05, 40.5), (0.02, 16.2)])
def test_a_kink_has_to_be_nearly_shut_to_starve_a_purge(open_frac, l_min):
    # Choked nozzle of that share of the bore at 2 bar gauge, Cd 0.8, by hand; the hose behind takes next to nothing.
    hose = _hose("1 ft", open_fraction=open_frac)
    assert hose.largest_flow_m3_s / L_MIN == pytest.approx(l_min, rel=0.02)
    assert hose.choked is True


def test_only_a_kink_of_over_95_percent_starves_15_l_min():
    assert "hose-starves-flow" not in codes(hose__open_fraction=0.05)
    assert "hose-starves-flow" in codes(hose__open_fraction=0.015)
    assert run_of(hose__open_fraction=0.0).hose.largest_flow_m3_s == 0.0


def test_helium_passes_more_and_a_mixture_lies_between():
    argon, mixed, helium = (
        run_of(gas=gas, target=None).hose.largest_flow_m3_s
        for gas in ({"symbol": "I1"}, {"symbol": "I3", "composition": "ArHe-50"}, {"symbol": "I2"})
    )
    assert argon < mixed < helium
