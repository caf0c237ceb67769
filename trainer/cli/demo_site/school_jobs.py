"""The school's own jobs, as instructors type them: one that apprentices practise, one still a draft."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any
from uuid import UUID

from trainer.domain.own_jobs import Asked, AskKind, JobSheet, WrongAnswer
from trainer.domain.people import Acting
from trainer.domain.quantities import FieldKind
from trainer.domain.set_up_paths import spec_at
from trainer.services import own_jobs
from trainer.services.own_jobs import Draft
from trainer.services.site import Site

# What both jobs have in common: the school's foam, fittings, gas and machine.
_SCHOOL: Mapping[str, Any] = MappingProxyType(
    {
        "temperature": "18 degC",
        "section.left_dam": "300 mm",
        "section.right_dam": "300 mm",
        "section.slope": "0 deg",
        "dams.0.kind": "foam",
        "dams.0.thickness": "100 mm",
        "dams.1.kind": "foam",
        "dams.1.thickness": "100 mm",
        "joint.taped": 1.0,
        "inlet.height": 0.15,
        "inlet.end": "diffuser",
        "inlet.bore": "6 mm",
        "inlet.face_area": "20 cm^2",
        "vent.height": 0.85,
        "vent.count": 1,
        "gas.symbol": "I1",
        "gas.oxygen": "5 ppm",
        "supply.kind": "single cylinder",
        "supply.count": 1,
        "supply.stop_pressure": "2 bar",
        "arc.voltage": "11 V",
        "arc.efficiency": 0.7,
        "arc.passes": 1,
    }
)


def _wrong(*pairs: tuple[str, str]) -> tuple[WrongAnswer, ...]:
    return tuple(WrongAnswer(answer=answer, belief=belief) for answer, belief in pairs)


WASH_LINE = JobSheet(
    title="Wash line",
    place="in the valve pit at slip 2",
    situation=(
        "The wash line of slip 2 gets a new valve, and its last joint lies in the valve pit. The line is "
        "dammed with foam on both sides and taped. One cylinder of argon stands up on the slip, and the "
        "vent hose leads out of the pit."
    ),
    set_up=MappingProxyType(
        {
            **_SCHOOL,
            "material": "austenitic stainless",
            "pipe.nps": "4",
            "pipe.schedule": "10S",
            "joint.gap": "2.5 mm",
            "vent.diameter": "6 mm",
            "flow.purge": "10 L/min",
            "flow.hold": "6 L/min",
            "flow.hold_for": "25 min",
            "wait": "6 min",
            "target.oxygen": "0.1 %",
            "supply.water_volume": "50 L",
            "supply.pressure": "60 bar",
            "arc.current": "75 A",
            "arc.travel_speed": "60 mm/min",
            "scene.vent_leads_to": "open air",
            "surroundings.kind": "pit",
            "surroundings.volume": "9 m^3",
            "surroundings.floor_area": "6 m^2",
        }
    ),
    asked=(
        Asked(kind=AskKind.HOLES),
        Asked(
            kind=AskKind.WAIT,
            weight=2.0,
            wrong=_wrong(
                ("30 s", "One volume change and the air is out: air and argon mix, it takes several."),
            ),
            note="At the school nobody strikes on the clock alone: the analyser at the crown has to agree.",
        ),
        Asked(
            kind=AskKind.GAUGE,
            wrong=_wrong(
                ("5 bar", "A small line takes hardly any gas: the hold takes more than the purge did."),
            ),
        ),
        Asked(
            kind=AskKind.HAZARDS,
            hazards=("meter-at-hatch", "cylinder-loose", "hose-kinked"),
            innocents=("vent-hose-out", "attendant", "ladder-tied", "kneeling-mat", "toolbox"),
        ),
        Asked(
            kind=AskKind.OWN,
            text="The attendant is called away while you weld down in the pit. What do you do?",
            skill=11,
            critical=True,
            right="Stop, come up and shut the argon off until somebody stands at the opening again",
            wrong=_wrong(
                (
                    "Finish the pass: the vent hose takes the argon out of the pit",
                    "The hose takes all of it: a loose fitting or the joint lets argon into the pit, too.",
                ),
                (
                    "Carry on and keep an eye on the meter",
                    "The meter is enough: whoever goes faint down there needs somebody who calls for help.",
                ),
                (
                    "Ask the attendant to leave the radio on the edge of the pit",
                    "A radio is as good as a man: without oxygen nobody gets to press the button.",
                ),
            ),
            note=(
                "The permit and local rules go before this. Common practice, no source: nobody is down in a "
                "pit alone while gas runs."
            ),
        ),
    ),
)

CR_MO_SPOOL = JobSheet(
    title="Steam spool",
    place="on the stands in the yard's pipe hall",
    situation=(
        "A spool of chromium-molybdenum steel for a small boiler lies on the stands, two joints of it still "
        "open. The heating mats are not on yet; the foam stands clear of where they go, and one cylinder of "
        "argon is connected."
    ),
    set_up=MappingProxyType(
        {
            **_SCHOOL,
            "material": "chromium-molybdenum",
            "pipe.nps": "6",
            "pipe.schedule": "80",
            "section.left_dam": "500 mm",
            "section.right_dam": "500 mm",
            "joint.gap": "3 mm",
            "vent.diameter": "8 mm",
            "flow.purge": "15 L/min",
            "flow.hold": "8 L/min",
            "flow.hold_for": "40 min",
            "wait": "8 min",
            "target.oxygen": "0.5 %",
            "supply.water_volume": "50 L",
            "supply.pressure": "14 bar",
            "arc.current": "90 A",
            "arc.travel_speed": "70 mm/min",
        }
    ),
    asked=(
        Asked(
            kind=AskKind.GAS,
            wrong=_wrong(
                ("R1 ArH-5", "Hydrogen cleans the root: in this steel it cracks it."),
                ("N1", "Nitrogen is cheap and inert enough: it goes into the root of this steel."),
            ),
        ),
        Asked(
            kind=AskKind.FLOW,
            wrong=_wrong(
                ("5 L/min", "Any flow gets there in the time: a third of the flow takes far longer."),
                ("25 L/min", "More is always surer: it costs gas and presses on the bead."),
            ),
        ),
        Asked(kind=AskKind.PRESSURE),
        Asked(kind=AskKind.LASTS),
        Asked(
            kind=AskKind.EXPLANATION,
            text="Why do you turn the flow down before the joint closes, and not shut the vent?",
            skill=5,
            criteria=(
                "With the joint closed all the gas has to go through the vent, so the pressure rises",
                "Pressure under a small pool blows it out at the last inch",
                "Gas stays on until the root has cooled",
            ),
        ),
    ),
)


def publish(site: Site, instructor: Acting) -> str:
    """Writes the job for practice and gives it out; returns the name of its family."""
    job_id = _written(site, instructor, WASH_LINE)
    own_jobs.publish_job(site, instructor, job_id=job_id, version=1)
    return own_jobs.job_versions(site, instructor, job_id=job_id).summary.family


def write_draft(site: Site, instructor: Acting) -> None:
    """Writes the other one and leaves it at that."""
    _written(site, instructor, CR_MO_SPOOL)


def _written(site: Site, instructor: Acting, sheet: JobSheet) -> UUID:
    return own_jobs.make_job(site, instructor, draft=Draft(sheet=sheet, typed=typed(sheet)))


def typed(sheet: JobSheet) -> dict[str, list[str]]:
    """What the form sends for a job, so that it opens again as it was filled in."""
    sent = {"title": [sheet.title], "place": [sheet.place], "situation": [sheet.situation]}
    for path, told in sheet.set_up.items():
        sent |= _typed_value(path, told)
    for number, asked in enumerate(sheet.asked):
        sent |= {f"asked-{number}-{name}": each for name, each in _typed_question(asked).items()}
    return sent


def _typed_value(path: str, told: Any) -> dict[str, list[str]]:
    """A number in its box and the unit chosen beside it; what has no unit stands alone."""
    name = path.replace(".", "_")
    if spec_at(path).kind is not FieldKind.MEASURED:
        return {name: [f"{told:g}" if isinstance(told, float) else str(told)]}
    number, unit = told.split(" ")
    return {name: [number], f"{name}-unit": [unit]}


def _typed_question(asked: Asked) -> dict[str, list[str]]:
    sent = {
        "kind": [asked.kind.value],
        "text": [asked.text],
        "weight": [f"{asked.weight:g}"],
        "skill": [str(asked.skill or 9)],  # the list has no blank line; only some kinds are asked for one
        "right": [asked.right],
        "note": [asked.note],
        "hazards": list(asked.hazards),
        "innocents": list(asked.innocents),
    }
    if asked.critical:
        sent["critical"] = ["y"]
    for row, wrong in enumerate(asked.wrong):
        sent |= {f"wrong-{row}-answer": [wrong.answer], f"wrong-{row}-belief": [wrong.belief]}
    return sent | {f"criteria-{row}": [each] for row, each in enumerate(asked.criteria)}
