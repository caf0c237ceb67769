"""Verification by code, for anybody with a certificate in hand and without an account."""

from dataclasses import dataclass
from datetime import date

from trainer.domain.qualifications import QualificationState
from trainer.domain.scope import Scope
from trainer.domain.verification_code import read_code
from trainer.services.qualification_pages import view_on
from trainer.services.site import Site
from trainer.storage import qualifications


@dataclass(frozen=True, kw_only=True)
class Verified:
    """What a genuine code stands for, as of today; no ids and nothing about evidence."""

    code: str
    person_name: str
    issuer_name: str
    state: QualificationState
    is_in_force: bool
    scope: Scope
    starts: date
    confirm_by: date
    valid_until: date
    last_day: date
    awarded_by_name: str
    one_person_taught_and_decided: bool
    as_of: date


def verify(site: Site, *, typed: str) -> Verified | None:
    """What the code on a certificate stands for; None alike for a slip of the pen and for an unknown code."""
    code = read_code(typed)
    if code is None:
        return None
    with site.database.reading() as work:
        found = qualifications.find_by_code(work, code=code)
    if found is None:
        return None
    view = view_on(site.today(), qualification=found)
    return Verified(
        code=found.code,
        person_name=found.person_name,
        issuer_name=found.organisation_name,
        state=view.state,
        is_in_force=view.state.is_in_force,
        scope=view.scope,
        starts=found.terms.starts,
        confirm_by=view.confirm_by,
        valid_until=found.terms.valid_until,
        last_day=view.last_day,
        awarded_by_name=found.awarded_by_name,
        one_person_taught_and_decided=found.one_person_taught_and_decided,
        as_of=site.today(),
    )
