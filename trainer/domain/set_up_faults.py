"""What makes a set-up unusable although each of its values is in range: parts that contradict or do not fit.

A fault names the field, a stable code and the figures that a reader needs; the words are the edge's affair.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain

from trainer.core.entrainment import leak_places
from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.core.terms import Fan, InletEnd
from trainer.domain.errors import DomainError
from trainer.domain.known_parts import DEFAULT_STOP_PRESSURE_PA, SOLVED_GASES, size_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import Pipe, SetUp

# A hole that just touches the wall, or a size that came through another unit, is inside.
_SLACK_RATIO = 1e-9
_SMALLEST_LEAK_M2 = 1e-10  # a hole of 0.01 mm, the smallest that the core follows


@dataclass(frozen=True, kw_only=True)
class SetUpFault:
    """One fault: the field's path, its SI value (None where it is missing), the code and the facts behind it.

    `involves` names the other fields that it rests on: where one of those is at fault, this may be no fault.
    """

    path: str
    code: str
    value: float | str | None = None
    dimension: Dimension | None = None
    facts: Mapping[str, float | str] = field(default_factory=dict)
    involves: tuple[str, ...] = ()


class UnusableSetUp(DomainError):
    """A set-up that cannot be calculated, with every fault that was found."""

    def __init__(self, faults: tuple[SetUpFault, ...]) -> None:
        super().__init__("; ".join(f"{each.path}: {each.code}" for each in faults))
        self.faults = faults


def faults_of(set_up: SetUp) -> tuple[SetUpFault, ...]:
    """Every contradiction in a set-up, in the order of its parts; empty when there is none."""
    return tuple(chain.from_iterable(check(set_up) for check in _CHECKS))


def fault_from(error: OutOfRange | UnknownName, *, path: str) -> SetUpFault:
    """The core's refusal as a fault of the field that it concerns."""
    if isinstance(error, UnknownName):
        return SetUpFault(
            path=path, code="unknown-name", value=error.name, facts={"known": ", ".join(error.known)}
        )
    facts: dict[str, float | str] = {
        "quantity": error.quantity,
        "unit": error.unit,
        "why": error.why,
        "number": error.value,
    }
    limits = {"low": error.low, "high": error.high}
    known = {name: limit for name, limit in limits.items() if limit is not None}
    return SetUpFault(path=path, code="out-of-formula", facts={**facts, **known})


def _pipe(set_up: SetUp) -> Iterator[SetUpFault]:
    pipe = set_up.pipe
    if pipe is None:
        return
    if pipe.nps is not None and pipe.dn is not None:
        yield SetUpFault(path="pipe.dn", code="two-size-names", value=pipe.dn)
    by_size = pipe.nps or pipe.dn or pipe.schedule
    if by_size is not None and (pipe.outside_diameter_m is not None or pipe.wall_m is not None):
        yield SetUpFault(path="pipe", code="sized-twice")
    elif _wall_fills(pipe):
        yield SetUpFault(
            path="pipe.wall", code="wall-fills-pipe", value=pipe.wall_m, dimension=Dimension.LENGTH
        )
    else:
        yield from _unknown_size(pipe)


def _wall_fills(pipe: Pipe) -> bool:
    if pipe.outside_diameter_m is None or pipe.wall_m is None:
        return False
    return 2.0 * pipe.wall_m >= pipe.outside_diameter_m


def _unknown_size(pipe: Pipe) -> Iterator[SetUpFault]:
    try:
        size_of(pipe)
    except UnknownSize as error:
        key, name = ("nps", pipe.nps) if pipe.nps is not None else ("dn", pipe.dn)
        facts = {"size": f"{key.upper()} {name}", "known": ", ".join(error.known)}
        if error.schedule is None:
            yield SetUpFault(path=f"pipe.{key}", code="unknown-size", value=name, facts=facts)
        else:
            yield SetUpFault(path="pipe.schedule", code="unknown-schedule", value=error.schedule, facts=facts)


def _bore_of(set_up: SetUp) -> float | None:
    try:
        size = size_of(set_up.pipe)
    except (UnknownSize, OutOfRange):
        return None  # already reported beside the pipe
    return size.bore_m if size else None


def _slope(set_up: SetUp) -> Iterator[SetUpFault]:
    slope = set_up.section.slope_deg if set_up.section else None
    if slope is not None and slope not in (0.0, 90.0, -90.0):
        yield SetUpFault(
            path="section.slope", code="slope-not-solved", value=slope, dimension=Dimension.ANGLE
        )


