"""An employer sees a record from the day it is shared until the share ends, and no other record."""

import json
from datetime import timedelta
from uuid import UUID, uuid4

import pytest
from clock import Clock
from factories import employer, member, provider

from trainer.domain.errors import Duplicate, Missing, NotAllowed, Refused
from trainer.domain.people import Acting, Role, Term
from trainer.services import qualification_pages, sharing
from trainer.services.sharing import Offer
from trainer.services.site import Site
from trainer.storage import ledger, shares


@pytest.fixture
def school(site: Site) -> Acting:
    return provider(site)


@pytest.fixture
def ada(site: Site, school: Acting) -> Acting:
    """An apprentice, beside one whose record is shared with nobody."""
    member(site, school)
    return member(site, school)


@pytest.fixture
def harbour(site: Site) -> Acting:
    return employer(site, name="Harbour Pipework")


def offer(to: Acting, site: Site, **changes: object) -> Offer:
    values = {
        "employer_id": to.organisation_id,
        "basis": "employment",
        "consent_on_file": "signed form, folder 7",
        "term": Term(starts=site.today()),
    }
    return Offer(**{**values, **changes})


def give(site: Site, acting: Acting, person: Acting, to: Acting, **changes: object) -> UUID:
    return sharing.give_share(site, acting, person_id=person.person_id, offer=offer(to, site, **changes))


def seen_by(site: Site, acting: Acting) -> list[UUID]:
    return [each.person_id for each in qualification_pages.qualified_people(site, acting)]


def test_an_employer_sees_those_shared_with_it_and_nobody_else(
    site: Site, ada: Acting, harbour: Acting
) -> None:
    other = employer(site)
    give(site, ada, ada, harbour)
    assert seen_by(site, harbour) == [ada.person_id]
    assert seen_by(site, other) == []


def test_a_share_and_its_end_are_entered_without_words(
    site: Site, school: Acting, ada: Acting, harbour: Acting
) -> None:
    share = give(site, school, ada, harbour)
    sharing.end_share(site, ada, share_id=share, reason="Changed employer")
    with site.database.reading() as work:
        log = list(ledger.read_log(work, organisation_id=ada.organisation_id))
    given, ended = (json.loads(each.canonical) for each in log[-2:])
    assert (given["type"], given["actor"]) == ("share-given", str(school.person_id))
    assert (ended["type"], ended["actor"]) == ("share-ended", str(ada.person_id))
    assert given["subject"] == ended["subject"] == str(ada.person_id)
    assert given["body"]["share"] == ended["body"]["share"] == str(share)
    assert b"folder" not in log[-2].canonical
    assert json.loads(log[-2].details) == {
        "basis": "employment",
        "consent_on_file": "signed form, folder 7",
    }
    assert json.loads(log[-1].reason) == "Changed employer"


def test_a_share_is_in_sight_on_its_days(site: Site, clock: Clock, ada: Acting, harbour: Acting) -> None:
    first = site.today() + timedelta(days=1)
    give(site, ada, ada, harbour, term=Term(starts=first, ends=first))
    assert seen_by(site, harbour) == []
    clock.go_on(days=1)
    assert seen_by(site, harbour) == [ada.person_id]
    clock.go_on(days=1)
    assert seen_by(site, harbour) == []


def test_an_ended_share_is_out_of_sight_at_once_and_ends_once(
    site: Site, ada: Acting, harbour: Acting
) -> None:
    share = give(site, ada, ada, harbour)
    sharing.end_share(site, ada, share_id=share, reason="x")
    sharing.end_share(site, ada, share_id=share, reason="x")
    assert seen_by(site, harbour) == []
    with site.database.reading() as work:
        assert shares.employers_seeing(work, person_id=ada.person_id, day=site.today()) == frozenset()
        log = list(ledger.read_log(work, organisation_id=ada.organisation_id))
    assert sum(each.entry_type == "share-ended" for each in log) == 1
    assert give(site, ada, ada, harbour) != share
    assert seen_by(site, harbour) == [ada.person_id]


