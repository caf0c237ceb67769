"""The time line of a purge in stages, against sums worked by hand.

By hand means a perfectly mixed section: c' = -(Q + q) c / V + q / V with q the air that comes in, so that each
stage is one exponential and a line of stages their product (stirred tank, Levenspiel, Chemical Reaction
Engineering), or a plug (same book). V of NPS 6 10S over 600 mm: bore 168.3 - 2 x 3.4 = 161.5 mm.
"""

import math

import pytest
from set_up_examples import POLICY, document, run_of, set_up
from time_line_examples import AIR, L_MIN, VOLUME_M3, line, mixed, stage

from trainer.domain.core_results import CoreResults
from trainer.domain.quantities import NEVER
from trainer.domain.run_set_up import run
from trainer.set_up_files import read_set_up


def test_stages_of_a_mixed_section_are_a_product_of_exponentials():
    ran = line(stage("purge", 4.0), stage("hold", 5.0), stage("recovery"), wait="7 min")
    first, second, third = ran.purge.stages
    assert first.oxygen_at_end_frac.expected == pytest.approx(mixed((15, 4)))
    assert second.oxygen_at_end_frac.expected == pytest.approx(mixed((15, 4), (5, 5)))
    assert (first.flow_m3_s, second.flow_m3_s, third.flow_m3_s) == pytest.approx(
        (15 * L_MIN, 5 * L_MIN, 15 * L_MIN)
    )
    assert (first.starts_s, first.ends_s, third.starts_s, third.ends_s) == (0.0, 240.0, 540.0, None)
    assert third.oxygen_at_end_frac is None
    assert ran.purge.oxygen_after_wait_frac.expected == pytest.approx(mixed((15, 4), (5, 3)))
    # 0.1 % after ln(209.5) volume changes: 60 L have flowed after the first stage, 25 more after the second.
    wanted_l = math.log(209.5) * VOLUME_M3 * 1000.0
    assert wanted_l == pytest.approx(65.7, abs=0.1)
    assert ran.purge.time_to_target_s.expected == pytest.approx(240.0 + (wanted_l - 60.0) / 5.0 * 60.0)
    assert ran.purge.volume_changes_to_target.expected == pytest.approx(math.log(209.5))


def test_the_last_stage_goes_on_for_ever_and_one_that_ends_may_end_too_early():
    early = line(stage("purge", 4.0), wait="2 min")
    assert early.purge.time_to_target_s is NEVER
    assert early.purge.never_because == ("stages-end-first",)
    assert "floor-above-target" not in [each.code for each in early.cautions]
    assert line(stage("purge"), wait="2 min").purge.time_to_target_s.expected == pytest.approx(
        math.log(209.5) * VOLUME_M3 / (15 * L_MIN)
    )


def test_a_pinched_hose_keeps_the_mean_and_a_fallen_line_does_not():
    # Upright with the vent facing up, argon lies still below the air: nothing comes in of itself.
    told = {"section__slope": "90 deg", "wait": "14 min"}
    pinched = line(
        stage("purge", 4.0), stage("pinched hose", 10.0, flow="0 L/min"), stage("recovery"), **told
    )
    assert pinched.purge.oxygen_after_wait_frac.expected == pytest.approx(mixed((15, 4)), rel=1e-9)
    out = line(stage("purge", 4.0), stage("line out", 10.0, opening="8 mm"), stage("recovery"), **told)
    assert out.purge.oxygen_after_wait_frac.expected > 2.0 * mixed((15, 4))
    assert out.purge.stages[1].highest_oxygen_frac == pytest.approx(out.purge.oxygen_after_wait_frac.expected)
    assert out.purge.time_to_target_s.expected > pinched.purge.time_to_target_s.expected


def test_a_section_without_flow_takes_in_air_through_its_vent_by_hand():
    # A vent of 30 mm exchanges without any net flow (two layers, Linden, Annu. Rev. Fluid Mech. 31 (1999) 201), the
    # square of equal area 26.59 mm high: out under g' = 2.696, in under 3.718 m/s2 (9.80665 x 10.983 / 39.948 and
    # / 28.965), equal where z_in = h / (1 + (3.718 / 2.696)^(1/3)); q = Cd h (2/3) sqrt(2 x 3.718) z_in^(3/2).
    side = 0.030 * math.sqrt(math.pi) / 2.0
    in_m = side / (1.0 + (3.718 / 2.696) ** (1.0 / 3.0))
    q = 0.61 * side * (2.0 / 3.0) * math.sqrt(2.0 * 3.718) * in_m**1.5
    ran = line(
        stage("purge", 4.0), stage("pinched hose", 2.0, flow="0 L/min"), stage("recovery"),
        vent__diameter="30 mm", vent__height=0.85, wait="4 min",
    )  # fmt: skip
    start = ran.purge.stages[0].oxygen_at_end_frac.expected
    end = AIR - (AIR - start) * math.exp(-q * 120.0 / VOLUME_M3)
    assert ran.purge.stages[1].oxygen_at_end_frac.expected == pytest.approx(end, rel=0.01)


