"""Own jobs: what an instructor types about a real job, with the questions to be asked about it."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Any

from trainer.domain.family_given import GIVEN
from trainer.domain.set_up_terms import Side

# What the worked solution of an own question says, by which it is known from what the core has answered.
OWN_ANSWER = "The right answer is the instructor's own, not the core's"


class JobState(StrEnum):
    """Whether apprentices meet a job: not yet, or as it was published, or no more unless it was given."""

    DRAFT = "draft"
    PUBLISHED = "published"
    WITHDRAWN = "withdrawn"


class AskKind(StrEnum):
    """What can be asked about a job."""

    WAIT = "purge time"
    FLOW = "flow"
    LASTS = "supply lasts"
    GAUGE = "gauge at least"
    DAMS = "place of dams"
    HOLES = "place of inlet and vent"
    TRACE = "oxygen trace"
    PRESSURE = "pressure gauge"
    COLOUR = "root colour"
    GAS = "choice of gas"
    HAZARDS = "hazards"
    LEAVE = "time to leave"
    FAN = "fan"
    OWN = "own question"
    EXPLANATION = "explanation"


@dataclass(frozen=True, kw_only=True)
class WrongAnswer:
    """A wrong answer that people give, as it is written in a family file, and the belief behind it."""

    answer: str
    belief: str


@dataclass(frozen=True, kw_only=True)
class Asked:
    """One question; which of the last fields count hangs on its kind, and no text means the usual one."""

    kind: AskKind
    text: str = ""
    weight: float = 1.0
    critical: bool = False
    skill: int = 0
    right: str = ""
    wrong: tuple[WrongAnswer, ...] = ()
    note: str = ""  # added to the worked solution
    hazards: tuple[str, ...] = ()
    innocents: tuple[str, ...] = ()
    criteria: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class JobSheet:
    """A job as it was typed; `set_up` by path, amounts as texts with their unit."""

    title: str
    place: str
    situation: str
    set_up: Mapping[str, Any]
    asked: tuple[Asked, ...]

    @property
    def sides(self) -> Mapping[str, str]:
        """The sides of the dams, which the form does not ask for: the first is the inlet's."""
        has_dams = any(path.startswith("dams.") for path in self.set_up)
        return {"dams.0.side": Side.LEFT.value, "dams.1.side": Side.RIGHT.value} if has_dams else {}


