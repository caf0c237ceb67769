"""What the services cannot show of sign-ins and people: two at the same moment, and nobody at all."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest
from factories import new_person

from trainer.domain.errors import Missing
from trainer.storage import people, sign_ins
from trainer.storage.database import Database

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def test_an_invitation_is_used_by_one_of_two(database: Database) -> None:
    with database.work() as work:
        person_id = people.add_person(work, new_person(), now=NOW)
        token = sign_ins.add_invitation(work, person_id=person_id, expires_at=NOW + timedelta(days=1))
    with database.work() as work:
        sign_ins.use_invitation(work, token, now=NOW)
    with pytest.raises(Missing), database.work() as work:
        sign_ins.use_invitation(work, token, now=NOW)


def test_nobody_is_missing(database: Database) -> None:
    with database.reading() as work:
        with pytest.raises(Missing):
            people.get_person(work, uuid4())
        assert people.find_person_by_email(work, "nobody@example.org") is None
