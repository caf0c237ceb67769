"""A spool upside down in helium is the same spool in argon: every layer, vent, leak and dead leg of it."""

from dataclasses import replace

import numpy as np
import pytest
from spool_cases import BORE, spool_case, spool_with_branch, straight_spool

from trainer.core.purge_parts import InLeak
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_column import pool_bottom_m, spool_column
from trainer.core.spool_parts import Elbow, Run
from trainer.core.spool_places import beyond_vents_frac

LEAKS = (
    InLeak(height_frac=None, flow_m3_s=3e-7),
    InLeak(height_frac=0.3, flow_m3_s=1e-7),
    InLeak(height_frac=0.9, flow_m3_s=2e-7, leaves_at_frac=0.25),
)


def _climbing(sign):
    """Up a slope, round an elbow, on along the level: or all of it downwards, for helium."""
    lower, upper = (0.2, 0.85) if sign > 0 else (0.8, 0.15)
    return Spool(
        path=(
            Run(name="up", bore_m=BORE, length_m=0.6, slope_deg=sign * 35.0),
            Elbow(name="turn", bore_m=BORE, bend_radius_m=0.25, angle_deg=35.0, to_slope_deg=0.0),
            Run(name="on", bore_m=BORE, length_m=0.5),
        ),
        inlet_at=Point(part="up", along_frac=0.0, across_frac=lower),
        vents=(
            SpoolVent(at=Point(part="on", along_frac=1.0, across_frac=upper), diameter_m=0.012, count=2),
            SpoolVent(
                at=Point(part="on", along_frac=0.5, across_frac=1.0 if sign > 0 else 0.0), diameter_m=0.006
            ),
        ),
        joint_at=Point(part="up", along_frac=0.6),
    )


def _turned(leak):
    return replace(
        leak,
        height_frac=None if leak.height_frac is None else 1.0 - leak.height_frac,
        leaves_at_frac=None if leak.leaves_at_frac is None else 1.0 - leak.leaves_at_frac,
    )


def test_each_array_of_the_layers_is_the_same_upside_down():
    argon = spool_case(_climbing(1.0), leaks=LEAKS)
    helium = spool_case(_climbing(-1.0), symbol="I2", leaks=tuple(_turned(leak) for leak in LEAKS))
    up, down = (spool_column(case, body=case.spool.pieces) for case in (argon, helium))
    for name in (
        "edge_m",
        "volume_m3",
        "exchange_length_m",
        "supply_frac",
        "exit_frac",
        "leak_m3_s",
        "returned_m3_s",
        "root_weight_frac",
    ):
        ours, theirs = np.sort(getattr(up, name), axis=0), np.sort(getattr(down, name), axis=0)
        assert ours == pytest.approx(theirs, abs=1e-9), name
        if name != "root_weight_frac":
            assert getattr(up, name) == pytest.approx(getattr(down, name), abs=1e-9), name
    assert (up.is_turned_over, down.is_turned_over) == (False, True)
    assert beyond_vents_frac(argon.spool, gas_sinks=True) == pytest.approx(
        beyond_vents_frac(helium.spool, gas_sinks=False)
    )


def test_openings_of_a_spool_lie_at_the_heights_that_geometry_says():
    case = spool_case(_climbing(1.0), leaks=LEAKS)
    column = spool_column(case, body=case.spool.pieces)
    bottom_m = pool_bottom_m(case, body=case.spool.pieces)
    middle = (column.edge_m[1:] + column.edge_m[:-1]) / 2.0
    # exits share by area: twice 12 mm squared against 6 mm squared, 8 to 1
    end, crown = (case.spool.height_m(vent.at) - bottom_m for vent in case.spool.vents)
    expected = (8.0 * end + min(crown, column.edge_m[-1] - column.edge_m[1] / 2.0)) / 9.0
    assert (column.exit_frac * middle).sum() == pytest.approx(expected, abs=2e-3)
    assert column.exit_frac.sum() == pytest.approx(1.0)
    # the ring around its own axis, the two points at their shares of the height
    joint = case.spool.height_m(case.spool.joint_at) - bottom_m
    tall = column.edge_m[-1]
    leaked = (column.leak_m3_s * middle).sum()
    assert leaked == pytest.approx(3e-7 * joint + 1e-7 * 0.3 * tall + 2e-7 * 0.9 * tall, rel=5e-3)
    returned = (column.returned_m3_s * middle).sum()
    assert returned == pytest.approx(2e-7 * 0.25 * tall, rel=1e-6)
    heights = column.root_weight_frac @ middle
    half = BORE / 2.0 * np.cos(np.radians(35.0))
    assert (heights.min(), heights.max()) == pytest.approx((joint - half, joint + half), abs=5e-3)


def test_the_ring_of_a_gap_spans_the_bore_as_it_leans():
    case = spool_case(replace(straight_spool(0.0), joint_at=Point(part="run")), leaks=LEAKS[:1])
    column = spool_column(case, body=case.spool.pieces)
    # level: the lowest and highest layer hold the arcs of a 32nd of the bore each, arccos(1 - 2/32) / pi
    ends = np.arccos(1.0 - 2.0 / 32.0) / np.pi
    assert column.leak_m3_s[[0, -1]] / 3e-7 == pytest.approx([ends, ends], rel=0.2)
    assert column.leak_m3_s == pytest.approx(column.leak_m3_s[::-1])
    assert column.leak_m3_s.sum() == pytest.approx(3e-7)
    assert column.leak_m3_s[:16].argmax() == 0


def test_a_branch_that_hangs_in_helium_is_the_dead_leg_that_stands_in_argon():
    (standing,) = purge_spool(spool_case(spool_with_branch(90.0))).dead_legs
    hanging_spool = spool_with_branch(-90.0)
    hanging_spool = replace(
        hanging_spool,
        inlet_at=replace(hanging_spool.inlet_at, across_frac=1.0 - 0.015 / BORE),
        vents=tuple(replace(vent, at=replace(vent.at, across_frac=0.075)) for vent in hanging_spool.vents),
    )
    (hanging,) = purge_spool(spool_case(hanging_spool, symbol="I2")).dead_legs
    assert (hanging.place, hanging.mouth) == (standing.place, standing.mouth)
    assert hanging.length_m == pytest.approx(standing.length_m)
    assert hanging.volume_m3 == pytest.approx(standing.volume_m3)
    assert hanging.mouth_above_m == pytest.approx(standing.mouth_above_m)
    # the mouth is the top of a piece of the tee, within the outlet's reach above the run's bottom
    assert BORE <= standing.mouth_above_m <= BORE / 2.0 + 0.143 + BORE / 2.0
