"""Signing in and out: who is let in, too many tries, and how long a session holds."""

from dataclasses import replace
from datetime import timedelta

import pytest
from account_steps import ADA, PASSWORD, fail, sign_in
from argon2 import PasswordHasher
from clock import Clock
from factories import new_person
from sqlalchemy import text

from trainer.domain.people import Acting, Role, Term
from trainer.services import accounts, administration
from trainer.services.accounts import SignInRefused, TooManyTries
from trainer.services.passwords import Passwords
from trainer.services.site import Site
from trainer.storage import people

# --- signing in ---------------------------------------------------------------------------------------------


def test_the_right_password_opens_a_session_that_says_who_acts(site: Site, ada: Acting) -> None:
    signed_in = accounts.acting_for(site, session_token=sign_in(site))
    assert signed_in is not None
    assert signed_in.acting == ada
    assert signed_in.display_name == "Ada Berg"
    assert signed_in.organisation.name == "Quay Training"


@pytest.mark.parametrize("email", ["ada@example.org", " ADA@EXAMPLE.ORG "])
def test_the_case_of_an_address_does_not_matter(site: Site, ada: Acting, email: str) -> None:
    assert sign_in(site, email=email)


def test_a_password_typed_on_another_keyboard_is_the_same(site: Site, school: Acting) -> None:
    """Composed and decomposed letters: Unicode Standard Annex 15."""
    added = administration.add_person(
        site, school, new=ADA, role=Role.APPRENTICE, term=Term(starts=site.today())
    )
    accounts.take_up_invitation(site, token=added.invitation, password="contrase\u00f1a larga")
    assert sign_in(site, password="contrasen\u0303a larga")


def test_no_refusal_says_whether_the_account_exists(site: Site, ada: Acting, school: Acting) -> None:
    invited = new_person()
    administration.add_person(site, school, new=invited, role=Role.APPRENTICE, term=Term(starts=site.today()))
    messages = set()
    for email, password in [
        (ADA.email, "wrong"),
        ("nobody@example.org", PASSWORD),
        (invited.email, PASSWORD),
        ("no address", PASSWORD),
    ]:
        with pytest.raises(SignInRefused) as refused:
            sign_in(site, email=email, password=password)
        messages.add(str(refused.value))
    assert len(messages) == 1


def test_an_unknown_account_is_checked_like_a_known_one(site: Site, ada: Acting) -> None:
    """The cost of a check tells nobody who has an account: one verification for either."""

    class Counting(PasswordHasher):
        verified = 0

        def verify(self, hash, password):  # noqa: A002
            Counting.verified += 1
            return super().verify(hash, password)

    counting = replace(site, passwords=Passwords(Counting(time_cost=1, memory_cost=8, parallelism=1)))
    for email in (ADA.email, "nobody@example.org"):
        before = Counting.verified
        with pytest.raises(SignInRefused):
            sign_in(counting, email=email, password="wrong")
        assert Counting.verified == before + 1


def test_a_hash_of_weaker_times_is_made_anew_when_its_owner_signs_in(site: Site, ada: Acting) -> None:
    stronger = replace(site, passwords=Passwords(PasswordHasher(time_cost=2, memory_cost=16, parallelism=1)))
    before = stored_hash(site)
    sign_in(stronger)
    after = stored_hash(site)
    assert "m=8,t=1" in before
    assert "m=16,t=2" in after
    sign_in(stronger)
    assert stored_hash(site) == after


def stored_hash(site: Site) -> str:
    with site.database.reading() as work:
        return people.find_password_hash(work, email="ada@example.org")[1]


def test_passwords_are_hashed_with_argon2id_at_the_library_s_cost() -> None:
    # RFC 9106, section 4: argon2id; the second recommended option is t=3, m=64 MiB, p=4
    assert Passwords().hash(PASSWORD).startswith("$argon2id$v=19$m=65536,t=3,p=4$")


# --- too many tries -----------------------------------------------------------------------------------------


def test_five_failures_shut_an_account_for_a_while_even_to_its_password(
    site: Site, clock: Clock, ada: Acting
) -> None:
    fail(site, times=5)
    with pytest.raises(TooManyTries) as refused:
        sign_in(site)
    assert refused.value.until == clock.at + timedelta(minutes=15)
    clock.go_on(minutes=14, seconds=59)
    with pytest.raises(TooManyTries):
        sign_in(site)
    clock.go_on(seconds=1)
    assert sign_in(site)


