"""Spools: paths that fit together, high points, and the purge of what the gas reaches."""

import math
from dataclasses import replace

import numpy as np
import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN, base_case
from spool_cases import BORE, spool_case, spool_with_branch, straight_spool

from trainer.core.dilution import InLeak, PurgeModel, purge
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.purge_parts import FlowSegment
from trainer.core.spool import BODY, purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_column import spool_column
from trainer.core.spool_parts import Cap, Elbow, Run, Tee


@pytest.mark.parametrize("slope_deg", [0.0, 2.0, 10.0, -5.0, 45.0, 90.0, -90.0])
def test_a_spool_of_one_run_is_purged_as_the_straight_section(slope_deg):
    spool = purge_spool(spool_case(straight_spool(slope_deg)))
    straight = purge(base_case(slope_deg=slope_deg))
    assert spool.dead_legs == ()
    assert spool.worst(0.001).place == BODY
    for o2_frac in (0.01, 0.001):
        # Layers of another depth.
        assert spool.body.time_to(o2_frac).expected == pytest.approx(
            straight.time_to(o2_frac).expected, rel=0.03
        )


def test_no_spool_was_simulated_and_the_interval_says_so():
    spool, straight = purge_spool(spool_case(straight_spool(0.0))).body, purge(base_case())
    assert any(reason.startswith("spool") for reason in spool.beyond_tested_range)
    wide, narrow = spool.time_to(0.01), straight.time_to(0.01)
    assert math.log(wide.upper / wide.lower) == pytest.approx(2.0 * math.log(narrow.upper / narrow.lower))
    assert spool.vent_margin_ratio is None


def test_a_capped_riser_is_a_dead_leg_that_needs_hours():
    course = purge_spool(spool_case(spool_with_branch(90.0)))
    (leg,) = course.dead_legs
    assert (leg.place, leg.mouth) == ("cap", "tee")
    # By hand: from the run's crown to the cap's end, less what the outlet loses inside the run.
    assert leg.length_m == pytest.approx(0.143 - 0.0805 * 8 / (3 * math.pi) + 0.4 + BORE / 4.0, rel=0.02)
    assert leg.time_to(0.001) > 3600.0
    worst = course.worst(0.001)
    assert worst.place == "cap"
    assert worst.time.expected >= leg.time_to(0.001)
    assert course.time_to(0.001) == worst.time
    assert course.body.time_to(0.001).expected < 600.0


@pytest.mark.parametrize("outlet_slope_deg", [0.0, -90.0, -45.0])
def test_a_branch_that_does_not_climb_holds_no_argon_back(outlet_slope_deg):
    assert purge_spool(spool_case(spool_with_branch(outlet_slope_deg))).dead_legs == ()


def test_a_branch_that_hangs_down_is_the_dead_leg_of_a_gas_that_rises():
    assert [
        leg.place for leg in purge_spool(spool_case(spool_with_branch(-90.0), symbol="I2")).dead_legs
    ] == ["cap"]
    assert purge_spool(spool_case(spool_with_branch(90.0), symbol="I2")).dead_legs == ()


def test_a_vent_on_the_riser_makes_it_part_of_the_body():
    vent = SpoolVent(at=Point(part="cap", along_frac=1.0), diameter_m=0.006)
    course = purge_spool(spool_case(spool_with_branch(90.0, further_vents=(vent,))))
    assert course.dead_legs == ()
    assert course.worst(0.001).place == BODY


def test_each_unvented_high_point_is_found_with_its_place():
    def riser(name):
        return Tee(
            name=name,
            bore_m=0.1,
            run_length_m=0.2,
            outlet_m=0.1,
            outlet_slope_deg=90.0,
            branch=(Run(name=f"{name} riser", bore_m=0.1, length_m=0.3, slope_deg=90.0),),
        )

    spool = Spool(
        path=(Run(name="start", bore_m=0.1, length_m=0.4), riser("a"), riser("b"), riser("c")),
        inlet_at=Point(part="start", along_frac=0.0, across_frac=0.2),
        vents=(SpoolVent(at=Point(part="b riser", along_frac=1.0), diameter_m=0.006),),
    )
    legs = purge_spool(spool_case(spool)).dead_legs
    assert sorted(leg.place for leg in legs) == ["a riser", "c riser"]


