"""Each reference row of flow and atmosphere against the core, by the row's own tolerance, and none forgotten."""

import pytest
from atmosphere_answers import ATMOSPHERE_ANSWERS
from flow_answers import FLOW_ANSWERS
from inlet_answers import INLET_ANSWERS
from reference_rows import reference_rows
from supply_answers import SUPPLY_ANSWERS

ANSWERS = {
    "flow_checks": {**FLOW_ANSWERS, **INLET_ANSWERS, **SUPPLY_ANSWERS},
    "atmosphere_checks": ATMOSPHERE_ANSWERS,
}

# Rows that the core answers differently on purpose; the row stays as its source has it.
DISPUTED = {
    "flow_checks": {
        "O-11": "an end correction of 0.85 d for a thin hole; the core uses pi d / 4, two ends of pi d / 8 (O-10)",
    },
    "atmosphere_checks": {},
}

# Rows that are none of the core: another test asks them.
NOT_REACHABLE = {
    "flow_checks": {
        "S-05": "a plain change of unit (cubic feet an hour): the units at the edge, in tests/test_units.py",
        "S-07": "a plain change of unit (inch of water): the units at the edge, in tests/test_units.py",
        "S-09": "a plain change of unit (psi gauge): the units at the edge, in tests/test_units.py",
    },
    "atmosphere_checks": {},
}


@pytest.mark.parametrize(
    ("file", "row_id"),
    [pytest.param(file, row_id, id=row_id) for file, answers in ANSWERS.items() for row_id in answers],
)
def test_core_agrees_with_the_reference_row(file, row_id):
    row = reference_rows(file)[row_id]
    value = ANSWERS[file][row_id]()
    assert row.holds(value), f"{row.inputs}: {value} {row.unit}, expected {row.expected} ({row.source})"


@pytest.mark.parametrize("file", sorted(ANSWERS))
def test_each_row_is_used_disputed_or_known_to_be_out_of_reach(file):
    lists = [set(ANSWERS[file]), set(DISPUTED[file]), set(NOT_REACHABLE[file])]
    assert set().union(*lists) == set(reference_rows(file))
    assert sum(map(len, lists)) == len(reference_rows(file)), "a row stands in two lists"


@pytest.mark.parametrize("file", sorted(ANSWERS))
def test_each_row_names_its_source_and_status(file):
    for row in reference_rows(file).values():
        assert row.source
        assert row.status in ("a", "b", "c", "d")
