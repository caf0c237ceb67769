"""Many purges at once give what each of them gives alone."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import L_MIN, SHAPE

from trainer.core.batch import PurgeQuestion, purge_many
from trainer.core.dilution import BASE_CASE, purge
from trainer.core.errors import OutOfRange
from trainer.core.gas_designation import purge_gas
from trainer.core.layer_stack import LayerStack
from trainer.core.layers import Mixing
from trainer.core.level_stack import level_balances, level_columns
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import FlowSegment, InLeak, Inlet, PurgeSection, VentHole
from trainer.core.terms import InletEnd, PurgeModel

GASES = st.sampled_from(
    [("I1", None), ("I2", None), ("N1", None), ("I3", "ArHe-25"), ("I3", "ArHe-50"), ("N5", "NH-10")]
)


@st.composite
def inlets(draw):
    end = draw(st.sampled_from(InletEnd))
    height_frac = draw(st.floats(0.1, 0.9))
    if end is InletEnd.DIFFUSER:
        return Inlet(height_frac=height_frac, end=end, face_area_m2=draw(st.floats(3e-4, 5e-3)))
    return Inlet(height_frac=height_frac, end=end, bore_m=draw(st.sampled_from([0.004, 0.00635])))


@st.composite
def questions(draw):
    bore_m = draw(st.floats(0.05, 0.4))
    leaks = draw(
        st.lists(
            st.builds(InLeak, height_frac=st.none() | st.floats(0, 1), flow_m3_s=st.floats(0.0, 1e-6)),
            max_size=1,
        )
    )
    symbol, composition = draw(GASES)
    case = PurgeCase(
        section=PurgeSection(bore_m=bore_m, length_m=bore_m * draw(st.floats(1.5, 25.0))),
        inlet=draw(inlets()),
        vent=VentHole(
            height_frac=draw(st.floats(0.12, 0.88)), diameter_m=draw(st.sampled_from([0.004, 0.01]))
        ),
        gas=purge_gas(symbol, composition=composition),
        source_o2_frac=draw(st.sampled_from([0.0, 5e-6, 20e-6])),
        segments=(FlowSegment(flow_m3_s=draw(st.floats(1.5, 45.0)) * L_MIN, duration_s=math.inf),),
        leaks=tuple(leaks),
    )
    return PurgeQuestion(
        case=case, target_o2_frac=10 ** draw(st.floats(-4.5, -0.9)), wait_s=draw(st.floats(0.0, 3000.0))
    )


def assert_same(answer, question):
    alone = purge(question.case)
    time, oxygen = alone.time_to(question.target_o2_frac), alone.oxygen_at(question.wait_s)
    assert dataclasses.astuple(answer.oxygen_after_wait_frac) == pytest.approx(
        dataclasses.astuple(oxygen), abs=1e-9
    )
    if time is None:
        assert answer.time_to_target_s is None
    else:
        assert dataclasses.astuple(answer.time_to_target_s) == pytest.approx(
            dataclasses.astuple(time), rel=1e-9
        )


@SHAPE
@given(questions())
def test_batch_gives_what_each_purge_gives_alone(question):
    (answer,) = purge_many([question])
    assert_same(answer, question)


def base_with(**changes):
    return PurgeQuestion(case=dataclasses.replace(BASE_CASE, **changes), target_o2_frac=0.001, wait_s=90.0)


ENDLESS = BASE_CASE.segments[0]
ODD_ONES = [
    base_with(section=PurgeSection(bore_m=0.161, length_m=0.6, slope_deg=90.0)),
    base_with(model=PurgeModel.PERFECT_MIXING),
    base_with(model=PurgeModel.DISPLACEMENT),
    base_with(segments=(FlowSegment(flow_m3_s=5e-4, duration_s=60.0), ENDLESS)),
    base_with(segments=(FlowSegment(flow_m3_s=5e-4, duration_s=95.0),)),
    # A gentle slow flow in a wide, short section stays a sharp front, for which modes lose their digits.
    base_with(
        section=PurgeSection(bore_m=1.0, length_m=1.0),
        inlet=Inlet(height_frac=0.01, end=InletEnd.DIFFUSER, face_area_m2=0.1),
        vent=VentHole(height_frac=0.97, diameter_m=0.019),
    ),
]


@pytest.mark.parametrize("question", ODD_ONES, ids=range(len(ODD_ONES)))
def test_set_ups_that_do_not_stack_are_answered_all_the_same(question):
    first, answer, last = purge_many([base_with(), question, base_with()])
    assert_same(answer, question)
    assert first == last


def test_answers_keep_the_order_of_the_questions_across_stacks():
    flows = [(2.0 + (7 * number % 997) / 30.0) * L_MIN for number in range(1100)]
    answers = purge_many(
        [base_with(segments=(FlowSegment(flow_m3_s=flow, duration_s=math.inf),)) for flow in flows]
    )
    times = [answer.time_to_target_s.expected for answer in answers]
    by_flow = [time for _, time in sorted(zip(flows, times, strict=True))]
    assert all(later <= earlier * (1 + 1e-9) for earlier, later in zip(by_flow, by_flow[1:], strict=False))
    assert len(times) == 1100


def test_nothing_asked_is_nothing_answered():
    assert purge_many([]) == ()


def test_root_that_never_gets_there_has_no_time_and_level_above_air_takes_none():
    leaky = base_with(leaks=(InLeak(height_frac=None, flow_m3_s=1e-5),))
    never, at_once = purge_many([leaky, dataclasses.replace(base_with(), target_o2_frac=0.2095)])
    assert never.time_to_target_s is None
    assert at_once.time_to_target_s.expected == 0.0


def test_wait_before_the_start_or_after_the_end_is_refused():
    with pytest.raises(OutOfRange, match="wait"):
        PurgeQuestion(case=BASE_CASE, target_o2_frac=0.01, wait_s=-1.0)
    short = base_with(segments=(FlowSegment(flow_m3_s=5e-4, duration_s=60.0),))
    with pytest.raises(OutOfRange, match="time since the gas was turned on"):
        purge_many([short])


def test_front_too_sharp_for_modes_is_marked_so():
    still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
    balances = level_balances(
        level_columns([BASE_CASE]), rows=[0, 0], flows_m3_s=[2.5e-6, 1e-2], mixings=[still, still]
    )
    stack = LayerStack(balances)
    assert stack.log_spread[0] < 11.0 < stack.log_spread[1]
    assert np.isinf(stack.last_time_above_s(np.array([0.5, 0.5]))).tolist() == [False, True]


def test_stack_meets_the_stirred_tank_when_stirred_hard():
    """Stirred tank, c = exp(-Q t / V): Levenspiel, Chemical Reaction Engineering."""
    hard = Mixing(diffusivity_m2_s=100.0, stirring_m2_s=0.0)
    stack = LayerStack(
        level_balances(level_columns([BASE_CASE]), rows=[0], flows_m3_s=[2.5e-4], mixings=[hard])
    )
    one_change_s = BASE_CASE.section.volume_m3 / 2.5e-4
    assert stack.root_air_frac(np.array([[one_change_s]])) == pytest.approx(math.exp(-1), rel=1e-6)
    assert stack.last_time_above_s(np.array([0.01])) == pytest.approx(math.log(100) * one_change_s, rel=1e-4)
