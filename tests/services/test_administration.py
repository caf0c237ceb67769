"""Organisations, people and roles, each act in the ledger and none beyond one's own organisation."""

import json
from datetime import timedelta
from uuid import UUID, uuid4

import pytest
from clock import Clock
from factories import acting_as, employer, member, new_person, provider

from trainer.domain.errors import Duplicate, Missing, NotAllowed, Refused
from trainer.domain.people import Acting, NotAnEmail, OrganisationKind, Role, Term
from trainer.services import administration
from trainer.services.administration import NewOrganisation
from trainer.services.site import Site
from trainer.storage import ledger, memberships, people


@pytest.fixture
def school(site: Site) -> Acting:
    """A training provider, beside another one whose people must never appear."""
    other = provider(site)
    member(site, other)
    return provider(site)


def entries(site: Site, organisation_id: UUID) -> list[dict]:
    with site.database.reading() as work:
        stored = ledger.read_log(work, organisation_id=organisation_id)
        return [json.loads(each.canonical) for each in stored]


def roles_of(site: Site, person_id: UUID, organisation_id: UUID) -> frozenset[Role]:
    return acting_as(site, person_id=person_id, organisation_id=organisation_id).roles


def membership_of(site: Site, acting: Acting) -> UUID:
    with site.database.reading() as work:
        held = memberships.list_memberships(
            work, person_id=acting.person_id, organisation_id=acting.organisation_id
        )
    return held[0].membership_id


def test_the_first_person_of_a_provider_administers_and_instructs(site: Site, school: Acting) -> None:
    assert school.roles == {Role.ADMINISTRATOR, Role.INSTRUCTOR}
    given = entries(site, school.organisation_id)
    assert [each["type"] for each in given] == ["role-given", "role-given"]
    assert {each["body"]["role"] for each in given} == {"administrator", "instructor"}
    assert {each["actor"] for each in given} == {None}  # the machine's own act


def test_a_second_organisation_of_a_name_is_refused(site: Site) -> None:
    provider(site, name="Quay Training")
    with pytest.raises(Duplicate) as refused:
        provider(site, name="  Quay   Training ")
    assert refused.value.constraint == "uq_organisation_name"


def test_an_organisation_and_a_person_need_a_name(site: Site, school: Acting) -> None:
    kind = OrganisationKind.EMPLOYER
    for new in (
        NewOrganisation(name=" ", kind=kind, first=new_person()),
        NewOrganisation(name="Quay", kind=kind, first=new_person(name=" ")),
    ):
        with pytest.raises(Refused) as refused:
            administration.found_organisation(site, new=new)
        assert refused.value.reasons == ("name-missing",)
    with site.database.reading() as work:
        assert people.list_organisations(work, kind=kind) == ()


def test_a_provider_makes_an_employer_with_its_first_person(site: Site, school: Acting) -> None:
    founded = administration.add_employer(site, school, name="Harbour Pipework", first=new_person())
    roles = roles_of(site, founded.first.person_id, founded.organisation_id)
    assert roles == {Role.ADMINISTRATOR, Role.EMPLOYER}
    assert {each["actor"] for each in entries(site, founded.organisation_id)} == {str(school.person_id)}


@pytest.mark.parametrize("role", [Role.APPRENTICE, Role.INSTRUCTOR])
def test_only_an_administrator_manages_people(site: Site, school: Acting, role: Role) -> None:
    somebody = member(site, school, role=role)
    term = Term(starts=site.today())
    with pytest.raises(NotAllowed):
        administration.add_person(site, somebody, new=new_person(), role=Role.APPRENTICE, term=term)
    with pytest.raises(NotAllowed):
        administration.list_people(site, somebody)
    with pytest.raises(NotAllowed):
        administration.add_employer(site, somebody, name="X", first=new_person())


def test_an_employer_s_administrator_makes_no_employers(site: Site, school: Acting) -> None:
    with pytest.raises(NotAllowed):
        administration.add_employer(site, employer(site), name="X", first=new_person())


def test_an_added_person_is_listed_and_entered_by_id_alone(site: Site, school: Acting) -> None:
    new = new_person(name="Ada  Berg")
    term = Term(starts=site.today(), ends=site.today() + timedelta(days=30))
    added = administration.add_person(site, school, new=new, role=Role.APPRENTICE, term=term)
    listed = administration.list_people(site, school)
    assert {each.person.name for each in listed} >= {"Ada Berg"}
    assert {each.person.person_id for each in listed} == {school.person_id, added.person_id}
    entry = entries(site, school.organisation_id)[-1]
    assert entry["subject"] == str(added.person_id)
    assert entry["actor"] == str(school.person_id)
    assert entry["body"]["starts"] == "2026-03-02"
    assert entry["body"]["ends"] == "2026-04-01"
    assert "Ada" not in json.dumps(entries(site, school.organisation_id))


def test_a_known_address_means_the_same_person_and_no_way_into_their_account(
    site: Site, school: Acting
) -> None:
    elsewhere = member(site, provider(site), new=new_person(email="ada@example.org"))
    term = Term(starts=site.today())
    new = new_person(email="ADA@example.org", name="Another Name")
    added = administration.add_person(site, school, new=new, role=Role.APPRENTICE, term=term)
    assert added.person_id == elsewhere.person_id
    assert added.invitation is None
    with pytest.raises(Refused) as refused:
        administration.invite_again(site, school, person_id=added.person_id)
    assert refused.value.reasons == ("belongs-elsewhere-too",)


def test_somebody_of_here_alone_who_never_took_up_an_invitation_gets_a_new_one(
    site: Site, school: Acting
) -> None:
    new = new_person(email="ada@example.org")
    apprentice = member(site, school, new=new)
    added = administration.add_person(
        site, school, new=new, role=Role.INSTRUCTOR, term=Term(starts=site.today())
    )
    assert added.person_id == apprentice.person_id
    assert added.invitation is not None


