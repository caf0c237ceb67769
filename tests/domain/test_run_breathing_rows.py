"""What a set-up does to the air around it, against the reference rows."""

import math

import pytest
from air_examples import ROWS_OF_AIR, TANK_M3, air_of, fanned, people_at, still

_TRENCH, _VESSEL, _ROOM = "3.24 m^3", "3 m^3", "15 m^3"
_PIPE_M3 = math.pi / 4 * 0.762**2 * 12.192


def _percent(surroundings):
    return 100 * air_of(surroundings).oxygen_mixed_frac


def _minutes(surroundings, level):
    return getattr(air_of(surroundings), f"time_to_{level}_s") / 60


def _extract(release):
    room = {"kind": "room", "volume": _ROOM, "fan": "draws out", "release": release}
    return 60 * air_of(room).ventilation_needed_m3_s


def _blown_minutes():
    """The vessel brought to 12 % by 20 L/min first, then blown out with 1 m3/min."""
    to_12_min = 3000 / 20 * math.log(20.9 / 12)
    vessel = still("vessel", _VESSEL, after=f"{60 * to_12_min!r} s", blower="1 m^3/min")
    return air_of(vessel).ventilated_s / 60


def _pooled(**more):
    return air_of(still("trench", _TRENCH, floor_area="2.7 m^2", **more))


def _reaches_kneeling():
    trench = still("trench", "30 m^3", floor_area="2.7 m^2")
    (kneeling,) = air_of(trench, scene=people_at(("trench", "0.5 m"))).people
    return kneeling.time_to_6_s / 60


# Rows of atmosphere_checks.csv that a set-up can ask, each in the row's own unit.
_ROWS = {
    "A-01": lambda: _percent(still("trench", _TRENCH)),
    "A-02": lambda: _percent(still("trench", _TRENCH, "100 L/min")),
    "A-03": lambda: _percent(still("vessel", _VESSEL)),
    "A-04": lambda: _percent(still("vessel", _VESSEL, "10 L/min", "60 min")),
    "A-05": lambda: _percent(still("room", _ROOM, "30 L/min", "120 min")),
    "A-06": lambda: _percent(still("vessel", f"{_PIPE_M3!r} m^3", after="60 min")),
    "A-07": lambda: _minutes(still("trench", _TRENCH), "19_5"),
    "A-08": lambda: _minutes(still("trench", _TRENCH), "18"),
    "A-09": lambda: _minutes(still("trench", _TRENCH), "16"),
    "A-10": lambda: _minutes(still("trench", _TRENCH), "10"),
    "A-11": lambda: _minutes(still("vessel", _VESSEL), "19_5"),
    "A-12": lambda: _minutes(still("vessel", _VESSEL), "18"),
    "A-13": lambda: _minutes(still("vessel", _VESSEL), "16"),
    "A-14": lambda: _minutes(still("vessel", _VESSEL), "10"),
    "A-15": lambda: _minutes(still("room", _ROOM, "100 L/min"), "19_5"),
    "A-16": lambda: _minutes(still("room", _ROOM, "100 L/min"), "18"),
    "A-17": lambda: _minutes(still("room", _ROOM, "100 L/min"), "16"),
    "A-18": lambda: _minutes(still("room", _ROOM, "100 L/min"), "10"),
    "A-19": lambda: _percent(fanned("blows in", "1.5 m^3/min", _ROOM, "50 L/min")),
    "A-20": lambda: 100 * air_of(fanned("blows in", "1.5 m^3/min", _ROOM, "50 L/min")).steady_frac,
    "A-21": lambda: _percent(fanned("draws out", "1.5 m^3/min", _ROOM, "50 L/min")),
    "A-22": lambda: 100 * air_of(fanned("draws out", "1.5 m^3/min", _ROOM, "50 L/min")).steady_frac,
    "A-23": lambda: _minutes(fanned("blows in", "0.5 m^3/min", _VESSEL, "100 L/min"), "19_5"),
    "A-24": lambda: _percent(fanned("draws out", "0.05 m^3/min", _VESSEL, "100 L/min", "30 min")),
    "A-25": lambda: _extract("20 L/min"),
    "A-26": lambda: _extract("100 L/min"),
    "A-27": lambda: air_of(still("room", _ROOM)).air_changes_needed_per_h,
    "A-41": _blown_minutes,
    "A-42": lambda: _pooled().pool_depth_m,
    "A-43": _reaches_kneeling,
    "A-45": lambda: _percent(still("vessel", f"{TANK_M3!r} m^3", "30 L/min", "60 min")),
    "A-47": lambda: 100 * air_of(fanned("draws out", "57 m^3/min", _ROOM, "100 L/min")).steady_frac,
}


@pytest.mark.parametrize("row_id", list(_ROWS))
def test_a_set_up_answers_the_reference_rows(row_id):
    assert ROWS_OF_AIR[row_id].holds(_ROWS[row_id]())
