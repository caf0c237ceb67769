"""Whatever a valid set-up holds, its run is finite, positive and the same in every unit."""

from contextlib import suppress
from operator import itemgetter

import pytest
from example_counts import tried
from hypothesis import given
from set_up_examples import POLICY, document
from set_up_strategies import loose, straight_set_ups, whole_set_ups
from sound_runs import assert_sound, numbers_in

from trainer import units
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp, faults_of
from trainer.set_up_files import SetUpFaults, read_set_up, write_set_up

_THOROUGH = tried(300)


def _run_of(made):
    """The run of a valid document; None where the core refuses it as out of a formula's range, with the reason."""
    set_up = read_set_up(made)
    try:
        return run(set_up, policy=POLICY)
    except UnusableSetUp as unusable:
        if {fault.code for fault in unusable.faults} != {"out-of-formula"}:
            raise
        return None


@pytest.mark.slow
@_THOROUGH
@given(straight_set_ups)
def test_no_complete_set_up_gives_nan_infinity_or_negative_amounts(made):
    answered = run(read_set_up(made), policy=POLICY)
    assert_sound(answered)
    assert answered.purge is not None


@pytest.mark.slow
@_THOROUGH
@given(whole_set_ups())
def test_nor_does_any_with_stages_liquid_fans_spools_and_blockages(made):
    answered = _run_of(made)
    if answered is not None:
        assert_sound(answered)


@pytest.mark.slow
@_THOROUGH
@given(loose())
def test_any_values_in_range_are_answered_or_refused_as_documented(made):
    with suppress(UnusableSetUp):
        assert_sound(run(made, policy=POLICY))


@pytest.mark.slow
@_THOROUGH
@given(loose())
def test_any_set_up_without_contradictions_is_written_and_read_back(made):
    if faults_of(made):
        with pytest.raises(SetUpFaults):
            read_set_up(write_set_up(made))
        return
    again = read_set_up(write_set_up(made))
    for before, after in zip(numbers_in(made), numbers_in(again), strict=True):
        assert after == pytest.approx(before, rel=1e-12, abs=1e-300)


# --- other units, same run -------------------------------------------------------------------------------------


def _in_other_units(part_class, document, choose):
    """The document with every quantity in a unit that `choose` picks from those of its dimension."""
    specs = specs_of(part_class)
    return {key: _rewritten(specs[key], value, choose) for key, value in document.items()}


def _rewritten(spec: FieldSpec, value, choose):
    if spec.kind is FieldKind.MEASURED:
        unit = choose(units.known_units(spec.dimension))
        # All digits: where gas weighs nearly what air weighs, the sixteenth of an input is the ninth of a course.
        return f"{units.in_unit(units.parse(value, spec.dimension), spec.dimension, unit)!r} {unit}"
    if spec.kind is FieldKind.PART:
        return _in_other_units(spec.part, value, choose)
    if spec.kind is FieldKind.PARTS:
        return [_in_other_units(spec.part, each, choose) for each in value]
    return value


_US = {
    "section": {"left_dam": "1 ft", "right_dam": "2 ft 3 in"}, "vent": {"height": 0.9, "diameter": "1/4 in"},
    "inlet": {"height": 0.1, "end": "diffuser", "face_area": "2.5 in^2"},
    "flow": {"purge": "32 cfh", "hold": "10 cfh", "hold_for": "1/2 h"}, "target": {"oxygen": "1000 ppm"},
    "wait": "0.1 h", "hose": {"bore": "1/4 in", "length": "100 ft", "inlet_pressure": "30 psi"},
    "supply": {"kind": "single cylinder", "water_volume": "3051.2 in^3", "pressure": "2640 psi", "stop_pressure": "30 psi"},
    "arc": {"current": "80 A", "voltage": "11 V", "efficiency": 0.7, "travel_speed": "2.4 in/min"},
    "temperature": "68 degF",
    "surroundings": {"kind": "room", "volume": "3000 ft^3", "floor_area": "400 ft^2", "fan": "none", "after": "30 min"},
}  # fmt: skip


def test_the_same_set_up_in_other_units_is_the_same_run():
    there = run(read_set_up(document(**_US)), policy=POLICY)
    here = run(read_set_up(_in_other_units(SetUp, document(**_US), itemgetter(0))), policy=POLICY)
    assert [each.code for each in here.cautions] == [each.code for each in there.cautions]
    assert list(numbers_in(here)) == pytest.approx(list(numbers_in(there)), rel=1e-9)
