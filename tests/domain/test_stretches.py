"""A purge through stretches of changing set-ups agrees with the core asked directly, and never runs backwards."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.terms import Fan
from trainer.domain.air_chain import air_chain
from trainer.domain.run_purge import purge_course_of
from trainer.domain.set_up_paths import with_values
from trainer.domain.stretches import Stretch, gauge_of, stretched_purge
from trainer.set_up_files import read_set_up

SOUND = read_set_up(
    {
        "material": "austenitic stainless",
        "pipe": {"nps": "8", "schedule": "10S"},
        "section": {"left_dam": "300 mm", "right_dam": "300 mm", "slope": "0 deg"},
        "inlet": {"height": 0.12, "end": "diffuser", "bore": "0.25 in", "face_area": "20 cm^2"},
        "vent": {"height": 0.9, "diameter": "6 mm", "count": 1},
        "joint": {"gap": "2.5 mm", "taped": 1.0},
        "gas": {"symbol": "I1", "oxygen": "5 ppm"},
        "flow": {"purge": "12 L/min"},
        "target": {"oxygen": "0.1 %"},
        "hose": {"bore": "6 mm", "length": "15 m", "inlet_pressure": "0.5 bar"},
        "supply": {"kind": "single cylinder", "water_volume": "50 L", "pressure": "80 bar"},
        "dams": [
            {"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new"},
            {"side": "right", "kind": "foam", "thickness": "100 mm", "age": "new"},
        ],
        "temperature": "20 degC",
    }
)
FITTING = {"leaks.0.where": "hose fitting", "leaks.0.area": 5e-6}
FAULTS = {
    "none": {},
    "kink": {"hose.open_fraction": 0.005},
    "fitting": FITTING,
    "tape": {"leaks.0.where": "joint tape", "leaks.0.area": 70e-6},
    "meter": {"meter.reads": 12 / 6e4, "meter.calibrated_for": "I2"},
    "gas gone": {"supply.pressure": 4e5},
}


def after(*parts: tuple[dict, float]) -> tuple:
    return tuple(Stretch(set_up=with_values(SOUND, patch), lasts_s=lasts_s) for patch, lasts_s in parts)


@pytest.mark.parametrize("fault", ["none", "tape", "meter"])
def test_one_stretch_is_what_the_core_says_of_its_set_up(fault):
    set_up = with_values(SOUND, FAULTS[fault])
    course = stretched_purge((Stretch(set_up=set_up, lasts_s=1200.0),))
    alone = purge_course_of(set_up)

    for time_s in (60.0, 300.0, 1200.0):
        assert course.oxygen_at(time_s)[0] == pytest.approx(alone.purge.oxygen_at(time_s).expected, rel=1e-9)


def test_air_mixed_into_the_gas_ends_where_the_core_ends_that_mixes_it_before_the_inlet():
    set_up = with_values(SOUND, FITTING)
    ends = stretched_purge((Stretch(set_up=set_up, lasts_s=7200.0),)).oxygen_at(7200.0)[0]

    assert ends == pytest.approx(purge_course_of(set_up).purge.floor_o2_frac, rel=0.02)


def test_once_the_fault_is_gone_the_root_comes_to_the_target_as_the_core_alone_says_it_does():
    alone_s = purge_course_of(SOUND).purge.time_to(1e-3).expected
    course = stretched_purge(after((FITTING, 1200.0), ({}, alone_s)))

    assert course.oxygen_at(1200.0)[0] > 1e-3
    assert course.oxygen_at(1200.0 + alone_s)[0] <= 1e-3  # it starts from less air than a full section holds


def test_an_opened_section_purges_from_air_exactly_as_the_first_time():
    opened = (*after((FITTING, 600.0)), Stretch(set_up=SOUND, lasts_s=900.0, opens=True))
    course, alone = stretched_purge(opened), purge_course_of(SOUND).purge

    assert course.oxygen_at(600.0) == pytest.approx((O2_IN_DRY_AIR_FRAC, O2_IN_DRY_AIR_FRAC))
    assert course.oxygen_at(900.0)[0] == pytest.approx(alone.oxygen_at(300.0).expected, rel=1e-9)


def test_a_kinked_hose_lets_less_through_and_an_empty_cylinder_nothing():
    kinked = stretched_purge(after((FAULTS["kink"], 600.0)))
    gone = stretched_purge(after((FAULTS["gas gone"], 3600.0)))

    assert kinked.gas_until_m3(600.0) < 0.5 * stretched_purge(after(({}, 600.0))).gas_until_m3(600.0)
    assert gone.left_at_m3(3600.0) == 0.0
    assert gone.gas_until_m3(3600.0) == gone.gas_until_m3(1800.0)


def test_the_gauge_falls_from_what_it_was_to_the_pressure_that_stays():
    set_up = with_values(SOUND, FAULTS["gas gone"])
    course = stretched_purge((Stretch(set_up=set_up, lasts_s=3600.0),))

    at_first, at_last = (gauge_of(set_up, left_m3=course.left_at_m3(each)) for each in (0.0, 3600.0))
    assert at_first == pytest.approx(4e5, rel=1e-6)
    assert at_last == pytest.approx(2e5, rel=1e-6)  # the default that stays in a cylinder


@settings(deadline=None, max_examples=25)
@given(
    st.lists(st.tuples(st.sampled_from(sorted(FAULTS)), st.floats(10.0, 900.0)), min_size=1, max_size=4),
    st.floats(0.0, 1.0),
    st.floats(0.0, 1.0),
)
def test_more_time_never_takes_less_gas_and_oxygen_stays_between_gas_and_air(line, one, other):
    course = stretched_purge(after(*((FAULTS[name], lasts_s) for name, lasts_s in line)))
    whole_s = math.fsum(lasts_s for _, lasts_s in line)
    early_s, late_s = sorted((one * whole_s, other * whole_s))

    assert course.gas_until_m3(early_s) <= course.gas_until_m3(late_s)
    for each in course.oxygen_at(late_s):
        assert 0.0 <= each <= O2_IN_DRY_AIR_FRAC + 1e-9


def test_the_air_of_a_pit_falls_while_gas_runs_in_and_recovers_when_it_is_shut_and_air_blown_in():
    pit = read_set_up(
        {
            "gas": {"symbol": "I1"},
            "surroundings": {"kind": "pit", "volume": "3.24 m3", "fan": "none", "release": "20 L/min"},
        }
    )
    blown = with_values(
        pit, {"surroundings.release": 0.0, "surroundings.fan": Fan.BLOWS_IN, "surroundings.fan_flow": 0.1}
    )
    chain = air_chain((Stretch(set_up=pit, lasts_s=1800.0), Stretch(set_up=blown, lasts_s=600.0)))

    # by hand, a pit of 3.24 m3 at 20 L/min: 0.209 exp(-20/1000 * 30 / 3.24) = 0.1737
    assert chain.oxygen_at(1800.0)[0] == pytest.approx(0.209 * math.exp(-0.02 * 30 / 3.24), rel=1e-9)
    # then 0.209 - (0.209 - 0.1737) exp(-0.1 * 60 / 3.24), case D of the Fermilab ES&H Manual, chapter 4240
    end = 0.209 - (0.209 - chain.oxygen_at(1800.0)[0]) * math.exp(-0.1 * 60 / 3.24)
    assert chain.oxygen_at(1860.0)[0] == pytest.approx(end, rel=1e-9)
    assert chain.gas_until_m3(2400.0) == pytest.approx(chain.gas_until_m3(1800.0))
