"""Diagnoses of an open attempt: what the steps taken so far led to, and that none of them is taken back."""

from collections.abc import Iterable, Mapping, Sequence
from uuid import UUID

from trainer.domain.scenario import Item, Scenario
from trainer.domain.unfolding import Unfolding, unfold
from trainer.scenario_files import ResponseFault, scenario_from_document
from trainer.scenario_files.response_faults import STEPS_TAKEN_BACK
from trainer.storage import attempts
from trainer.storage.attempts import KeptResponse, NewResponse
from trainer.storage.database import Work


def unfoldings_of(
    work: Work,
    attempt_id: UUID,
    *,
    scenarios: Mapping[int, Scenario],
    responses: Mapping[tuple[int, str], KeptResponse],
) -> tuple[dict[tuple[int, str], Unfolding], dict[str, dict[str, str]]]:
    """What every diagnosis shows by now, by scenario number and item id, and that by language.

    Neither key nor score is in it.
    """
    asked = [
        (number, item.id)
        for number, scenario in scenarios.items()
        for item in scenario.items
        if item.diagnosis is not None
    ]
    if not asked:
        return {}, {}
    drawn = dict(attempts.list_drawn(work, attempt_id=attempt_id))
    whole = {number: scenario_from_document(drawn[number]) for number, _ in asked}
    found = {
        (number, item_id): unfold(
            whole[number],
            item=whole[number].item(item_id),
            steps=_kept_steps(responses.get((number, item_id))),
        )
        for number, item_id in asked
    }
    seen = {step.seen for each in found.values() for step in each.steps}
    return found, _said_of(seen, whole.values())


def _said_of(seen: set[str], scenarios: Iterable[Scenario]) -> dict[str, dict[str, str]]:
    """What was seen, and nothing else, by language."""
    said: dict[str, dict[str, str]] = {}
    for scenario in scenarios:
        for language, sentences in scenario.said.items():
            said.setdefault(language, {}).update({each: sentences[each] for each in seen & sentences.keys()})
    return said


def require_goes_on(work: Work, new: NewResponse, *, attempt_id: UUID, item: Item) -> None:
    """Raise ResponseFault unless the steps of a diagnosis begin with those that were kept: done is done."""
    if item.diagnosis is None:
        return
    kept = attempts.list_latest_responses(work, attempt_id=attempt_id)
    of_item = (each for each in kept if (each.scenario_no, each.item_id) == (new.scenario_no, new.item_id))
    before = _kept_steps(next(of_item, None))
    if list(new.raw)[: len(before)] != list(before):
        texts = "; ".join(item.diagnosis.move(each).text for each in before)
        raise ResponseFault(item.id, STEPS_TAKEN_BACK, {"steps": texts})


def _kept_steps(kept: KeptResponse | None) -> Sequence[str]:
    return () if kept is None else tuple(kept.raw)
