"""Validity by calendar months, states on a day, and which act is possible when."""

from datetime import UTC, date, datetime, timedelta
from itertools import product
from uuid import UUID, uuid4

import pytest
from dateutil.relativedelta import relativedelta
from domain_values import RULES
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.errors import WrongState
from trainer.domain.qualifications import (
    QualificationAct,
    QualificationEvent,
    QualificationState,
    Terms,
    confirm_by,
    last_day,
    months_later,
    require_possible,
    state_on,
    terms_from,
)

SIGNER = uuid4()
AWARDED = date(2026, 3, 2)


def event(act: QualificationAct, day: date, by: UUID = SIGNER) -> QualificationEvent:
    at = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
    return QualificationEvent(act=act, day=day, at=at, by=by, reason="made for tests")


def terms() -> Terms:
    return terms_from(AWARDED, rules=RULES)


AWARD = event(QualificationAct.AWARDED, AWARDED)


@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        # RET-09, independent library: python-dateutil relativedelta
        pytest.param(date(2026, 8, 31), 6, date(2027, 2, 28), id="31 August + 6"),
        pytest.param(date(2027, 11, 30), 3, date(2028, 2, 29), id="30 November + 3, leap year"),
        pytest.param(date(2026, 12, 15), 1, date(2027, 1, 15), id="over the year's end"),
        pytest.param(date(2028, 2, 29), 24, date(2030, 2, 28), id="29 February + 24"),
    ],
)
def test_months_end_on_the_same_day_or_the_months_last(day: date, months: int, expected: date) -> None:
    assert months_later(day, months=months) == expected


@given(st.dates(date(1990, 1, 1), date(2080, 1, 1)), st.integers(0, 120))
def test_months_agree_with_dateutil(day: date, months: int) -> None:
    """Independent library: python-dateutil."""
    assert months_later(day, months=months) == day + relativedelta(months=months)


def test_it_is_confirmed_six_months_after_award_or_last_confirmation() -> None:
    confirmed = event(QualificationAct.CONFIRMED, date(2026, 8, 31))
    assert confirm_by(terms(), events=[AWARD]) == date(2026, 9, 2)
    assert confirm_by(terms(), events=[AWARD, confirmed]) == date(2027, 2, 28)


def test_confirmation_never_reaches_beyond_the_whole_term() -> None:
    days = [months_later(AWARDED, months=each) for each in (6, 12, 18, 23)]
    events = [AWARD, *(event(QualificationAct.CONFIRMED, each) for each in days)]
    assert last_day(terms(), events=events) == date(2028, 3, 2)
    assert state_on(date(2028, 3, 3), terms=terms(), events=events) is QualificationState.LAPSED


@pytest.mark.parametrize(
    ("day", "state"),
    [
        (date(2026, 3, 1), QualificationState.IN_TRAINING),
        (date(2026, 3, 2), QualificationState.CURRENT),
        (date(2026, 8, 2), QualificationState.CURRENT),
        (date(2026, 8, 3), QualificationState.DUE),
        (date(2026, 9, 2), QualificationState.DUE),
        (date(2026, 9, 3), QualificationState.LAPSED),
    ],
)
def test_state_follows_from_the_day(day: date, state: QualificationState) -> None:
    """Due within 30 days of the last day, which itself still counts."""
    assert state_on(day, terms=terms(), events=[AWARD]) is state


def test_only_current_and_due_are_in_force() -> None:
    in_force = {each for each in QualificationState if each.is_in_force}
    assert in_force == {QualificationState.CURRENT, QualificationState.DUE}


def test_suspension_holds_until_it_is_lifted_and_time_runs_on() -> None:
    stop = event(QualificationAct.SUSPENDED, date(2026, 4, 1))
    lift = event(QualificationAct.LIFTED, date(2026, 5, 1))
    day = date(2026, 5, 2)
    assert state_on(day, terms=terms(), events=[AWARD, stop]) is QualificationState.SUSPENDED
    assert state_on(day, terms=terms(), events=[AWARD, stop, lift]) is QualificationState.CURRENT
    assert state_on(day, terms=terms(), events=[AWARD, stop, lift, stop]) is QualificationState.SUSPENDED
    assert state_on(date(2026, 9, 3), terms=terms(), events=[AWARD, stop]) is QualificationState.LAPSED


def test_revocation_is_final() -> None:
    events = [
        AWARD,
        event(QualificationAct.REVOKED, date(2026, 4, 1)),
        event(QualificationAct.LIFTED, AWARDED),
    ]
    for day in (AWARDED, date(2026, 4, 2), date(2030, 1, 1)):
        assert state_on(day, terms=terms(), events=events) is QualificationState.REVOKED


POSSIBLE = {
    (QualificationAct.CONFIRMED, QualificationState.CURRENT),
    (QualificationAct.CONFIRMED, QualificationState.DUE),
    (QualificationAct.SUSPENDED, QualificationState.CURRENT),
    (QualificationAct.SUSPENDED, QualificationState.DUE),
    (QualificationAct.LIFTED, QualificationState.SUSPENDED),
    (QualificationAct.REVOKED, QualificationState.CURRENT),
    (QualificationAct.REVOKED, QualificationState.DUE),
    (QualificationAct.REVOKED, QualificationState.SUSPENDED),
    (QualificationAct.REVOKED, QualificationState.LAPSED),
}
LATER_ACTS = [each for each in QualificationAct if each is not QualificationAct.AWARDED]


@pytest.mark.parametrize(("act", "state"), list(product(LATER_ACTS, QualificationState)))
def test_act_is_possible_in_these_states_alone(act: QualificationAct, state: QualificationState) -> None:
    if (act, state) in POSSIBLE:
        require_possible(act, state=state)
    else:
        with pytest.raises(WrongState):
            require_possible(act, state=state)


@given(st.integers(0, 800))
def test_once_lapsed_it_stays_lapsed(days: int) -> None:
    day = AWARDED + timedelta(days=days)
    if state_on(day, terms=terms(), events=[AWARD]) is QualificationState.LAPSED:
        later = day + timedelta(days=1)
        assert state_on(later, terms=terms(), events=[AWARD]) is QualificationState.LAPSED
