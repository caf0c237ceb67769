"""Spaces with gas let into them, people in them, and what they breathe."""

import math

from reference_rows import reference_rows
from set_up_examples import set_up

from trainer.domain.run_breathing import breathing_result

FRESH = 0.209
ROWS_OF_AIR = reference_rows("atmosphere_checks")
TANK_M3 = math.pi / 4 * 1.2**2 * 22.0  # a lying tank, 22 m long


def air_of(surroundings, **changes):
    return breathing_result(set_up(surroundings=surroundings, **changes))


def still(kind, volume, release="20 L/min", after="30 min", **more):
    return {"kind": kind, "volume": volume, "fan": "none", "release": release, "after": after, **more}


def fanned(fan, flow, volume, release, after="60 min"):
    return {**still("vessel", volume, release, after), "fan": fan, "fan_flow": flow}


def people_at(*people):
    return {"people": [{"where": where, "face_height": height} for where, height in people]}


PIT = still("pit", "12 m^3", "15 L/min", "81 min", floor_area="6 m^2")


DEWAR = {
    "kind": "liquid dewar",
    "water_volume": "180 L",
    "pressure": "9 bar",
    "fill": 0.95,
    "daily_loss": "3 %",
}


def standing(kind="van", **more):
    return {"kind": kind, "volume": "10 m^3", "floor_area": "5 m^2", "fan": "none", "after": "8 h", **more}
