"""The kinds of single change to a set-up, and what a maker of changes yields."""

from collections.abc import Iterator, Mapping
from enum import StrEnum
from typing import Any


class ChangeKind(StrEnum):
    """What is changed."""

    VENT_TO_POOL_END = "vent to the side where air gathers"
    INLET_TO_GAS_SIDE = "inlet to the side where gas gathers"
    DIFFUSER = "diffuser"
    DAMS_NEARER = "dams nearer"
    DAMS_FARTHER = "dams farther"
    LIFT_VENT_END = "lift the vent's end"
    MORE_FLOW = "more purge flow"
    LESS_FLOW = "less purge flow"
    MORE_HOLD = "more hold flow"
    LESS_HOLD = "less hold flow"
    TAPE_JOINT = "tape the joint"
    CLOSE_LEAKS = "close the leaks"
    PURER_GAS = "purer gas"
    ARGON = "argon"
    WAIT_LONGER = "wait longer"
    LARGER_VENT = "larger vent"
    SMALLER_VENT = "smaller vent"
    CLEAR_VENT = "clear the vent"
    VENT_AT_HIGH_POINT = "vent at the high point"
    SOUND_HOSE = "sound hose"
    WIDER_HOSE = "wider hose"
    NEW_FOAM = "new foam"
    VENTILATE = "ventilate"
    VENT_OUTSIDE = "lead the vent outside"
    SUPPLY_OUTSIDE = "supply outside"
    MORE_CYLINDERS = "more cylinders"


Changes = Iterator[tuple[ChangeKind, Mapping[str, Any]]]