def test_what_is_no_address_is_refused(site: Site, school: Acting) -> None:
    with pytest.raises(NotAnEmail):
        member(site, school, new=new_person(email="ada"))


def test_a_role_that_the_organisation_does_not_have_is_refused_and_nothing_stored(
    site: Site, school: Acting
) -> None:
    with pytest.raises(Refused) as refused:
        member(site, school, role=Role.EMPLOYER, new=new_person(email="ada@example.org"))
    assert refused.value.reasons == ("role-does-not-fit",)
    with site.database.reading() as work:
        assert people.find_person_by_email(work, "ada@example.org") is None


def test_a_role_held_in_that_time_is_a_duplicate(site: Site, school: Acting) -> None:
    ada = member(site, school, ends=site.today() + timedelta(days=10))
    again = Term(starts=site.today() + timedelta(days=10))
    with pytest.raises(Duplicate):
        administration.give_role(site, school, person_id=ada.person_id, role=Role.APPRENTICE, term=again)
    later = Term(starts=site.today() + timedelta(days=11))
    assert administration.give_role(site, school, person_id=ada.person_id, role=Role.APPRENTICE, term=later)


def test_people_of_another_organisation_are_not_there(site: Site, school: Acting) -> None:
    stranger = member(site, provider(site))
    term = Term(starts=site.today())
    for act in (
        lambda: administration.give_role(
            site, school, person_id=stranger.person_id, role=Role.INSTRUCTOR, term=term
        ),
        lambda: administration.invite_again(site, school, person_id=stranger.person_id),
        lambda: administration.end_role(
            site, school, membership_id=membership_of(site, stranger), reason="x"
        ),
        lambda: administration.end_role(site, school, membership_id=uuid4(), reason="x"),
    ):
        with pytest.raises(Missing):
            act()


def test_a_role_ended_at_once_is_over_today_and_can_be_given_again(site: Site, school: Acting) -> None:
    ada = member(site, school)
    administration.end_role(site, school, membership_id=membership_of(site, ada), reason="Left the course")
    assert roles_of(site, ada.person_id, ada.organisation_id) == frozenset()
    entry = entries(site, school.organisation_id)[-1]
    assert entry["type"] == "role-ended"
    assert entry["body"]["last_day"] is None
    assert entry["reason"] is not None
    administration.give_role(
        site, school, person_id=ada.person_id, role=Role.APPRENTICE, term=Term(starts=site.today())
    )
    assert roles_of(site, ada.person_id, ada.organisation_id) == {Role.APPRENTICE}


def test_a_role_with_a_last_day_is_held_until_its_end(site: Site, clock: Clock, school: Acting) -> None:
    ada = member(site, school)
    last = site.today() + timedelta(days=1)
    administration.end_role(
        site, school, membership_id=membership_of(site, ada), reason="Course ends", last_day=last
    )
    clock.go_on(days=1)
    assert roles_of(site, ada.person_id, ada.organisation_id) == {Role.APPRENTICE}
    clock.go_on(days=1)
    assert roles_of(site, ada.person_id, ada.organisation_id) == frozenset()


def test_authority_is_that_of_the_day_not_of_today(site: Site, clock: Clock, school: Acting) -> None:
    signer = member(site, school, role=Role.INSTRUCTOR)
    day = site.today()
    clock.go_on(days=3)
    administration.end_role(site, school, membership_id=membership_of(site, signer), reason="Moved on")
    with site.database.reading() as work:
        for held_on, expected in ((day, {Role.INSTRUCTOR}), (site.today(), frozenset())):
            assert (
                memberships.roles_on(
                    work,
                    person_id=signer.person_id,
                    organisation_id=signer.organisation_id,
                    day=held_on,
                )
                == expected
            )


def test_what_cannot_be_ended_is_refused_with_its_reason(site: Site, clock: Clock, school: Acting) -> None:
    ada = member(site, school, ends=site.today() + timedelta(days=5))
    mine = membership_of(site, ada)

    def reasons(**changes: object) -> tuple[str, ...]:
        with pytest.raises(Refused) as refused:
            administration.end_role(site, school, membership_id=mine, reason="x", **changes)
        return refused.value.reasons

    assert reasons(last_day=site.today() - timedelta(days=1)) == ("last-day-too-early",)
    clock.go_on(days=6)
    assert reasons() == ("ended-already",)
    bea = member(site, school)
    mine = membership_of(site, bea)
    administration.end_role(site, school, membership_id=mine, reason="x")
    assert reasons() == ("ended-already",)


def test_an_organisation_keeps_an_administrator(site: Site, school: Acting) -> None:
    listed = administration.list_people(site, school)
    mine = next(each.membership_id for each in listed[0].memberships if each.role is Role.ADMINISTRATOR)
    with pytest.raises(Refused) as refused:
        administration.end_role(site, school, membership_id=mine, reason="x")
    assert refused.value.reasons == ("last-administrator",)
    member(site, school, role=Role.ADMINISTRATOR)
    administration.end_role(site, school, membership_id=mine, reason="x")


def test_the_machine_gives_roles_by_name_of_organisation(site: Site) -> None:
    school = provider(site, name="Quay Training")
    added = administration.set_up_person(
        site, organisation=" Quay  Training", new=new_person(), role=Role.INSTRUCTOR
    )
    assert roles_of(site, added.person_id, school.organisation_id) == {Role.INSTRUCTOR}
    with pytest.raises(Missing, match="Dock"):
        administration.set_up_person(site, organisation="Dock", new=new_person(), role=Role.INSTRUCTOR)
