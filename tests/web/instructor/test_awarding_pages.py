"""Observation, award, employer and public check, page by page: the whole loop after the attempt."""

import re
from urllib.parse import parse_qs, urlencode, urlsplit

import pytest
import training_steps as steps

from trainer.services import teaching


@pytest.fixture
def passed(world):
    """The apprentice has passed an assessed attempt that covers a whole purge."""
    site = world.site
    class_id = teaching.make_class(site, world.instructor.acting, name="Morning class")
    teaching.add_to_class(
        site, world.instructor.acting, class_id=class_id, person_id=world.apprentice.person_id
    )
    place = steps.School(
        world.founder.acting,
        world.instructor.acting,
        world.second_instructor.acting,
        world.apprentice.acting,
        class_id,
    )
    return steps.passed_attempt(site, place)


@pytest.fixture
def signer(visit_as):
    return visit_as("second_instructor")


OBSERVED = {
    "Day of the observation": "2026-03-02",
    "Material": "austenitic stainless",
    "Purge gas": "I1 argon",
    "Outside diameter of the pipe": "6.625",
    "Unit of Outside diameter of the pipe": "in",
    "Oxygen read at strike": "300 ppm",
    "Root as seen": "straw",
    "I saw this myself and accept it": True,
}


def observe(visitor, world, **changes):
    page = visitor.open_page(f"/instructor/apprentices/{world.apprentice.person_id}/observations/new")
    return page.submit("Record the observation", **{**OBSERVED, **changes})


def look(visitor, world):
    page = visitor.open_page(f"/instructor/apprentices/{world.apprentice.person_id}/award")
    ticked = {
        legend: list(page.options(legend))
        for legend in ("Passed assessed attempts", "Observations in the booth")
        if "There is no" not in " ".join(page.options(legend) or ["There is no"])
    }
    return page.submit("See what this evidence carries", **ticked)


def test_an_observation_is_recorded_once_however_often_the_form_is_sent(signer, world):
    page = signer.open_page(f"/instructor/apprentices/{world.apprentice.person_id}/observations/new")
    sending = page.sending("Record the observation", **OBSERVED)

    signer.send(sending)
    history = signer.send(sending)

    assert len(history.rows("Observations in the booth")) == 1
    assert history.row("2026-03-02")[1:] == [
        world.second_instructor.name, "austenitic stainless", "I1 argon", "300 ppm", "straw", "yes",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("label", "typed", "said"),
    [
        ("Oxygen read at strike", "", "Write a number with its unit"),
        ("Oxygen read at strike", "300 kg", "kg"),
        ("Oxygen read at strike", "50 %", "outside what is accepted"),
        ("Oxygen read at strike", "-1 ppm", "outside what is accepted"),
        ("Outside diameter of the pipe", "1,500 mm", "two ways"),
        ("Outside diameter of the pipe", "1e999 m", "too large"),
        ("Day of the observation", "2030-01-01", "in the future"),
        ("Serial number of the analyser", "x" * 300, "100"),
        ("What you saw", "bad \x00 sign", "cannot be stored"),
    ],
)
def test_an_observation_that_does_not_hold_keeps_what_was_typed(signer, world, label, typed, said):
    page = observe(signer, world, **{label: typed})

    assert page.status == 422
    assert any(said in each for each in page.faults), page.faults
    # what cannot be stored cannot be shown either: HTML standard, 13.2.5.2, U+0000 is read as U+FFFD
    assert page.field(label) == typed.replace("\x00", "\ufffd")
    assert page.field("Root as seen") == "straw"


def test_an_award_without_an_observation_says_why_it_is_refused(signer, world, passed):
    page = look(signer, world)

    assert "No observation was chosen: record one made in the booth first." in page.text
    assert not page.has_button("Award")


def test_nothing_chosen_is_refused_with_every_reason(signer, world):
    page = look(signer, world)

    assert "No passed assessed attempt was chosen." in page.text
    assert "No observation was chosen" in page.text


def test_the_scope_follows_from_the_evidence_and_the_award_counts_once(signer, world, passed):
    observe(signer, world)
    page = look(signer, world)
    assert page.fact("Material") == "austenitic stainless"
    assert page.fact("Confined spaces") == "not covered"
    sending = page.sending("Award")

    first = signer.send(sending)
    second = signer.send(sending)

    assert "The qualification is awarded." in first.said
    assert first.path == second.path
    assert first.row("awarded")[2] == world.second_instructor.name


def awarded(signer, world):
    observe(signer, world)
    return look(signer, world).submit("Award")


def test_whoever_taught_and_decided_is_named_so_on_the_certificate(visit_as, world, passed):
    page = awarded(visit_as("instructor"), world)

    assert "One person both taught and decided." in page.text


def test_an_employer_sees_it_once_shared_and_no_longer_when_that_ends(signer, visit_as, world, passed):
    awarded(signer, world)
    employer = visit_as("employer")
    assert "Nobody's record is shared with you today." in employer.open_page("/employer/people").text

    history = signer.open_page(f"/instructor/apprentices/{world.apprentice.person_id}")
    shared = history.follow("Share the record").submit(
        "Share the record",
        Employer="Millrace Fabrication",
        **{"On what basis": "asked for by the person", "Where the consent is filed": "folder 12"},
    )
    row = employer.open_page("/employer/people").row(world.apprentice.name)
    evidence = employer.open_page("/employer/people").follow(row[1])
    attempt = evidence.follow(evidence.rows("Attempts behind it")[0][0])

    assert row[3] == "in force"
    assert "Evidence" in evidence.headings
    assert "Passed" in attempt.text
    assert world.apprentice.name not in visit_as("other_employer").open_page("/employer/people").text

    shared.follow("End the share with Millrace Fabrication").submit(
        "End the share", Reason="consent withdrawn"
    )

    assert world.apprentice.name not in employer.open_page("/employer/people").text
    assert employer.open_page(evidence.path).status == 404