def test_an_arch_between_inlet_and_vent_is_crossed_and_one_beyond_the_vent_is_dead():
    def bend(name, to_slope_deg):
        return Elbow(name=name, bore_m=0.1, bend_radius_m=0.15, angle_deg=90.0, to_slope_deg=to_slope_deg)

    path = (
        Run(name="start", bore_m=0.1, length_m=0.5),
        bend("foot", 90.0),
        Run(name="up", bore_m=0.1, length_m=0.5, slope_deg=90.0),
        bend("shoulder", 0.0),
        Run(name="arch", bore_m=0.1, length_m=0.4),
        bend("far shoulder", -90.0),
        Run(name="down", bore_m=0.1, length_m=0.5, slope_deg=-90.0),
        bend("far foot", 0.0),
        Run(name="end", bore_m=0.1, length_m=0.5),
    )
    spool = Spool(
        path=path,
        inlet_at=Point(part="start", along_frac=0.0, across_frac=0.2),
        vents=(SpoolVent(at=Point(part="end", along_frac=1.0, across_frac=0.9), diameter_m=0.006),),
    )
    course = purge_spool(spool_case(spool))
    (high,) = course.crossed
    assert (course.dead_legs, high.place) == ((), "arch")
    # By hand: the arch, and of both shoulders what lies less than half a bore below it.
    assert 0.4 < high.length_m < 0.4 + 2.0 * 0.15 * math.pi / 2.0
    near = replace(
        spool, vents=(SpoolVent(at=Point(part="start", along_frac=0.9, across_frac=0.9), diameter_m=0.006),)
    )
    (leg,) = purge_spool(spool_case(near)).dead_legs
    assert leg.place == "arch"
    # By hand: two risers, four quarter bends, the arch, and the end run that hangs on it.
    assert leg.length_m == pytest.approx(0.5 + 0.5 + 0.4 + 0.5 + 4.0 * 0.15 * math.pi / 2.0, abs=0.2)
    assert purge_spool(spool_case(near)).crossed == ()
    vented = replace(spool, vents=(SpoolVent(at=Point(part="arch", across_frac=1.0), diameter_m=0.006),))
    assert purge_spool(spool_case(vented)).dead_legs == ()


def test_the_inlet_s_own_high_point_is_stirred_by_what_falls_out_of_it():
    spool = replace(spool_with_branch(90.0), inlet_at=Point(part="cap", along_frac=1.0))
    assert purge_spool(spool_case(spool)).dead_legs == ()


def test_vents_share_the_outflow_by_area_at_their_own_heights():
    low = SpoolVent(at=Point(part="first", along_frac=0.5, across_frac=0.2), diameter_m=0.019)
    spool = spool_with_branch(0.0)
    one, two = (
        purge_spool(spool_case(each)).body.time_to(0.01).expected
        for each in (spool, replace(spool, vents=(*spool.vents, low)))
    )
    assert two > 1.3 * one


@tried(60)
@given(
    slope_deg=st.floats(-90.0, 90.0),
    outlet_share=st.floats(-1.0, 1.0),
    symbol=st.sampled_from(["I1", "I2", "N1"]),
    leak_frac=st.sampled_from([0.0, 0.05]),
)
def test_gas_in_is_gas_out_and_gas_stored_in_the_body(slope_deg, outlet_share, symbol, leak_frac):
    outlet_slope_deg = outlet_share * (90.0 - abs(slope_deg))  # as steep as at right angles it can be
    tee = Tee(
        name="tee",
        bore_m=0.1,
        run_length_m=0.2,
        outlet_m=0.1,
        outlet_slope_deg=outlet_slope_deg,
        branch=(Run(name="branch", bore_m=0.1, length_m=0.3, slope_deg=outlet_slope_deg),),
    )
    spool = Spool(
        path=(Run(name="one", bore_m=0.1, length_m=0.5, slope_deg=slope_deg), tee),
        inlet_at=Point(part="one", along_frac=0.0, across_frac=0.2),
        vents=(SpoolVent(at=Point(part="tee", along_frac=1.0, across_frac=0.8), diameter_m=0.006),),
        joint_at=Point(part="one"),
    )
    flow = 15.0 * L_MIN
    leaks = (InLeak(height_frac=None, flow_m3_s=leak_frac * flow),)
    course = purge_spool(spool_case(spool, symbol=symbol, leaks=leaks))
    volume = course.body.case.section.volume_m3
    dead = sum(leg.volume_m3 for leg in course.dead_legs)
    assert volume + dead == pytest.approx(spool.volume_m3, rel=1e-9)
    edges = np.concatenate(([0.0], np.geomspace(1e-5, 3.0, 40))) * course.body.volume_change_s
    points, weights = np.polynomial.legendre.leggauss(10)
    half = np.diff(edges)[:, np.newaxis] / 2.0
    times = (edges[:-1, np.newaxis] + half * (1.0 + points)).ravel()
    out = flow * (1.0 + leak_frac) * float((half * weights).ravel() @ course.body.trace(times)[:, 2]) / 0.2095
    stored = volume * course.body.mean_oxygen_at(edges[-1]) / 0.2095
    assert volume + leak_frac * flow * edges[-1] == pytest.approx(out + stored, rel=1e-5)


