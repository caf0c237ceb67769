"""What contradicts itself in the flows: against each other, and against the meter."""

import math
from collections.abc import Iterator

from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_fault import SetUpFault

# A flow that came through another unit is the same flow.
_SLACK_RATIO = 1e-9


def flow_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Flows that contradict each other or the meter."""
    flow, meter = set_up.flow, set_up.meter
    reads_m3_s = meter.reads_m3_s if meter else None
    if flow is None:
        return
    if flow.purge_m3_s is not None and reads_m3_s is not None:
        if not math.isclose(flow.purge_m3_s, reads_m3_s, rel_tol=_SLACK_RATIO):
            yield SetUpFault(
                path="flow.purge", code="flow-not-as-metered", value=flow.purge_m3_s,
                dimension=Dimension.VOLUME_FLOW, facts={"reads_m3_s": reads_m3_s},
            )  # fmt: skip
    elif flow.hold_m3_s is not None and not flow.stages and flow.purge_m3_s is None and reads_m3_s is None:
        yield SetUpFault(
            path="flow.hold", code="hold-without-purge", value=flow.hold_m3_s,
            dimension=Dimension.VOLUME_FLOW, involves=("flow.purge", "meter.reads"),
        )  # fmt: skip
    if flow.hold_for_s is not None and flow.hold_m3_s is None:
        yield SetUpFault(
            path="flow.hold_for", code="hold-time-without-hold", value=flow.hold_for_s,
            dimension=Dimension.DURATION, involves=("flow.hold",),
        )  # fmt: skip
    if flow.after_for_s is not None and flow.hold_m3_s is None:
        yield SetUpFault(
            path="flow.after_for", code="after-time-without-hold", value=flow.after_for_s,
            dimension=Dimension.DURATION, involves=("flow.hold",),
        )  # fmt: skip
