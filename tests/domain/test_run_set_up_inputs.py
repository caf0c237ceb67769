"""What is left out is not guessed: without an input, answers that rest on it are missing and none is added."""

import copy

import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from set_up_examples import POLICY
from set_up_strategies import straight_set_ups

from trainer.domain.run_set_up import run
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.set_up_files import SetUpFaults, read_set_up, write_run

# What has a usual value where it is left out, or says that something is there which otherwise is not: leaving it
# out says another thing, and figures may change.
_SAYS_ANOTHER_THING = {
    "arc.passes", "dams", "flow.after_for", "gas.oxygen", "gas.purity", "hose", "hose.bore", "hose.open_fraction",
    "joint", "joint.gap", "joint.taped", "leaks", "model", "section.slope", "supply.stop_pressure",
    "surroundings.after", "surroundings.air_changes_per_h", "surroundings.fresh_oxygen",
    "surroundings.gas_temperature", "surroundings.kind", "surroundings.release", "surroundings.supply_inside",
    "temperature", "vent.count",
}  # fmt: skip


def _inputs(document, prefix=""):
    for key, value in document.items():
        yield f"{prefix}{key}"
        if isinstance(value, dict):
            yield from _inputs(value, f"{prefix}{key}.")


def _told_apart(made):
    """The set-up without what only another field's absence would change: the release and sums are stated."""
    told = copy.deepcopy(made)
    for key in ("readings", "prices"):  # rates from readings alone, a total of the prices that are known
        told.pop(key, None)
    told["surroundings"]["release"] = "15 L/min"
    return told


def _without(document, path):
    made = copy.deepcopy(document)
    *owners, key = path.split(".")
    owner = made
    for each in owners:
        owner = owner[each]
    del owner[key]
    return made


def _answers(made):
    """Every figure of the answer by its path; the trace is left out, whose moments go by wait and target."""
    answer = write_run(run(read_set_up(made), policy=POLICY))
    answer.pop("cautions")
    return dict(_leaves(answer))


def _leaves(value, path=""):
    if isinstance(value, dict):
        for key, each in value.items():
            if key != "trace":
                yield from _leaves(each, f"{path}.{key}")
    elif isinstance(value, list):
        for number, each in enumerate(value):
            yield from _leaves(each, f"{path}.{number}")
    else:
        yield path, value


@pytest.mark.slow
@tried(60)
@given(made=straight_set_ups, data=st.data())
def test_an_input_left_out_takes_answers_away_and_adds_none(made, data):
    made = _told_apart(made)
    left_out = data.draw(st.sampled_from(sorted(set(_inputs(made)) - _SAYS_ANOTHER_THING)))
    whole = _answers(made)
    try:
        rest = _answers(_without(made, left_out))
    except (SetUpFaults, UnusableSetUp):
        return  # what cannot do without it says so
    assert set(rest) <= set(whole), left_out
