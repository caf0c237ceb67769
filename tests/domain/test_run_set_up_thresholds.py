"""Every caution of a run is there exactly when a row of the thresholds table holds, with no gap and no overlap."""

import math
from dataclasses import replace

import pytest
from example_counts import tried
from hypothesis import given
from set_up_examples import POLICY
from set_up_strategies import whole_set_ups

from trainer.domain.caution_quantities import QUANTITIES
from trainer.domain.policy import Compare
from trainer.domain.run_set_up import run
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.set_up_files import read_set_up


def codes_of_rows(set_up, rows):
    """The cautions that so many rows raise, each row under a code of its own beside the site's own rows."""
    own = tuple(replace(row, code=f"row {number}") for number, row in enumerate(rows))
    return {
        each.code: dict(each.facts)
        for each in run(set_up, policy=_policy((*own, *POLICY.thresholds))).cautions
    }


def _policy(thresholds):
    return replace(POLICY, thresholds=thresholds)


def values_of_rows(set_up):
    """What each row of the table is held against in this run, by its place; rows without a value are left out."""
    always = [replace(row, compare=Compare.AT_LEAST, value=-math.inf) for row in POLICY.thresholds]
    found = codes_of_rows(set_up, always)
    return {
        place: found[f"row {place}"][QUANTITIES[row.quantity].fact]
        for place, row in enumerate(POLICY.thresholds)
        if f"row {place}" in found
    }


@pytest.mark.slow
@tried(150)
@given(whole_set_ups())
def test_every_caution_of_a_run_is_there_exactly_when_a_row_of_its_code_holds(made):
    set_up = read_set_up(made)
    try:
        values = values_of_rows(set_up)
    except UnusableSetUp:
        return  # out of a formula's range: nothing is judged
    held = [
        POLICY.thresholds[place].code
        for place, value in values.items()
        if POLICY.thresholds[place].is_met_by(value)
    ]
    assert [each.code for each in run(set_up, policy=POLICY).cautions] == list(dict.fromkeys(held))


@pytest.mark.slow
@tried(150)
@given(whole_set_ups())
def test_a_threshold_moved_onto_a_value_of_the_run_decides_by_its_sign_alone(made):
    set_up = read_set_up(made)
    try:
        values = values_of_rows(set_up)
    except UnusableSetUp:
        return
    assert all(math.isfinite(value) for value in values.values())
    rows = [
        (replace(POLICY.thresholds[place], value=at), raised)
        for place, value in values.items()
        for at, raised in beside(value, POLICY.thresholds[place].compare)
    ]
    raised = codes_of_rows(set_up, [row for row, _ in rows])
    assert [f"row {number}" in raised for number in range(len(rows))] == [raised for _, raised in rows]


def beside(value, compare):
    """A threshold on the value and the next floats on both sides of it, and whether the value then raises it."""
    upwards, at = compare in (Compare.AT_LEAST, Compare.ABOVE), compare in (Compare.AT_LEAST, Compare.AT_MOST)
    return (
        (math.nextafter(value, -math.inf), upwards),
        (value, at),
        (math.nextafter(value, math.inf), not upwards),
    )
