"""One's own account: password, units, organisation acted in, own record and who sees it."""

import pytest
from visitors import Visitor

from trainer.domain.people import NewPerson, Role, Term
from trainer.services import administration

PASSWORD = "four words from the shop"
NEW = "another four good words"


def change(page, present, wanted, again):
    return page.submit(
        "Change the password",
        **{"Present password": present, "New password": wanted, "New password again": again},
    )


def test_a_new_password_ends_other_sign_ins_and_keeps_this_one(visit_as, app, world):
    here, elsewhere = visit_as("apprentice"), visit_as("apprentice")

    page = change(here.open_page("/account/password"), PASSWORD, NEW, NEW)

    assert "The password is changed" in page.said[0]
    assert elsewhere.open_page("/account").heading == "Sign in"
    assert Visitor(app).sign_in(world.apprentice.email, NEW).heading == "Today"


@pytest.mark.parametrize(
    ("typed", "label", "said"),
    [
        (("wrong words here", NEW, NEW), "Present password", "not your present password"),
        ((PASSWORD, "short", "short"), "New password", "Take 10 to 200"),
        ((PASSWORD, NEW, "not the same words"), "New password again", "not the same"),
        (
            (PASSWORD, "apprentice@brightroot.example", "apprentice@brightroot.example"),
            "New password",
            "e-mail",
        ),
        ((PASSWORD, "", ""), "New password", "Write the new password."),
        ((PASSWORD, "x" * 300, "x" * 300), "New password", "Take 10 to 200"),
    ],
)
def test_a_password_that_will_not_do_is_said_at_its_field(visit_as, typed, label, said):
    page = change(visit_as("apprentice").open_page("/account/password"), *typed)

    assert page.status == 422
    assert said in page.error_for(label)
    assert page.field("New password") == ""


def test_other_sign_ins_can_be_ended_from_here(visit_as):
    here, elsewhere = visit_as("apprentice"), visit_as("apprentice")

    here.open_page("/account").submit("End all your other sign-ins")

    assert elsewhere.open_page("/account").heading == "Sign in"
    assert here.open_page("/account").heading == "Your account"


def test_somebody_in_two_organisations_acts_in_one_at_a_time(app, world):
    new = NewPerson(name=world.apprentice.name, email=world.apprentice.email)
    administration.add_person(
        world.site,
        world.employer_admin.acting,
        new=new,
        role=Role.EMPLOYER,
        term=Term(starts=world.site.today()),
    )
    both = Visitor(app)
    both.sign_in(world.apprentice.email, PASSWORD)
    before = both.open_page("/")

    after = both.open_page("/account").submit("Act in Northgate Purge School")

    assert before.heading == "People shared with you"
    assert after.path == "/apprentice/"
    assert both.open_page("/employer/people").status == 403
    assert both.open_page("/account/record").status == 200


def test_units_and_theme_are_kept(visit_as):
    apprentice = visit_as("apprentice")

    page = apprentice.open_page("/account").submit(
        "Keep", Units="US (inch, pound)", Colours="Outdoors, at most contrast"
    )

    assert page.said == ["Kept."]
    assert page.field("US (inch, pound)") is True
    assert page.soup.html["data-theme"] == "outdoor"


def test_an_unknown_theme_is_refused_and_breaks_nothing(visit_as):
    apprentice = visit_as("apprentice")
    apprentice.client.set_cookie("theme", "neon<script>")

    assert apprentice.post("/account/preferences", {"units": "cubits", "theme": "neon"}).status == 422
    assert "neon" not in apprentice.open_page("/account").html


def test_the_own_record_shows_attempts_qualifications_and_shares_everywhere(visit_as, things, world):
    page = visit_as("apprentice").open_page("/account/record")

    assert page.rows("Your qualifications")[0][0] == things.code
    assert len(page.rows("Your attempts")) == 4
    assert (
        page.row("Millrace Fabrication")[1] == "asked for by the person"
        or page.row("Millrace Fabrication")[4] == "sees it"
    )


def test_one_shares_the_own_record_and_takes_it_back(visit_as, world):
    apprentice, employer = visit_as("apprentice"), visit_as("employer")

    shared = apprentice.open_page("/account/record").submit(
        "Share your record", Employer="Millrace Fabrication"
    )
    seen = employer.open_page("/employer/people").text
    ended = shared.follow("Stop sharing with Millrace Fabrication").submit(
        "Stop sharing", Reason="changed my mind"
    )

    assert "Your record is shared." in shared.said
    assert world.apprentice.name in seen
    assert "ended" in ended.row("Millrace Fabrication")[4]
    assert world.apprentice.name not in employer.open_page("/employer/people").text


@pytest.mark.parametrize(
    ("filled", "said"),
    [
        ({"From": "2026-01-01"}, "lies in the past"),
        ({"From": "2026-03-10", "Until, if it ends": "2026-03-09"}, "before the first"),
        ({"From": ""}, "Write the day"),
        ({"From": "03/10/2026"}, "not a day"),
    ],
)
def test_a_share_that_does_not_hold_is_refused(visit_as, filled, said):
    page = (
        visit_as("apprentice")
        .open_page("/account/record")
        .submit("Share your record", Employer="Millrace Fabrication", **filled)
    )

    assert page.status == 422
    assert any(said in each for each in page.faults), page.faults


def test_sharing_twice_with_the_same_employer_is_refused(visit_as):
    page = visit_as("apprentice").open_page("/account/record")
    page.submit("Share your record", Employer="Millrace Fabrication")

    again = page.submit("Share your record", Employer="Millrace Fabrication")

    assert again.status == 422
    assert "already" in again.faults[0]


def test_an_invitation_sets_a_password_once(visitor, things, app, world):
    address = f"/account/invitation/{things.invitation}"
    page = visitor.open_page(address)
    assert world.second_apprentice.email in page.text

    done = page.submit("Set the password", **{"New password": NEW, "New password again": NEW})

    assert done.heading == "Sign in"
    assert visitor.open_page(address).status == 404
    assert Visitor(app).sign_in(world.second_apprentice.email, NEW).heading == "Today"


@pytest.mark.parametrize("token", ["nothing", "x" * 3000, "%00", "..%2f"])
def test_an_invitation_that_is_none_answers_404(visitor, token):
    assert visitor.open_page(f"/account/invitation/{token}").status == 404
