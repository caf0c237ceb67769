"""Passwords, preferences, invitations, and the organisation that a person acts in."""

from datetime import timedelta

import pytest
from account_steps import ADA, PASSWORD, fail, sign_in
from clock import Clock
from factories import employer, member, provider

from trainer.domain.errors import Missing
from trainer.domain.people import Acting, Language, Role, Term, UnitSystem
from trainer.services import accounts, administration
from trainer.services.accounts import SignInRefused, TooManyTries, WeakPassword
from trainer.services.site import Site

# --- organisations ------------------------------------------------------------------------------------------


def test_a_person_of_two_organisations_acts_in_one_at_a_time(site: Site, ada: Acting) -> None:
    dock = provider(site, name="Dock Training")
    member(site, dock, role=Role.INSTRUCTOR, new=ADA)
    stranger = employer(site)
    token = sign_in(site)

    first = accounts.acting_for(site, session_token=token)
    assert first.organisation.name == "Dock Training"  # the first by name, until one is chosen
    assert first.acting.roles == {Role.INSTRUCTOR}
    assert [each.organisation.name for each in first.places] == ["Dock Training", "Quay Training"]

    accounts.choose_organisation(site, session_token=token, organisation_id=ada.organisation_id)
    assert accounts.acting_for(site, session_token=token).acting == ada
    with pytest.raises(Missing):
        accounts.choose_organisation(site, session_token=token, organisation_id=stranger.organisation_id)
    with pytest.raises(Missing):
        accounts.choose_organisation(site, session_token="x", organisation_id=ada.organisation_id)


def test_roles_hold_on_their_days_alone(site: Site, clock: Clock, school: Acting) -> None:
    today = site.today()
    added = administration.add_person(
        site, school, new=ADA, role=Role.APPRENTICE, term=Term(starts=today, ends=today)
    )
    administration.give_role(
        site,
        school,
        person_id=added.person_id,
        role=Role.INSTRUCTOR,
        term=Term(starts=today + timedelta(days=1)),
    )
    accounts.take_up_invitation(site, token=added.invitation, password=PASSWORD)
    clock.go_on(hours=14)  # 23:00
    token = sign_in(site)
    assert accounts.acting_for(site, session_token=token).acting.roles == {Role.APPRENTICE}
    clock.go_on(hours=1)
    assert accounts.acting_for(site, session_token=token).acting.roles == {Role.INSTRUCTOR}


def test_where_a_role_is_held_today_comes_before_where_all_have_ended(
    site: Site, clock: Clock, ada: Acting
) -> None:
    past = provider(site, name="Arch Training")
    member(site, past, new=ADA, ends=site.today())
    clock.go_on(days=1)
    signed_in = accounts.acting_for(site, session_token=sign_in(site))
    assert signed_in.organisation.name == "Quay Training"


def test_somebody_whose_roles_have_ended_still_reaches_their_own_record(site: Site, clock: Clock) -> None:
    school = provider(site)
    added = administration.add_person(
        site, school, new=ADA, role=Role.APPRENTICE, term=Term(starts=site.today(), ends=site.today())
    )
    accounts.take_up_invitation(site, token=added.invitation, password=PASSWORD)
    clock.go_on(days=1)
    signed_in = accounts.acting_for(site, session_token=sign_in(site))
    assert signed_in.acting.person_id == added.person_id
    assert signed_in.acting.roles == frozenset()


# --- passwords and preferences ------------------------------------------------------------------------------


def test_changing_the_password_ends_every_other_session(site: Site, ada: Acting) -> None:
    here, there = sign_in(site), sign_in(site)
    new = "blue to grey to black"
    accounts.change_password(site, ada, session_token=here, current=PASSWORD, new=new)
    assert accounts.acting_for(site, session_token=here) is not None
    assert accounts.acting_for(site, session_token=there) is None
    fail(site, times=1)
    assert sign_in(site, password=new)


def test_a_wrong_current_password_changes_nothing_and_counts(site: Site, ada: Acting) -> None:
    token = sign_in(site)
    for _ in range(5):
        with pytest.raises(SignInRefused):
            accounts.change_password(site, ada, session_token=token, current="wrong", new="x" * 20)
    with pytest.raises(TooManyTries):
        accounts.change_password(site, ada, session_token=token, current=PASSWORD, new="x" * 20)


@pytest.mark.parametrize(
    ("password", "why"),
    [
        ("nine char", "too-short"),
        ("x" * 201, "too-long"),
        ("ADA@example.org", "is-email"),
    ],
)
def test_a_weak_password_is_refused_with_its_reason(site: Site, ada: Acting, password: str, why: str) -> None:
    token = sign_in(site)
    with pytest.raises(WeakPassword) as refused:
        accounts.change_password(site, ada, session_token=token, current=PASSWORD, new=password)
    assert refused.value.why == why
    assert sign_in(site)


def test_a_name_is_no_password() -> None:
    with pytest.raises(WeakPassword, match="is-name"):
        accounts.check_password("maximilian berg", name="Maximilian Berg", email="m@example.org")


def test_units_and_language_follow_the_person(site: Site, ada: Acting) -> None:
    accounts.change_preferences(site, ada, units=UnitSystem.INCH_POUND, language=Language.SPANISH)
    person = accounts.acting_for(site, session_token=sign_in(site)).person
    assert (person.units, person.language) == (UnitSystem.INCH_POUND, Language.SPANISH)


# --- invitations --------------------------------------------------------------------------------------------


def test_an_invitation_works_once(site: Site, school: Acting) -> None:
    added = administration.add_person(
        site, school, new=ADA, role=Role.APPRENTICE, term=Term(starts=site.today())
    )
    assert accounts.invited(site, token=added.invitation).email == "ada@example.org"
    with pytest.raises(WeakPassword):
        accounts.take_up_invitation(site, token=added.invitation, password="short")
    accounts.take_up_invitation(site, token=added.invitation, password=PASSWORD)
    with pytest.raises(Missing):
        accounts.take_up_invitation(site, token=added.invitation, password="another password")
    assert sign_in(site)


def test_an_invitation_lapses_after_a_week(site: Site, clock: Clock, school: Acting) -> None:
    added = administration.add_person(
        site, school, new=ADA, role=Role.APPRENTICE, term=Term(starts=site.today())
    )
    clock.go_on(days=7)
    with pytest.raises(Missing):
        accounts.invited(site, token=added.invitation)


def test_a_new_invitation_ends_the_one_before_and_all_sessions(
    site: Site, school: Acting, ada: Acting
) -> None:
    token = sign_in(site)
    first = administration.invite_again(site, school, person_id=ada.person_id)
    second = administration.new_password_for(site, email=ADA.email)
    with pytest.raises(Missing):
        accounts.invited(site, token=first)
    accounts.take_up_invitation(site, token=second, password="a new long password")
    assert accounts.acting_for(site, session_token=token) is None
    with pytest.raises(Missing):
        administration.new_password_for(site, email="nobody@example.org")
