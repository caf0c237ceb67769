"""Spools laid out by hand: where each piece lies, the straight section that stands for the body, the dead legs."""

import math
from dataclasses import replace

import numpy as np
import pytest
from spool_cases import BORE, spool_case, spool_with_branch, straight_spool

from trainer.core.gas import diffusivity_in_air_m2_s, gas
from trainer.core.purge_parts import InLeak
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, Tee
from trainer.core.spool_piece import Piece
from trainer.core.spool_pieces import spool_pieces
from trainer.core.terms import PurgeModel

LEVEL = Run(name="run", bore_m=BORE, length_m=0.5)


def _part(name, *path):
    return [piece for piece in spool_pieces((LEVEL, *path)) if piece.part == name]


def _spool(*path, vent):
    return Spool(
        path=path,
        inlet_at=Point(part=path[0].name, along_frac=0.0, across_frac=0.015 / BORE),
        vents=(vent,),
        joint_at=Point(part=path[0].name),
    )


def test_pieces_lie_evenly_along_their_part_whatever_it_is():
    elbow = Elbow(name="bend", bore_m=BORE, bend_radius_m=0.2286, angle_deg=90.0, to_slope_deg=90.0)
    cone = Reducer(name="cone", bore_m=BORE, other_bore_m=0.1082, length_m=0.14)
    for name, part in (("bend", elbow), ("cone", cone)):
        pieces = _part(name, part)
        evenly = (np.arange(len(pieces)) + 0.5) / len(pieces)
        assert [piece.part_frac for piece in pieces] == pytest.approx(evenly)
        assert len({piece.length_m for piece in pieces}) == 1
    # the axis of the bend turns by as much in each piece: half a piece at first
    turned = [piece.slope_deg for piece in _part("bend", elbow)]
    step_deg = 90.0 / len(turned)
    assert turned == pytest.approx([(number + 0.5) * step_deg for number in range(len(turned))])


def test_a_cap_s_flange_lies_before_its_head():
    cap = Cap(name="cap", bore_m=0.16, straight_flange_m=0.04)
    flange, *head = _part("cap", replace(LEVEL, bore_m=0.16, name="on"), cap)
    # head d/4 = 40 mm deep, as long as the flange: the flange's middle is a quarter of the way
    assert (flange.length_m, flange.part_frac) == (0.04, pytest.approx(0.25))
    evenly = 0.5 + (np.arange(len(head)) + 0.5) / len(head) / 2.0
    assert [piece.part_frac for piece in head] == pytest.approx(evenly)
    assert [piece.bore_m for piece in head] == sorted((piece.bore_m for piece in head), reverse=True)
    without = _part("cap", replace(LEVEL, bore_m=0.16, name="on"), replace(cap, straight_flange_m=0.0))
    assert len(without) == len(head)
    assert sum(piece.volume_m3 for piece in without) == pytest.approx(math.pi / 24.0 * 0.16**3)


def test_a_tilted_bend_turns_between_the_slopes_of_its_ends():
    elbow = Elbow(name="bend", bore_m=BORE, bend_radius_m=0.3, angle_deg=60.0, to_slope_deg=45.0)
    rises = [math.sin(math.radians(piece.slope_deg)) for piece in _part("bend", elbow)]
    # spherical interpolation between a level direction and one of 45 degrees that lie 60 degrees apart
    shares = (np.arange(len(rises)) + 0.5) / len(rises)
    by_hand = np.sin(shares * math.pi / 3) / math.sin(math.pi / 3) * math.sin(math.pi / 4)
    assert rises == pytest.approx(by_hand)


