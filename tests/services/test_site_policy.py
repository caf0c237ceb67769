"""A site's own policy: numbered versions over the default, in the ledger, and for administrators alone."""

import json

import pytest
from factories import member, provider

from trainer.domain.errors import Conflict, NotAllowed, Refused
from trainer.domain.people import Acting, Role
from trainer.services import site_policy
from trainer.services.site import Site
from trainer.storage import ledger


@pytest.fixture
def school(site: Site) -> Acting:
    """A training provider, beside one that goes by the default."""
    provider(site)
    return provider(site)


def policy_of(site: Site, acting: Acting):
    with site.database.reading() as work:
        return site_policy.policy_of(work, site, organisation_id=acting.organisation_id)


def test_without_changes_the_default_holds(site: Site, school: Acting) -> None:
    assert policy_of(site, school) == site.content.policy
    page = site_policy.policy_page(site, school)
    assert page.policy == site.content.policy
    assert page.versions == ()


def test_each_version_replaces_the_one_before_and_names_both_policies(site: Site, school: Acting) -> None:
    other = provider(site)
    assert site_policy.set_policy(site, school, changes={"pass_mark_frac": "0.9"}, reason="Audit") == 1
    second = {"qualification.validity_months": "12"}
    assert site_policy.set_policy(site, school, changes=second, reason="Board") == 2
    policy = policy_of(site, school)
    assert policy.version == f"{site.content.policy.version}+site.2"
    assert policy.qualification.validity_months == 12
    assert policy.pass_mark_frac == site.content.policy.pass_mark_frac
    assert policy_of(site, other) == site.content.policy
    page = site_policy.policy_page(site, school)
    assert page.policy == policy
    assert [(each.version, dict(each.changes)) for each in page.versions] == [
        (2, second),
        (1, {"pass_mark_frac": "0.9"}),
    ]


def test_a_change_is_entered_with_its_numbers_but_without_the_reason_in_words(
    site: Site, school: Acting
) -> None:
    site_policy.set_policy(site, school, changes={"pass_mark_frac": "0.9"}, reason="Audit of March")
    with site.database.reading() as work:
        (*_, entry) = ledger.read_log(work, organisation_id=school.organisation_id)
    inside = json.loads(entry.canonical)
    assert inside["type"] == "policy-changed"
    assert inside["body"]["changes"] == {"pass_mark_frac": "0.9"}
    assert inside["body"]["version"] == 1
    assert b"March" not in entry.canonical
    assert json.loads(entry.reason) == "Audit of March"


def test_a_policy_with_a_fault_stores_nothing(site: Site, school: Acting) -> None:
    changes = {"pass_mark_frac": "0.9", "qualification.validity_months": "0"}
    with pytest.raises(Refused) as refused:
        site_policy.set_policy(site, school, changes=changes, reason="x")
    assert refused.value.reasons == ("out-of-range:qualification.validity_months",)
    assert policy_of(site, school) == site.content.policy


def test_only_an_administrator_sets_the_policy(site: Site, school: Acting) -> None:
    for role in (Role.APPRENTICE, Role.INSTRUCTOR):
        somebody = member(site, school, role=role)
        with pytest.raises(NotAllowed):
            site_policy.set_policy(site, somebody, changes={}, reason="x")
        with pytest.raises(NotAllowed):
            site_policy.policy_page(site, somebody)


def test_a_version_once_set_is_never_changed(site: Site, school: Acting) -> None:
    from sqlalchemy import text

    site_policy.set_policy(site, school, changes={"pass_mark_frac": "0.9"}, reason="x")
    with pytest.raises(Conflict, match="never changed"), site.database.work() as work:
        work.session.execute(text("UPDATE site_policy SET version = 7"))
