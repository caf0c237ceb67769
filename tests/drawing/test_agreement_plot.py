"""The agreement plot: marks stand where their figures are, and print in grey tells the two sorts apart."""

import pytest
from bs4 import BeautifulSoup

from trainer.core.agreement import Agreement
from trainer.core.interval import Interval
from trainer.drawing.agreement_plot import agreement_plot
from trainer.drawing.reader import Reader


def marks(*rows):
    soup = BeautifulSoup(agreement_plot(rows, reader=Reader(prefix="agreement")), "html.parser")
    return soup.select("[data-run] circle"), soup.select("[data-run] line")


def row(simulated, expected, *, judges="judge"):
    return Agreement(
        run="X", description="", judges=judges, target_o2_frac=0.01, simulated_count=simulated,
        modelled=Interval(expected, expected / 1.5, expected * 1.5),
    )  # fmt: skip


def test_ten_times_as_many_volume_changes_lie_equally_far_on_both_axes():
    (low, high), _ = marks(row(1.0, 1.0), row(10.0, 10.0))
    across = (float(high["cx"]) - float(low["cx"])) / (760.0 - 110.0)
    up = (float(low["cy"]) - float(high["cy"])) / (540.0 - 30.0)
    assert across == pytest.approx(up, abs=1e-3)


def test_the_interval_of_a_mark_stands_above_and_below_it():
    (mark,), (bar,) = marks(row(3.0, 2.0))
    assert float(bar["y2"]) < float(mark["cy"]) < float(bar["y1"])


def test_a_run_that_judges_is_filled_and_one_that_was_fitted_is_hollow():
    (filled, hollow), _ = marks(row(2.0, 2.0), row(2.0, 2.0, judges="fit"))
    assert "d-solid" in filled["class"]
    assert "d-shape" in hollow["class"]
