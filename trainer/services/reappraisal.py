"""What a changed mark does to qualifications: the evidence is weighed again, and what it no longer carries is
suspended until an instructor has looked at it."""

from uuid import UUID

from trainer.domain.people import Acting
from trainer.domain.qualifications import QualificationAct, state_on
from trainer.domain.scope import Done, Scope, scope_from, scope_gaps, still_carries
from trainer.scenario_files.records import from_json
from trainer.services.qualification_acts import Deed, record
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import observations, qualifications, results
from trainer.storage.database import Work
from trainer.storage.qualifications import Qualification


def reappraise(site: Site, work: Work, acting: Acting, *, attempt_id: UUID, version: int) -> None:
    """Weighs every qualification that rests on the attempt; raises nothing for those that still stand."""
    for qualification_id in qualifications.list_resting_on(work, attempt_id=attempt_id):
        found = qualifications.get_qualification_to_change(work, qualification_id=qualification_id)
        state = state_on(site.today(), terms=found.terms, events=found.events)
        if state.is_in_force and not _still_carried(site, work, found):
            deed = Deed(
                act=QualificationAct.SUSPENDED,
                reason=f"evidence superseded: attempt {attempt_id}, marking {version}",
            )
            record(site, work, acting, qualification=found, deed=deed)


def _still_carried(site: Site, work: Work, qualification: Qualification) -> bool:
    rules = policy_of(work, site, organisation_id=qualification.organisation_id).qualification
    evidence = qualifications.get_evidence(work, qualification_id=qualification.qualification_id)
    done = tuple(
        from_json(Done, each.done)
        for each in results.list_passed_scenarios(
            work,
            person_id=qualification.person_id,
            organisation_id=qualification.organisation_id,
            attempts=tuple(evidence.markings),
        )
    )
    if not done or scope_gaps(done, rules=rules):
        return False
    seen = observations.list_observations(
        work,
        person_id=qualification.person_id,
        organisation_id=qualification.organisation_id,
        only=evidence.observations,
    )
    confined = any(each.observation.confined_space for each in seen)
    scope = scope_from(done, confined_space_seen=confined, rules=rules)
    return still_carries(scope, awarded=from_json(Scope, qualification.scope))
