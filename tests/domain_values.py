"""Values of the domain for tests, valid by default, without a database."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

from trainer.core.terms import MaterialGroup
from trainer.domain.attempts import Attempt, AttemptKind, AttemptState, ItemMark
from trainer.domain.policy import QualificationRules
from trainer.domain.scope import Done, JointSituation

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
LIMIT = START + timedelta(minutes=10)


def attempt(**changes: object) -> Attempt:
    values = {
        "attempt_id": uuid4(),
        "person_id": uuid4(),
        "organisation_id": uuid4(),
        "kind": AttemptKind.ASSESSED,
        "state": AttemptState.OPEN,
        "title": "Long run",
        "started_at": START,
        "expires_at": LIMIT,
        "hand_in_token": uuid4(),
    }
    return Attempt(**{**values, **changes})


def mark(**changes: object) -> ItemMark:
    values = {
        "scenario_no": 1,
        "family": "long-run",
        "item_id": "wait",
        "skill": 6,
        "weight": 1.0,
        "score": 1.0,
        "correct": True,
        "answered": True,
        "critical_missed": False,
    }
    return ItemMark(**{**values, **changes})


def done(**changes: object) -> Done:
    """A scenario in which a purge on 6 in stainless was decided."""
    values = {
        "skills": (3, 4, 6),
        "critical_skills": (),
        "material": MaterialGroup.AUSTENITIC_STAINLESS,
        "gas": "I1",
        "outside_diameter_m": 0.1683,
        "section_length_m": 0.6,
        "situation": JointSituation.LONG_RUN,
    }
    return Done(**{**values, **changes})


RULES = QualificationRules(
    validity_months=24,
    confirmation_months=6,
    due_days=30,
    diameter_from_ratio=0.5,
    diameter_to_ratio=2.0,
    length_to_ratio=2.0,
    scenarios_behind_a_critical=3,
    source="made for tests",
)
