"""Signing in and out, and where one is sent afterwards."""

import pytest
from visitors import Visitor

PASSWORD = "four words from the shop"


def test_the_first_page_tells_strangers_what_this_is(visitor):
    page = visitor.open_page("/")

    assert page.heading == "Decide a purge before metal is scrapped or somebody is hurt"
    assert page.has_link("Check a certificate")


def test_a_wrong_password_keeps_the_email_and_says_nothing_about_which_was_wrong(visitor, world):
    page = visitor.sign_in(world.apprentice.email, "not this one at all")

    assert page.status == 422
    assert page.field("E-mail") == world.apprentice.email
    assert page.field("Password") == ""
    assert page.faults == ["E-mail and password do not match an account. Check both and try again."]


def test_an_unknown_email_reads_the_same_as_a_wrong_password(visitor, world):
    unknown = visitor.sign_in("nobody@brightroot.example", "not this one at all")
    known = Visitor(visitor.client.application).sign_in(world.apprentice.email, "not this one at all")

    assert unknown.faults == known.faults


def test_an_empty_form_names_both_fields(visitor):
    page = visitor.sign_in("", "")

    assert page.error_for("E-mail") == "Write your e-mail address."
    assert page.error_for("Password") == "Write your password."


def test_too_many_tries_are_refused_for_a_while_and_then_allowed(visitor, world, clock):
    for _ in range(5):
        visitor.sign_in(world.apprentice.email, "not this one at all")

    refused = visitor.sign_in(world.apprentice.email, PASSWORD)
    clock.go_on(minutes=16)
    let_in = visitor.sign_in(world.apprentice.email, PASSWORD)

    assert refused.status == 429
    assert "Too many tries" in refused.faults[0]
    assert let_in.heading == "Today"


def test_a_page_asked_for_before_signing_in_is_where_one_ends_up(visitor, world):
    page = visitor.open_page("/apprentice/practice")
    assert page.heading == "Sign in"

    after = page.submit("Sign in", **{"E-mail": world.apprentice.email, "Password": PASSWORD})

    assert after.path == "/apprentice/practice"


@pytest.mark.parametrize(
    "target",
    ["https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere.example", "\\\\elsewhere.example", "javascript:alert(1)", "/ok\r\nSet-Cookie: x=1", "http:/elsewhere"],
)  # fmt: skip
def test_nobody_is_sent_to_another_site(visitor, world, target):
    page = visitor.client.get("/account/sign-in", query_string={"next": target})
    assert "elsewhere" not in page.get_data(as_text=True)
    token = visitor.token()
    data = {"email": world.apprentice.email, "password": PASSWORD, "csrf_token": token}

    response = visitor.client.post("/account/sign-in", query_string={"next": target}, data=data)

    assert response.status_code == 303
    assert response.headers["Location"] == "/"


def test_signing_out_ends_the_sign_in_on_the_server_too(visit_as):
    apprentice = visit_as("apprentice")
    with apprentice.client.session_transaction() as session:
        kept = dict(session)

    apprentice.open_page("/apprentice/").submit("Sign out")
    with apprentice.client.session_transaction() as session:
        session.update(kept)

    assert apprentice.open_page("/apprentice/").heading == "Sign in"


def test_a_sign_in_lasts_a_shift(visit_as, clock):
    apprentice = visit_as("apprentice")

    clock.go_on(hours=12, minutes=1)

    assert apprentice.open_page("/apprentice/").heading == "Sign in"


def test_cookies_are_kept_from_scripts_and_from_other_sites(visitor, world):
    visitor.sign_in(world.apprentice.email, PASSWORD)
    data = {"email": world.apprentice.email, "password": PASSWORD, "csrf_token": ""}
    response = Visitor(visitor.client.application).client.get("/account/sign-in", data=data)
    cookie = response.headers["Set-Cookie"]

    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie


def test_a_private_page_is_not_to_be_stored(visit_as):
    page = visit_as("apprentice").open_page("/apprentice/")

    assert page.headers["Cache-Control"] == "no-store"
