"""How sure is this: the whole table of agreement, good or bad, and what it amounts to."""

import re

import pytest

from trainer.core.agreement import agreements


@pytest.fixture
def page(visit_as):
    return visit_as("apprentice").open_page("/how-sure")


def test_every_simulated_run_stands_in_one_of_the_two_tables(page):
    shown = [each.text for each in page.soup.select("table th[scope=row]")]
    runs = {each.run.split("_")[0] for each in agreements()}
    assert sorted(shown) == sorted(runs)


def test_the_shares_are_those_of_the_table_at_one_percent_and_1000_ppm(page):
    judging = [each for each in agreements() if each.judges == "judge" and each.target_o2_frac > 5e-4]
    close = sum(0.8 <= each.simulated_count / each.modelled.expected <= 1.25 for each in judging)
    held = sum(each.modelled.lower <= each.simulated_count <= each.modelled.upper for each in judging)
    said = re.search(r"Of (\d+) judging times .*?, (\d+) lie .*? holds (\d+)\.", page.soup.text, re.DOTALL)
    assert said is not None
    assert [int(each) for each in said.groups()] == [len(judging), close, held]


def test_a_time_outside_its_interval_is_said_to_be_outside(page):
    outside = [each for each in agreements() if not each.is_held]
    cells = [each.text for each in page.soup.select("table td.number") if "outside" in each.text]
    assert len(cells) == len(outside)


def test_each_time_has_its_mark_in_the_plot(page):
    assert len(page.soup.select("svg [data-run]")) == len(agreements())
