"""Two administrators at the same moment: what each could do alone, both together may not."""

import threading
from collections.abc import Callable

from factories import acting_as, employer, member, provider

from trainer.domain.errors import DomainError
from trainer.domain.people import Role, Term
from trainer.services import administration, qualification_pages, records, sharing
from trainer.services.sharing import Offer
from trainer.services.site import Site


def at_once(*acts: Callable[[], object]) -> list[type[DomainError] | None]:
    """How each ended: None where it was done, else what refused it."""
    ends: list[type[DomainError] | None] = []
    ready = threading.Barrier(len(acts))

    def run(act: Callable[[], object]) -> None:
        ready.wait()
        try:
            act()
        except DomainError as refused:
            ends.append(type(refused))
        else:
            ends.append(None)

    threads = [threading.Thread(target=run, args=(act,)) for act in acts]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    return ends


def test_two_administrators_cannot_end_each_other(site: Site) -> None:
    first = provider(site)
    second = member(site, first, role=Role.ADMINISTRATOR)
    ids = {
        (each.person_id, each.role): each.membership_id
        for person in administration.list_people(site, first)
        for each in person.memberships
    }

    def end(by, whom) -> Callable[[], object]:
        membership_id = ids[whom.person_id, Role.ADMINISTRATOR]
        return lambda: administration.end_role(site, by, membership_id=membership_id, reason="x")

    ends = at_once(end(first, second), end(second, first))
    assert ends.count(None) == 1
    left = [
        acting_as(site, person_id=each.person_id, organisation_id=first.organisation_id)
        for each in (first, second)
    ]
    assert sum(Role.ADMINISTRATOR in each.roles for each in left) == 1


def test_one_role_is_given_once(site: Site) -> None:
    school = provider(site)
    ada = member(site, school)
    term = Term(starts=site.today())

    def give() -> object:
        return administration.give_role(
            site, school, person_id=ada.person_id, role=Role.INSTRUCTOR, term=term
        )

    assert at_once(give, give).count(None) == 1


def test_one_share_is_given_once(site: Site) -> None:
    school, harbour = provider(site), employer(site)
    ada = member(site, school)
    offer = Offer(
        employer_id=harbour.organisation_id,
        basis="employment",
        consent_on_file="folder 7",
        term=Term(starts=site.today()),
    )

    def give() -> object:
        return sharing.give_share(site, ada, person_id=ada.person_id, offer=offer)

    assert at_once(give, give).count(None) == 1
    assert len(qualification_pages.qualified_people(site, harbour)) == 1


def test_one_share_is_ended_once(site: Site) -> None:
    school, harbour = provider(site), employer(site)
    ada = member(site, school)
    offer = Offer(
        employer_id=harbour.organisation_id,
        basis="employment",
        consent_on_file="folder 7",
        term=Term(starts=site.today()),
    )
    share = sharing.give_share(site, ada, person_id=ada.person_id, offer=offer)

    def end() -> object:
        return sharing.end_share(site, ada, share_id=share, reason="x")

    assert at_once(end, end) == [None, None]
    log = records.ledger_entries(site, school)
    assert sum(each["type"] == "share-ended" for each in log) == 1
