"""The shape that any time line of stages keeps."""

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from set_up_examples import run_of, set_up
from time_line_examples import AIR, line, stage

from trainer.domain.quantities import NEVER
from trainer.set_up_files import write_run

_SHAPE = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
_MINUTES = st.floats(0.2, 30.0)
_STAGES = st.lists(
    st.builds(stage, st.just("purge"), _MINUTES)
    | st.builds(stage, st.just("hold"), _MINUTES)
    | st.builds(lambda m: stage("pinched hose", m, flow="0 L/min"), _MINUTES)
    | st.builds(lambda m: stage("line out", m, opening="8 mm"), _MINUTES),
    min_size=0,
    max_size=3,
)
_VENTS = st.sampled_from([{"height": 0.95, "diameter": "6 mm"}, {"height": 0.5, "diameter": "25 mm"}])
_MODELS = st.sampled_from(["layered", "perfect mixing", "unstirred layers", "displacement"])


def _numbers(stages):
    return [
        number
        for each in stages
        for number in (
            each.oxygen_at_end_frac.expected if each.oxygen_at_end_frac else 0.0,
            each.highest_oxygen_frac,
        )
    ]


@pytest.mark.slow
@_SHAPE
@given(
    first=_MINUTES,
    between=_STAGES,
    vent=_VENTS,
    model=_MODELS,
    cut_at=st.tuples(st.floats(0.05, 0.95), st.integers(0, 3)),
)
def test_a_stage_cut_in_two_of_one_flow_changes_nothing(first, between, vent, model, cut_at):
    share, place = cut_at
    stages = [stage("purge", first), *between]
    cut = stages[min(place, len(stages) - 1)]
    minutes = float(cut["for"].removesuffix(" min"))
    halves = [cut | {"for": f"{each!r} min"} for each in (minutes * share, minutes - minutes * share)]
    place = stages.index(cut)
    told = {"vent": vent, "model": model, "wait": "6 s"}
    whole = line(*stages, stage("recovery"), **told).purge
    parted = line(*stages[:place], *halves, *stages[place + 1 :], stage("recovery"), **told).purge
    ends = [each for number, each in enumerate(parted.stages) if number != place]
    assert [each.oxygen_at_end_frac.expected for each in ends[:-1]] == pytest.approx(
        [each.oxygen_at_end_frac.expected for each in whole.stages[:-1]], rel=1e-6, abs=1e-9
    )
    if whole.time_to_target_s is NEVER:
        assert parted.time_to_target_s is NEVER
    else:
        assert parted.time_to_target_s.expected == pytest.approx(whole.time_to_target_s.expected, rel=1e-6)


@pytest.mark.slow
@_SHAPE
@given(first=_MINUTES, between=_STAGES, vent=_VENTS, model=_MODELS)
def test_any_line_of_stages_is_finite_and_within_air(first, between, vent, model):
    ran = line(stage("purge", first), *between, stage("recovery"), vent=vent, model=model, wait="6 s")
    for number in _numbers(ran.purge.stages):
        assert 0.0 <= number <= AIR * (1.0 + 1e-9)
    for each in ran.purge.stages:
        # A plug takes the share of the flow that begins at that moment: its limit knows no time in between.
        if each.oxygen_at_end_frac and model != "displacement":
            assert each.highest_oxygen_frac >= each.oxygen_at_end_frac.expected * (1.0 - 1e-9) - 1e-12


@pytest.mark.slow
@_SHAPE
@given(first=_MINUTES, other=_MINUTES)
def test_without_air_in_a_mixed_section_does_not_mind_the_order(first, other):
    one = line(stage("purge", first), stage("hold", other), stage("recovery"), wait="6 s").purge
    two = line(stage("hold", other), stage("purge", first), stage("recovery"), wait="6 s").purge
    assert one.stages[1].oxygen_at_end_frac.expected == pytest.approx(
        two.stages[1].oxygen_at_end_frac.expected, rel=1e-9
    )


@pytest.mark.slow
@_SHAPE
@given(first=_MINUTES, hold=_MINUTES)
def test_without_air_in_nothing_rises_after_any_change_of_flow(first, hold):
    ran = line(
        stage("purge", first), stage("hold", hold), stage("pinched hose", hold, flow="1 L/min"), stage("recovery"),
        wait="6 s", model="layered",
    ).purge  # fmt: skip
    for before, after in zip(ran.stages, ran.stages[1:], strict=False):
        assert after.highest_oxygen_frac <= before.oxygen_at_end_frac.expected * (1.0 + 1e-6) + 1e-9


_SET_UPS = st.fixed_dictionaries(
    {
        "section__slope": st.sampled_from([0.0, 90.0, -90.0]).map(lambda deg: f"{deg} deg")
        | st.floats(-90.0, 90.0).map(lambda deg: f"{deg:.3f} deg"),
        "gas__symbol": st.sampled_from(["I1", "I2", "N1"]),
        "joint__taped": st.floats(0.0, 1.0),
        "leaks": st.lists(
            st.builds(
                lambda where, mm2: {"where": where, "area": f"{mm2!r} mm^2"},
                st.sampled_from(["hose fitting", "dam edge", "joint tape"]),
                st.floats(0.01, 20.0),
            ),
            max_size=1,
        ),
        "vent": _VENTS,
        "model": _MODELS,
        "flow__hold": (st.just(0.0) | st.floats(0.01, 30.0)).map(lambda flow: f"{flow!r} L/min"),
        "target__oxygen": st.sampled_from(["20 ppm", "0.1 %", "10 %"]),
        "hose__open_fraction": st.floats(0.0, 1.0),
        "dams": st.sampled_from(
            [None, [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "old"}]]
        ),
        "wait": st.floats(0.0, 12.0).map(lambda seconds: f"{seconds!r} s"),
    }
)
_ENDS = st.sampled_from(
    [
        stage("recovery"),
        stage("hold", 10.0),
        stage("line out", opening="8 mm"),
        stage("pinched hose", open_fraction=0.01),
    ]
)


@pytest.mark.slow
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(first=_MINUTES, between=_STAGES, last=_ENDS, told=_SET_UPS)
def test_any_line_of_any_set_up_is_answered_in_full(first, between, last, told):
    ran = run_of(**told, flow__hold_for=None, flow__stages=[stage("purge", first), *between, last])
    answer = write_run(ran)
    json.dumps(answer, allow_nan=False)
    assert len(answer["purge"]["stages"]) == len(between) + 2
    assert 50 <= len(answer["purge"]["trace"]) <= 400
    for row in answer["purge"]["trace"]:
        assert all(-1e-9 <= each <= 1e6 * AIR * (1.0 + 1e-9) for each in row[1:])
    if ran.purge.time_to_target_s is NEVER:
        assert ran.purge.never_because
    else:
        # Nothing after the last time above the target is above it; the end itself may be rounded.
        time_s, target = ran.purge.time_to_target_s.expected, float(set_up(**told).target.oxygen_frac)
        assert all(
            row[1] <= target * (1.0 + 1e-6) for row in ran.purge.trace if row[0] > time_s * (1.0 + 1e-9)
        )
