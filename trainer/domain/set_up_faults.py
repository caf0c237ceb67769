"""What makes a set-up unusable although each value is in range: parts that contradict or do not fit."""

from collections.abc import Callable, Iterator
from itertools import chain

from trainer.domain.faults_of_air import air_faults
from trainer.domain.faults_of_composition import gas_faults
from trainer.domain.faults_of_flow import flow_faults
from trainer.domain.faults_of_heat import near_heat_faults, pipe_end_faults, weld_faults
from trainer.domain.faults_of_openings import inlet_faults, leak_faults, tiny_leak_faults, vent_faults
from trainer.domain.faults_of_path import path_faults
from trainer.domain.faults_of_pipe import pipe_faults
from trainer.domain.faults_of_points import point_faults, spool_hole_faults
from trainer.domain.faults_of_readings import reading_faults
from trainer.domain.faults_of_supply import supply_faults
from trainer.domain.faults_of_surroundings import dam_faults, fan_faults
from trainer.domain.faults_of_time_line import time_line_faults
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_fault import SetUpFault, UnusableSetUp, fault_from

__all__ = ["SetUpFault", "UnusableSetUp", "fault_from", "faults_of"]


def faults_of(set_up: SetUp) -> tuple[SetUpFault, ...]:
    """Every contradiction in a set-up, in the order of its parts; empty when there is none."""
    return tuple(chain.from_iterable(check(set_up) for check in _CHECKS))


_CHECKS: tuple[Callable[[SetUp], Iterator[SetUpFault]], ...] = (
    pipe_faults, pipe_end_faults, path_faults, point_faults, spool_hole_faults, inlet_faults, vent_faults,
    gas_faults, flow_faults, supply_faults, dam_faults, weld_faults, near_heat_faults, leak_faults,
    tiny_leak_faults, fan_faults, air_faults, time_line_faults, reading_faults,
)  # fmt: skip
