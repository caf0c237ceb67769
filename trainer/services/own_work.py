"""What a person asks about their own work: every attempt wherever made, and the limits before a start."""

from dataclasses import dataclass
from uuid import UUID

from trainer.domain.modules import Blueprint
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.scenario_files.records import from_json
from trainer.services.settling import settle_person
from trainer.services.site import Site
from trainer.storage import modules, results
from trainer.storage.results import AttemptSummary


@dataclass(frozen=True, kw_only=True)
class Limits:
    """What holds for an assessed attempt: scenarios to come, time, pass mark."""

    scenarios_count: int
    time_limit_s: int | None
    pass_mark_frac: float


def own_attempts(site: Site, acting: Acting) -> tuple[AttemptSummary, ...]:
    """All attempts of the acting person, whichever organisation they were made in, the latest first."""
    require(Permission.READ_OWN_RECORD, acting=acting)
    settle_person(site, person_id=acting.person_id)
    with site.database.reading() as work:
        return results.list_attempts_of_person(work, person_id=acting.person_id)


def limits_before_start(site: Site, acting: Acting, *, assignment_id: UUID) -> Limits:
    """The limits of an assignment given to the acting person; raises Missing for any other."""
    thing = Thing(organisation_id=acting.organisation_id, person_id=acting.person_id)
    require(Permission.TAKE_ASSESSMENT, acting=acting, thing=thing, what="assignment")
    with site.database.reading() as work:
        assignment = modules.get_assignment_for(
            work,
            assignment_id=assignment_id,
            person_id=acting.person_id,
            organisation_id=acting.organisation_id,
        )
        module = modules.get_module(
            work, module_id=assignment.module_id, organisation_id=acting.organisation_id
        )
    blueprint: Blueprint = from_json(Blueprint, module.blueprint)
    return Limits(
        scenarios_count=sum(each.count for each in blueprint.rows),
        time_limit_s=blueprint.time_limit_s,
        pass_mark_frac=blueprint.pass_mark_frac,
    )
