"""Runs a set-up through the core: what would happen, as far as what is known allows."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import TypeVar

from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.cautions import cautions_of
from trainer.domain.flows import (
    hold_flow_of,
    is_vent_blocked,
    purge_flow_of,
    true_meter_flow_of,
)
from trainer.domain.judged import Judged
from trainer.domain.policy import Policy
from trainer.domain.purge_run import (
    CostResult,
    FlowResult,
    GasUsed,
    PurgeResult,
    PurgeRun,
)
from trainer.domain.run_breathing import breathing_result
from trainer.domain.run_cost import cost_result
from trainer.domain.run_dams import dam_results, near_heat_results
from trainer.domain.run_gas import gas_result
from trainer.domain.run_gas_used import gas_needed_m3, gas_used_result
from trainer.domain.run_hose import hose_result
from trainer.domain.run_purge import (
    PurgeCourse,
    hold_floor_frac,
    inlet_result,
    purge_course_of,
    purge_result,
)
from trainer.domain.run_readings import readings_result
from trainer.domain.run_root import root_result
from trainer.domain.run_section import pipe_result, section_result
from trainer.domain.run_supply import largest_draw_m3_s, supply_result
from trainer.domain.run_vent import shut_in_purge, vent_outflow_m3_s, vent_result
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import SetUpFault, UnusableSetUp, fault_from, faults_of

_Part = TypeVar("_Part")

# The field to look at when the core refuses a quantity; the part's own path where the quantity is not listed.
_PATHS = {
    "bore": "pipe",
    "length between the dams": "section",
    "hole": "vent.diameter",
    "hole diameter": "vent.diameter",
    "vent velocity": "vent.diameter",
    "velocity in the last of the joint": "joint",
    "pool depth or gap": "joint.gap",
    "area of all openings": "joint.left_open",
    "face area of the diffuser": "inlet.face_area",
    "oxygen in the purge gas": "gas.oxygen",
    "air leaking in": "leaks",
    "leak area": "leaks",
    "place of a leak": "leaks",
    "dam thickness": "dams",
    "time since the gas was turned on": "wait",
    "gas for a joint": "wait",
    "opening left by the line": "flow.stages",
    "time between the readings": "readings",
    "reading": "readings",
}


def run(
    set_up: SetUp, *, policy: Policy, reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
) -> PurgeRun:
    """What would happen with this set-up, its cautions judged by the site's policy.

    Supply volumes are stated at `reference`. Raises UnusableSetUp, with every fault, where parts of the
    set-up contradict each other or lie outside what the core calculates.
    """
    faults = faults_of(set_up)
    if faults:
        raise UnusableSetUp(faults)
    return _Running(set_up=set_up, policy=policy, reference=reference).run()


@dataclass
class _Running:
    """One run in the making: each part is computed apart, so that every fault is found."""

    set_up: SetUp
    policy: Policy
    reference: ReferenceCondition
    faults: list[SetUpFault] = field(default_factory=list)

    def run(self) -> PurgeRun:
        set_up = self.set_up
        course = self._part("section", lambda: purge_course_of(set_up))
        purge = self._part("wait", lambda: purge_result(set_up, course=course)) if course else None
        if is_vent_blocked(set_up):
            purge = shut_in_purge(set_up)
        used = self._part("wait", lambda: gas_used_result(set_up, purge=purge))
        run = PurgeRun(
            pipe=self._part("pipe", lambda: pipe_result(set_up)),
            section=self._part("section", lambda: section_result(set_up)),
            inlet=None if course is None else inlet_result(course),
            purge=purge,
            vent=self._part("vent", lambda: vent_result(set_up)),
            hose=self._part("hose", lambda: hose_result(set_up)),
            supply=self._part("supply", lambda: supply_result(set_up, used=used, reference=self.reference)),
            gas_used=used,
            root=self._part("wait", lambda: root_result(set_up, purge=purge, policy=self.policy)),
            dams=self._part("section", lambda: dam_results(set_up)) or (),
            near_heat=self._part("near_heat", lambda: near_heat_results(set_up)) or (),
            flow=self._part("meter", lambda: _flow_result(set_up)),
            breathing=self._part("surroundings", lambda: breathing_result(set_up)),
            readings=self._part(
                "readings", lambda: readings_result(set_up, purge=course.purge if course else None)
            ),
            gas=self._part("gas", lambda: gas_result(set_up, policy=self.policy)),
            cost=self._part("prices", lambda: self._cost(used, purge)),
        )
        judged = self._part("flow.hold", lambda: self._judged(run, course))
        if judged is None or self.faults:
            raise UnusableSetUp(tuple(self.faults))
        return replace(run, cautions=cautions_of(judged))

    def _cost(self, used: GasUsed | None, purge: PurgeResult | None) -> CostResult | None:
        return cost_result(self.set_up, used=used, purge=purge, policy=self.policy, reference=self.reference)

    def _judged(self, run: PurgeRun, course: PurgeCourse | None) -> Judged:
        set_up = self.set_up
        hold_frac = None
        if course is not None:
            hold_frac = self._part(
                "flow.hold", lambda: hold_floor_frac(set_up, course=course), purge_flow_path="flow.hold"
            )
        outflows = (vent_outflow_m3_s(set_up, flow) for flow in (purge_flow_of(set_up), hold_flow_of(set_up)))
        return Judged(
            set_up=set_up,
            run=run,
            policy=self.policy,
            untested=course.purge.beyond_tested_range if course else (),
            hold_floor_frac=hold_frac,
            vent_outflow_m3_s=min((each for each in outflows if each is not None), default=None),
            gas_needed_m3=gas_needed_m3(set_up, used=run.gas_used, reference=self.reference),
            largest_draw_m3_s=largest_draw_m3_s(set_up, reference=self.reference),
        )

    def _part(
        self, path: str, compute: Callable[[], _Part], *, purge_flow_path: str = "flow.purge"
    ) -> _Part | None:
        try:
            return compute()
        except (OutOfRange, UnknownName) as error:
            name = error.quantity if isinstance(error, OutOfRange) else error.kind
            paths = {**_PATHS, "purge flow": purge_flow_path}
            fault = fault_from(error, path=paths.get(name, path))
            if fault not in self.faults:
                self.faults.append(fault)
            return None


def _flow_result(set_up: SetUp) -> FlowResult | None:
    true_m3_s = true_meter_flow_of(set_up)
    return None if true_m3_s is None else FlowResult(true_m3_s=true_m3_s)
