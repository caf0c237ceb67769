"""Two readings of the analyser: time still to wait, the sign of a floor, and oxygen that rises."""

import math

import pytest
from set_up_examples import POLICY, codes, run_of, set_up

from trainer.domain.quantities import NEVER
from trainer.domain.run_set_up import run
from trainer.wording.cautions import caution_words


def readings(*minutes_and_oxygen):
    return [{"after": f"{minutes!r} min", "oxygen": oxygen} for minutes, oxygen in minutes_and_oxygen]


def of(*minutes_and_oxygen, uncertainty="5 %", **changes):
    return {
        "readings": readings(*minutes_and_oxygen),
        "analyser": {"uncertainty": uncertainty},
        "wait": "6 min",
    } | changes


# A set-up of which no more is known than its readings.
_ALONE = dict.fromkeys(
    ("pipe", "section", "inlet", "vent", "joint", "flow", "hose", "supply", "dams", "arc", "surroundings")
)


def test_a_decade_a_minute_by_hand_where_nothing_else_is_known():
    still = run_of(**of((5, "10 %"), (6, "1 %"), **_ALONE)).readings
    # ln 10 = 2.302585; sqrt(2) 0.05 = 0.070711; ln 9.5 = 2.251292, ln 10.5 = 2.351375.
    assert still.wait_still_s.expected == pytest.approx(60.0)
    assert still.wait_still_s.lower == pytest.approx(60.0 * 2.251292 / 2.373296, rel=1e-6)
    assert still.wait_still_s.upper == pytest.approx(60.0 * 2.351375 / 2.231874, rel=1e-6)
    assert still.floor_reached is False
    assert still.floor_frac is None


def test_the_last_two_readings_count():
    three = run_of(**of((1, "20 %"), (5, "10 %"), (6, "1 %"), **_ALONE)).readings
    assert three == run_of(**of((5, "10 %"), (6, "1 %"), **_ALONE)).readings


def test_with_the_purge_known_its_own_slowest_mode_tells_a_floor_from_a_fall():
    # By hand, mixed: rate Q / V = 15 L/min / 12.29 L = 1.2204 a minute; over a minute e^-1.2204 = 0.2951 is left.
    # 1000 to 905 ppm: f = (905 - 295.1) / 0.7049 = 865 ppm, above the target of 500.
    told = {"model": "perfect mixing", "target__oxygen": "500 ppm"}
    stuck = run_of(**of((8, "1000 ppm"), (9, "905 ppm"), uncertainty="2 %", **told))
    left = math.exp(-0.015 / (math.pi / 4.0 * 0.1615**2 * 0.6))
    assert stuck.readings.floor_frac == pytest.approx((905e-6 - 1000e-6 * left) / (1.0 - left), rel=1e-3)
    assert stuck.readings.floor_reached
    assert stuck.readings.wait_still_s is NEVER
    assert "floor-reached" in [each.code for each in stuck.cautions]
    falling = run_of(
        **of(
            (8, "1000 ppm"),
            (9, "300 ppm"),
            uncertainty="2 %",
            target__oxygen="100 ppm",
            model="perfect mixing",
        )
    )
    assert not falling.readings.floor_reached
    # ln(3) at ln(1000 / 300) a minute, the readings' own fall.
    assert falling.readings.wait_still_s.expected == pytest.approx(
        60.0 * math.log(3.0) / math.log(1000.0 / 300.0)
    )
    assert "floor-reached" not in [each.code for each in falling.cautions]


def test_readings_too_near_in_time_are_no_floor_where_the_purge_is_known():
    near = of((8.0, "1000 ppm"), (8.02, "990 ppm"), target__oxygen="100 ppm")
    assert not run_of(**near, model="perfect mixing").readings.floor_reached
    assert run_of(**near, **_ALONE).readings.floor_reached


def test_a_floor_below_the_target_is_no_reason_for_a_caution():
    low = of((8, "900 ppm"), (9, "895 ppm"), target__oxygen="0.2 %", **_ALONE)
    assert run_of(**low).readings.floor_reached
    assert run_of(**low).readings.wait_still_s.expected == 0.0
    assert "floor-reached" not in codes(**low)


def test_oxygen_that_rises_is_a_leak_or_an_interruption_and_no_fault():
    rising = of((8, "900 ppm"), (9, "1500 ppm"), **_ALONE)
    found = run_of(**rising)
    assert found.readings.wait_still_s is NEVER
    caution = next(each for each in found.cautions if each.code == "oxygen-rising")
    assert "rose from 900 ppm to 0.15 %" in caution_words(caution, str).text
    assert "floor-reached" not in codes(**rising)
    # A rise that two readings of 5 % may show by themselves, e^(sqrt(2) 0.05) = 1.073, is a floor.
    assert "oxygen-rising" not in codes(**of((8, "900 ppm"), (9, "960 ppm"), **_ALONE))
    assert "oxygen-rising" in codes(**of((8, "900 ppm"), (9, "970 ppm"), **_ALONE))


def test_readings_on_either_side_of_a_line_that_fell_out_show_the_rise():
    stages = [
        {"kind": "purge", "for": "5 min"},
        {"kind": "line out", "for": "1 min", "opening": "8 mm"},
        {"kind": "recovery"},
    ]
    found = run_of(**of((4.5, "900 ppm"), (6.5, "1.2 %"), flow__stages=stages, flow__hold_for=None))
    assert "oxygen-rising" in [each.code for each in found.cautions]


def test_readings_of_one_stage_go_by_that_stage_s_rate():
    stages = [{"kind": "purge", "for": "5 min"}, {"kind": "hold"}]
    told = of(
        (8, "1000 ppm"), (8.05, "990 ppm"), flow__stages=stages, flow__hold_for=None, model="perfect mixing"
    )
    still = run_of(**told, target__oxygen="500 ppm").readings
    # Too near to show a fall of their own: ln(990 / 500) at 5 L/min / 12.29 L.
    rate = 5.0 / 60_000.0 / (math.pi / 4.0 * 0.1615**2 * 0.6)
    assert still.wait_still_s.expected == pytest.approx(math.log(990 / 500) / rate, rel=1e-3)


def test_an_analyser_at_the_vent_flatters_its_last_reading_too():
    told = of((3, "2 %"), (4, "1 %"), wait=None, scene={"analyser_at": "vent"}, vent__height=0.5)
    assert "vent-reading-flatters" in codes(**told)


def test_readings_in_other_units_say_the_same():
    one = run_of(**of((5, "10 %"), (6, "1000 ppm"))).readings
    two = run(
        set_up(
            readings=[{"after": "300 s", "oxygen": "100000 ppm"}, {"after": "0.1 h", "oxygen": "0.1 %"}],
            analyser={"uncertainty": "50000 ppm"},
            wait="6 min",
        ),
        policy=POLICY,
    ).readings
    assert one.wait_still_s.expected == pytest.approx(two.wait_still_s.expected, rel=1e-9)
    assert one.wait_still_s.upper == pytest.approx(two.wait_still_s.upper, rel=1e-9)
