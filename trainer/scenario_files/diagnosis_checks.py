"""Checks what a diagnosis of a family rests on: its draw names its causes, and `when` names draws."""

from trainer.domain.diagnosis_templates import DiagnosisTemplate
from trainer.domain.family import ScenarioFamily
from trainer.scenario_files.tables import Table


def check_diagnoses(family: ScenarioFamily, top: Table) -> None:
    """Faults for every diagnosis whose draws do not fit its causes."""
    for item in family.items:
        if item.diagnosis is not None:
            _check_causes(family, top, item.id, item.diagnosis)


def diagnosis_texts(diagnosis: DiagnosisTemplate) -> list[str]:
    """All that is read on the way, and the causes, which are told with the marks."""
    moves = [text for each in diagnosis.moves for text in (each.text, each.belief, *each.seen.values())]
    return moves + [each.words for each in diagnosis.causes]


def _check_causes(family: ScenarioFamily, top: Table, item_id: str, diagnosis: DiagnosisTemplate) -> None:
    """The draw that decides takes the ids of causes, each while its cause takes part; `when` names draws."""
    draws = {each.name: each for each in family.draws}
    causes = {each.id: each for each in diagnosis.causes}
    if diagnosis.draw not in draws:
        top.fault(f"item {item_id}.draw", f"{diagnosis.draw!r} is not one of {', '.join(draws)}")
        return
    for choice in draws[diagnosis.draw].choices:
        cause = causes.get(str(choice.value))
        if cause is None:
            top.fault(f"item {item_id}.cause", f"{choice.value} is drawn but is none of {', '.join(causes)}")
        elif not (cause.span.holds(choice.span.low) and cause.span.holds(choice.span.high)):
            top.fault(f"item {item_id}.cause", f"{cause.id} is drawn where it does not take part")
    for each in diagnosis.moves:
        for name in each.when:
            if name.split(".")[0] not in draws:
                top.fault(f"item {item_id}.{each.kind} {each.id}", f"when: {name!r} is not drawn")
