"""Whatever a valid set-up holds, its run is finite, positive and the same in every unit."""

import json
import math
from contextlib import suppress
from dataclasses import fields, is_dataclass

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from set_up_examples import POLICY, document

from trainer import units
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp, faults_of
from trainer.set_up_files import SetUpFaults, read_set_up, write_run, write_set_up

_TEXTS = {
    "nps": ("1/2", "2", "6", "12", "24"), "dn": ("50", "150"), "schedule": ("10S", "40S", "40", "STD"),
    "symbol": ("I1", "I2", "N1", "I3", "R1", "N5"), "composition": ("Ar", "ArHe-30", "Ar + 5 % H2", "NH-5"),
    "calibrated_for": ("I1", "N1", "AIR", "R1-ArH-5"),
    "where": ("hose fitting", "dam edge", "joint tape", "branch"),
    "name": ("riser", "bend"),
    "at": ("riser", "bend"),
    "what": ("draw rope",),
    "material": ("polypropylene", "polyimide tape"),
}  # fmt: skip


def _values(spec: FieldSpec):
    if spec.kind is FieldKind.MEASURED or spec.kind is FieldKind.NUMBER:
        return st.floats(spec.low, spec.high, exclude_min=spec.low_is_open)
    return {
        FieldKind.COUNT: lambda: st.integers(spec.low, spec.high),
        FieldKind.CHOICE: lambda: st.sampled_from(spec.choices),
        FieldKind.TEXT: lambda: st.sampled_from(_TEXTS[spec.key]),
        FieldKind.FLAG: st.booleans,
        FieldKind.PART: lambda: _parts(spec.part),
        FieldKind.PARTS: lambda: st.lists(_parts(spec.part), max_size=2).map(tuple),
    }[spec.kind]()


def _parts(part_class):
    specs = specs_of(part_class).values()
    known = {spec.attribute: st.none() | _values(spec) for spec in specs if spec.kind is not FieldKind.PARTS}
    lists = {spec.attribute: _values(spec) for spec in specs if spec.kind is FieldKind.PARTS}
    return st.builds(part_class, **known, **lists)


def _lengths(low_mm, high_mm):
    return st.floats(low_mm, high_mm).map(lambda mm: f"{mm!r} mm")


def _flows(low_l_min, high_l_min):
    return st.floats(low_l_min, high_l_min).map(lambda l_min: f"{l_min!r} L/min")


# Set-ups in which everything is known and most are usable: what people would really set up, and well beyond it.
_COMPLETE = st.builds(
    document,
    pipe=st.sampled_from(
        [{"nps": nps, "schedule": "10S"} for nps in ("2", "3", "6", "8", "12")]
        + [{"outside_diameter": "33.7 mm", "wall": "2 mm"}, {"outside_diameter": "1 m", "wall": "10 mm"}]
    ),
    section__left_dam=_lengths(20, 6000),
    section__right_dam=_lengths(20, 6000),
    section__slope=st.sampled_from(["0 deg", "90 deg", "-90 deg"])
    | st.floats(-90, 90).map(lambda deg: f"{deg!r} deg"),
    inlet=st.sampled_from(
        [
            {"height": 0.3, "end": "diffuser", "face_area": "6 cm^2"},
            {"height": 0.7, "end": "open tube", "bore": "0.25 in"},
            {"height": 0.5, "end": "rag", "bore": "8 mm"},
        ]
    ),
    vent__height=st.floats(0.25, 0.75),
    vent__diameter=_lengths(4, 8),
    vent__count=st.integers(1, 2),
    joint__taped=st.floats(0, 1),
    joint__left_open=st.none() | st.just("0 mm") | _lengths(0.1, 90),
    joint__pool_depth=st.none() | _lengths(0.5, 2),
    section__left_end=st.none() | _lengths(6000, 50_000),
    near_heat=st.none()
    | st.builds(
        lambda material, mm: [{"what": "draw rope", "material": material, "distance": f"{mm!r} mm"}],
        st.sampled_from(_TEXTS["material"]), st.floats(1, 2000),
    ),
    gas=st.sampled_from(
        [
            {"symbol": "I1", "purity": "99.996 %"}, {"symbol": "I2"}, {"symbol": "N1", "oxygen": "50 ppm"},
            {"symbol": "I3", "composition": "ArHe-30.55"}, {"symbol": "I3", "composition": "Ar + 70 % He"},
            {"symbol": "R1", "composition": "ArH-5", "frost_point": "-40 degC"},
            {"symbol": "N5", "composition": "NH-10"}, {"symbol": "N4", "composition": "ArHN-5/2"},
        ]
    ),
    flow__purge=_flows(0.5, 60),
    flow__hold=st.just("0 L/min") | _flows(0.1, 30),
    target__oxygen=st.sampled_from(["20 ppm", "0.1 %", "1 %", "10 %"]),
    wait=(st.just(0.0) | st.floats(1, 7200)).map(lambda s: f"{s!r} s"),
    supply__pressure=st.floats(0, 300).map(lambda bar: f"{bar!r} bar"),
    supply__joints_wanted=st.none() | st.integers(1, 500),
    supply__largest_draw=st.none() | _flows(1, 300),
    flow__after_for=st.none() | st.just("10 min"),
    prices=st.none() | st.builds(
        lambda gas, hour, joint: {"gas_per_m3": gas, "labour_per_h": hour, "lost_joint": joint},
        st.floats(0, 100), st.floats(0, 200), st.floats(0, 10000),
    ),
    hose__open_fraction=st.floats(0, 1),
    arc__passes=st.integers(1, 3),
    temperature=st.floats(-30, 50).map(lambda deg: f"{deg!r} degC"),
    leaks=st.lists(
        st.builds(lambda where, mm2: {"where": where, "area": f"{mm2!r} mm^2"},
                  st.sampled_from(_TEXTS["where"]), st.just(0.0) | st.floats(0.001, 20)),
        max_size=2,
    ),
    dams=st.sampled_from(
        [
            None, [{"side": "right", "kind": "tape"}],
            [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "old", "rope": "3 m"}],
        ]
    ),
    model=st.sampled_from(["layered", "unstirred layers", "perfect mixing", "displacement"]),
    readings=st.none()
    | st.builds(
        lambda early, apart, oxygen: [
            {"after": f"{early!r} s", "oxygen": f"{oxygen[0]!r} %"},
            {"after": f"{early + apart!r} s", "oxygen": f"{oxygen[1]!r} %"},
        ],
        st.floats(0, 7200), st.floats(1, 3600), st.tuples(st.floats(0.3, 20), st.floats(0.3, 20)),
    ),
    analyser=st.floats(0, 50).map(lambda percent: {"uncertainty": f"{percent!r} %"}),
    surroundings__fan=st.sampled_from(["none"]),
    surroundings__kind=st.sampled_from(["room", "pit", "vessel", "van", "open air"]),
    surroundings__air_changes_per_h=st.none() | st.floats(0, 100),
    surroundings__gas_temperature=st.none() | st.floats(-190, 100).map(lambda deg: f"{deg!r} degC"),
    surroundings__fresh_oxygen=st.none() | st.floats(15, 40).map(lambda percent: f"{percent!r} %"),
    surroundings__blower=st.none() | st.floats(0.1, 5000).map(lambda m3_h: f"{m3_h!r} m^3/h"),
    surroundings__supply_inside=st.none() | st.booleans(),
    scene=st.builds(
        lambda places, leads_to: {
            "people": [{"where": where, "face_height": f"{height!r} m"} for where, height in places],
            "vent_leads_to": leads_to,
        },
        st.lists(st.tuples(st.sampled_from(["room", "pit", "pipe", "van"]), st.floats(0, 2.5)), max_size=3),
        st.sampled_from(["open air", "room", "pit"]),
    ),
)  # fmt: skip

