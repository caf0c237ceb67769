"""The parts of a run, each computed when it is first asked for.

A whole run asks for all of them and collects every fault; a single figure costs only the parts behind it.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, TypeVar

from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.flows import is_vent_blocked, true_meter_flow_of
from trainer.domain.policy import Policy
from trainer.domain.purge_figures import PurgeFigures
from trainer.domain.purge_run import (
    BreathingResult,
    CostResult,
    DamResult,
    FlowResult,
    GasResult,
    GasUsed,
    HoseResult,
    HotPartResult,
    InletResult,
    PipeResult,
    PurgeResult,
    ReadingsResult,
    RootResult,
    SectionResult,
    SupplyResult,
    VentResult,
)
from trainer.domain.run_breathing import BreathingFigures, breathing_figures, breathing_result
from trainer.domain.run_cost import cost_result
from trainer.domain.run_dams import dam_results, near_heat_results
from trainer.domain.run_gas import gas_result
from trainer.domain.run_gas_used import gas_used_result
from trainer.domain.run_hose import hose_result
from trainer.domain.run_purge import PurgeCourse, inlet_result, purge_course_of
from trainer.domain.run_readings import readings_result
from trainer.domain.run_root import root_result
from trainer.domain.run_section import pipe_result, section_result
from trainer.domain.run_supply import supply_result
from trainer.domain.run_vent import shut_in_purge, vent_result
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import SetUpFault, fault_from

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
    "strain of the foam": "dams",
    "time since the gas was turned on": "wait",
    "gas for a joint": "wait",
    "opening left by the line": "flow.stages",
    "time between the readings": "readings",
    "reading": "readings",
}


@dataclass(kw_only=True)
class RunParts:
    """What would happen with a set-up that holds no fault of its own, part by part under PurgeRun's names.

    `on_fault` hears what the core refuses: where it returns, the part is None and the others go on without
    it; where it raises, so does the part. `solved` gives the purge where somebody has it already.
    """

    set_up: SetUp
    policy: Policy
    on_fault: Callable[[SetUpFault], None]
    reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
    solved: Callable[[SetUp], PurgeCourse | None] = field(default=purge_course_of)

    @cached_property
    def course(self) -> PurgeCourse | None:
        """The purge through the core."""
        return self.part("section", lambda: self.solved(self.set_up))

    @cached_property
    def purge(self) -> PurgeResult | None:
        """Oxygen at the root; with the vent shut nothing flows, and that is the answer."""
        figures = self._purge_figures
        purge = self.part("wait", figures.all) if figures else None
        return shut_in_purge(self.set_up) if is_vent_blocked(self.set_up) else purge

    @cached_property
    def _purge_figures(self) -> PurgeFigures | None:
        return PurgeFigures(set_up=self.set_up, course=self.course) if self.course else None

    @cached_property
    def gas_used(self) -> GasUsed | None:
        """Gas for the whole job, by what it went into."""
        return self.part("wait", lambda: gas_used_result(self.set_up, purge=self.purge))

    @cached_property
    def pipe(self) -> PipeResult | None:
        """Sizes of the pipe."""
        return self.part("pipe", lambda: pipe_result(self.set_up))

    @cached_property
    def section(self) -> SectionResult | None:
        """What lies between the dams."""
        return self.part("section", lambda: section_result(self.set_up))

    @cached_property
    def inlet(self) -> InletResult | None:
        """How the gas comes in."""
        return None if self.course is None else inlet_result(self.course)

    @cached_property
    def vent(self) -> VentResult | None:
        """Pressure at the vent and on the bead."""
        return self.part("vent", lambda: vent_result(self.set_up))

    @cached_property
    def hose(self) -> HoseResult | None:
        """What the hose lets through."""
        return self.part("hose", lambda: hose_result(self.set_up))

    @cached_property
    def supply(self) -> SupplyResult | None:
        """Whether the supply lasts and can deliver."""
        return self.part(
            "supply", lambda: supply_result(self.set_up, used=self.gas_used, reference=self.reference)
        )

    @cached_property
    def root(self) -> RootResult | None:
        """What the root looks like."""
        return self.part("wait", lambda: root_result(self.set_up, purge=self.purge, policy=self.policy))

    @cached_property
    def dams(self) -> tuple[DamResult, ...]:
        """How hot each dam gets, and what pressure it holds."""
        return self.part("section", lambda: dam_results(self.set_up)) or ()

    @cached_property
    def near_heat(self) -> tuple[HotPartResult, ...]:
        """How hot ropes, tape and hoses near the joint get."""
        return self.part("near_heat", lambda: near_heat_results(self.set_up)) or ()

    @cached_property
    def flow(self) -> FlowResult | None:
        """What the meter's reading stands for."""
        true_m3_s = self.part("meter", lambda: true_meter_flow_of(self.set_up))
        return None if true_m3_s is None else FlowResult(true_m3_s=true_m3_s)

    @cached_property
    def breathing(self) -> BreathingResult | None:
        """What people nearby breathe."""
        return self.part("surroundings", lambda: breathing_result(self.set_up))

    @cached_property
    def readings(self) -> ReadingsResult | None:
        """What two readings of the analyser tell."""
        course = self.course
        purge = course.purge if course else None
        return self.part("readings", lambda: readings_result(self.set_up, purge=purge))

    @cached_property
    def gas(self) -> GasResult | None:
        """Whether the gas suits the material."""
        return self.part("gas", lambda: gas_result(self.set_up, policy=self.policy))

    @cached_property
    def cost(self) -> CostResult | None:
        """What gas, waiting and a spoiled root cost."""
        return self.part(
            "prices",
            lambda: cost_result(
                self.set_up,
                used=self.gas_used,
                purge=self.purge,
                policy=self.policy,
                reference=self.reference,
            ),
        )

    def part(
        self, path: str, compute: Callable[[], _Part], *, purge_flow_path: str = "flow.purge"
    ) -> _Part | None:
        """The part; None where the core refused a quantity, which is told with the field to look at."""
        try:
            return compute()
        except (OutOfRange, UnknownName) as error:
            name = error.quantity if isinstance(error, OutOfRange) else error.kind
            paths = {**_PATHS, "purge flow": purge_flow_path}
            self.on_fault(fault_from(error, path=paths.get(name, path)))
            return None


class SingleFigures(RunParts):
    """A run of which single figures are asked: of its purge and its air, too, only what is behind them is
    computed."""

    @cached_property
    def purge(self) -> Any:
        """What has the attributes of PurgeResult."""
        if is_vent_blocked(self.set_up):
            return shut_in_purge(self.set_up)
        return _Asked(self._purge_figures, "wait", self) if self._purge_figures else None

    @cached_property
    def breathing(self) -> Any:
        """What has the attributes of BreathingResult."""
        figures = breathing_figures(self.set_up)
        return _Asked(figures, "surroundings", self) if figures else None


class _Asked:
    """Figures of one part, each computed when it is asked for; what the core refuses is told as by `part`."""

    def __init__(self, figures: PurgeFigures | BreathingFigures, path: str, parts: RunParts) -> None:
        self._figures, self._path, self._parts = figures, path, parts

    def __getattr__(self, name: str) -> Any:
        return self._parts.part(self._path, lambda: getattr(self._figures, name))
