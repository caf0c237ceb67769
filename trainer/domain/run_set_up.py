"""Runs a set-up through the core: what would happen, as far as what is known allows."""

from collections.abc import Callable
from dataclasses import fields, replace

from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.cautions import cautions_of
from trainer.domain.flows import hold_flow_of, purge_flow_of
from trainer.domain.judged import Judged
from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeRun
from trainer.domain.run_gas_used import gas_needed_m3
from trainer.domain.run_parts import RunParts
from trainer.domain.run_purge import PurgeCourse, hold_floor_frac, purge_course_of
from trainer.domain.run_supply import largest_draw_m3_s
from trainer.domain.run_vent import vent_outflow_m3_s
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import SetUpFault, UnusableSetUp, faults_of

_PARTS = tuple(each.name for each in fields(PurgeRun) if each.name != "cautions")


def run(
    set_up: SetUp,
    *,
    policy: Policy,
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR,
    solved: Callable[[SetUp], PurgeCourse | None] = purge_course_of,
) -> PurgeRun:
    """What would happen with this set-up, its cautions judged by the site's policy.

    Supply volumes are stated at `reference`; `solved` gives the purge where somebody has it already. Raises
    UnusableSetUp, with every fault, where parts of the set-up contradict each other or lie outside what the
    core calculates.
    """
    faults = faults_of(set_up)
    if faults:
        raise UnusableSetUp(faults)
    refused: list[SetUpFault] = []

    def told_once(fault: SetUpFault) -> None:
        if fault not in refused:
            refused.append(fault)

    parts = RunParts(set_up=set_up, policy=policy, reference=reference, on_fault=told_once, solved=solved)
    whole = PurgeRun(**{name: getattr(parts, name) for name in _PARTS})
    judged = parts.part("flow.hold", lambda: _judged(whole, parts))
    if judged is None or refused:
        raise UnusableSetUp(tuple(refused))
    return replace(whole, cautions=cautions_of(judged))


def _judged(whole: PurgeRun, parts: RunParts) -> Judged:
    set_up, course, hold_frac = parts.set_up, parts.course, None
    if course is not None:
        hold_frac = parts.part(
            "flow.hold", lambda: hold_floor_frac(set_up, course=course), purge_flow_path="flow.hold"
        )
    outflows = (vent_outflow_m3_s(set_up, flow) for flow in (purge_flow_of(set_up), hold_flow_of(set_up)))
    return Judged(
        set_up=set_up,
        run=whole,
        policy=parts.policy,
        untested=course.purge.beyond_tested_range if course else (),
        hold_floor_frac=hold_frac,
        vent_outflow_m3_s=min((each for each in outflows if each is not None), default=None),
        gas_needed_m3=gas_needed_m3(set_up, used=whole.gas_used, reference=parts.reference),
        largest_draw_m3_s=largest_draw_m3_s(set_up, reference=parts.reference),
    )
