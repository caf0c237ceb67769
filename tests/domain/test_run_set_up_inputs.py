"""What is left out is not guessed: without a field the answers that rest on it are missing, and no other changes."""

import copy
import math

import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from set_up_examples import POLICY
from set_up_strategies import whole_set_ups
from what_rests_on_what import (
    THROUGH_A_STAGE,
    THROUGH_OLD_FOAM,
    THROUGH_THE_HOSE,
    THROUGH_THE_PIPE,
    WHAT_RESTS_ON_WHAT,
    RestsOn,
    row_of,
)

from trainer.domain.quantities import FieldKind, specs_of
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.set_up_files import SetUpFaults, read_set_up, write_run


def _inputs(value, path=()):
    """The way to every field that the document holds, through parts and lists of parts."""
    keys = value.keys() if isinstance(value, dict) else range(len(value))
    for key in keys:
        if isinstance(value, dict):
            yield (*path, key)
        if isinstance(value[key], dict | list):
            yield from _inputs(value[key], (*path, key))


def _without(document, path):
    made = copy.deepcopy(document)
    owner = made
    for each in path[:-1]:
        owner = owner[each]
    del owner[path[-1]]
    return made


def _named(path):
    """A path without the numbers of lists."""
    return ".".join(str(each) for each in path if not str(each).isdigit())


def _answers(made):
    """Every figure of the answer by its path, the trace as one; cautions follow from them by their table."""
    answer = write_run(run(read_set_up(made), policy=POLICY))
    answer.pop("cautions")
    return dict(_leaves(answer))


def _leaves(value, path=()):
    if isinstance(value, dict | list) and path[-1:] != ("trace",):
        for key, each in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _leaves(each, (*path, key))
    else:
        yield path, value


def _rows_of(path, made):
    stages = made["flow"].get("stages", [])
    yield row_of(_named(path))
    decides_flow = made.get("leaks") or any("open_fraction" in each for each in stages)
    if decides_flow and (path[0] == "hose" or path == ("inlet", "bore")):
        yield THROUGH_THE_HOSE
    if stages and path == ("flow",):  # which takes its stages along: with a meter a plain purge is left
        yield row_of("flow.stages")
    if stages and path == ("flow", "hold"):
        yield THROUGH_A_STAGE
    if path[0] in ("surroundings", "section") and made["surroundings"].get("kind") == "pipe":
        yield THROUGH_THE_PIPE
    if path[0] == "dams" and any(each.get("age") == "old" for each in made["dams"]):
        yield THROUGH_OLD_FOAM


def _differences(made, path):
    """The answers that are gone, and those that are otherwise or new, without the field; None where it is needed."""
    whole = _answers(made)
    try:
        rest = _answers(_without(made, path))
    except (SetUpFaults, UnusableSetUp):
        return None  # what cannot do without it says so
    gone = {_named(each) for each in whole.keys() - rest.keys()}
    other = {_named(each) for each in rest if each not in whole or not _same(whole[each], rest[each])}
    return gone, other


def _same(before, after):
    """Equal, but for the last digits of a sum that was made another way, such as all of a flow by its share."""
    is_figure = isinstance(before, float) and isinstance(after, float)
    return before == after or (is_figure and math.isclose(before, after, rel_tol=1e-12))


def _unexpected(made, path):
    found = _differences(made, path)
    if found is None:
        return set()
    rows = list(_rows_of(path, made))
    other = tuple(each for row in rows for each in row.otherwise)
    known = other + tuple(each for row in rows for each in row.goes)
    gone = {f"- {each}" for each in found[0] if not each.startswith(known)}
    return gone | {f"~ {each}" for each in found[1] if not each.startswith(other)}


@pytest.mark.slow
@tried(200)
@given(made=whole_set_ups(), data=st.data())
def test_a_field_left_out_takes_away_what_rests_on_it_and_touches_nothing_else(made, data):
    try:
        _answers(made)
    except (SetUpFaults, UnusableSetUp):
        return  # out of a formula's range
    path = data.draw(st.sampled_from(sorted(_inputs(made), key=str)))
    assert not _unexpected(made, path), path


def _declared(part_class, owner=""):
    for key, spec in specs_of(part_class).items():
        path = f"{owner}{key}"
        yield path
        if spec.kind in (FieldKind.PART, FieldKind.PARTS) and path.count(".") < 3:
            yield from _declared(spec.part, f"{path}.")


def test_every_declared_field_has_a_row_and_every_row_a_field():
    declared = set(_declared(SetUp))
    assert all(isinstance(row_of(path), RestsOn) for path in declared)
    assert set(WHAT_RESTS_ON_WHAT) <= declared
