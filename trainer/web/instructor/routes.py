"""Who needs the instructor, and one apprentice's work."""

from itertools import groupby
from uuid import UUID

from flask import render_template
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.permissions import Permission
from trainer.services import class_results, explanations, qualification_pages, sharing, teaching
from trainer.services.class_results import NeedKind
from trainer.web.access import access, acting, site
from trainer.web.instructor import (  # noqa: F401  # register their pages
    attempts,
    awarding,
    classes,
    grading,
    items,
    keying,
    modules,
    observing,
    own_jobs,
    printing,
    qualifications,
    shares,
)
from trainer.web.instructor.blueprint import blueprint
from trainer.web.last_days import last_days
from trainer.web.skill_bars import skill_profile


@blueprint.get("/")
@access(Permission.TEACH)
def today() -> ResponseReturnValue:
    """Who needs you, and why."""
    needs = class_results.who_needs_you(site(), acting())
    return render_template(
        "instructor/today.html",
        waiting=explanations.to_grade(site(), acting()),
        needs=[(kind, [*found]) for kind, found in groupby(needs, key=lambda each: each.kind)],
        words=_need_words(),
        classes=teaching.classes(site(), acting()),
    )


@blueprint.get("/apprentices")
@access(Permission.TEACH)
def apprentices() -> ResponseReturnValue:
    """Everybody who learns here, and what was awarded here."""
    issued = qualification_pages.qualifications_here(site(), acting())
    return render_template(
        "instructor/apprentices.html",
        apprentices=teaching.apprentices(site(), acting()),
        issued=issued,
        ending=last_days(issued, today=site().today()),
    )


@blueprint.get("/apprentices/<uuid:person_id>")
@access(Permission.READ_RESULTS)
def apprentice(person_id: UUID) -> ResponseReturnValue:
    """One apprentice's work here."""
    history = class_results.apprentice_history(site(), acting(), person_id=person_id)
    return render_template(
        "instructor/apprentice.html",
        history=history,
        skills=skill_profile(history.skills),
        shares=sharing.shares_of(site(), acting(), person_id=person_id),
    )


def _need_words() -> dict[NeedKind, str]:
    return {
        NeedKind.CRITICAL_FAILURE: gettext("Failed on a critical point"),
        NeedKind.FAILED: gettext("Failed"),
        NeedKind.OVERDUE: gettext("Not begun, and the day is past"),
        NeedKind.READY_TO_QUALIFY: gettext("Passed, and holds no qualification"),
        NeedKind.QUALIFICATION_DUE: gettext("Qualification to be confirmed"),
        NeedKind.SUSPENDED: gettext("Qualification suspended"),
    }