def test_a_plug_stands_still_while_nothing_flows():
    # By hand: upright, the joint half way up is clear after V / 2 Q = 24.6 s of flow, 15 s of them before the pinch.
    ran = line(
        stage("purge", 0.25), stage("pinched hose", 3.0, flow="0 L/min"), stage("recovery"),
        model="displacement", section__slope="90 deg", wait="1 min",
    )  # fmt: skip
    assert ran.purge.time_to_target_s.expected == pytest.approx(180.0 + VOLUME_M3 / (2 * 15 * L_MIN))
    assert ran.purge.stages[1].highest_oxygen_frac == pytest.approx(AIR)


def test_what_a_pinch_passes_is_no_more_than_the_purge_flow():
    def pinched(open_fraction):
        stages = (
            stage("purge", 4.0),
            stage("pinched hose", 2.0, open_fraction=open_fraction),
            stage("recovery"),
        )
        return line(*stages, wait="4 min").purge.stages[1].flow_m3_s

    # Half open the hose still passes far more than 15 L/min at 2 bar; closed it passes nothing.
    assert pinched(0.5) == pytest.approx(15 * L_MIN)
    assert pinched(0.0) == 0.0
    # Choked through 1 % of 6.35 mm at 3.013 bar: Cd A P sqrt(k M / R T) (2/(k+1))^((k+1)/(2(k-1))), Cd 0.8, k 5/3.
    area = 0.01 * math.pi / 4.0 * 0.00635**2
    flux = 0.8 * 301325.0 * math.sqrt(5 / 3 * 0.039948 / (8.314 * 293.15)) * (2 / (8 / 3)) ** 2
    assert pinched(0.01) == pytest.approx(area * flux / 1.6607, rel=0.02)


def test_a_stage_that_asks_more_than_the_hose_passes_is_told():
    # A hose of 1/4 in bore 30 m long passes more than 15 L/min at 2 bar and less than 300.
    asked = [stage("purge", 4.0), stage("recovery", flow="300 L/min")]
    assert "hose-starves-flow" in [each.code for each in line(*asked, wait="4 min").cautions]
    assert "hose-starves-flow" not in [each.code for each in line(stage("purge"), wait="4 min").cautions]


def test_the_gas_of_a_line_is_that_of_its_stages():
    ran = line(
        stage("purge", 4.0),
        stage("line out", 1.0, opening="8 mm"),
        stage("recovery", 5.0),
        stage("hold", 20.0),
        wait="7 min",
    )
    # 15 L/min for 4 and 2 min before the arc; 3 more minutes of it and 20 of 5 L/min after.
    assert 1000.0 * ran.gas_used.before_arc_m3 == pytest.approx(90.0)
    assert 1000.0 * ran.gas_used.total_m3 == pytest.approx(235.0)
    assert 1000.0 * ran.gas_used.during_arc_m3 == pytest.approx(145.0)
    endless = line(stage("purge", 4.0), stage("hold"), wait="5 min").gas_used
    assert 1000.0 * endless.before_arc_m3 == pytest.approx(65.0)
    assert endless.total_m3 is None


def test_the_meter_s_true_flow_is_that_of_a_purge_and_a_stage_s_own_flow_is_as_given():
    ran = line(
        stage("purge", 4.0), stage("recovery", flow="20 L/min"), wait="5 min",
        flow__purge=None, flow__hold=None, meter={"reads": "15 L/min", "calibrated_for": "AIR"},
    )  # fmt: skip
    # A float meter passes sqrt(28.965 / 39.948) of what its scale for air says.
    assert ran.purge.stages[0].flow_m3_s == pytest.approx(15 * L_MIN * math.sqrt(28.965 / 39.948), rel=1e-3)
    assert ran.purge.stages[1].flow_m3_s == pytest.approx(20 * L_MIN)


def test_stages_with_flows_of_their_own_need_no_purge_flow():
    ran = line(stage("purge", 4.0, flow="15 L/min"), stage("hold"), wait="5 min", flow__purge=None)
    assert ran.purge.oxygen_after_wait_frac.expected == pytest.approx(mixed((15, 4), (5, 1)))
    assert line(stage("purge", 4.0), stage("hold"), wait="5 min", flow__purge=None).purge is None


def test_a_line_that_stays_out_ends_at_air_and_says_why():
    ran = line(stage("purge", 10.0), stage("line out", opening="8 mm"), wait="10 min")
    assert ran.purge.floor_frac == pytest.approx(AIR, rel=1e-6)
    assert ran.purge.time_to_target_s is NEVER
    assert ran.purge.never_because[:2] == ("no-gas-flows", "fallen-line-lets-air-in")
    assert ran.purge.highest_after_wait_frac == pytest.approx(AIR, rel=1e-6)
    assert {"floor-above-target", "oxygen-comes-back"} <= {each.code for each in ran.cautions}


