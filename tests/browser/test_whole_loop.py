"""The whole loop in real browsers: taught, assessed, observed, awarded, shared, read by an employer, checked by anybody.

Everybody works in a browser of their own. The right answers are looked up behind the site; everything else is
done and read as people do it.
"""

from datetime import UTC, date, datetime, timedelta

import pytest
from crew import CENTRE, EMPLOYER
from screens import DESKTOP, PHONE, Screen
from sheets import answer_all, open_attempt, scenarios

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

MODULE = "A whole purge, alone"
VALIDITY_LINES = ("From", "To be confirmed by", "Valid until at most")


def test_from_class_to_certificate_and_its_check_by_a_stranger(screen, crew, site):
    apprentice, instructor = crew["apprentice"], crew["instructor"]
    teacher = screen(instructor)
    learner = screen(apprentice, size=PHONE)

    teach(teacher, apprentice.name)
    passed_with = take(learner, site)
    observe(teacher, apprentice.name)
    code = award(teacher, apprentice.name)
    boss = screen(crew["employer"])
    assert "Nobody's record is shared with you today." in boss.text
    share(teacher, apprentice.name)
    read_by_employer(boss, apprentice.name, code, passed_with)
    check(screen(size=PHONE), apprentice.name, code)

    learner.open_page("/account/record")
    assert code in learner.text
    assert EMPLOYER in learner.text


def teach(teacher: Screen, apprentice: str) -> None:
    """A class with one apprentice, a module of six scenarios, given for a week."""
    teacher.open_page("/instructor/classes")
    teacher.fill("Name of the class", "Morning class")
    teacher.press("Make the class")
    teacher.tick(apprentice)
    teacher.press("Add to the class")
    assert [row[0] for row in teacher.rows("Members of the class")] == [apprentice]

    teacher.open_page("/instructor/modules")
    teacher.follow("Make a module")
    teacher.fill("Title", MODULE)
    for number, skill, family in ((1, "3", "Long run"), (2, "4", "Between two end plates")):
        row = teacher.group(f"{number} Row {number}")
        row.get_by_label("Skill", exact=True).select_option(skill)
        row.locator("summary").click()
        row.locator("label", has_text=family).locator("input").check()
        teacher.fill("Scenarios", "3", within=row)
        teacher.fill("Difficulty, 0 to 1", "0", within=row)
    teacher.fill("Time limit, if there is one", "60")
    teacher.press("Make the module")
    assert teacher.heading == MODULE

    teacher.choose("To", "Morning class")
    teacher.fill("Due on", (datetime.now(UTC).date() + timedelta(days=7)).isoformat())
    teacher.press("Give it")
    assert teacher.rows("Assignments of this module")[0][0] == "Morning class"


def take(learner: Screen, site) -> int:
    """The assessed attempt, every answer right; returns how many scenarios it had."""
    learner.open_page("/")
    assert f"An assignment waits for you: {MODULE}." in learner.text
    learner.follow("See its limits and start")
    assert learner.fact("Time limit") == "1 h"
    learner.press("Start the attempt")
    drawn = scenarios(site, open_attempt(learner))
    for number, scenario in drawn.items():
        assert learner.heading == f"{scenario.title}, scenario {number} of {len(drawn)}"
        answer_all(learner, scenario)
        onward = f"Go on to scenario {number + 1}" if number < len(drawn) else "Go on to hand in"
        learner.press(onward)
    assert "Every item is answered." in learner.text
    learner.press("Hand in", within=learner.page.locator("main"))

    assert "Handed in and marked." in learner.text
    assert learner.page.locator("p.verdict").first.inner_text() == "Passed"
    reached = learner.rows("Skill by skill")
    assert {"3 Dams", "4 Inlet and vent"} <= {row[0] for row in reached}
    assert {row[1] for row in reached} == {"100 %"}
    return len(drawn)


def observe(teacher: Screen, apprentice: str) -> None:
    """What the instructor saw in the booth."""
    teacher.open_page("/instructor/apprentices")
    teacher.follow(f"Record what {apprentice} did in the booth")
    teacher.choose("Material", "austenitic stainless")
    teacher.tick("I1 argon")
    teacher.fill("Outside diameter of the pipe", "168.3 mm")
    teacher.fill("Oxygen read at strike", "300 ppm")
    teacher.choose("Root as seen", "straw")
    teacher.tick("I saw this myself and accept it")
    teacher.press("Record the observation")
    assert teacher.rows("Observations in the booth")[0][1:] == [
        "Instructor Ashby", "austenitic stainless", "I1 argon", "300 ppm", "straw", "yes",
    ]  # fmt: skip


