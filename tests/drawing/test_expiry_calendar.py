"""Last days by month: a square each, hollow where it is due, and a figure that says how many."""

from xml.etree.ElementTree import fromstring

from tests.drawing.set_ups import SVG, described, words
from trainer.drawing.expiry_calendar import MOST_SQUARES, MonthOfLastDays, expiry_calendar
from trainer.drawing.reader import Reader


def month(name: str, *, in_force: int = 0, due: int = 0, year: str = "") -> MonthOfLastDays:
    return MonthOfLastDays(name=name, year=year, in_force_count=in_force, due_count=due)


def drawn(*months: MonthOfLastDays):
    return fromstring(expiry_calendar(months, reader=Reader(prefix="last-days")))


def squares(picture, place: int) -> list[str]:
    column = next(each for each in picture.iter(f"{SVG}g") if each.get("data-month") == str(place))
    return [each.get("class") for each in column.findall(f"{SVG}rect")]


def test_each_qualification_is_a_square_and_those_due_are_hollow_and_lowest():
    picture = drawn(month("Nov", year="2026", due=1, in_force=2), month("Dec"))
    assert squares(picture, 0) == ["d-number", "d-solid", "d-solid"]
    assert squares(picture, 1) == []


def test_months_are_named_and_counted_and_told_in_words():
    picture = drawn(month("Dec", in_force=2), month("Jan", year="2027"), month("Feb", due=1))
    assert words(picture) == ["2", "Dec", "Jan", "2027", "1", "Feb"]
    assert described(picture) == "How many qualifications end in each month. Dec: 2, Feb: 1."


def test_more_than_fit_are_told_by_the_figure():
    picture = drawn(month("May", in_force=40))
    assert len(squares(picture, 0)) == MOST_SQUARES
    assert "40" in words(picture)


def test_an_empty_year_says_so():
    assert described(drawn(month("Nov"))) == "No qualification ends in these months."
