"""Administration by its pages: people, roles from–to, employers, policy, ledger."""

import re

import pytest
from visitors import Visitor

from trainer.domain.policy_changes import changeable
from trainer.scenario_files import load_content
from trainer.services import qualifying
from trainer.storage import policies

NEW = "another four good words"


@pytest.fixture
def admin(visit_as):
    return visit_as("admin")


def add(page, **changes):
    filled = {
        "Name": "Robin Tarn",
        "E-mail": "robin@brightroot.example",
        "Role": "apprentice",
        "From": "2026-03-02",
    }
    return page.submit("Add the person", **{**filled, **changes})


def test_a_person_is_added_and_comes_in_by_a_link_shown_once(admin, app):
    page = add(admin.open_page("/admin/people"))

    link = page.soup.find("main").find("a", href=lambda href: "/account/invitation/" in href)["href"]
    again = admin.open_page("/admin/people/added")
    new = Visitor(app)
    new.open_page(link.removeprefix("http://localhost")).submit(
        "Set the password", **{"New password": NEW, "New password again": NEW}
    )

    assert page.heading == "Robin Tarn can come in"
    assert again.heading.startswith("People of")
    assert again.row("Robin Tarn")[1:] == ["robin@brightroot.example", "apprentice", "invited"]
    assert new.sign_in("robin@brightroot.example", NEW).heading == "Today"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"Name": ""}, "Write the name."),
        ({"Name": " \t "}, "Write the name."),
        ({"E-mail": "nobody"}, "cannot be an e-mail address"),
        ({"E-mail": ""}, "Write the e-mail address."),
        ({"From": "soon"}, "not a day"),
        ({"Until, if it ends": "2026-03-01"}, "before the first"),
        ({"Name": "x" * 500}, "200"),
        ({"Name": "Robin \x07Tarn"}, "cannot be stored"),
    ],
)
def test_a_person_that_does_not_hold_is_refused_and_nobody_is_added(admin, changes, said):
    page = add(admin.open_page("/admin/people"), **changes)

    assert page.status == 422
    assert any(said in each for each in page.faults), page.faults
    assert len(admin.open_page("/admin/people").rows("People and their roles")) == 6


def test_the_same_person_added_twice_is_refused(admin):
    page = admin.open_page("/admin/people")
    add(page)

    assert add(page).status == 422


def test_a_role_is_given_and_ended_with_a_reason(admin, world):
    page = admin.open_page(f"/admin/people/{world.instructor.person_id}")
    given = page.submit("Give the role", Role="administrator", From="2026-03-02")

    ended = given.follow("End as administrator").submit("End the role", Reason="helped out for a day")

    assert given.row("administrator")[2] == "open"
    assert "ended" in ended.row("administrator")[2]


def test_ending_a_role_takes_its_pages_away_at_once(admin, visit_as, world):
    instructor = visit_as("instructor")
    page = admin.open_page(f"/admin/people/{world.instructor.person_id}")

    page.follow("End as instructor").submit("End the role", Reason="left")

    assert instructor.open_page("/instructor/").status == 403


def test_an_employer_is_added_with_its_first_person(admin):
    page = admin.open_page("/admin/employers").submit(
        "Add the employer",
        **{
            "Name of the employer": "Lockgate Steel",
            "Name of its first person": "Sam Weir",
            "E-mail of its first person": "sam@brightroot.example",
        },
    )

    assert page.heading == "Sam Weir can come in"


def test_an_employers_name_that_is_taken_is_refused(admin):
    page = admin.open_page("/admin/employers").submit(
        "Add the employer",
        **{
            "Name of the employer": "Millrace Fabrication",
            "Name of its first person": "Sam Weir",
            "E-mail of its first person": "sam@brightroot.example",
        },
    )

    assert page.status == 422
    assert page.field("Name of the employer") == "Millrace Fabrication"


PASS_MARK = "Pass mark"


def test_a_policy_has_numbered_versions(admin):
    page = admin.open_page("/admin/policy")
    first = page.submit("Put in force", **{PASS_MARK: "0,9", "Reason": "stricter"})
    second = first.submit("Put in force", **{PASS_MARK: "", "Reason": "back to the default"})

    assert "Version 1 of the policy is in force." in first.said
    assert first.field(PASS_MARK) == "90 %"
    assert [row[0] for row in second.rows("Versions of your own changes")] == ["2", "1"]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("a lot", "not a number with its unit"),
        ("7", "outside what a site may set; accepted: 50 % to 100 %."),
        ("80 mm", "not a number with its unit. Write it like 80 %."),
        ("nan", "not a number"),
        ("1e999", "not a number with its unit"),
    ],
)
def test_a_number_that_no_policy_can_have_is_said_at_its_box(admin, typed, said):
    page = admin.open_page("/admin/policy").submit("Put in force", **{PASS_MARK: typed, "Reason": "why not"})

    assert page.status == 422
    assert said in page.error_for(PASS_MARK)
    assert page.field(PASS_MARK) == typed
    assert "Versions of your own changes" not in admin.open_page("/admin/policy").text