def test_an_unknown_account_is_shut_the_same_way(site: Site, ada: Acting) -> None:
    fail(site, times=5, email="nobody@example.org")
    with pytest.raises(TooManyTries):
        sign_in(site, email="nobody@example.org")
    assert sign_in(site)


def test_failures_count_from_every_address_together(site: Site, ada: Acting) -> None:
    for number in range(5):
        fail(site, times=1, address=f"192.0.2.{number}")
    with pytest.raises(TooManyTries):
        sign_in(site, address="198.51.100.1")


def test_an_address_that_tries_many_accounts_is_shut(site: Site, ada: Acting) -> None:
    for number in range(accounts.FAILURES_FROM_ADDRESS):
        fail(site, times=1, email=f"guess{number}@example.org")
    with pytest.raises(TooManyTries):
        sign_in(site)
    assert sign_in(site, address="198.51.100.1")


def test_signing_in_takes_back_the_failures_of_the_account_alone(site: Site, ada: Acting) -> None:
    fail(site, times=4)
    fail(site, times=4, email="other@example.org")
    sign_in(site)
    fail(site, times=4)
    assert sign_in(site)
    fail(site, times=1, email="other@example.org")
    with pytest.raises(TooManyTries):
        sign_in(site, email="other@example.org")


def test_a_try_counts_before_its_password_is_checked(site: Site, ada: Acting) -> None:
    """So that tries made at the same moment cannot all slip in under the count."""

    class Reentrant(PasswordHasher):
        seen: list[type[Exception]] = []

        def verify(self, hash, password):  # noqa: A002
            if len(self.seen) < 10:
                self.seen.append(Exception)
                try:
                    sign_in(meanwhile, password="wrong")
                except SignInRefused as refused:
                    self.seen.append(type(refused))
            return super().verify(hash, password)

    meanwhile = replace(site, passwords=Passwords(Reentrant(time_cost=1, memory_cost=8, parallelism=1)))
    with pytest.raises(SignInRefused):
        sign_in(meanwhile, password="wrong")
    assert Reentrant.seen.count(TooManyTries) == 1
    assert Reentrant.seen.count(SignInRefused) == 4


# --- sessions -----------------------------------------------------------------------------------------------


def test_an_unknown_token_is_nobody(site: Site, ada: Acting) -> None:
    assert accounts.acting_for(site, session_token="x") is None


def test_signing_out_ends_that_session_alone(site: Site, ada: Acting) -> None:
    here, there = sign_in(site), sign_in(site)
    accounts.sign_out(site, session_token=here)
    accounts.sign_out(site, session_token=here)
    assert accounts.acting_for(site, session_token=here) is None
    assert accounts.acting_for(site, session_token=there) is not None


def test_signing_out_elsewhere_keeps_this_session(site: Site, ada: Acting) -> None:
    here, there = sign_in(site), sign_in(site)
    accounts.sign_out_elsewhere(site, ada, session_token=here)
    assert accounts.acting_for(site, session_token=here) is not None
    assert accounts.acting_for(site, session_token=there) is None


def test_a_session_ends_by_itself(site: Site, clock: Clock, ada: Acting) -> None:
    token = sign_in(site)
    clock.go_on(hours=11, minutes=59)
    assert accounts.acting_for(site, session_token=token) is not None
    clock.go_on(minutes=1)
    assert accounts.acting_for(site, session_token=token) is None


def test_the_token_itself_is_not_in_the_database(site: Site, ada: Acting) -> None:
    token = sign_in(site)
    with site.database.reading() as work:
        stored = work.session.scalars(text("SELECT token_hash FROM sign_in")).all()
    assert len(stored) == 1
    assert token not in stored


def test_sign_ins_of_long_ago_are_forgotten(site: Site, clock: Clock, ada: Acting) -> None:
    sign_in(site)
    clock.go_on(days=30)
    sign_in(site)
    assert count_sign_ins(site) == 2
    clock.go_on(days=1)
    sign_in(site)
    assert count_sign_ins(site) == 2


def count_sign_ins(site: Site) -> int:
    with site.database.reading() as work:
        return work.session.scalar(text("SELECT count(*) FROM sign_in"))