def test_a_last_stage_too_short_for_its_floor_is_no_floor_above_the_target():
    # Without gas a vent of 6 mm fills the section with air in the end, but not in ten minutes.
    ran = line(
        stage("purge", 3.0), stage("pinched hose", 10.0, flow="0 L/min"), target__oxygen="10 %", wait="3 min"
    )
    assert ran.purge.floor_frac == pytest.approx(AIR, rel=1e-6)
    assert ran.purge.time_to_target_s.expected < 180.0
    assert "floor-above-target" not in [each.code for each in ran.cautions]


def test_a_hold_stage_that_lets_air_in_is_a_caution_of_its_own():
    ran = line(
        stage("purge", 8.0), stage("hold", 20.0), wait="8 min", vent__diameter="30 mm", vent__height=0.85,
    )  # fmt: skip
    held = ran.purge.stages[1]
    assert ran.purge.highest_in_hold_frac == held.highest_oxygen_frac > 0.001
    caution = next(each for each in ran.cautions if each.code == "hold-lets-air-in")
    assert dict(caution.facts)["highest_frac"] == held.highest_oxygen_frac


def test_the_trace_runs_over_the_whole_line_with_a_point_at_every_change_and_at_the_wait():
    ran = line(
        stage("purge", 4.0), stage("line out", 1.5, opening="8 mm"), stage("recovery", 5.0), stage("hold", 20.0),
        wait="7.25 min", model="layered",
    )  # fmt: skip
    times = [row[0] for row in ran.purge.trace]
    assert 50 <= len(times) <= 400
    assert times == sorted(times)
    assert (times[0], times[-1]) == (0.0, 1830.0)
    assert {240.0, 330.0, 435.0, 630.0} <= set(times)


@pytest.mark.parametrize("model", ["layered", "perfect mixing", "unstirred layers"])
def test_oxygen_is_continuous_where_one_stage_follows_another(model):
    def at(minutes):
        ran = line(
            stage("purge", 4.0), stage("line out", 2.0, opening="8 mm"), stage("recovery"),
            model=model, wait=f"{minutes!r} min",
        )  # fmt: skip
        return ran.purge.oxygen_after_wait_frac.expected

    for change in (4.0, 6.0):
        for aside in (-1e-9, 1e-9):
            assert at(change + aside) == pytest.approx(at(change), rel=1e-6, abs=1e-8)


def test_what_content_asks_by_name_is_what_the_run_says():
    told = {
        "flow__hold_for": None, "wait": "7 min", "target__oxygen": "0.1 %",
        "flow__stages": [stage("purge", 3.0), stage("line out", 1.0, opening="8 mm"), stage("recovery")],
    }  # fmt: skip
    core, made, ran = CoreResults(POLICY), set_up(**told), run_of(**told)
    assert core.interval(made, "time to target").expected == ran.purge.time_to_target_s.expected > 240.0
    changes = core.interval(made, "volume changes to target")
    assert (changes.expected, changes.upper) == (
        ran.purge.volume_changes_to_target.expected,
        ran.purge.volume_changes_to_target.upper,
    )
    gas_m3 = core.interval(made, "gas to target").expected
    assert gas_m3 == pytest.approx(15 * L_MIN * (ran.purge.time_to_target_s.expected - 60.0))
    assert core.number(made, "floor") == ran.purge.floor_frac
    assert core.number(made, "root oxygen") == ran.purge.oxygen_after_wait_frac.expected
    assert core.number(made, "purge.stages.1.highest_oxygen_ppm") == ran.purge.stages[1].highest_oxygen_frac


def test_forty_stages_fit_into_a_trace():
    stages = [stage("purge", 60.0), stage("hold", 60.0)] * 20
    ran = line(*stages, wait="5 min", model="layered")
    assert 50 <= len(ran.purge.trace) <= 400
    assert len(ran.purge.stages) == 40


def test_a_whole_purge_of_one_stage_is_the_purge_without_stages():
    alone = run_of(flow__hold_for=None, wait="6 min").purge
    staged = run_of(flow__hold_for=None, wait="6 min", flow__stages=[stage("purge")]).purge
    assert staged.time_to_target_s == alone.time_to_target_s
    assert staged.oxygen_after_wait_frac == alone.oxygen_after_wait_frac
    assert staged.floor_frac == alone.floor_frac
    assert staged.trace == alone.trace


def test_the_same_line_in_other_units_is_the_same_run():
    stages = [
        {"kind": "purge", "for": "4 min", "flow": "15 L/min"},
        {"kind": "line out", "for": "1 min", "opening": "0.3 in"},
        {"kind": "recovery"},
    ]
    other = [
        {"kind": "purge", "for": "240 s", "flow": "0.9 m^3/h"},
        {"kind": "line out", "for": "60 s", "opening": "7.62 mm"},
        {"kind": "recovery"},
    ]
    made = [
        run(read_set_up(document(flow__stages=each, flow__hold_for=None, wait="6 min")), policy=POLICY).purge
        for each in (stages, other)
    ]
    assert made[0] == made[1]
