"""Days on which a role or a share holds, and the form in which names and addresses are kept."""

from datetime import UTC, date, datetime
from uuid import UUID

import pytest

from trainer.domain.people import (
    EndsBeforeStart,
    Membership,
    NotAnEmail,
    Role,
    Share,
    Term,
    folded_email,
    tidy_name,
)

ID = UUID(int=1)


def membership(starts: date, ends: date | None = None, withdrawn_at: datetime | None = None) -> Membership:
    return Membership(
        membership_id=ID,
        person_id=ID,
        organisation_id=ID,
        role=Role.INSTRUCTOR,
        starts=starts,
        ends=ends,
        withdrawn_at=withdrawn_at,
    )


@pytest.mark.parametrize(
    ("day", "holds"),
    [
        (date(2026, 2, 28), False),
        (date(2026, 3, 1), True),
        (date(2026, 3, 31), True),
        (date(2026, 4, 1), False),
    ],
)
def test_first_and_last_day_are_included(day: date, holds: bool) -> None:
    assert membership(date(2026, 3, 1), date(2026, 3, 31)).holds_on(day) is holds


def test_a_role_without_an_end_runs_on() -> None:
    assert membership(date(2026, 3, 1)).holds_on(date(2099, 1, 1))


def test_a_withdrawn_role_was_held_until_the_day_before() -> None:
    withdrawn = membership(date(2026, 3, 1), None, datetime(2026, 3, 10, 15, 0, tzinfo=UTC))
    assert withdrawn.holds_on(date(2026, 3, 9))
    assert not withdrawn.holds_on(date(2026, 3, 10))


def test_a_withdrawn_share_is_out_of_sight_the_same_day() -> None:
    share = Share(
        share_id=ID,
        person_id=ID,
        employer_id=ID,
        organisation_id=ID,
        basis="contract",
        consent_on_file="file 7",
        given_by=ID,
        starts=date(2026, 3, 1),
        withdrawn_at=datetime(2026, 3, 1, 12, 0, tzinfo=UTC),
    )
    assert not share.holds_on(date(2026, 3, 1))


@pytest.mark.parametrize(
    ("starts", "ends", "overlaps"),
    [
        (date(2026, 1, 1), date(2026, 2, 28), False),
        (date(2026, 1, 1), date(2026, 3, 1), True),
        (date(2026, 3, 31), None, True),
        (date(2026, 4, 1), None, False),
        (date(2026, 1, 1), None, True),
    ],
)
def test_terms_overlap_when_they_share_a_day(starts: date, ends: date | None, overlaps: bool) -> None:
    held = membership(date(2026, 3, 1), date(2026, 3, 31))
    assert held.overlaps(Term(starts=starts, ends=ends)) is overlaps


def test_a_withdrawn_role_is_in_nothing_s_way() -> None:
    held = membership(date(2026, 3, 1), None, datetime(2026, 3, 1, tzinfo=UTC))
    assert not held.overlaps(Term(starts=date(2026, 3, 1)))


def test_a_term_may_not_end_before_it_starts() -> None:
    assert Term(starts=date(2026, 3, 1), ends=date(2026, 3, 1))
    with pytest.raises(EndsBeforeStart, match="2026-02-28"):
        Term(starts=date(2026, 3, 1), ends=date(2026, 2, 28))


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  Ada@Example.ORG ", "ada@example.org"),
        # Unicode case folding, CaseFolding.txt: sharp s folds to ss
        ("STRASSE@example.org", "strasse@example.org"),
        ("straße@example.org", "strasse@example.org"),
        # the same letter composed (U+00E9) and decomposed (e + U+0301), Unicode Standard Annex 15
        ("jos\u00e9@example.org", "jos\u00e9@example.org"),
        ("jose\u0301@example.org", "jos\u00e9@example.org"),
        ('"a@b"@example.org', '"a@b"@example.org'),
    ],
)
def test_an_address_has_one_form(typed: str, kept: str) -> None:
    assert folded_email(typed) == kept


@pytest.mark.parametrize("typed", ["", "ada", "@example.org", "ada@", "a da@example.org"])
def test_what_cannot_be_an_address_is_refused(typed: str) -> None:
    with pytest.raises(NotAnEmail):
        folded_email(typed)


def test_a_name_is_composed_with_single_spaces() -> None:
    assert tidy_name("  Jose\u0301   Berg ") == "Jos\u00e9 Berg"
