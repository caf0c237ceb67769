"""Reads a diagnosis of a family file: the causes, and the checks, actions, waits and ends offered."""

from collections.abc import Mapping
from typing import Any

from trainer.domain.diagnosis_parts import SOUND, Ending, MoveKind, Shows, Watched
from trainer.domain.diagnosis_templates import CauseTemplate, DiagnosisTemplate, MoveTemplate
from trainer.scenario_files.parts_file import flat_set_up
from trainer.scenario_files.tables import Table

LEAST_CAUSES = 3


def read_diagnosis(table: Table) -> dict[str, Any]:
    """The template, and under `sets` every path that a cause touches: none of them is shown."""
    causes = tuple(_cause(each) for each in table.tables("cause", required=True))
    known = {each.id for each in causes}
    moves = tuple(
        _move(each, kind, known)
        for kind in MoveKind
        for each in table.tables(kind.value, required=kind in (MoveKind.CHECK, MoveKind.FINISH))
    )
    diagnosis = DiagnosisTemplate(
        draw=table.text("draw"),
        watches=Watched(table.one_of("watches", [each.value for each in Watched], default="root")),
        causes=causes,
        moves=moves,
        limit=table.value("limit"),
        faulty_for=table.value("faulty_for"),
        sound_for=table.value("sound_for", required=False),
    )
    _check(diagnosis, table)
    return {
        "diagnosis": diagnosis,
        "sets": tuple(dict.fromkeys(path for each in causes for path in each.set_up)),
    }


def _check(diagnosis: DiagnosisTemplate, table: Table) -> None:
    if len(diagnosis.causes) < LEAST_CAUSES:
        table.fault("cause", f"a diagnosis has at least {LEAST_CAUSES} causes to choose between")
    for name, ids in (
        ("cause", [each.id for each in diagnosis.causes]),
        ("check", [each.id for each in diagnosis.moves]),
    ):
        if len(set(ids)) < len(ids):
            table.fault(name, "two have one id")
    for each in diagnosis.causes:
        if not any(each.id in move.cures and not move.critical for move in diagnosis.moves):
            table.fault("action", f"no action cures {each.id}")
    kinds = {each.kind for each in diagnosis.moves}
    if diagnosis.watches is Watched.ROOT and MoveKind.WAIT not in kinds:
        table.fault("wait", "is missing: the oxygen takes time to come down")
    if not any(each.ending is not None and each.ending.is_aim for each in diagnosis.moves):
        table.fault("finish", "none of them is what all is for (strike or out)")


def _cause(table: Table) -> CauseTemplate:
    cause = CauseTemplate(
        id=table.text("id"),
        words=table.text("words"),
        set_up=flat_set_up(table.mapping("set_up"), table),
        sample_air=table.value("sample_air", required=False),
        span=table.span(),
    )
    if not cause.set_up and cause.sample_air is None:
        table.fault("set_up", "a cause changes the set-up, or lets air into the analyser's line (sample_air)")
    table.close()
    return cause


def _move(table: Table, kind: MoveKind, causes: set[str]) -> MoveTemplate:
    when: Mapping[str, Any] = table.mapping("when")
    parts: dict[str, Any] = {
        "id": table.text("id"),
        "text": table.text("text"),
        "takes": table.value("takes"),
        "when": {name: tuple(map(str, words)) for name, words in when.items()},
        "span": table.span(),
    }
    if kind is MoveKind.CHECK:
        parts |= _check_parts(table, causes)
    if kind is MoveKind.ACTION:
        parts |= _action_parts(table, causes)
    if kind is MoveKind.FINISH:
        parts["ending"] = Ending(table.one_of("ending", [each.value for each in Ending]))
    table.close()
    return MoveTemplate(kind=kind, **parts)


def _check_parts(table: Table, causes: set[str]) -> dict[str, Any]:
    seen = {cause: str(words) for cause, words in table.mapping("seen").items()}
    for each in seen:
        if each != SOUND and each not in causes:
            table.fault("seen", f"{each!r} is neither {SOUND} nor one of {', '.join(sorted(causes))}")
    if SOUND not in seen:
        table.fault("seen", f"{SOUND} is missing: what it shows where nothing of it is at fault")
    shows = [each.value for each in Shows]
    for each in table.words("shows"):
        if each not in shows:
            table.fault("shows", f"{each!r} is not one of {', '.join(shows)}")
    return {"seen": seen, "shows": tuple(Shows(each) for each in table.words("shows") if each in shows)}


def _action_parts(table: Table, causes: set[str]) -> dict[str, Any]:
    for each in table.words("cures"):
        if each not in causes:
            table.fault("cures", f"{each!r} is not one of {', '.join(sorted(causes))}")
    parts = {
        "cures": table.words("cures"),
        "sets": flat_set_up(table.mapping("sets"), table),
        "opens": table.truth("opens", default=False),
        "belief": table.text("belief", default=""),
        "critical": table.truth("critical", default=False),
        "needed": table.truth("needed", default=False),
        "first": table.whole("first", default=0),
    }
    if parts["critical"] and not parts["belief"]:
        table.fault("critical", "an unsafe action names the belief behind it")
    return parts