def test_one_person_is_listed_once_with_the_share_that_reaches_furthest(
    site: Site, clock: Clock, ada: Acting, harbour: Acting
) -> None:
    today = site.today()
    give(site, ada, ada, harbour, term=Term(starts=today + timedelta(days=2)))
    give(site, ada, ada, harbour, term=Term(starts=today, ends=today + timedelta(days=9)))
    clock.go_on(days=3)
    (seen,) = qualification_pages.qualified_people(site, harbour)
    assert seen.share.ends is None


def test_a_record_in_sight_is_not_shared_twice(site: Site, ada: Acting, harbour: Acting) -> None:
    give(site, ada, ada, harbour)
    with pytest.raises(Duplicate):
        give(site, ada, ada, harbour)


def test_everything_that_is_wrong_with_an_offer_is_named(site: Site, ada: Acting, harbour: Acting) -> None:
    past = Term(starts=site.today() - timedelta(days=1))
    with pytest.raises(Refused) as refused:
        give(site, ada, ada, harbour, basis=" ", consent_on_file="", term=past)
    assert refused.value.reasons == ("starts-in-the-past", "basis-missing", "consent-missing")


def test_nobody_but_the_person_and_their_provider_may_share(
    site: Site, school: Acting, ada: Acting, harbour: Acting
) -> None:
    stranger = provider(site)
    fellow = member(site, school)
    for acting in (stranger, fellow, harbour):
        with pytest.raises(Missing):
            give(site, acting, ada, harbour)
        with pytest.raises(Missing):
            sharing.shares_of(site, acting, person_id=ada.person_id)
    share = give(site, ada, ada, harbour)
    for acting in (stranger, fellow, harbour):
        with pytest.raises(Missing):
            sharing.end_share(site, acting, share_id=share, reason="x")
    assert seen_by(site, harbour) == [ada.person_id]


def test_a_provider_shares_no_longer_once_the_person_has_left(
    site: Site, clock: Clock, school: Acting, harbour: Acting
) -> None:
    ada = member(site, school, ends=site.today())
    clock.go_on(days=1)
    with pytest.raises(Missing):
        give(site, school, ada, harbour)
    assert give(site, ada, ada, harbour)  # the record stays the person's own


def test_only_an_employer_can_be_shown_a_record(site: Site, school: Acting, ada: Acting) -> None:
    for to in (school, provider(site)):
        with pytest.raises(Missing):
            give(site, ada, ada, to)
    with pytest.raises(Missing):
        sharing.give_share(site, ada, person_id=ada.person_id, offer=offer(ada, site, employer_id=uuid4()))
    with pytest.raises(Missing):
        sharing.end_share(site, ada, share_id=uuid4(), reason="x")


def test_only_an_employer_lists_people_shared_with_it(site: Site, school: Acting, ada: Acting) -> None:
    for acting in (school, ada):
        with pytest.raises(NotAllowed):
            qualification_pages.qualified_people(site, acting)


def test_the_employers_to_choose_from_are_listed_by_name(
    site: Site, school: Acting, ada: Acting, harbour: Acting
) -> None:
    dock = employer(site, name="Dock Pipework")
    listed = sharing.employers(site, ada)
    assert [each.organisation_id for each in listed] == [dock.organisation_id, harbour.organisation_id]


def test_a_person_sees_their_roles_and_shares_everywhere(
    site: Site, school: Acting, ada: Acting, harbour: Acting
) -> None:
    share = give(site, school, ada, harbour)
    give(site, school, member(site, school), harbour)
    record = sharing.own_record(site, ada)
    assert record.person.person_id == ada.person_id
    assert [(each.role, place.organisation_id) for each, place in record.memberships] == [
        (Role.APPRENTICE, school.organisation_id)
    ]
    (given,) = record.shares
    assert (given.share.share_id, given.employer.name, given.in_sight) == (share, "Harbour Pipework", True)
    assert sharing.shares_of(site, school, person_id=ada.person_id) == record.shares
