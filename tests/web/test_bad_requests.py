"""Whatever is sent, a page answers: nothing that a browser or a script can send makes a 500."""

import pytest

NOBODYS = "0e2f4f6c-7d0e-4b57-9f5b-6a3f1f0a9c11"
FORMS = [
    "/account/sign-in", "/account/password", "/account/preferences", "/account/shares", "/apprentice/practice",
    "/instructor/classes", "/instructor/modules/new", "/admin/people", "/admin/policy", "/admin/employers",
]  # fmt: skip


@pytest.fixture
def founder(visit_as):
    """Teaches and administers, so that most forms are open."""
    return visit_as("founder")


@pytest.mark.parametrize("path", FORMS)
@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (b"\xff\xfe\x00\x01%%%", "application/x-www-form-urlencoded"),
        (b"{not json", "application/json"),
        (b"--x\r\nbroken", "multipart/form-data; boundary=x"),
        (b"", "multipart/form-data"),
        (b"name=%00%FF", "text/plain"),
    ],
    ids=["bytes", "json", "multipart", "no-boundary", "plain"],
)
def test_a_body_that_is_no_form_is_refused_with_a_page(founder, path, body, kind):
    answer = founder.client.post(path, data=body, content_type=kind)

    assert 400 <= answer.status_code < 500
    assert "<h1>" in answer.get_data(as_text=True)


@pytest.mark.parametrize("path", FORMS)
def test_every_field_filled_with_nonsense_is_refused_with_a_page(founder, path):
    asked = founder.open_page(path if path != "/account/shares" else "/account/record", settles=True)
    names = {
        each["name"] for each in asked.soup.find_all(["input", "select", "textarea"]) if each.get("name")
    }
    for nonsense in (
        "\u202e\u0000\x1b[31m",
        "９" * 50,
        "'; DROP TABLE person; --",
        "{{ 7777*7 }}",
        "-1e999",
        "𝟙",
        "../..",
        "[]",
    ):
        data = dict.fromkeys(names - {"csrf_token"}, nonsense)
        page = founder.post(path, data)
        assert 400 <= page.status < 500 or page.status == 303, (nonsense, page.status)
        assert "54439" not in page.html


def test_more_than_a_form_holds_is_refused(founder):
    page = founder.post("/instructor/classes", {"name": "x" * 300_000})

    assert page.status == 413
    assert page.heading == "Too much was sent"


def test_a_thousand_fields_are_refused(founder):
    data = {f"field{number}": "x" for number in range(2000)}

    assert founder.post("/instructor/classes", data, content_type="multipart/form-data").status == 413


def test_a_form_without_its_token_is_refused_and_shows_what_was_typed(founder):
    answer = founder.client.post(
        "/instructor/classes", data={"name": "Tuesday class", "password": "secret words"}
    )
    text = answer.get_data(as_text=True)

    assert answer.status_code == 400
    assert "Tuesday class" in text
    assert "secret words" not in text


def test_the_token_of_somebody_else_does_not_do(founder, visit_as):
    other = visit_as("other_founder").token()

    assert (
        founder.client.post("/instructor/classes", data={"name": "x", "csrf_token": other}).status_code == 400
    )


@pytest.mark.parametrize(
    "path",
    [
        "/apprentice/attempts/not-an-id", "/apprentice/attempts/%00", f"/apprentice/attempts/{'9' * 400}",
        f"/apprentice/attempts/{NOBODYS}/scenarios/{'9' * 400}", f"/apprentice/attempts/{NOBODYS}/scenarios/-1",
        "/no/such/page", "/verify/%ff%fe", "/%2e%2e/%2e%2e/etc/passwd", "/static/../trainer/app.py", "/static/%2e%2e/README.md",
    ],
)  # fmt: skip
def test_an_address_that_is_none_answers_with_a_page(visit_as, path):
    page = visit_as("apprentice").open_page(path)

    assert page.status == 404
    assert page.heading


def test_another_method_than_the_page_takes_is_refused(visitor):
    answer = visitor.client.delete("/account/sign-in")

    assert answer.status_code == 405
    assert "GET" in answer.headers["Allow"]


@pytest.mark.parametrize("cookie", ["", "nonsense", "eyJhIjoxfQ.x.y", "\u00e9" * 50, "x" * 4000])
def test_a_cookie_that_is_not_ours_is_nobody(app, visitor, cookie):
    visitor.client.set_cookie("brightroot", cookie)

    assert visitor.open_page("/apprentice/").heading == "Sign in"


@pytest.mark.parametrize(
    "query",
    ["?next=%00", "?next=" + "x" * 5000, "?family=%3Cscript%3E", "?on=9999-99-99&material=x", "?code[]=1"],
)
def test_a_query_that_is_nonsense_is_read_past(visit_as, query):
    for who, path in (
        ("apprentice", "/apprentice/practice"),
        ("employer", "/employer/who-can"),
        ("employer", "/verify"),
    ):
        assert visit_as(who).open_page(path + query).status < 500


def test_a_fault_of_ours_is_a_page_that_needs_nothing_and_keeps_what_was_typed(
    app, visit_as, site, monkeypatch
):
    instructor = visit_as("instructor")
    token = instructor.token()
    monkeypatch.setattr(type(site.database), "reading", lambda _: 1 / 0)
    app.config["PROPAGATE_EXCEPTIONS"] = False

    answer = instructor.client.post(
        "/instructor/classes", data={"name": "Tuesday class", "csrf_token": token}
    )

    assert answer.status_code == 500
    assert "Something failed here" in answer.get_data(as_text=True)
    assert "Tuesday class" in answer.get_data(as_text=True)
    assert "ZeroDivision" not in answer.get_data(as_text=True)


def test_what_people_write_is_shown_as_text_everywhere(founder):
    page = founder.open_page("/instructor/classes").submit(
        "Make the class", **{"Name of the class": "<img src=x onerror=alert(1)>"}
    )

    assert page.heading == "Class <img src=x onerror=alert(1)>"
    assert "<img" not in page.html


def test_pages_carry_the_policy_that_keeps_foreign_code_out(visitor):
    headers = visitor.open_page("/").headers

    assert headers["Content-Security-Policy"] == (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
        "font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    )
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["X-Content-Type-Options"] == "nosniff"