_THOROUGH = settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def _numbers(value):
    if isinstance(value, float | int):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _numbers(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from _numbers(getattr(value, each.name))


def _assert_sound(answered):
    # An upper end may be infinite where one end of the closure never gets there; it is written as never.
    assert not any(math.isnan(each) for each in _numbers(answered))
    for part in (
        answered.supply,
        answered.gas_used,
        answered.purge,
        answered.vent,
        answered.section,
        answered.flow,
        answered.gas,
        answered.cost,
        answered.breathing,
        answered.readings,
    ):
        assert all(each >= 0 for each in _numbers(part))
    text = json.dumps(write_run(answered), allow_nan=False)
    assert "null" not in text.replace('"upper": null', "") or "never" in str(answered)


@pytest.mark.slow
@_THOROUGH
@given(_COMPLETE)
def test_no_complete_set_up_gives_nan_infinity_or_negative_amounts(made):
    answered = run(read_set_up(made), policy=POLICY)
    _assert_sound(answered)
    assert answered.purge is not None


@pytest.mark.slow
@_THOROUGH
@given(_parts(SetUp))
def test_any_values_in_range_are_answered_or_refused_as_documented(made):
    with suppress(UnusableSetUp):
        _assert_sound(run(made, policy=POLICY))


@pytest.mark.slow
@_THOROUGH
@given(_parts(SetUp))
def test_any_set_up_without_contradictions_is_written_and_read_back(made):
    if faults_of(made):
        with pytest.raises(SetUpFaults):
            read_set_up(write_set_up(made))
        return
    again = read_set_up(write_set_up(made))
    for before, after in zip(_numbers(made), _numbers(again), strict=True):
        assert after == pytest.approx(before, rel=1e-12, abs=1e-300)


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


def _in_metric(spec: FieldSpec, value):
    if spec.kind is FieldKind.MEASURED:
        return units.written(units.parse(value, spec.dimension), spec.dimension)
    if spec.kind is FieldKind.PART:
        specs = specs_of(spec.part)
        return {key: _in_metric(specs[key], each) for key, each in value.items()}
    return value


def test_the_same_set_up_in_other_units_is_the_same_run():
    specs = specs_of(SetUp)
    metric = {key: _in_metric(specs[key], value) for key, value in document(**_US).items() if key in specs}
    there = run(read_set_up(document(**_US)), policy=POLICY)
    here = run(read_set_up(metric), policy=POLICY)
    assert [each.code for each in here.cautions] == [each.code for each in there.cautions]
    assert list(_numbers(here)) == pytest.approx(list(_numbers(there)), rel=1e-9)