def test_a_branch_starts_at_the_middle_of_its_tee():
    tee = Tee(name="tee", bore_m=BORE, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=90.0)
    pieces = spool_pieces((LEVEL, tee))
    run = [number for number, piece in enumerate(pieces) if piece.part == "tee"]
    outlet = [piece for piece in pieces if piece.part == "tee outlet"]
    assert outlet[0].before == run[len(run) // 2]
    assert outlet[-1].start_m + outlet[-1].climb_m == pytest.approx(0.143)
    assert all(piece.slope_deg == 90.0 for piece in outlet)
    assert [piece.part_frac for piece in outlet] == pytest.approx(
        (np.arange(len(outlet)) + 0.5) / len(outlet)
    )


def test_a_piece_knows_its_heights_its_slices_and_what_lies_below():
    def piece(slope_deg):
        return Piece(
            part="p", bore_m=0.2, length_m=1.0, slope_deg=slope_deg, start_m=1.0, part_frac=0.5, before=-1
        )

    level, upright, falling = piece(0.0), piece(90.0), piece(-30.0)
    assert (level.lowest_m, level.highest_m) == pytest.approx((0.9, 1.1))
    assert (upright.lowest_m, upright.highest_m) == pytest.approx((1.0, 2.0))
    # 1 m at 30 degrees falls by 0.5 m; the leaning bore is 0.2 cos 30
    assert falling.climb_m == pytest.approx(-0.5)
    half = 0.1 * math.sqrt(3.0) / 2.0
    assert (falling.lowest_m, falling.highest_m) == pytest.approx((0.5 - half, 1.0 + half))
    at = np.array([0.0, 1.0, 3.0])
    # half a bore is below its axis; an upright pipe is empty at its start; the chord at the axis is the bore
    assert level.volume_below_m3(at) == pytest.approx(np.array([0.0, 0.5, 1.0]) * math.pi / 4 * 0.04)
    assert level.slice_area_m2(at) == pytest.approx(np.array([0.0, 0.2, 0.0]))
    discs = upright.slice_area_m2(np.array([0.9, 1.5, 2.1]))
    assert discs == pytest.approx(np.array([0.0, math.pi / 4 * 0.04, 0.0]))
    assert upright.volume_below_m3(np.array([1.25])) == pytest.approx(math.pi / 4 * 0.04 * 0.25)
    # through its middle a sloping pipe's slice is an ellipse cut short by neither end: pi/4 d^2 / sin 30
    assert falling.slice_area_m2(np.array([0.75])) == pytest.approx(math.pi / 4 * 0.04 / 0.5)
    assert falling.volume_below_m3(np.array([0.75])) == pytest.approx(math.pi / 4 * 0.04 / 2.0)
    assert falling.slice_area_m2(np.array([0.4, 1.2])).tolist() == [0.0, 0.0]


def test_a_point_lies_where_its_part_is_and_beyond_no_end():
    riser = Run(name="riser", bore_m=BORE, length_m=0.8, slope_deg=90.0)
    spool = Spool(
        path=(riser,),
        inlet_at=Point(part="riser", along_frac=0.0),
        vents=(SpoolVent(at=Point(part="riser", along_frac=1.0), diameter_m=0.006),),
    )
    for along in (0.0, 0.13, 0.5, 0.77, 1.0):
        assert spool.height_m(Point(part="riser", along_frac=along)) == pytest.approx(0.8 * along)
    level = straight_spool(0.0)
    for across in (0.0, 0.25, 1.0):
        height = level.height_m(Point(part="run", along_frac=0.3, across_frac=across))
        assert height == pytest.approx((across - 0.5) * BORE)
    assert level.volume_m3 == pytest.approx(math.pi / 4 * BORE**2 * 0.6)


# --- the straight section that stands for the body -------------------------------------------------------------


def test_the_body_is_told_temperature_model_leaks_and_the_highest_vent():
    vent = SpoolVent(at=Point(part="run", along_frac=1.0, across_frac=0.9), diameter_m=0.019, count=3)
    spool = replace(straight_spool(0.0), vents=(vent,))
    leaks = (InLeak(height_frac=0.5, flow_m3_s=1e-7),)
    case = spool_case(
        spool, temperature_k=310.0, model=PurgeModel.DISPLACEMENT, leaks=leaks, source_o2_frac=5e-6
    )
    body = purge_spool(case).body.case
    assert (body.temperature_k, body.model, body.leaks) == (310.0, PurgeModel.DISPLACEMENT, leaks)
    assert (body.vent.count, body.vent.diameter_m, body.vent.height_frac) == (3, 0.019, 0.9)
    assert (body.source_o2_frac, body.section.bore_m) == (5e-6, BORE)
    assert body.section.length_m == pytest.approx(0.6)
    assert purge_spool(case).case is case


def test_a_vent_at_the_very_top_is_brought_inside_the_bore():
    vent = SpoolVent(at=Point(part="run", along_frac=1.0, across_frac=1.0), diameter_m=0.0161)
    body = purge_spool(spool_case(replace(straight_spool(0.0), vents=(vent,)))).body.case
    # the radius of the hole is a twentieth of the bore
    assert body.vent.height_frac == pytest.approx(0.95)
    low = SpoolVent(at=Point(part="run", along_frac=1.0, across_frac=0.0), diameter_m=0.0161)
    body = purge_spool(spool_case(replace(straight_spool(0.0), vents=(low,)))).body.case
    assert body.vent.height_frac == pytest.approx(0.05)


def test_overall_slope_is_that_from_inlet_to_vent_along_the_way():
    for slope_deg in (-30.0, 0.0, 12.0, 90.0):
        body = purge_spool(spool_case(straight_spool(slope_deg))).body.case
        assert body.section.slope_deg == pytest.approx(slope_deg)
    down = Run(name="down", bore_m=BORE, length_m=1.0, slope_deg=-20.0)
    turn = Elbow(name="turn", bore_m=BORE, bend_radius_m=0.2, angle_deg=20.0, to_slope_deg=0.0)
    on = Run(name="on", bore_m=BORE, length_m=1.0)
    vent = SpoolVent(at=Point(part="on", along_frac=1.0, across_frac=0.9), diameter_m=0.019)
    body = purge_spool(spool_case(_spool(down, turn, on, vent=vent))).body.case
    # about one metre falling of two: asin(sin 20 / 2) is 9.8 degrees down
    assert body.section.slope_deg == pytest.approx(-9.8, abs=0.4)


@pytest.mark.parametrize(("symbol", "up"), [("I1", 90.0), ("I2", -90.0)])
def test_a_dead_leg_has_the_size_of_its_branch_and_its_mouth_at_the_top_of_the_run(symbol, up):
    case = spool_case(spool_with_branch(up), symbol=symbol)
    (leg,) = purge_spool(case).dead_legs
    beyond_m3 = math.pi / 4 * BORE**2 * 0.4 + math.pi / 24 * BORE**3
    assert beyond_m3 < leg.volume_m3 < beyond_m3 + math.pi / 4 * BORE**2 * 0.143
    assert 0.4 + BORE / 4 < leg.length_m < 0.4 + BORE / 4 + 0.143
    assert leg.place == "cap"
    assert leg.mouth_above_m == pytest.approx(BORE, rel=0.6)
    assert leg.diffusivity_m2_s == diffusivity_in_air_m2_s(gas(symbol), temperature_k=293.15)
    warm = replace(case, temperature_k=320.0, source_o2_frac=1e-5)
    (leg,) = purge_spool(warm).dead_legs
    assert leg.diffusivity_m2_s == diffusivity_in_air_m2_s(gas(symbol), temperature_k=320.0)
    assert leg.source_o2_frac == 1e-5


def test_air_at_a_height_of_the_body_is_that_of_its_layer():
    body = purge_spool(spool_case(straight_spool(0.0))).body
    times_s = np.array([20.0, 60.0])
    heights, oxygen = body.profile(20.0)
    for height_m, o2_frac in zip(heights, oxygen, strict=True):
        assert body.air_frac_at(float(height_m), times_s=times_s)[0] == pytest.approx(
            o2_frac / 0.2095, abs=0.03
        )
    top, bottom = (body.air_frac_at(height_m, times_s=times_s) for height_m in (BORE, 0.0))
    assert top.shape == (2,)
    assert (top > bottom).all()
    assert body.air_frac_at(9.0, times_s=times_s).tolist() == top.tolist()
    assert body.air_frac_at(-1.0, times_s=times_s).tolist() == bottom.tolist()
    plug = purge_spool(spool_case(straight_spool(0.0), model=PurgeModel.DISPLACEMENT)).body
    # without a joint every height counts: the plug has passed them all after the volume change of 48.9 s
    assert plug.air_frac_at(0.1, times_s=np.array([40.0, 50.0])).tolist() == [1.0, 0.0]
