"""Practice: which families there are, and a scenario of one of them that the person has not met."""

from dataclasses import dataclass
from uuid import UUID

from trainer.domain.attempts import AttemptKind
from trainer.domain.errors import Missing
from trainer.domain.modules import Blueprint
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, require
from trainer.scenario_files.records import to_json
from trainer.services.drawn_scenarios import Wanted, drawn_for, started_with_new_seeds
from trainer.services.family_library import offered_families
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import attempts, open_attempts, results
from trainer.storage.attempts import NewAttempt


@dataclass(frozen=True, kw_only=True)
class PracticeFamily:
    """A family to practise: its title, the skills it asks, and how often this person has practised it."""

    family: str
    title: str
    skills: tuple[int, ...]
    attempts_count: int


def practice_families(site: Site, acting: Acting) -> tuple[PracticeFamily, ...]:
    """Every family of the library in its order, then the organisation's own jobs, with the person's count."""
    require(Permission.PRACTISE, acting=acting)
    with site.database.reading() as work:
        counts = results.count_practice_by_family(work, person_id=acting.person_id)
        families = offered_families(site, work, organisation_id=acting.organisation_id)
    return tuple(
        PracticeFamily(
            family=each.id,
            title=each.title,
            skills=tuple(each.skills),
            attempts_count=counts.get(each.id, 0),
        )
        for each in families.values()
    )


def start_practice(site: Site, acting: Acting, *, family: str, difficulty: float) -> UUID:
    """A practice attempt of one new scenario. The same form sent twice leads to the same attempt, as long as
    nothing has been answered in it."""
    require(Permission.PRACTISE, acting=acting)
    with site.database.reading() as work:
        if family not in offered_families(site, work, organisation_id=acting.organisation_id):
            raise Missing("scenario family", family)
    wanted = Wanted(family=family, difficulty=difficulty)
    return started_with_new_seeds(lambda: _start(site, acting, wanted))


def _start(site: Site, acting: Acting, wanted: Wanted) -> UUID:
    (drawn,) = drawn_for(site, acting, kind=AttemptKind.PRACTICE, wanted=[wanted])
    with site.database.work() as work:
        policy = policy_of(work, site, organisation_id=acting.organisation_id)
        blueprint = Blueprint(rows=(), pass_mark_frac=policy.pass_mark_frac)
        attempts.lock_person(work, person_id=acting.person_id)
        untouched = open_attempts.find_untouched_practice(
            work,
            person_id=acting.person_id,
            organisation_id=acting.organisation_id,
            family=drawn.family,
            difficulty_percent=drawn.difficulty_percent,
        )
        if untouched is not None:
            return untouched
        new = NewAttempt(
            person_id=acting.person_id,
            organisation_id=acting.organisation_id,
            kind=AttemptKind.PRACTICE,
            title=drawn.shown["title"],
            blueprint=to_json(blueprint),
            started_at=site.now(),
        )
        return attempts.add_attempt(work, new, scenarios=(drawn,))
