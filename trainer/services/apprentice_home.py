"""The apprentice's first screen: what comes next, what is due, how far each skill has been shown."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from uuid import UUID

from trainer.domain.attempts import AttemptState
from trainer.domain.family import ScenarioFamily
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, require
from trainer.domain.skills import SKILLS
from trainer.domain.standing import SkillStanding, skill_standing
from trainer.services.family_library import offered_families
from trainer.services.qualification_pages import QualificationView, view_on
from trainer.services.settling import settle_person
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import modules, qualifications, results
from trainer.storage.database import Work
from trainer.storage.modules import AssignmentSummary
from trainer.storage.results import AttemptSummary, SkillMean


class NextStep(StrEnum):
    """What to do next."""

    GO_ON = "go on"  # with an open attempt
    START_ASSIGNMENT = "start assignment"
    PRACTISE = "practise"


@dataclass(frozen=True, kw_only=True)
class NextThing:
    """The next thing to do, with the id or the family that its link needs."""

    step: NextStep
    title: str
    attempt_id: UUID | None = None
    assignment_id: UUID | None = None
    family: str | None = None
    skill: int | None = None


@dataclass(frozen=True, kw_only=True)
class DueAssignment:
    """An assignment of the person: attempts made, the one that is open, whether one has passed or may yet."""

    assignment: AssignmentSummary
    attempts: tuple[AttemptSummary, ...]
    open_attempt_id: UUID | None
    passed: bool
    waits_for_grade: bool
    days_left: int

    @property
    def may_start(self) -> bool:
        """Whether a further attempt may be started."""
        return self.open_attempt_id is None and len(self.attempts) < self.assignment.attempts_allowed


@dataclass(frozen=True, kw_only=True)
class ApprenticeHome:
    """Everything on the first screen."""

    next_thing: NextThing | None
    assignments: tuple[DueAssignment, ...]
    skills: tuple[SkillStanding, ...]
    qualifications: tuple[QualificationView, ...]
    latest: tuple[AttemptSummary, ...]


_LATEST_COUNT = 5


def apprentice_home(site: Site, acting: Acting) -> ApprenticeHome:
    """The first screen of the acting person, in the organisation acted in."""
    require(Permission.PRACTISE, acting=acting)
    settle_person(site, person_id=acting.person_id)
    with site.database.reading() as work:
        made = results.list_attempts_of_person(
            work, person_id=acting.person_id, organisation_id=acting.organisation_id
        )
        due = _due(site, work, acting, made)
        # one's own work counts wherever it was done
        means = results.list_skill_means(work, people=[acting.person_id])
        skills = standings(site, work, acting.organisation_id, means)
        held = qualifications.list_of_people(work, people=[acting.person_id])
        families = offered_families(site, work, organisation_id=acting.organisation_id)
    return ApprenticeHome(
        next_thing=_next(tuple(families.values()), made, due, skills),
        assignments=due,
        skills=skills,
        qualifications=tuple(view_on(site.today(), qualification=each) for each in held),
        latest=made[:_LATEST_COUNT],
    )


def skills_here(
    site: Site, work: Work, *, person_id: UUID, organisation_id: UUID
) -> tuple[SkillStanding, ...]:
    """The twelve skills of a person, from the scenarios marked in one organisation alone."""
    means = results.list_skill_means(work, people=[person_id], organisation_id=organisation_id)
    return standings(site, work, organisation_id, means)


def standings(
    site: Site, work: Work, organisation_id: UUID, means: Sequence[SkillMean]
) -> tuple[SkillStanding, ...]:
    """The twelve skills by what scenarios scored in them, held to the organisation's pass mark."""
    cut = policy_of(work, site, organisation_id=organisation_id).pass_mark_frac
    return tuple(
        skill_standing(
            each.number,
            means=[one.mean_frac for one in means if one.skill == each.number],
            cut_frac=cut,
        )
        for each in SKILLS
    )


def _due(
    site: Site, work: Work, acting: Acting, made: tuple[AttemptSummary, ...]
) -> tuple[DueAssignment, ...]:
    given = modules.list_assignments_for(
        work, person_id=acting.person_id, organisation_id=acting.organisation_id
    )
    return tuple(_due_one(site, each, made) for each in given)


def _due_one(site: Site, given: AssignmentSummary, made: tuple[AttemptSummary, ...]) -> DueAssignment:
    own = tuple(each for each in made if each.assignment_id == given.assignment_id)
    return DueAssignment(
        assignment=given,
        attempts=own,
        open_attempt_id=next((each.attempt_id for each in own if each.state is AttemptState.OPEN), None),
        passed=any(each.passed for each in own),
        waits_for_grade=any(each.waits_for_grade for each in own),
        days_left=(given.due_on - site.today()).days,
    )


def _next(
    families: tuple[ScenarioFamily, ...],
    made: tuple[AttemptSummary, ...],
    due: tuple[DueAssignment, ...],
    skills: tuple[SkillStanding, ...],
) -> NextThing | None:
    """An open attempt first, the one whose time runs before others; then what is due; then practice."""
    running = [each for each in made if each.state is AttemptState.OPEN]
    if running:
        first = min(running, key=lambda each: (each.expires_at is None, each.expires_at or each.started_at))
        return NextThing(step=NextStep.GO_ON, title=first.title, attempt_id=first.attempt_id)
    for each in due:
        if each.may_start and not each.passed and not each.waits_for_grade:
            return NextThing(
                step=NextStep.START_ASSIGNMENT,
                title=each.assignment.module_title,
                assignment_id=each.assignment.assignment_id,
            )
    return _practice(families, skills)


def _practice(families: tuple[ScenarioFamily, ...], skills: tuple[SkillStanding, ...]) -> NextThing | None:
    """A family of the skill that is least likely to be good enough yet; none when there are no families."""
    for weakest in sorted(skills, key=lambda each: (each.chance_frac, each.scenarios_count, each.skill)):
        for family in families:
            if weakest.skill in family.skills:
                return NextThing(
                    step=NextStep.PRACTISE, title=family.title, family=family.id, skill=weakest.skill
                )
    return None
