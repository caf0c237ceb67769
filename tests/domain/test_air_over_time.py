"""Air over time: each row is what the run itself says for that time."""

import pytest
from set_up_examples import run_of, set_up

from trainer.domain.air_over_time import air_over_time

PIT = {
    "surroundings": {
        "kind": "pit", "volume": "20 m^3", "floor_area": "10 m^2", "fan": "none", "after": "30 min",
        "release": "20 L/min",
    },
    "scene": {"people": [{"where": "pit", "face_height": "0.3 m"}], "vent_leads_to": "pit"},
}  # fmt: skip


def test_it_runs_to_twice_the_time_asked_for_and_holds_that_time():
    air = air_over_time(set_up(**PIT))
    times = [each.time_s for each in air.moments]
    assert (times[0], times[-1]) == (0.0, 3600.0)
    assert air.after_s == 1800.0
    assert 1800.0 in times


def test_the_row_of_the_time_asked_for_is_the_run():
    air = air_over_time(set_up(**PIT))
    moment = next(each for each in air.moments if each.time_s == air.after_s)
    breathing = run_of(**PIT).breathing
    assert moment.mixed_frac == pytest.approx(breathing.oxygen_mixed_frac)
    assert moment.faces_frac == tuple(each.oxygen_frac for each in breathing.people)


def test_the_mixed_air_falls_as_a_closed_space_does():
    # a space without ventilation: fresh x exp(-release x time / volume), the well-mixed balance; by hand
    air = air_over_time(set_up(**PIT))
    last = air.moments[-1]
    assert last.mixed_frac == pytest.approx(0.209 * 2.718281828 ** (-0.02 * 60 / 20.0), rel=1e-3)


def test_nobody_breathes_better_as_the_gas_goes_on():
    faces = [each.faces_frac[0] for each in air_over_time(set_up(**PIT)).moments]
    assert faces == sorted(faces, reverse=True)


def test_open_air_or_no_time_has_nothing_to_plot():
    assert air_over_time(set_up(surroundings=None)) is None
    assert air_over_time(set_up(surroundings__after=None, wait=None)) is None