ROPE, HEAT, VENT = "Rope to spare, up to", "Dam to spare at the first pass, up to", "Vent too small, from"


def reads(admin, units):
    admin.open_page("/account").submit("Keep", Units=units)
    return admin.open_page("/admin/policy")


def test_a_policy_is_written_in_the_units_of_whoever_writes_it(admin, world):
    typed = {
        PASS_MARK: "82.5 %",
        "Limit for duplex": "350 ppm",
        ROPE: "2 1/2 in",
        HEAT: "36 °F",
        VENT: "0.002 psi",
    }
    first = reads(admin, "US (inch, pound)").submit("Put in force", **typed, Reason="ours")
    again = first.submit("Put in force", Reason="what stands in the boxes, once more")
    metric = reads(admin, "metric")

    with world.site.database.reading() as work:
        versions = policies.list_site_policies(work, organisation_id=world.founder.acting.organisation_id)
    assert len(versions) == 2
    assert versions[0].changes == versions[1].changes
    # 1 in is 25.4 mm, 1 °F is 5/9 K, 1 psi is 6894.757 Pa: NIST Special Publication 811, appendix B.8
    changes = versions[0].changes
    assert changes["pass_mark_frac"] == "0.825"
    assert changes["oxygen_limits.duplex"] == "0.00035"
    assert changes["thresholds.rope-too-short/dams.rope_to_spare"] == "0.0635"
    assert changes["thresholds.dam-too-close/dams.margin"] == "20"
    assert float(changes["thresholds.vent-too-small/vent.pressure_rise"]) == pytest.approx(13.789514)
    assert (again.field(ROPE), again.field(HEAT), again.field(VENT)) == ("2.5 in", "36 °F", "0.05536 inH₂O")
    assert (metric.field(ROPE), metric.field(HEAT)) == ("63.5 mm", "20 K")


@pytest.mark.parametrize("typed", ["20", "20 mm", "20 °X", "warm", "-", "1.5.5 K"])
def test_a_difference_of_temperatures_wants_its_degrees(admin, typed):
    page = admin.open_page("/admin/policy").submit("Put in force", **{HEAT: typed, "Reason": "why not"})
    assert page.status == 422
    assert "not a number with its unit. Write it like 20 K." in page.error_for(HEAT)
    assert page.field(HEAT) == typed


def test_the_ledger_page_proves_the_chain_and_lists_the_acts(admin, things):
    page = admin.open_page("/admin/ledger")

    assert "The chain holds:" in page.text
    acts = [row[1] for row in page.rows("Latest entries")]
    assert "qualification awarded" in acts
    assert "role given" in acts


def test_the_ledger_page_has_each_time_for_people_and_to_the_letter(admin, things):
    page = admin.open_page("/admin/ledger")

    people, exact = page.rows("Latest entries"), page.rows("Entries as they stand in the ledger")
    times = [each["datetime"] for each in page.soup.select("table time")]
    assert {"qualification-awarded", "role-given"} <= {row[1] for row in exact}
    assert [row[2] for row in exact] == times
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z", each) for each in times)
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\d \d\d:\d\d \w+", row[2]) for row in people)


def test_a_suspension_that_is_lifted_is_not_called_a_confirmation(admin, things, world):
    teacher, of = world.second_instructor.acting, things.qualification_id
    qualifying.suspend(world.site, teacher, qualification_id=of, reason_given="why")
    qualifying.lift(world.site, teacher, qualification_id=of, reason_given="seen again")

    acts = [row[1] for row in admin.open_page("/admin/ledger").rows("Latest entries")]
    assert acts[:2] == ["suspension lifted", "qualification suspended"]


def test_every_number_of_the_policy_is_said_in_words_with_its_default_and_what_is_accepted(admin):
    page = admin.open_page("/admin/policy")
    boxes = page.soup.select("input[name^=change]")
    hints = [page.soup.find(id=each["aria-describedby"]).text for each in boxes]
    labels = [page.soup.find("label", attrs={"for": each["id"]}).text for each in boxes]

    assert len(boxes) == len(changeable(load_content().policy)) > 30
    assert [each for each in labels if re.search(r"[a-z]-[a-z]+-|[._/]|in SI", each)] == []
    assert [each for each in hints if "Default" not in each or "accepted:" not in each] == []
    by_label = dict(zip(labels, hints, strict=True))
    # 29 CFR 1910.146(b): oxygen deficient is less than 19.5 %; a site may only ask for more
    deficient = by_label["Air too poor to breathe, below"]
    assert "Default 19.5 %; accepted: 19.5 % or more." in deficient


def test_the_ledger_page_names_no_person(admin, things, world):
    page = admin.open_page("/admin/ledger")

    assert world.apprentice.name not in page.html


@pytest.mark.parametrize("before", ["-1", "x", "99999999999999999999999", "1"])
def test_older_entries_are_asked_for_by_number_and_nonsense_shows_the_latest(admin, things, before):
    assert admin.open_page(f"/admin/ledger?before={before}").status == 200
