"""What the tests of accounts do again and again: make one, sign in, and fail to."""

from dataclasses import replace

import pytest

from trainer.domain.people import Acting, NewPerson, Role, Term
from trainer.services import accounts, administration
from trainer.services.accounts import SignInRefused
from trainer.services.site import Site

ADDRESS = "192.0.2.7"  # RFC 5737: kept for examples
PASSWORD = "straw to violet to blue"
ADA = NewPerson(name="Ada Berg", email="Ada@Example.org")


def account(site: Site, school: Acting, new: NewPerson) -> Acting:
    term = Term(starts=site.today())
    added = administration.add_person(site, school, new=new, role=Role.APPRENTICE, term=term)
    assert added.invitation is not None
    accounts.take_up_invitation(site, token=added.invitation, password=PASSWORD)
    return replace(school, person_id=added.person_id, roles=frozenset({Role.APPRENTICE}))


def sign_in(site: Site, *, email: str = ADA.email, password: str = PASSWORD, address: str = ADDRESS) -> str:
    return accounts.sign_in(site, email=email, password=password, address=address)


def fail(site: Site, *, times: int, email: str = ADA.email, address: str = ADDRESS) -> None:
    for _ in range(times):
        with pytest.raises(SignInRefused):
            sign_in(site, email=email, password="wrong", address=address)
