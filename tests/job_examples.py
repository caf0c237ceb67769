"""A job as an instructor types it: a line in a boiler house, purged with argon from a nearly empty cylinder."""

from dataclasses import replace
from typing import Any

from trainer.domain.own_jobs import Asked, AskKind, JobSheet, WrongAnswer

SET_UP: dict[str, Any] = {
    "material": "austenitic stainless",
    "pipe.nps": "6",
    "pipe.schedule": "10S",
    "temperature": "20 degC",
    "section.left_dam": "12 in",
    "section.right_dam": "300 mm",
    "section.slope": "0 deg",
    "dams.0.kind": "foam",
    "dams.0.thickness": "100 mm",
    "dams.1.kind": "foam",
    "dams.1.thickness": "100 mm",
    "joint.gap": "2.5 mm",
    "joint.taped": 1.0,
    "inlet.height": 0.12,
    "inlet.end": "diffuser",
    "inlet.bore": "0.25 in",
    "inlet.face_area": "20 cm^2",
    "vent.height": 0.88,
    "vent.diameter": "6 mm",
    "vent.count": 1,
    "gas.symbol": "I1",
    "gas.oxygen": "5 ppm",
    "flow.purge": "15 L/min",
    "flow.hold": "6 L/min",
    "flow.hold_for": "30 min",
    "wait": "12 min",
    "target.oxygen": "0.1 %",
    "supply.kind": "single cylinder",
    "supply.water_volume": "50 L",
    "supply.count": 1,
    "supply.pressure": "20 bar",
    "supply.stop_pressure": "2 bar",
    "arc.current": "80 A",
    "arc.voltage": "11 V",
    "arc.efficiency": 0.7,
    "arc.travel_speed": "60 mm/min",
    "arc.passes": 1,
    "surroundings.kind": "pit",
    "surroundings.volume": "8 m^3",
    "surroundings.floor_area": "4 m^2",
    "surroundings.release": "15 L/min",
    "surroundings.fan": "none",
    "surroundings.fresh_oxygen": "20.9 %",
}


def wrong(*pairs: tuple[str, str]) -> tuple[WrongAnswer, ...]:
    return tuple(WrongAnswer(answer=answer, belief=belief) for answer, belief in pairs)


# One of each question, each as little filled in as it can be.
QUESTIONS: dict[AskKind, Asked] = {
    **{kind: Asked(kind=kind) for kind in AskKind},
    AskKind.WAIT: Asked(kind=AskKind.WAIT, wrong=wrong(("1 min", "One volume change is enough: it is not."))),
    AskKind.FLOW: Asked(
        kind=AskKind.FLOW,
        wrong=wrong(("0.8 L/min", "A breath of gas is enough."), ("30 L/min", "More is always surer.")),
    ),
    AskKind.GAS: Asked(
        kind=AskKind.GAS,
        wrong=wrong(("R1 ArH-5", "Hydrogen mops up oxygen."), ("N1", "Nitrogen is cheap and clean.")),
    ),
    AskKind.HAZARDS: Asked(
        kind=AskKind.HAZARDS, hazards=("cylinder-loose", "hose-kinked"), innocents=("toolbox", "screen-up")
    ),
    AskKind.OWN: Asked(
        kind=AskKind.OWN,
        text="Who hangs up the permit?",
        skill=9,
        right="The fire watch",
        wrong=wrong(("Nobody", "A board is decoration."), ("The welder", "He is under the hood.")),
    ),
    AskKind.EXPLANATION: Asked(
        kind=AskKind.EXPLANATION,
        text="Why is the vent at the top?",
        skill=4,
        criteria=("Argon is heavier than air", "Where the air goes", "Plain words"),
    ),
}


def sheet(*kinds: AskKind, **changes: Any) -> JobSheet:
    """A job that asks these questions; set-up values by path replace those above, None takes one out."""
    moved = changes.pop("set_up", {})
    said = {path: each for path, each in {**SET_UP, **moved}.items() if each is not None}
    plain = JobSheet(
        title="Feed line",
        place="at the north wall of the boiler house",
        situation="The feed line is dammed and taped. One cylinder of argon stands by.",
        set_up=said,
        asked=tuple(QUESTIONS[each] for each in kinds or (AskKind.WAIT,)),
    )
    return replace(plain, **changes)


# As many questions as a job may have, of every kind of item that a page has to show.
ASKED_TOGETHER = (
    AskKind.GAS, AskKind.DAMS, AskKind.HOLES, AskKind.WAIT, AskKind.COLOUR, AskKind.PRESSURE, AskKind.LASTS,
    AskKind.HAZARDS, AskKind.OWN, AskKind.EXPLANATION,
)  # fmt: skip


def typed(job: JobSheet) -> dict[str, list[str]]:
    """What the form of a page sends for a job, so that it can be opened again."""
    sent = {"title": [job.title], "place": [job.place], "situation": [job.situation]}
    sent |= {path.replace(".", "_"): [str(each)] for path, each in job.set_up.items()}
    for number, asked in enumerate(job.asked):
        name = f"asked-{number}"
        sent |= {f"{name}-kind": [asked.kind.value], f"{name}-text": [asked.text], f"{name}-weight": ["1"]}
        sent |= {f"{name}-right": [asked.right], f"{name}-skill": [str(asked.skill or 9)]}
        for row, each in enumerate(asked.wrong):
            sent |= {f"{name}-wrong-{row}-answer": [each.answer], f"{name}-wrong-{row}-belief": [each.belief]}
        sent |= {f"{name}-criteria-{row}": [each] for row, each in enumerate(asked.criteria)}
        sent |= {f"{name}-hazards": list(asked.hazards), f"{name}-innocents": list(asked.innocents)}
    return sent


def words_typed() -> list[str]:
    """Every sentence that was typed for the jobs above, the longest first."""
    plain = sheet(*AskKind)
    found = [plain.title, plain.place, plain.situation]
    for asked in plain.asked:
        found += [asked.text, asked.right, *asked.criteria]
        found += [words for each in asked.wrong for words in (each.answer, each.belief)]
    return sorted((each for each in found if each), key=len, reverse=True)
