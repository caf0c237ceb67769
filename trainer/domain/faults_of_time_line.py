"""What contradicts itself in the stages of the flow: what a kind of stage needs, and what it cannot have."""

import math
from collections.abc import Iterator

from trainer.core.errors import OutOfRange, UnknownName
from trainer.domain.flows import purge_flow_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import Flow, SetUp, Stage, StageKind
from trainer.domain.set_up_fault import SetUpFault

_SLACK_RATIO = 1e-9  # a time or a flow that came through another unit is the same


def time_line_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Stages that do not make up a time line, and flows that they rule out."""
    flow = set_up.flow
    if flow is None or not flow.stages:
        return
    for place, stage in enumerate(flow.stages):
        here = f"flow.stages.{place}"
        yield from _kind_faults(stage, here)
        yield from _time_faults(stage, here, is_last=place == len(flow.stages) - 1)
        yield from _opening_faults(stage, here)
        yield from _pinch_faults(set_up, stage, here)
    yield from _start_faults(flow.stages[0])
    yield from _end_faults(set_up, flow)
    for key, value_s in (("hold_for", flow.hold_for_s), ("after_for", flow.after_for_s)):
        if value_s is not None:
            yield SetUpFault(
                path=f"flow.{key}", code="time-beside-stages", value=value_s,
                dimension=Dimension.DURATION, involves=("flow.stages",),
            )  # fmt: skip


def _kind_faults(stage: Stage, here: str) -> Iterator[SetUpFault]:
    if stage.kind is None:
        yield SetUpFault(
            path=f"{here}.kind", code="stage-kind-missing", facts={"known": ", ".join(StageKind)}
        )
    elif stage.kind is StageKind.LINE_OUT and stage.flow_m3_s:
        yield SetUpFault(
            path=f"{here}.flow", code="flow-on-line-out", value=stage.flow_m3_s,
            dimension=Dimension.VOLUME_FLOW, involves=(f"{here}.kind",),
        )  # fmt: skip


def _time_faults(stage: Stage, here: str, *, is_last: bool) -> Iterator[SetUpFault]:
    if stage.lasts_s is None and not is_last:
        yield SetUpFault(path=f"{here}.for", code="stage-time-missing")


def _opening_faults(stage: Stage, here: str) -> Iterator[SetUpFault]:
    is_out = stage.kind is StageKind.LINE_OUT
    if is_out and not stage.opening_m:
        yield SetUpFault(path=f"{here}.opening", code="opening-missing", involves=(f"{here}.kind",))
    if stage.opening_m is not None and stage.kind is not None and not is_out:
        yield SetUpFault(
            path=f"{here}.opening", code="opening-with-line-in", value=stage.opening_m,
            dimension=Dimension.LENGTH, facts={"kind": str(stage.kind)}, involves=(f"{here}.kind",),
        )  # fmt: skip


def _pinch_faults(set_up: SetUp, stage: Stage, here: str) -> Iterator[SetUpFault]:
    if stage.kind is None:
        return
    path, kind_path = f"{here}.open_fraction", f"{here}.kind"
    if stage.kind is not StageKind.PINCHED_HOSE:
        if stage.open_frac is not None:
            yield SetUpFault(
                path=path, code="pinch-without-pinched-hose", value=stage.open_frac,
                facts={"kind": str(stage.kind)}, involves=(kind_path,),
            )  # fmt: skip
        return
    if stage.open_frac is None and stage.flow_m3_s is None:
        yield SetUpFault(path=path, code="pinch-missing", involves=(kind_path, f"{here}.flow"))
    elif stage.open_frac is not None and stage.flow_m3_s is not None:
        yield SetUpFault(path=path, code="pinch-given-twice", value=stage.open_frac)
    elif stage.open_frac is not None:
        yield from _hose_faults(set_up, stage.open_frac, path)
    else:
        yield from _pinched_flow_faults(set_up, stage.flow_m3_s or 0.0, f"{here}.flow")


def _hose_faults(set_up: SetUp, open_frac: float, path: str) -> Iterator[SetUpFault]:
    hose = set_up.hose
    sizes = {
        "hose.bore": hose.bore_m if hose else None,
        "hose.length": hose.length_m if hose else None,
        "hose.inlet_pressure": hose.inlet_pressure_pa if hose else None,
    }
    missing = [name for name, value in sizes.items() if value is None]
    if missing:
        yield SetUpFault(
            path=path, code="pinch-without-hose", value=open_frac,
            facts={"missing": ", ".join(missing)}, involves=tuple(missing),
        )  # fmt: skip


def _pinched_flow_faults(set_up: SetUp, flow_m3_s: float, path: str) -> Iterator[SetUpFault]:
    purge_m3_s = _purge_flow_m3_s(set_up)
    if purge_m3_s is not None and flow_m3_s > purge_m3_s * (1.0 + _SLACK_RATIO):
        yield SetUpFault(
            path=path, code="pinch-adds-flow", value=flow_m3_s, dimension=Dimension.VOLUME_FLOW,
            facts={"purge_m3_s": purge_m3_s}, involves=("flow.purge", "meter"),
        )  # fmt: skip


def _purge_flow_m3_s(set_up: SetUp) -> float | None:
    """The purge flow, where gas and meter can be read: what is wrong with them is reported beside them."""
    try:
        return purge_flow_of(set_up)
    except (UnknownName, OutOfRange):
        return None


def _start_faults(first: Stage) -> Iterator[SetUpFault]:
    if first.kind is StageKind.LINE_OUT or first.flow_m3_s == 0.0 or first.open_frac == 0.0:
        kind = str(first.kind or "")
        yield SetUpFault(path="flow.stages.0", code="starts-without-flow", facts={"kind": kind})


def _end_faults(set_up: SetUp, flow: Flow) -> Iterator[SetUpFault]:
    lasts = [stage.lasts_s for stage in flow.stages]
    if set_up.wait_s is None or any(each is None for each in lasts):
        return
    end_s = math.fsum(each for each in lasts if each is not None)
    if set_up.wait_s > end_s * (1.0 + _SLACK_RATIO):
        yield SetUpFault(
            path="wait", code="wait-beyond-stages", value=set_up.wait_s, dimension=Dimension.DURATION,
            facts={"end_s": end_s}, involves=("flow.stages",),
        )  # fmt: skip
