"""Where one way of answering hands over to another, both give the same; and mixtures by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest
from purge_cases import base_case
from spool_cases import BORE, spool_case, straight_spool

from trainer.core.batch import PurgeQuestion, purge_many
from trainer.core.closure import constant
from trainer.core.dewar import liquid_density_kg_m3
from trainer.core.dilution import purge
from trainer.core.errors import UnknownName
from trainer.core.gas import gas
from trainer.core.gas_column import gas_column
from trainer.core.gas_mix import mixture
from trainer.core.heat_materials import material_limit_k
from trainer.core.level_stack import level_columns
from trainer.core.purge_parts import FlowSegment, InLeak
from trainer.core.spool_case import Point
from trainer.core.spool_column import spool_column
from trainer.core.standing_vessel import boil_off_temperature_k
from trainer.core.stirring import closure
from trainer.core.stirring_parts import Situation
from trainer.core.terms import InletEnd

EXCHANGED = InLeak(height_frac=0.9, flow_m3_s=5e-7, leaves_at_frac=0.1)
MINUTES = (FlowSegment(flow_m3_s=2.5e-4, duration_s=240.0),)
LATER_AIR = FlowSegment(
    flow_m3_s=2.5e-4, duration_s=math.inf, air_in=(InLeak(height_frac=0.5, flow_m3_s=1e-7),)
)


@pytest.mark.parametrize(
    "case",
    [
        base_case(leaks=(EXCHANGED,)),
        base_case(leaks=(InLeak(height_frac=0.9, flow_m3_s=5e-7),)),
        base_case(slope_deg=5.0),
        base_case(segments=MINUTES),
        base_case(segments=(LATER_AIR,)),
        base_case(bore_m=0.03, inlet_height_frac=0.5, vent_height_frac=0.8, vent_diameter_m=0.005),
    ],
    ids=["exchange", "leak", "slope", "minutes", "air of a flow", "narrow"],
)
def test_a_purge_in_a_batch_is_answered_as_alone(case):
    question = PurgeQuestion(case=case, target_o2_frac=0.01, wait_s=120.0)
    plain = replace(question, case=base_case())
    _, answer = purge_many([plain, question])
    alone = purge(case)
    time, oxygen = alone.time_to(0.01), alone.oxygen_at(120.0)
    assert (answer.time_to_target_s is None) is (time is None)
    if time is not None:
        found = answer.time_to_target_s
        assert (found.expected, found.lower, found.upper) == pytest.approx(
            (time.expected, time.lower, time.upper), rel=1e-6
        )
    assert answer.oxygen_after_wait_frac.expected == pytest.approx(oxygen.expected, rel=1e-6)


@pytest.mark.parametrize("bore_m", [0.03, 0.045, 0.161])
def test_many_level_columns_are_the_columns_one_by_one(bore_m):
    case = base_case(bore_m=bore_m, inlet_height_frac=0.5, vent_height_frac=0.8, vent_diameter_m=0.005)
    many, one = level_columns([base_case(), case]), gas_column(case)
    for name in ("volume_m3", "exchange_length_m", "supply_frac", "exit_frac", "leak_m3_s"):
        assert getattr(many, name)[1] == pytest.approx(getattr(one, name), rel=1e-9, abs=1e-12), name


def test_leaks_of_a_spool_add_up_in_any_order():
    leaks = (
        InLeak(height_frac=0.3, flow_m3_s=1e-7),
        InLeak(height_frac=None, flow_m3_s=3e-7),
        EXCHANGED,
        replace(EXCHANGED, leaves_at_frac=0.6),
    )
    spool = replace(straight_spool(0.0), joint_at=Point(part="run"))
    columns = [
        spool_column(spool_case(spool, leaks=order), body=spool.pieces) for order in (leaks, leaks[::-1])
    ]
    assert columns[0].leak_m3_s == pytest.approx(columns[1].leak_m3_s)
    assert columns[0].leak_m3_s.sum() == pytest.approx(1.4e-6)
    assert columns[0].returned_m3_s == pytest.approx(columns[1].returned_m3_s)
    assert columns[0].returned_m3_s.sum() == pytest.approx(1e-6)


def test_a_point_half_way_between_two_pieces_belongs_to_the_first():
    spool = straight_spool(0.0, length_m=2 * 0.5 * BORE)
    assert len(spool.pieces) == 2
    assert spool.piece_at(Point(part="run", along_frac=0.5)) == 0


def test_a_tube_on_a_slope_is_between_weak_and_strong_by_both_its_jet_and_its_slope():
    # in the middle of the step, l_M = sqrt(start end), half the way; sin 30 takes half of what is left: 3/4
    middle = math.sqrt(
        constant("jet length over bore, tube turns strong from")
        * constant("jet length over bore, tube is strong at")
    )
    at = Situation(
        end=InletEnd.OPEN_TUBE,
        rise_deg=30.0,
        bulk_froude_ratio=0.001,
        jet_length_ratio=middle,
        length_ratio=3.0,
        plume_fall_ratio=0.0,
        density_difference_frac=0.38,
    )
    shares = []
    for jet in (1e-3, middle, 10.0):
        exchange = closure(replace(at, jet_length_ratio=jet)).expected.exchange_ratio
        weak, strong = constant("weak jet"), constant("strong jet")
        shares.append(math.log(exchange / weak) / math.log(strong / weak))
    assert shares == pytest.approx([0.5, 0.75, 1.0])


def test_mixtures_add_heat_capacities_and_exponents_by_mole():
    # argon has cv / R of 1.5, nitrogen 2.5: half of each 2.0, a ratio of 1.5
    half = mixture({"Ar": 0.5, "N2": 0.5}, symbol="N")
    assert half.heat_capacity_ratio == pytest.approx(1.5, abs=2e-3)
    argon, nitrogen = gas("I1"), gas("N1")
    quarter = mixture({"Ar": 0.25, "N2": 0.75}, symbol="N")
    expected = 0.25 * argon.viscosity_exponent + 0.75 * nitrogen.viscosity_exponent
    assert quarter.viscosity_exponent == pytest.approx(expected)
    assert quarter.molar_mass_kg_mol == pytest.approx(
        0.25 * argon.molar_mass_kg_mol + 0.75 * nitrogen.molar_mass_kg_mol
    )
    # Blanc: 1 / D = sum of x / D
    blanc = 0.25 / argon.diffusivity_in_air_ref_m2_s + 0.75 / nitrogen.diffusivity_in_air_ref_m2_s
    assert quarter.diffusivity_in_air_ref_m2_s == pytest.approx(1.0 / blanc)


def test_liquids_and_materials_that_nobody_stores_are_named():
    with pytest.raises(UnknownName, match="'I2' is not a known gas stored as a liquid; accepted: I1, N1"):
        boil_off_temperature_k(gas("I2"))
    with pytest.raises(UnknownName, match="'cork' is not a known material; accepted: "):
        material_limit_k("cork")
    # NIST: argon boils at 87.30 K and 1 atm with 1395 kg/m3, nitrogen at 77.36 K with 806 (values from memory)
    assert boil_off_temperature_k(gas("I1")) == pytest.approx(87.30, abs=0.01)
    assert boil_off_temperature_k(gas("N1")) == pytest.approx(77.36, abs=0.01)
    assert liquid_density_kg_m3(gas("I1"), pressure_pa=101325.0) == pytest.approx(1395.0, rel=2e-3)
    assert liquid_density_kg_m3(gas("N1"), pressure_pa=101325.0) == pytest.approx(806.0, rel=2e-3)


def test_a_level_layer_s_ring_reaches_both_ends():
    column = gas_column(base_case(leaks=(InLeak(height_frac=None, flow_m3_s=1e-6),)))
    assert np.isfinite(column.leak_m3_s).all()
    assert column.leak_m3_s.sum() == pytest.approx(1e-6)
    assert column.leak_m3_s == pytest.approx(column.leak_m3_s[::-1])
