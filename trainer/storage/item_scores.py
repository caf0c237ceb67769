"""What items scored in the standing markings of an organisation, for their statistics."""

from uuid import UUID

from sqlalchemy import select

from trainer.domain.item_statistics import ItemScore
from trainer.storage.database import Work
from trainer.storage.markings import stands
from trainer.storage.tables.attempts import AttemptRow, MarkingRow, OutcomeRow


def list_item_scores(work: Work, *, organisation_id: UUID) -> tuple[ItemScore, ...]:
    """Every scored item of the organisation's marked attempts, practice included, in order of marking.

    Scores that a person put right are left out: they say nothing of how the item behaves.
    """
    rows = work.session.execute(
        select(
            OutcomeRow.marking_id,
            OutcomeRow.family,
            OutcomeRow.item_id,
            OutcomeRow.skill,
            OutcomeRow.weight,
            OutcomeRow.score,
            OutcomeRow.answered,
            OutcomeRow.misconceptions,
        )
        .join(MarkingRow, MarkingRow.marking_id == OutcomeRow.marking_id)
        .join(AttemptRow, AttemptRow.attempt_id == MarkingRow.attempt_id)
        .where(
            stands(),
            AttemptRow.organisation_id == organisation_id,
            OutcomeRow.overridden.is_(False),
        )
        .order_by(MarkingRow.marked_at, OutcomeRow.marking_id, OutcomeRow.scenario_no, OutcomeRow.item_no)
    )
    return tuple(
        ItemScore(
            marking_id=marking_id,
            family=family,
            item_id=item_id,
            skill=skill,
            weight=weight,
            score=score,
            answered=answered,
            beliefs=tuple(beliefs),
        )
        for marking_id, family, item_id, skill, weight, score, answered, beliefs in rows
        if score is not None
    )
