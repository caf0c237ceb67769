"""What contradicts itself in gas, flows, meter and supply."""

import math
from collections.abc import Iterator

from trainer.domain.known_parts import DEFAULT_STOP_PRESSURE_PA, SOLVED_GASES
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_fault import SetUpFault

# A hole that just touches the wall, or a size that came through another unit, is inside.
_SLACK_RATIO = 1e-9


def gas_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """A gas that is not solved."""
    symbols = {
        "gas.symbol": set_up.gas.symbol if set_up.gas else None,
        "meter.calibrated_for": set_up.meter.calibrated_for if set_up.meter else None,
    }
    for path, symbol in symbols.items():
        accepted = SOLVED_GASES if path == "gas.symbol" else (*SOLVED_GASES, "AIR")
        if symbol is not None and symbol not in accepted:
            yield SetUpFault(
                path=path, code="gas-not-solved", value=symbol, facts={"known": ", ".join(accepted)}
            )
    if set_up.gas and set_up.gas.composition is not None:
        yield SetUpFault(path="gas.composition", code="composition-not-solved", value=set_up.gas.composition)


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
    elif flow.hold_m3_s is not None and flow.purge_m3_s is None and reads_m3_s is None:
        yield SetUpFault(
            path="flow.hold", code="hold-without-purge", value=flow.hold_m3_s,
            dimension=Dimension.VOLUME_FLOW, involves=("flow.purge", "meter.reads"),
        )  # fmt: skip
    if flow.hold_for_s is not None and flow.hold_m3_s is None:
        yield SetUpFault(
            path="flow.hold_for", code="hold-time-without-hold", value=flow.hold_for_s,
            dimension=Dimension.DURATION, involves=("flow.hold",),
        )  # fmt: skip


def supply_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """A stop pressure above the pressure."""
    supply = set_up.supply
    if supply is None or supply.pressure_pa is None:
        return
    stop_pa = DEFAULT_STOP_PRESSURE_PA if supply.stop_pressure_pa is None else supply.stop_pressure_pa
    if supply.stop_pressure_pa is not None and stop_pa > supply.pressure_pa:
        yield SetUpFault(
            path="supply.stop_pressure", code="stop-above-pressure", value=stop_pa,
            dimension=Dimension.PRESSURE, facts={"pressure_pa": supply.pressure_pa},
        )  # fmt: skip
