"""The ledger as a whole: every organisation's log is proved, and an administrator reads their own."""

import pytest
from factories import employer, member, provider

from trainer.domain.errors import NotAllowed
from trainer.domain.people import Role
from trainer.services import records
from trainer.services.site import Site


def test_every_log_is_proved_and_an_empty_site_has_none(site: Site) -> None:
    assert records.verify_ledgers(site.database) == ()
    school, harbour = provider(site, name="Quay Training"), employer(site, name="Harbour Pipework")
    member(site, school)
    found = records.verify_ledgers(site.database)
    assert [(each.organisation.name, each.proof.head.size) for each in found] == [
        ("Harbour Pipework", 2),
        ("Quay Training", 3),
    ]
    assert all(each.proof.holds for each in found)
    assert {each.proof.head.organisation_id for each in found} == {
        school.organisation_id,
        harbour.organisation_id,
    }


def test_heads_kept_from_earlier_are_held_against_the_logs(site: Site) -> None:
    school = provider(site)
    kept = {
        each.organisation.organisation_id: each.proof.head for each in records.verify_ledgers(site.database)
    }
    member(site, school)
    (found,) = records.verify_ledgers(site.database, kept=kept)
    assert found.proof.holds
    ahead = {school.organisation_id: found.proof.head}
    member(site, school)
    assert all(each.proof.holds for each in records.verify_ledgers(site.database, kept=ahead))


def test_an_administrator_reads_the_own_log_alone(site: Site) -> None:
    school = provider(site)
    provider(site)
    ada = member(site, school)
    entries = records.ledger_entries(site, school)
    assert [each["seq"] for each in entries] == [2, 1, 0]
    assert entries[0]["subject"] == str(ada.person_id)
    assert [each["seq"] for each in records.ledger_entries(site, school, before=1)] == [0]
    for role in (Role.APPRENTICE, Role.INSTRUCTOR):
        with pytest.raises(NotAllowed):
            records.ledger_entries(site, member(site, school, role=role))
