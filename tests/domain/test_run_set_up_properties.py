"""Whatever a valid set-up holds, its run is finite, positive and the same in every unit."""

from contextlib import suppress
from dataclasses import is_dataclass, replace
from operator import itemgetter

import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from set_up_examples import POLICY, document
from set_up_strategies import loose, straight_set_ups, whole_set_ups
from sound_runs import assert_sound, numbers_in

from trainer import units
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp, faults_of
from trainer.set_up_files import SetUpFaults, read_set_up, write_run, write_set_up

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


def _snapped(value):
    """The set-up with quantities that people could type."""
    if isinstance(value, tuple):
        return tuple(_snapped(each) for each in value)
    if not is_dataclass(value):
        return value
    known = ((spec, getattr(value, spec.attribute)) for spec in specs_of(type(value)).values())
    return replace(
        value,
        **{
            spec.attribute: _nine_digits(found, spec.dimension)
            if spec.kind is FieldKind.MEASURED
            else _snapped(found)
            for spec, found in known
            if found is not None
        },
    )


def _nine_digits(value, dimension):
    if abs(value) < 1e-100:  # a day holds no digits of what is the least that a float can be in seconds
        return 0.0
    unit = units.known_units(dimension)[0]  # the usual one, in which people would type so few
    return units.parse(f"{units.in_unit(value, dimension, unit):.9g} {unit}", dimension)


@pytest.mark.slow
@tried(2000)
@given(made=whole_set_ups(), random=st.randoms(use_true_random=False))
def test_whatever_units_it_is_typed_in_a_set_up_is_the_same_to_the_last_bit(made, random):
    typed = write_set_up(_snapped(read_set_up(made)))
    assert _read_or_refused(_in_other_units(SetUp, typed, random.choice)) == _read_or_refused(typed)


@pytest.mark.slow
@tried(150)
@given(made=whole_set_ups(), random=st.randoms(use_true_random=False))
def test_and_so_is_its_run(made, random):
    typed = write_set_up(_snapped(read_set_up(made)))
    assert _answer_to(_in_other_units(SetUp, typed, random.choice)) == _answer_to(typed)


def _read_or_refused(made):
    """The set-up, or the paths that are said to be wrong: nine digits may part pieces that sixteen joined."""
    try:
        return read_set_up(made)
    except SetUpFaults as refused:
        return {each.path for each in refused.faults}


def _answer_to(made):
    """What is written of the run, or what is said against the set-up."""
    read = _read_or_refused(made)
    try:
        return write_run(run(read, policy=POLICY)) if isinstance(read, SetUp) else read
    except UnusableSetUp as unusable:
        return unusable.faults


def _measured_fields(part_class=SetUp, owners=()):
    for spec in specs_of(part_class).values():
        if spec.kind is FieldKind.MEASURED:
            yield spec, owners
        elif spec.part is not None and len(owners) < 4:  # a branch holds parts that may branch again
            yield from _measured_fields(spec.part, (*owners, spec))


_AT_LIMITS = [
    pytest.param(spec, owners, limit, id=f"{'.'.join(each.key for each in (*owners, spec))} {limit:g}")
    for spec, owners in _measured_fields()
    for limit in ((spec.high,) if spec.low_is_open else (spec.low, spec.high))
]


@pytest.mark.parametrize(("spec", "owners", "limit"), _AT_LIMITS)
def test_no_unit_puts_a_limit_itself_out_of_range(spec, owners, limit):
    for unit in units.known_units(spec.dimension):
        typed = {spec.key: f"{units.in_unit(limit, spec.dimension, unit)!r} {unit}"}
        for owner in reversed(owners):
            typed = {owner.key: [typed] if owner.kind is FieldKind.PARTS else typed}
        assert not [each for each in _messages(typed) if "out of range" in each], unit


def _messages(made):
    try:
        read_set_up(made)
    except SetUpFaults as refused:  # a part alone may lack others
        return [each.message for each in refused.faults]
    return []


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
    assert here == there
