"""What foam dams hold: measured foams within the interval, the shape of the formula, its ends."""

import csv
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference_rows import FOLDER
from shape import SHAPE

from trainer.core.dam_holding import FoamPlug, foam_stress_pa, slip_pressure_pa
from trainer.core.errors import OutOfRange


def foam_rows():
    with (FOLDER / "foam_stress.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def plug(density_kg_m3=30.0, thickness_m=0.1, oversize_m=0.02):
    return FoamPlug(density_kg_m3=density_kg_m3, thickness_m=thickness_m, oversize_m=oversize_m)


def holds_pa(bore_m=0.16, **cut):
    return slip_pressure_pa(plug(**cut), bore_m=bore_m)


PLUGS = {
    "density_kg_m3": st.floats(15.0, 100.0),
    "thickness_m": st.floats(0.01, 0.4),
    "oversize_m": st.floats(0.0, 0.03),
    "bore_m": st.floats(0.05, 1.0),
}


@pytest.mark.parametrize("row", foam_rows(), ids=lambda row: row["id"])
def test_measured_foams_lie_between_the_softest_and_the_hardest_of_their_density(row):
    stress = foam_stress_pa(float(row["density_kg_m3"]), strain_frac=float(row["strain"]))
    assert stress.lower <= 1000 * float(row["low_kpa"]), row["source"]
    assert 1000 * float(row["high_kpa"]) <= stress.upper, row["source"]


def test_a_specified_foam_lies_round_the_law_itself():
    row = next(row for row in foam_rows() if row["id"] == "FS-01")
    expected_pa = foam_stress_pa(float(row["density_kg_m3"]), strain_frac=float(row["strain"])).expected
    assert 1000 * float(row["low_kpa"]) <= expected_pa <= 1000 * float(row["high_kpa"])


def test_friction_round_the_edge_balances_the_pressure_on_the_face():
    bore_m, thickness_m = 0.16, 0.1
    stress_pa = foam_stress_pa(30.0, strain_frac=0.02 / 0.18).expected
    friction_n = 0.5 * stress_pa * math.pi * bore_m * thickness_m
    face_m2 = math.pi / 4.0 * bore_m**2
    assert holds_pa(bore_m).expected * face_m2 == pytest.approx(friction_n, rel=1e-12)


def test_past_collapse_more_width_holds_no_more_and_below_it_in_proportion():
    below = [foam_stress_pa(30.0, strain_frac=strain).expected for strain in (0.01, 0.02, 0.04)]
    assert below == pytest.approx([below[0], 2 * below[0], 4 * below[0]])
    assert foam_stress_pa(30.0, strain_frac=0.1) == foam_stress_pa(30.0, strain_frac=0.5)


@SHAPE
@given(more=st.floats(1.01, 1.2), **PLUGS)
def test_denser_or_thicker_holds_more_wider_cut_never_less_and_a_larger_pipe_less(more, bore_m, **cut):
    here = holds_pa(bore_m, **cut)
    cut_tight = cut["oversize_m"] > 0.0
    for changed in ("density_kg_m3", "thickness_m"):
        there = holds_pa(bore_m, **{**cut, changed: more * cut[changed]})
        assert there.expected > here.expected if cut_tight else there.expected == 0.0
    wider = holds_pa(bore_m, **{**cut, "oversize_m": more * cut["oversize_m"]})
    assert wider.expected >= here.expected
    larger = holds_pa(more * bore_m, **cut)
    assert larger.expected < here.expected if cut_tight else larger.expected == 0.0


def test_foam_cut_to_the_bore_holds_nothing_by_its_own_pressing():
    assert holds_pa(oversize_m=0.0).upper == 0.0


@pytest.mark.parametrize(
    ("wrong", "what"),
    [
        ({"density_kg_m3": 14.9}, "density of the foam"),
        ({"density_kg_m3": 121.0}, "density of the foam"),
        ({"thickness_m": -0.001}, "thickness of the dam"),
        ({"oversize_m": -0.001}, "width over the bore"),
        ({"oversize_m": 0.25}, "strain of the foam"),
        ({"bore_m": 0.0}, "bore"),
        ({"density_kg_m3": math.nan}, "density of the foam"),
    ],
)
def test_what_the_law_does_not_hold_for_is_refused_by_name(wrong, what):
    with pytest.raises(OutOfRange) as refused:
        holds_pa(**wrong)
    assert refused.value.quantity == what