def award(teacher: Screen, apprentice: str) -> str:
    """A qualification from the attempt and the observation; returns its code."""
    teacher.open_page("/instructor")
    teacher.follow(f"Award {apprentice} a qualification")
    for legend in ("Passed assessed attempts", "Observations in the booth"):
        teacher.group(legend).get_by_role("checkbox").check()
    teacher.press("See what this evidence carries")
    assert teacher.fact("Material") == "austenitic stainless"
    assert teacher.fact("Confined spaces") == "not covered"
    teacher.press("Award")
    assert "The qualification is awarded." in teacher.text
    return teacher.heading.removeprefix("Qualification ")


def share(teacher: Screen, apprentice: str) -> None:
    """Sight of the record for the employer."""
    teacher.open_page("/instructor/apprentices")
    teacher.follow(apprentice)
    teacher.follow("Share the record")
    teacher.choose("Employer", EMPLOYER)
    teacher.fill("On what basis", "asked for by the person")
    teacher.fill("Where the consent is filed", "folder 12, office")
    teacher.press("Share the record")
    assert teacher.rows("Shares of the record")[0][0] == EMPLOYER


def read_by_employer(boss: Screen, apprentice: str, code: str, scenarios_count: int) -> None:
    """The person, the qualification with its scope and its days, and the evidence down to an answer."""
    boss.open_page("/")
    (row,) = boss.rows("People and their qualifications")
    assert row[:2] == [apprentice, code]
    assert "austenitic stainless" in row[2]
    assert row[3] == "in force"
    last_day = date.fromisoformat(row[4])
    assert last_day > datetime.now(UTC).date()

    boss.follow(code)
    assert boss.fact("Material") == "austenitic stainless"
    days = [date.fromisoformat(boss.fact(each)) for each in VALIDITY_LINES]
    assert days[0] == datetime.now(UTC).date()
    assert days == sorted(days)
    assert last_day in days[1:]
    assert boss.rows("Observations behind it")[0][1] == "Instructor Ashby"
    assert boss.rows("Attempts behind it")[0][0] == MODULE
    boss.follow(MODULE)
    assert boss.page.locator("p.verdict").first.inner_text() == "Passed"
    assert boss.page.locator("dl.figures").count() == scenarios_count


def check(stranger: Screen, apprentice: str, code: str) -> None:
    """Anybody, without an account, by the code; and a code that nobody issued."""
    stranger.open_page("/verify")
    stranger.fill("Code", code.lower().replace("-", " "))
    stranger.press("Check it")
    assert stranger.heading == f"Certificate {code}"
    assert stranger.text.startswith("Check a certificate")
    assert f"Genuine, and in force on {datetime.now(UTC).date()}." in stranger.text
    assert stranger.fact("Person") == apprentice
    assert stranger.fact("Issued by") == CENTRE
    assert stranger.fact("Material") == "austenitic stainless"

    stranger.open_page("/verify")
    stranger.fill("Code", "0000-0000-0001")
    with stranger.refused(404):
        stranger.press("Check it")
    assert stranger.heading == "No certificate has the code 0000-0000-0001"
    assert "Not genuine, or mistyped." in stranger.text


def test_a_record_that_is_shared_no_longer_is_gone_from_the_employers_screen(screen, crew, site):
    learner, boss = screen(crew["apprentice"], size=DESKTOP), screen(crew["employer"])
    learner.open_page("/account/record")
    learner.choose("Employer", EMPLOYER)
    learner.press("Share your record")
    boss.open_page("/employer/people")
    (row,) = boss.rows("People and their qualifications")
    assert (row[0], row[3]) == (crew["apprentice"].name, "in training")
    boss.follow(crew["apprentice"].name)
    seen_at = boss.path

    learner.open_page("/account/record")
    learner.follow(f"Stop sharing with {EMPLOYER}")
    learner.fill("Reason", "I changed my mind")
    learner.press("Stop sharing")

    boss.open_page("/employer/people")
    assert "Nobody's record is shared with you today." in boss.text
    with boss.refused(404):
        boss.open_page(seen_at)
