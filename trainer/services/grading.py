"""Grading by people: overriding a score with a reason, and recording what was seen in the booth."""

from datetime import date
from uuid import UUID

from trainer.domain.attempts import score_text
from trainer.domain.errors import Conflict, Duplicate, Missing
from trainer.domain.ledger import EntryType, Plain
from trainer.domain.overrides import (
    Override,
    is_repeat,
    mark_in,
    overridden,
    override_faults,
    require_graded,
)
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, may_sign_as_instructor, require
from trainer.domain.qualifications import Observation
from trainer.domain.reasons import Reason, reason, refuse_for
from trainer.services import attempt_acts, sight
from trainer.services.reappraisal import reappraise
from trainer.services.remarking import Change, Standing, standing_of, supersede
from trainer.services.site import Site
from trainer.storage import attempts, ledger, memberships, observations
from trainer.storage.database import Work
from trainer.storage.ledger import Act


def override_score(site: Site, acting: Acting, *, attempt_id: UUID, override: Override) -> int:
    """A new marking that supersedes the standing one, and its version.

    Qualifications that rest on the attempt are weighed again in the same transaction. The same form sent
    twice makes one marking; Conflict where somebody else has overridden in between.
    """
    refuse_for(override_faults(override))
    with site.database.work() as work:
        attempt = attempts.get_attempt_to_change(work, attempt_id=attempt_id)
        thing = sight.of_attempt(site, work, attempt)
        require(Permission.OVERRIDE_SCORE, acting=acting, thing=thing, what="attempt")
        standing = standing_of(work, attempt)
        if standing.marking.version != override.of_version:
            if is_repeat(standing.marks, override=override, reason_given=standing.marking.reason):
                return standing.marking.version
            raise Conflict("the marks were changed in between; look at them again before you override")
        require_graded(standing.marks, override=override)
        change = _change(standing, override)
        _, version = supersede(site, work, acting, standing=standing, change=change)
        reappraise(site, work, acting, attempt_id=attempt_id, version=version)
    return version


def _change(standing: Standing, override: Override) -> Change:
    old = mark_in(standing.marks, scenario_no=override.scenario_no, item_id=override.item_id)
    return Change(
        entry_type=EntryType.SCORE_OVERRIDDEN,
        marks=overridden(standing.marks, override=override),
        reason=override.reason.strip(),
        body={
            "scenario": override.scenario_no,
            "item": override.item_id,
            "from": score_text(old.score),
            "to": score_text(override.score_frac),
        },
    )


def record_observation(site: Site, acting: Acting, *, observation: Observation) -> UUID:
    """Records what the acting instructor saw. The id comes with the form, so that it counts once."""
    thing = Thing(organisation_id=observation.organisation_id, person_id=observation.person_id)
    require(Permission.RECORD_OBSERVATION, acting=acting, thing=thing, what="person")
    with site.database.work() as work:
        attempts.lock_person(work, person_id=observation.person_id)  # the same form sent twice at once
        known = observations.find_observation(work, observation_id=observation.observation_id)
        if known is not None:
            if known != observation:
                raise Duplicate("this observation has been recorded already, with other particulars")
            return known.observation_id
        if not memberships.list_memberships(
            work, person_id=observation.person_id, organisation_id=observation.organisation_id
        ):
            raise Missing("person")
        refuse_for(_recording_faults(site, work, acting, observation))
        seq = ledger.append(work, _observed(site, acting, observation)).seq
        observations.add_observation(work, observation, recorded_at=site.now(), ledger_seq=seq)
    return observation.observation_id


def _recording_faults(site: Site, work: Work, acting: Acting, observation: Observation) -> tuple[Reason, ...]:
    faults = []
    if observation.observed_by != acting.person_id:
        faults.append(reason("observed-by-somebody-else"))
    if observation.observed_on > site.today():
        faults.append(reason("observed-in-the-future", day=observation.observed_on.isoformat()))
    if not _had_authority(work, acting, observation.observed_on) or not _had_authority(
        work, acting, site.today()
    ):
        faults.append(reason("observer-without-authority", day=observation.observed_on.isoformat()))
    return tuple(faults)


def _had_authority(work: Work, acting: Acting, day: date) -> bool:
    roles = memberships.roles_on(
        work, person_id=acting.person_id, organisation_id=acting.organisation_id, day=day
    )
    return may_sign_as_instructor(roles)


def _observed(site: Site, acting: Acting, seen: Observation) -> Act:
    body: dict[str, Plain] = {
        "observation": str(seen.observation_id),
        "observed_on": seen.observed_on.isoformat(),
        "material": attempt_acts.word(seen.material),
        "gas": seen.gas,
        "outside_diameter_mm": f"{seen.outside_diameter_m * 1e3:.2f}",
        "oxygen_at_strike_ppm": f"{seen.oxygen_at_strike_frac * 1e6:.1f}",
        "root": attempt_acts.word(seen.root_grade),
        "confined_space": seen.confined_space,
        "accepted": seen.accepted,
    }
    until = seen.analyser_calibrated_until
    details: dict[str, Plain] = {
        "analyser_serial": seen.analyser_serial,
        "analyser_calibrated_until": until.isoformat() if until else "",
        "notes": seen.notes,
    }
    return Act(
        organisation_id=seen.organisation_id,
        entry_type=EntryType.OBSERVATION_RECORDED,
        subject=seen.person_id,
        actor=acting.person_id,
        now=site.now(),
        body=body,
        details=details,
    )
