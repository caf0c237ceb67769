"""What lies next to a size or a schedule that there is none of."""

import pytest

from trainer.domain.nearest_sizes import nearest_names

SCHEDULES = ("5S", "10S", "40S", "80S", "40", "80", "120", "160", "STD", "XS", "XXS")
SIZES = ("1/8", "1/4", "1", "1-1/4", "1-1/2", "2", "6", "8")


@pytest.mark.parametrize(
    ("wanted", "nearest"),
    [
        ("60", ("40", "80")),
        ("60S", ("40S", "80S")),
        ("100", ("80", "120")),
        ("3S", ("5S",)),
        ("20", ("10S", "40")),
        ("999", ("XXS",)),
        ("thick", ()),
        ("1e999999999", ()),
        ("", ()),
    ],
)
def test_schedules_by_their_number_and_the_letter_that_was_wanted(wanted, nearest):
    assert nearest_names(wanted, known=SCHEDULES) == nearest


@pytest.mark.parametrize(
    ("wanted", "nearest"),
    [("7", ("6", "8")), ("1-3/8", ("1-1/4", "1-1/2")), ("3/16", ("1/8", "1/4")), ("1/0", ())],
)
def test_sizes_in_fractions_of_an_inch(wanted, nearest):
    assert nearest_names(wanted, known=SIZES) == nearest


def test_metric_sizes_with_and_without_their_letters():
    assert nearest_names("DN 160", known=("125", "150", "200")) == ("150", "200")