def _inlet(set_up: SetUp) -> Iterator[SetUpFault]:
    inlet, bore_m = set_up.inlet, _bore_of(set_up)
    if inlet is None:
        return
    if inlet.end in (InletEnd.OPEN_TUBE, InletEnd.RAG) and inlet.bore_m is None:
        yield SetUpFault(path="inlet.bore", code="inlet-bore-missing", facts={"end": str(inlet.end)})
    if inlet.end is InletEnd.DIFFUSER and inlet.face_area_m2 is None:
        yield SetUpFault(path="inlet.face_area", code="face-area-missing")
    if bore_m is None:
        return
    area_m2 = math.pi / 4.0 * bore_m**2
    if inlet.face_area_m2 is not None and inlet.face_area_m2 > area_m2:
        yield SetUpFault(
            path="inlet.face_area", code="face-larger-than-bore", value=inlet.face_area_m2,
            dimension=Dimension.AREA, facts={"area_m2": area_m2},
        )  # fmt: skip
    yield from _hole("inlet", "bore", inlet.height_frac, inlet.bore_m, holes=1, bore_m=bore_m)


def _vent(set_up: SetUp) -> Iterator[SetUpFault]:
    vent, bore_m = set_up.vent, _bore_of(set_up)
    if vent is None or bore_m is None:
        return
    yield from _hole(
        "vent", "diameter", vent.height_frac, vent.diameter_m, holes=vent.count or 1, bore_m=bore_m
    )


def _hole(  # noqa: PLR0913 (a hole is two names, a place, a size, a count and what it has to fit into)
    part: str,
    size_key: str,
    height_frac: float | None,
    diameter_m: float | None,
    *,
    holes: int,
    bore_m: float,
) -> Iterator[SetUpFault]:
    """Holes side by side at one height, within the bore: the outermost one touches the wall first."""
    if diameter_m is None:
        return
    aside_m = (holes - 1) * diameter_m / 2.0
    reach_m = (bore_m - diameter_m) / 2.0 * (1.0 + _SLACK_RATIO)
    if aside_m > reach_m:
        yield SetUpFault(
            path=f"{part}.{size_key}", code="hole-larger-than-bore", value=diameter_m,
            dimension=Dimension.LENGTH, facts={"bore_m": bore_m, "holes": holes},
        )  # fmt: skip
        return
    play_frac = math.sqrt(reach_m**2 - aside_m**2) / bore_m
    if height_frac is not None and abs(height_frac - 0.5) > play_frac:
        yield SetUpFault(
            path=f"{part}.height", code="hole-outside-bore", value=height_frac,
            facts={
                "low": 0.5 - play_frac, "high": 0.5 + play_frac, "diameter_m": diameter_m, "bore_m": bore_m,
            },
        )  # fmt: skip


def _gas(set_up: SetUp) -> Iterator[SetUpFault]:
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


def _flow(set_up: SetUp) -> Iterator[SetUpFault]:
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


def _supply(set_up: SetUp) -> Iterator[SetUpFault]:
    supply = set_up.supply
    if supply is None or supply.pressure_pa is None:
        return
    stop_pa = DEFAULT_STOP_PRESSURE_PA if supply.stop_pressure_pa is None else supply.stop_pressure_pa
    if supply.stop_pressure_pa is not None and stop_pa > supply.pressure_pa:
        yield SetUpFault(
            path="supply.stop_pressure", code="stop-above-pressure", value=stop_pa,
            dimension=Dimension.PRESSURE, facts={"pressure_pa": supply.pressure_pa},
        )  # fmt: skip


def _dams(set_up: SetUp) -> Iterator[SetUpFault]:
    seen: dict[str, int] = {}
    for place, dam in enumerate(set_up.dams):
        if dam.side is None:
            yield SetUpFault(path=f"dams.{place}.side", code="side-missing")
        elif dam.side in seen:
            yield SetUpFault(
                path=f"dams.{place}.side",
                code="two-dams-on-a-side",
                value=dam.side,
                facts={"first": seen[dam.side]},
            )
        else:
            seen[dam.side] = place


def _leaks(set_up: SetUp) -> Iterator[SetUpFault]:
    for place, leak in enumerate(set_up.leaks):
        if leak.where is not None and leak.where not in leak_places():
            facts = {"known": ", ".join(leak_places())}
            yield SetUpFault(path=f"leaks.{place}.where", code="unknown-name", value=leak.where, facts=facts)


def _tiny_leaks(set_up: SetUp) -> Iterator[SetUpFault]:
    for place, leak in enumerate(set_up.leaks):
        if leak.area_m2 is not None and 0.0 < leak.area_m2 < _SMALLEST_LEAK_M2:
            yield SetUpFault(
                path=f"leaks.{place}.area", code="leak-too-small", value=leak.area_m2,
                dimension=Dimension.AREA, facts={"area_m2": _SMALLEST_LEAK_M2},
            )  # fmt: skip


def _fan(set_up: SetUp) -> Iterator[SetUpFault]:
    around = set_up.surroundings
    if around is not None and around.fan is Fan.NONE and around.fan_flow_m3_s:
        yield SetUpFault(
            path="surroundings.fan_flow", code="flow-without-fan", value=around.fan_flow_m3_s,
            dimension=Dimension.VOLUME_FLOW,
        )  # fmt: skip


_CHECKS: tuple[Callable[[SetUp], Iterator[SetUpFault]], ...] = (
    _pipe, _slope, _inlet, _vent, _gas, _flow, _supply, _dams, _leaks, _tiny_leaks, _fan,
)  # fmt: skip
