"""In which language a page is written: the person's own, what was chosen in this browser, what it asks for."""

import pytest


@pytest.mark.parametrize(
    ("asked", "language", "heading"),
    [
        ("es-MX,es;q=0.9,en;q=0.5", "es", "Inicia sesión"),
        ("fi,de;q=0.8", "en", "Sign in"),
        ("", "en", "Sign in"),
    ],
)
def test_a_stranger_gets_what_the_browser_asks_for_or_english(visitor, asked, language, heading):
    visitor.client.environ_base["HTTP_ACCEPT_LANGUAGE"] = asked
    page = visitor.open_page("/account/sign-in")
    assert page.soup.html["lang"] == language
    assert page.heading == heading


def test_what_a_stranger_chooses_is_kept_in_the_browser(visitor):
    kept = visitor.post("/language", {"language": "es", "next": "/account/sign-in"})
    assert kept.location == "/account/sign-in"
    assert visitor.open_page("/verify").soup.html["lang"] == "es"


def test_choosing_a_language_leads_to_no_other_site(visitor):
    assert visitor.post("/language", {"language": "es", "next": "//elsewhere.example"}).location == "/"


def test_a_person_keeps_their_language(visit_as):
    apprentice = visit_as("apprentice")
    page = apprentice.open_page("/account").submit("Keep", Language="Español")
    assert page.said == ["Guardado."]
    assert page.soup.html["lang"] == "es"
    assert page.heading == "Tu cuenta"
