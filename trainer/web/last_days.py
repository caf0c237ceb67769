"""Qualifications by their last day: the calendar of a year and the months with whoever ends in them."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dateutil.relativedelta import relativedelta
from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.qualifications import QualificationState
from trainer.drawing.expiry_calendar import MonthOfLastDays, expiry_calendar
from trainer.services.qualification_pages import QualificationView
from trainer.web.preferences import drawing_reader

_MONTHS_COUNT = 12


@dataclass(frozen=True, kw_only=True)
class LastDays:
    """The drawn calendar, and the qualifications in it by last day: soonest first."""

    calendar: Markup
    soonest: tuple[QualificationView, ...]

    @property
    def first(self) -> QualificationView:
        """The one that ends next."""
        return self.soonest[0]


def last_days(views: Sequence[QualificationView], *, today: date) -> LastDays | None:
    """What ends within a year from the first of this month; None where nothing does."""
    first = today.replace(day=1)
    months = [first + relativedelta(months=number) for number in range(_MONTHS_COUNT)]
    beyond = first + relativedelta(months=_MONTHS_COUNT)
    ending = [each for each in views if each.state.is_in_force and today <= each.last_day < beyond]
    if not ending:
        return None
    drawn = expiry_calendar(
        [_month(month, ending, is_first=month == first) for month in months],
        reader=drawing_reader("last-days"),
    )
    soonest = sorted(ending, key=lambda each: (each.last_day, each.qualification.person_name))
    return LastDays(calendar=Markup(drawn), soonest=tuple(soonest))


def _month(month: date, views: Sequence[QualificationView], *, is_first: bool) -> MonthOfLastDays:
    own = [each for each in views if each.last_day.replace(day=1) == month]
    due = sum(each.state is QualificationState.DUE for each in own)
    return MonthOfLastDays(
        name=_names()[month.month - 1],
        year=str(month.year) if is_first or month.month == 1 else "",
        in_force_count=len(own) - due,
        due_count=due,
    )


def _names() -> tuple[str, ...]:
    return (
        gettext("Jan"), gettext("Feb"), gettext("Mar"), gettext("Apr"), gettext("May"), gettext("Jun"),
        gettext("Jul"), gettext("Aug"), gettext("Sep"), gettext("Oct"), gettext("Nov"), gettext("Dec"),
    )  # fmt: skip
