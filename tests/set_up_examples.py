"""The set-up that most tests of set-ups and runs start from, and the default policy."""

import copy
from typing import Any

from trainer.domain.purge_run import PurgeRun
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.scenario_files.policy_file import DEFAULT_POLICY, load_policy
from trainer.set_up_files import read_set_up

POLICY = load_policy(DEFAULT_POLICY)

# NPS 6 10S, 300 mm to each dam, gentle inlet low, vent high: nothing about it is unsafe.
BASE: dict[str, Any] = {
    "material": "austenitic stainless",
    "pipe": {"nps": "6", "schedule": "10S"},
    "section": {"left_dam": "300 mm", "right_dam": "300 mm", "slope": "0 deg"},
    "inlet": {"height": 0.1, "end": "diffuser", "bore": "0.25 in", "face_area": "15 cm^2"},
    "vent": {"height": 0.95, "diameter": "6 mm", "count": 1},
    "joint": {"gap": "3 mm", "taped": 1.0},
    "gas": {"symbol": "I1", "oxygen": "5 ppm"},
    "flow": {"purge": "15 L/min", "hold": "5 L/min", "hold_for": "25 min"},
    "target": {"oxygen": "0.1 %"},
    "wait": "6 min",
    "hose": {"bore": "0.25 in", "length": "30 m", "inlet_pressure": "2 bar"},
    "supply": {"kind": "single cylinder", "water_volume": "50 L", "pressure": "200 bar", "count": 1},
    "dams": [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new"}],
    "arc": {"current": "80 A", "voltage": "11 V", "efficiency": 0.7, "travel_speed": "60 mm/min", "passes": 1},
    "temperature": "20 degC",
    "surroundings": {
        "kind": "room", "volume": "100 m^3", "floor_area": "40 m^2", "fan": "none", "after": "30 min",
    },
}  # fmt: skip

# Changes that make a spool of the base set-up: a level run, a tee with a capped riser and no vent on it, a run.
A_RISER_WITHOUT_VENT: dict[str, Any] = {
    "section": {
        "path": [
            {"name": "first", "part": "run", "length": "500 mm"},
            {
                "name": "tee", "part": "tee", "length": "286 mm", "outlet": "143 mm", "slope": "90 deg",
                "branch": [
                    {"name": "riser", "part": "run", "length": "400 mm"},
                    {"name": "cap", "part": "cap"},
                ],
            },
            {"name": "last", "part": "run", "length": "500 mm"},
        ],
    },
    "inlet__at": "first", "inlet__along": 0, "vent__at": "last", "vent__along": 1,
    "joint__at": "first", "joint__along": 0.5,
}  # fmt: skip


# Up a riser, along the level, down again, the vent at the foot of the leg: the gas has to cross the top.
OVER_THE_TOP: dict[str, Any] = {
    "section": {
        "path": [
            {"name": "up", "part": "run", "length": "1 m", "slope": "90 deg"},
            {"name": "shoulder", "part": "elbow", "angle": "90 deg", "bend_radius": "229 mm", "slope": "0 deg"},
            {"name": "top", "part": "run", "length": "2 m"},
            {"name": "far shoulder", "part": "elbow", "angle": "90 deg", "bend_radius": "229 mm", "slope": "-90 deg"},
            {"name": "down", "part": "run", "length": "1 m"},
        ],
    },
    "dams": None,
    "inlet__at": "up", "inlet__along": 0, "inlet__height": 0.5,
    "vent__at": "down", "vent__along": 1, "vent__height": 0.5,
}  # fmt: skip


def document(**changes: Any) -> dict[str, Any]:
    """The base set-up as a file holds it; a key with two underscores reaches into a part, None takes it out."""
    made = copy.deepcopy(BASE)
    for name, value in changes.items():
        part_name, _, key = name.partition("__")
        owner = made if not key else made.setdefault(part_name, {})
        if value is None:
            owner.pop(key or part_name, None)
        else:
            owner[key or part_name] = copy.deepcopy(value)
    return made


def set_up(**changes: Any) -> SetUp:
    """The base set-up, read."""
    return read_set_up(document(**changes))


def run_of(**changes: Any) -> PurgeRun:
    """The run of the base set-up under the default policy."""
    return run(set_up(**changes), policy=POLICY)


def codes(**changes: Any) -> list[str]:
    """The cautions of the base set-up, by code."""
    return [each.code for each in run_of(**changes).cautions]
