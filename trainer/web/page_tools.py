"""What templates may call beside Jinja's own: who is here, links of the masthead, dates, units, versions."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from flask import Flask, request, url_for
from flask_babel import gettext
from markupsafe import Markup

import trainer
from trainer.domain.permissions import Permission
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Item
from trainer.domain.skills import skill
from trainer.drawing.instruments import instrument_drawing
from trainer.web import access
from trainer.web.bench_link import bench_link
from trainer.web.figures import (
    fact_words,
    family_title,
    number_shown,
    percent,
    scenario_title,
    sentence,
    shown,
    unbroken,
    why_shown,
)
from trainer.web.gases import gas_words
from trainer.web.happened import grade_words
from trainer.web.kinds import attempt_kind_words, attempt_state_words, kind_words
from trainer.web.preferences import drawing_reader, language, other_languages, theme, unit_system, units_word
from trainer.web.said import said
from trainer.web.scopes import (
    act_words,
    days_left_words,
    reasons_words,
    scope_line,
    scope_rows,
    state_words,
)
from trainer.web.table_heads import headed
from trainer.web.workings import other_units_words
from trainer.wording.quantities import unit_sign


@dataclass(frozen=True)
class Entry:
    """One link of the masthead."""

    text: str
    href: str
    is_here: bool


def init_app(app: Flask) -> None:
    """Makes the tools known to all templates."""
    app.jinja_env.globals.update(
        can=access.can,
        language=language,
        other_languages=other_languages,
        navigation=lambda: list(_navigation()),
        other_units_words=other_units_words,
        Permission=Permission,
        person=access.person,
        theme=theme,
        today=lambda: access.site().today(),
        unit_system=unit_system,
        unit_system_word=lambda: units_word(unit_system()),
        versions=_versions,
    )
    app.jinja_env.filters.update(
        act_words=act_words,
        attempt_kind=attempt_kind_words,
        attempt_state=attempt_state_words,
        bench_link=bench_link,
        clock=clock,
        day=day_time,
        days_left=days_left_words,
        fact_words=fact_words,
        family_title=family_title,
        gas_words=gas_words,
        grade_words=grade_words,
        headed=headed,
        instrument_drawing=instrument_picture,
        kind_words=kind_words,
        moment=moment,
        number=number_shown,
        percent=percent,
        reasons=reasons_words,
        scope_line=scope_line,
        scope_rows=scope_rows,
        said=said,
        scenario_title=scenario_title,
        sentence=sentence,
        shown=lambda value, dimension: shown(value, Dimension(dimension)),
        skill_name=lambda number: gettext(skill(number).name),
        state_words=state_words,
        unbroken=unbroken,
        unit_sign=unit_sign,
        why_shown=why_shown,
    )


def instrument_picture(item: Item) -> Markup:
    """The drawn instrument of a reading item."""
    if item.instrument is None:
        return Markup("")
    return Markup(instrument_drawing(item.instrument, reader=drawing_reader(prefix=f"item-{item.id}")))


def day_time(when: date | datetime) -> Markup:
    """The same as an element that does not break and that machines read."""
    words = day(when)
    return Markup('<time datetime="{0}">{0}</time>').format(words)


def day(when: date | datetime) -> str:
    """A date the way every shop reads it, whatever its country: 2026-03-09."""
    local = when.astimezone() if isinstance(when, datetime) else when
    return local.strftime("%Y-%m-%d")


def moment(when: datetime) -> str:
    """A date and time of day where the server stands, with the zone's name."""
    return when.astimezone().strftime("%Y-%m-%d %H:%M %Z")


def clock(when: datetime) -> str:
    """A time of day to the second, where the server stands."""
    return when.astimezone().strftime("%H:%M:%S")


def _versions() -> dict[str, str]:
    return {"core": trainer.__version__, "content": access.site().content.content_version}


def _navigation() -> Iterator[Entry]:
    for endpoint, text in _entries():
        yield Entry(text, url_for(endpoint), request.endpoint == endpoint)


def _entries() -> Iterator[tuple[str, str]]:
    if access.person() is None:
        yield "public.verify", gettext("Check a certificate")
        yield "account.sign_in", gettext("Sign in")
        return
    for permission, endpoint, text in (
        (Permission.PRACTISE, "apprentice.today", gettext("Today")),
        (Permission.PRACTISE, "apprentice.choose_practice", gettext("Practice")),
        (Permission.PRACTISE, "apprentice.assignments", gettext("Assignments")),
        (Permission.TEACH, "instructor.today", gettext("Who needs you")),
        (Permission.TEACH, "instructor.list_classes", gettext("Classes")),
        (Permission.TEACH, "instructor.list_modules", gettext("Modules")),
        (Permission.TEACH, "instructor.list_own_jobs", gettext("Own jobs")),
        (Permission.TEACH, "instructor.items", gettext("Questions")),
        (Permission.TEACH, "instructor.apprentices", gettext("Apprentices")),
        (Permission.LIST_SHARED_PEOPLE, "employer.people", gettext("People")),
        (Permission.FIND_WHO_CAN, "employer.who_can", gettext("Who can do this job")),
        (Permission.MANAGE_PEOPLE, "admin.people", gettext("Administration")),
        (Permission.READ_OWN_RECORD, "account.own_record", gettext("Your record")),
    ):
        if access.can(permission):
            yield endpoint, text