def test_who_can_do_this_job_is_answered_with_the_reason_for_each_no(signer, visit_as, world, passed):
    awarded(signer, world)
    apprentice = visit_as("apprentice")
    apprentice.open_page("/account/record").submit("Share your record", Employer="Millrace Fabrication")
    employer = visit_as("employer")
    job = {
        "Day of the job": "2026-03-03",
        "Material": "austenitic stainless",
        "Purge gas": "I1 argon",
        "Outside diameter of the pipe": "168.3 mm",
    }
    form = employer.open_page("/employer/who-can")

    can = form.submit("See who can", **job)
    cannot = form.submit(
        "See who can", **{**job, "Material": "titanium", "In or beside a confined space": True}
    )
    late = form.submit("See who can", **{**job, "Day of the job": "2027-03-03"})
    unclear = form.submit(
        "See who can",
        **{**job, "Outside diameter of the pipe": "168"} | {"Unit of Outside diameter of the pipe": "ft"},
    )

    assert "yes" in can.row(world.apprentice.name)[1]
    assert "The material titanium is not in the scope." in cannot.row(world.apprentice.name)[2]
    assert "no endorsement for confined spaces" in cannot.row(world.apprentice.name)[2]
    assert "lapsed" in late.row(world.apprentice.name)[2]
    assert unclear.status == 422
    assert unclear.field("Outside diameter of the pipe") == "168"


def test_who_can_is_kept_as_a_link_that_asks_the_same_in_every_language(visit_as):
    employer = visit_as("employer")
    employer.open_page("/account").submit("Keep", Language="Español")
    typed = {
        "typed": "yes", "on": "2026-03-03", "material": "titanium", "gas": "I1",
        "outside_diameter": "168,3", "outside_diameter-unit": "mm", "section_length": "0,6 m", "situation": "",
    }  # fmt: skip

    leads_to = employer.open_page(f"/employer/who-can?{urlencode(typed)}", follow=False)
    assert leads_to.status == 303, leads_to.faults
    link = urlsplit(leads_to.location)
    spanish = employer.open_page(f"{link.path}?{link.query}")
    employer.open_page("/account").submit("Guardar", Idioma="English")
    english = employer.open_page(f"{link.path}?{link.query}")

    kept = parse_qs(link.query)
    assert (kept["outside_diameter"], kept["section_length"]) == (["168.3"], ["0.6 m"])
    assert "typed" not in kept
    assert spanish.status == english.status == 200
    assert spanish.field("Diámetro exterior del tubo") == "168,3"
    assert spanish.field("Longitud entre tapones, si importa") == "0,6 m"
    assert english.field("Outside diameter of the pipe") == "168.3"


def code_of(page):
    return page.heading.removeprefix("Qualification ")


def test_anybody_checks_a_certificate_by_its_code_without_an_account(signer, visitor, world, passed):
    code = code_of(awarded(signer, world))

    genuine = visitor.open_page("/verify").submit("Check it", Code=code.lower().replace("-", " "))

    assert genuine.heading == f"Certificate {code}"
    assert "Genuine, and in force on 2026-03-02." in genuine.text
    assert genuine.fact("Person") == world.apprentice.name
    assert genuine.fact("Issued by") == "Northgate Purge School"
    assert genuine.fact("Material") == "austenitic stainless"


@pytest.mark.parametrize(
    "typed", ["0000-0000-0000", "nonsense", "<script>alert(1)</script>", "x" * 4000, "../../etc"]
)
def test_a_code_that_is_none_says_so_in_large(visitor, world, typed):
    page = visitor.open_page("/verify").submit("Check it", Code=typed)

    assert page.status in {404, 422}
    assert "<script>" not in page.html
    assert "Not genuine, or mistyped." in page.text or page.faults


def act(page, button, reason="seen on site"):
    return page.submit(button, Reason=reason)


def test_suspended_lifted_and_revoked_show_on_the_public_page_at_once(signer, visitor, world, passed):
    page = awarded(signer, world)
    address = f"/verify/{code_of(page)}"

    suspended = act(page, "Suspend")
    assert "not in force on 2026-03-02: suspended" in visitor.open_page(address).text
    lifted = act(suspended, "Lift the suspension")
    assert "Genuine, and in force" in visitor.open_page(address).text
    revoked = act(lifted, "Revoke for good")

    assert "not in force on 2026-03-02: revoked" in visitor.open_page(address).text
    assert [row[0] for row in revoked.rows("What was done to it")] == [
        "awarded", "suspended", "suspension lifted", "revoked",
    ]  # fmt: skip
    assert not revoked.has_button("Confirm")


def test_an_act_without_a_reason_is_refused(signer, world, passed):
    page = act(awarded(signer, world), "Suspend", reason="")

    assert page.error_for("Reason") == "Write the reason; it stays on the record."
    assert "In force" in page.text


def test_it_lapses_by_itself_when_nobody_confirms_it(signer, visitor, world, passed, clock):
    code = code_of(awarded(signer, world))

    clock.go_on(days=190)

    assert re.search("not in force on [0-9-]+: lapsed", visitor.open_page(f"/verify/{code}").text)


def test_nobody_awards_themselves(world, visit_as):
    instructor = visit_as("instructor")

    page = instructor.open_page(f"/instructor/apprentices/{world.instructor.person_id}/award").submit(
        "See what this evidence carries"
    )

    assert "Nobody signs for themselves" in page.text
    assert not page.has_button("Award")
