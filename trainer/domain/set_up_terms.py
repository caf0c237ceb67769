"""Words that a set-up is described in, one enumeration each, spelt as people and files spell them."""

from enum import StrEnum


class SupplyKind(StrEnum):
    """Where the purge gas comes from."""

    SINGLE_CYLINDER = "single cylinder"
    CYLINDER_PACK = "cylinder pack"
    LIQUID_DEWAR = "liquid dewar"
    BULK_TANK = "bulk tank"


class DamKind(StrEnum):
    """What closes the section on one side of the joint."""

    FOAM = "foam"
    METAL_PLATE = "metal plate"
    SOLUBLE_PAPER = "soluble paper"
    INFLATABLE = "inflatable"
    TAPE = "tape"


class DamAge(StrEnum):
    """State of a foam dam; old foam crumbles and leaks around its edge."""

    NEW = "new"
    OLD = "old"


class Side(StrEnum):
    """Side of the joint: the inlet goes through the left dam, the vent through the right one."""

    LEFT = "left"
    RIGHT = "right"


class Place(StrEnum):
    """The kind of space around the joint, or the one that the vent gas is led to."""

    OPEN_AIR = "open air"
    ROOM = "room"
    PIT = "pit"
    TRENCH = "trench"
    VESSEL = "vessel"
    PIPE = "pipe"
    VAN = "van"


class AnalyserAt(StrEnum):
    """Where the oxygen analyser draws its sample."""

    VENT = "vent"
    CROWN = "crown"
    INLET = "inlet"


class PathPartKind(StrEnum):
    """What a spool is made of."""

    RUN = "run"
    ELBOW = "elbow"
    REDUCER = "reducer"
    TEE = "tee"
    CAP = "cap"


class StageKind(StrEnum):
    """What happens in one stretch of a purge's time line."""

    PURGE = "purge"
    HOLD = "hold"
    PINCHED_HOSE = "pinched hose"
    LINE_OUT = "line out"
    RECOVERY = "recovery"
