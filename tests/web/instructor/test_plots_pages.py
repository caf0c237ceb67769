"""What instructors and employers look at rather than read: each drawing has its figures in a table behind it."""

import re
from dataclasses import replace
from datetime import timedelta

import pytest

from trainer.domain.item_statistics import Advice, ItemStatistics
from trainer.domain.standing import skill_standing
from trainer.services import qualification_pages
from trainer.web.item_table import item_table
from trainer.web.last_days import last_days
from trainer.web.skill_bars import skill_profile

WAITING = "Questions with too few answers yet"


@pytest.fixture
def instructor(visit_as):
    return visit_as("instructor")


def test_a_class_shows_the_share_of_each_skill_in_its_cell(instructor, things, world):
    page = instructor.open_page(f"/instructor/classes/{things.class_id}")

    row = next(each for each in page.rows("Skills of the class") if each[0] == world.apprentice.name)
    whole = page.rows("Skills of the class")[-1]

    assert len(row) == len(whole) == 13
    assert any("100 % of" in each for each in row)
    assert "–" in row
    assert whole[0] == "All together"


def test_the_profile_of_one_person_is_a_table_too(instructor, things):
    page = instructor.open_page(f"/instructor/apprentices/{things.person_id}")

    rows = page.rows("The twelve skills")
    assert len(rows) == 12
    tried = [each for each in rows if each[1] != "–"]
    untried = [each for each in rows if each[1] == "–"]
    assert all(" of " in each[1] and " to " in each[2] for each in tried)
    assert {tuple(each[1:]) for each in untried} == {("–", "–", "not tried yet")}


def test_questions_are_told_with_their_counts_and_say_where_there_are_too_few(instructor, things):
    page = instructor.open_page("/instructor/questions")

    rows = page.rows(WAITING)
    assert rows
    assert {each[4] for each in rows} == {"not enough answers yet"}
    assert "Wait: fewer than ten answers say nothing." in page.text
    # a school that begins has hundreds of them: they stay folded
    summary = page.soup.find("summary", string=re.compile(f"^{len(rows)} questions with too few"))
    assert not summary.parent.has_attr("open")


def test_questions_with_answers_enough_stand_before_those_that_wait(app):
    plain = ItemStatistics(
        family="end-plates", item_id="wait", skill=6, answers_count=30, right_count=3, unanswered_count=0,
        other_count=27, beliefs=(), difficulty_frac=0.1, discrimination=0.4, advice=Advice.TOO_HARD,
    )  # fmt: skip
    few = replace(plain, item_id="holes", difficulty_frac=None, discrimination=None, advice=Advice.WAIT)
    with app.test_request_context():
        found = item_table((plain, few), titles={}, asked={})
    assert [each.asks_what for each in found.judged] == ["wait"]
    assert [each.asks_what for each in found.waiting] == ["holes"]
    assert found.asking == found.judged


def test_questions_stand_in_their_own_words_with_gaps_for_what_is_drawn(instructor, things, world):
    families = world.site.content.families
    asked = {item.text for family in families.values() for item in family.items}
    heads = [each[1] for each in instructor.open_page("/instructor/questions").rows(WAITING)]

    assert not any("{" in each for each in heads)
    whole = {text for text in asked if "{" not in text}
    assert any(text in each for each in heads for text in whole)


def test_where_nothing_is_marked_the_page_says_what_to_do(visit_as, things):
    page = visit_as("other_instructor").open_page("/instructor/questions")

    assert "Nothing has been marked here yet." in page.text
    assert page.has_link("Choose a module to give")


@pytest.mark.parametrize(
    ("key", "path"), [("instructor", "/instructor/apprentices"), ("employer", "/employer/people")]
)
def test_last_days_are_told_soonest_first(visit_as, things, world, key, path):
    page = visit_as(key).open_page(path)

    rows = page.rows("Qualifications by last day")
    assert [each[0] for each in rows] == sorted(each[0] for each in rows)
    assert world.apprentice.name in {each[2] for each in rows}
    assert f"{world.apprentice.name} is next" in page.text


def test_without_a_qualification_there_is_no_calendar(visit_as, things):
    assert "Last days" not in visit_as("other_instructor").open_page("/instructor/apprentices").headings


def test_the_table_of_last_days_holds_no_more_than_the_year_that_is_drawn(app, things, world):
    today = world.site.today()
    (view,) = qualification_pages.qualifications_here(world.site, world.instructor.acting)
    later = replace(view, last_day=view.last_day + timedelta(days=366))
    with app.test_request_context():
        both = last_days([later, view], today=today)
        assert both is not None
        assert both.soonest == (view,)
        assert last_days([later], today=today) is None


def test_no_share_reads_as_the_mark_that_it_misses(app):
    """39 of 49 are 79.6 %."""
    standing = skill_standing(1, means=[1.0] * 39 + [0.0] * 10, cut_frac=0.8)
    with app.test_request_context():
        (line,) = skill_profile([standing]).lines
    assert 'aria-label="79\u00a0%, in nine cases of ten between' in line.bar
