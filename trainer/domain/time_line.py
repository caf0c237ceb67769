"""The stages of a purge as they follow one another: what flows in each, from when to when."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from trainer.core import hose as hoses
from trainer.core.dilution import FlowSegment, InLeak, PurgeCase
from trainer.core.gas import ATMOSPHERE_PA
from trainer.core.interruption import line_fallen_out
from trainer.domain.flows import AirIn, hold_flow_of, purge_flow_of
from trainer.domain.known_parts import gas_of, temperature_of
from trainer.domain.purge_causes import VENT
from trainer.domain.set_up import SetUp, Stage, StageKind


@dataclass(frozen=True, kw_only=True)
class KnownStage:
    """One stage with all that it needs: its flow, when it starts and ends (never, for the last)."""

    kind: StageKind
    flow_m3_s: float
    starts_s: float
    lasts_s: float
    opening_m: float | None = None

    @property
    def ends_s(self) -> float:
        """When the next one starts; never for a last one without end."""
        return self.starts_s + self.lasts_s


def stages_of(set_up: SetUp) -> tuple[KnownStage, ...]:
    """The stages that are declared, each with its flow; none where one of them is not known well enough."""
    known: list[KnownStage] = []
    starts_s = 0.0
    for stage in set_up.flow.stages if set_up.flow else ():
        flow_m3_s = stage_flow_of(set_up, stage)
        if stage.kind is None or flow_m3_s is None:
            return ()
        known.append(
            KnownStage(
                kind=stage.kind,
                flow_m3_s=flow_m3_s,
                starts_s=starts_s,
                lasts_s=math.inf if stage.lasts_s is None else stage.lasts_s,
                opening_m=stage.opening_m,
            )
        )
        starts_s = known[-1].ends_s
    return tuple(known)


def hold_stage_of(set_up: SetUp) -> KnownStage | None:
    """The hold that follows the wait where no stages are declared; None where one of them is not known."""
    hold_m3_s, hold_s = hold_flow_of(set_up), set_up.flow.hold_for_s if set_up.flow else None
    if hold_m3_s is None or hold_s is None or set_up.wait_s is None:
        return None
    return KnownStage(kind=StageKind.HOLD, flow_m3_s=hold_m3_s, starts_s=set_up.wait_s, lasts_s=hold_s)


def stage_flow_of(set_up: SetUp, stage: Stage) -> float | None:
    """What enters during a stage: its own flow, or that of its kind."""
    if stage.kind is StageKind.LINE_OUT:
        return 0.0
    if stage.flow_m3_s is not None:
        return stage.flow_m3_s
    if stage.kind is StageKind.HOLD:
        return hold_flow_of(set_up)
    if stage.kind is StageKind.PINCHED_HOSE:
        return _through_pinch_m3_s(set_up, stage)
    return None if stage.kind is None else purge_flow_of(set_up)


def _through_pinch_m3_s(set_up: SetUp, stage: Stage) -> float | None:
    """What a pinched hose passes at its regulator's pressure, and no more than the purge flow that is set."""
    hose, used, wanted_m3_s = set_up.hose, gas_of(set_up), purge_flow_of(set_up)
    if hose is None or hose.bore_m is None or hose.length_m is None or hose.inlet_pressure_pa is None:
        return None
    if used is None or wanted_m3_s is None or stage.open_frac is None:
        return None
    kink_frac = 1.0 if hose.open_frac is None else hose.open_frac
    pinched = hoses.Hose(
        bore_m=hose.bore_m, length_m=hose.length_m, open_frac=min(stage.open_frac, kink_frac)
    )
    largest_m3_s = hoses.largest_flow_m3_s(
        hose.inlet_pressure_pa + ATMOSPHERE_PA, hose=pinched, gas=used, temperature_k=temperature_of(set_up)
    )
    return min(wanted_m3_s, largest_m3_s)


def segment_of(stage: KnownStage, *, case: PurgeCase, air_in: Iterable[AirIn]) -> FlowSegment:
    """A stage as the core's segment: what enters with the gas, and the openings that let air in meanwhile."""
    air_in = tuple(air_in)
    if stage.kind is StageKind.LINE_OUT and stage.opening_m is not None:
        # The vent's own exchange is part of what goes on between the two openings.
        others = leaks_of(each for each in air_in if each.cause != VENT)
        during = FlowSegment(flow_m3_s=0.0, duration_s=stage.lasts_s, air_in=others)
        return line_fallen_out(case.during(during), opening_m=stage.opening_m, duration_s=stage.lasts_s)
    entrained_m3_s = sum(each.flow_m3_s for each in air_in if each.before_inlet)
    return FlowSegment(
        flow_m3_s=stage.flow_m3_s + entrained_m3_s, duration_s=stage.lasts_s, air_in=leaks_of(air_in)
    )


def leaks_of(air_in: Iterable[AirIn]) -> tuple[InLeak, ...]:
    """The openings of the section among the ways by which air comes in."""
    return tuple(
        InLeak(height_frac=each.height_frac, flow_m3_s=each.flow_m3_s)
        for each in air_in
        if not each.before_inlet
    )


def gas_until_m3(stages: Iterable[KnownStage], *, time_s: float) -> float:
    """Gas that has flowed from the start to some time, at the pipe's temperature and one atmosphere."""
    return math.fsum(
        stage.flow_m3_s * (min(stage.ends_s, time_s) - stage.starts_s)
        for stage in stages
        if stage.flow_m3_s and stage.starts_s < time_s
    )