# The fields of the form by group: paths of the set-up, each with its label. What is told as a fact carries it
# too; what is taken as given anyway is named as it is everywhere.
JOB_FIELDS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "Pipe": {
            "material": "Material",
            "pipe.nps": "Nominal pipe size (NPS)",
            "pipe.schedule": "Schedule",
            "pipe.outside_diameter": "Outside diameter",
            "pipe.wall": "Wall",
            "temperature": GIVEN["temperature"],
        },
        "Section and dams": {
            "section.left_dam": "Joint to the dam on the inlet's side",
            "section.right_dam": "Joint to the dam on the vent's side",
            "section.slope": "Slope, up from inlet to vent",
            "dams.0.kind": "Dam on the inlet's side",
            "dams.0.thickness": "Thickness of the dam on the inlet's side",
            "dams.1.kind": "Dam on the vent's side",
            "dams.1.thickness": "Thickness of the dam on the vent's side",
            "joint.gap": "Root gap",
            "joint.taped": "Share of the joint under tape, 0 to 1",
        },
        "Inlet and vent": {
            "inlet.height": "Height of the inlet (0 lowest, 1 highest)",
            "inlet.end": "End of the inlet",
            "inlet.bore": GIVEN["inlet.bore"],
            "inlet.face_area": GIVEN["inlet.face_area"],
            "vent.height": "Height of the vent (0 lowest, 1 highest)",
            "vent.diameter": "Diameter of a vent hole",
            "vent.count": "Number of vent holes",
        },
        "Gas and flow": {
            "gas.symbol": "Gas by ISO 14175",
            "gas.composition": "Composition, where the symbol is a range",
            "gas.oxygen": GIVEN["gas.oxygen"],
            "flow.purge": "Purge flow",
            "flow.hold": "Hold flow while welding",
            "flow.hold_for": "Time for root and hot pass",
            "flow.after_for": "Gas on after the weld for",
            "wait": "Time from gas on to the arc",
            "target.oxygen": "Oxygen at arc strike, at most",
        },
        "Hose and supply": {
            "hose.bore": GIVEN["hose.bore"],
            "hose.length": GIVEN["hose.length"],
            "hose.inlet_pressure": GIVEN["hose.inlet_pressure"],
            "supply.kind": "Supply",
            "supply.water_volume": "Volume of one cylinder or vessel",
            "supply.count": "Number of cylinders",
            "supply.pressure": "Pressure of the supply",
            "supply.stop_pressure": GIVEN["supply.stop_pressure"],
            "supply.fill": "Share of the vessel full of liquid, 0 to 1",
        },
        "Arc": {
            "arc.current": GIVEN["arc.current"],
            "arc.voltage": GIVEN["arc.voltage"],
            "arc.efficiency": f"{GIVEN['arc.efficiency']}, 0 to 1",
            "arc.travel_speed": GIVEN["arc.travel_speed"],
            "arc.passes": "Passes",
            "arc.between_passes": "From the start of one pass to the next",
        },
        "Surroundings": {
            "scene.vent_leads_to": "The vent hose leads to",
            "surroundings.kind": "Space around the joint",
            "surroundings.volume": "Volume of the space",
            "surroundings.floor_area": "Floor of the space",
            "surroundings.release": "Gas that goes into the space",
            "surroundings.after": "Gas has gone into the space for",
            "surroundings.fan": "Fan",
            "surroundings.fan_flow": "Flow of the fan",
            "surroundings.fresh_oxygen": GIVEN["surroundings.fresh_oxygen"],
        },
    }
)
LABELS: Mapping[str, str] = MappingProxyType(
    {path: label for group in JOB_FIELDS.values() for path, label in group.items()}
)
# Shares of a whole are typed as numbers and told as words: the label, the word for all of it, and for a part,
# whose place takes the per cent of it.
SHARES_TOLD: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {
        "joint.taped": ("Tape on the joint", "all round", "over %(share)s% of it"),
        "supply.fill": ("Liquid in the vessel", "full", "%(share)s% full"),
    }
)

_PURGE = (
    "section.left_dam", "section.right_dam", "inlet.height", "inlet.end", "vent.height", "vent.diameter",
    "gas.symbol", "flow.purge",
)  # fmt: skip
_SUPPLY = ("supply.kind", "supply.water_volume", "supply.pressure", "supply.stop_pressure")
_HOLD = ("flow.purge", "flow.hold", "flow.hold_for", "wait")
_SPACE = ("surroundings.kind", "surroundings.volume", "surroundings.release", "surroundings.fan")

# What each question needs the set-up to say; the core says the rest.
NEEDS: Mapping[AskKind, tuple[str, ...]] = MappingProxyType(
    {
        AskKind.WAIT: (*_PURGE, "target.oxygen"),
        AskKind.FLOW: (*_PURGE, "target.oxygen", "wait"),
        AskKind.LASTS: (*_SUPPLY, *_HOLD),
        AskKind.GAUGE: (*_SUPPLY, *_HOLD),
        AskKind.DAMS: (
            "section.left_dam", "section.right_dam", "dams.0.kind", "dams.1.kind", "arc.current",
            "arc.voltage", "arc.efficiency", "arc.travel_speed",
        ),
        AskKind.HOLES: (*_PURGE, "target.oxygen"),
        AskKind.TRACE: (*_PURGE, "target.oxygen"),
        AskKind.PRESSURE: ("supply.kind", "supply.pressure"),
        AskKind.COLOUR: (*_PURGE, "wait"),
        AskKind.GAS: ("gas.symbol",),
        AskKind.HAZARDS: (),
        AskKind.LEAVE: _SPACE,
        AskKind.FAN: _SPACE,
        AskKind.OWN: (),
        AskKind.EXPLANATION: (),
    }
)  # fmt: skip

# One question gives away the answer of the other.
GIVES_AWAY: tuple[tuple[AskKind, AskKind], ...] = ((AskKind.WAIT, AskKind.TRACE),)
ALWAYS_NEEDED = ("material",)