@pytest.mark.parametrize("model", list(PurgeModel))
def test_every_model_answers_for_a_spool_with_a_dead_leg(model):
    course = purge_spool(spool_case(spool_with_branch(90.0), model=model))
    assert course.body.time_to(0.001).expected > 0.0
    assert course.worst(0.001).place == "cap"


def test_a_dead_leg_is_not_cleared_by_a_purge_of_some_minutes():
    segments = (FlowSegment(flow_m3_s=15.0 * L_MIN, duration_s=900.0),)
    course = purge_spool(spool_case(spool_with_branch(90.0), segments=segments))
    assert course.body.time_to(0.01) is not None
    assert course.worst(0.01).time is None
    assert course.time_to(0.01) is None


@pytest.mark.parametrize(
    ("path", "quantity"),
    [
        ((Cap(name="cap", bore_m=0.1),), "slope of cap"),
        (
            (
                Run(name="a", bore_m=0.1, length_m=1.0),
                Run(name="b", bore_m=0.1, length_m=1.0, slope_deg=45.0),
            ),
            "slope of b",
        ),
        (
            (
                Run(name="a", bore_m=0.1, length_m=1.0),
                Elbow(name="e", bore_m=0.1, bend_radius_m=0.15, angle_deg=45.0, to_slope_deg=90.0),
            ),
            "angle of e",
        ),
        ((Run(name="a", bore_m=0.1, length_m=1.0), Cap(name="a", bore_m=0.1)), "parts named a"),
        ((), "number of parts"),
    ],
)
def test_a_path_that_does_not_fit_together_is_refused_by_the_part(path, quantity):
    vents = (SpoolVent(at=Point(part="a"), diameter_m=0.006),)
    with pytest.raises(OutOfRange) as refused:
        Spool(path=path, inlet_at=Point(part="a"), vents=vents)
    assert refused.value.quantity == quantity


def test_points_vents_and_leaks_that_cannot_be_are_refused():
    run = (Run(name="run", bore_m=0.1, length_m=1.0),)
    vent = SpoolVent(at=Point(part="run"), diameter_m=0.006)
    with pytest.raises(UnknownName, match="elsewhere"):
        Spool(path=run, inlet_at=Point(part="elsewhere"), vents=(vent,))
    with pytest.raises(OutOfRange, match="number of vents"):
        Spool(path=run, inlet_at=Point(part="run"), vents=())
    with pytest.raises(OutOfRange, match="vent hole"):
        Spool(path=run, inlet_at=Point(part="run"), vents=(replace(vent, diameter_m=0.2),))
    with pytest.raises(OutOfRange, match="place on a part"):
        Point(part="run", along_frac=1.5)
    jointless = Spool(path=run, inlet_at=Point(part="run"), vents=(vent,))
    with pytest.raises(OutOfRange, match="height of the leak"):
        spool_case(jointless, leaks=(InLeak(height_frac=None, flow_m3_s=1e-7),))


@pytest.mark.parametrize("symbol", ["I1", "I2"])
def test_upright_runs_end_to_end_leave_no_face_between_layers_without_area(symbol):
    run = Run(name="a", bore_m=0.1, length_m=0.05, slope_deg=-90.0)
    path = (run, replace(run, name="b"), replace(run, name="c", length_m=0.06))
    vents = (SpoolVent(at=Point(part="a", along_frac=0.0), diameter_m=0.005),)
    case = spool_case(Spool(path=path, inlet_at=Point(part="a", along_frac=0.0), vents=vents), symbol=symbol)
    column = spool_column(case, body=case.spool.pieces)
    # Every slice of an upright pipe is its bore: A / dz.
    assert column.exchange_length_m * column.edge_m[1] == pytest.approx(math.pi / 4.0 * 0.1**2)
