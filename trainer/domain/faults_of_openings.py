"""What contradicts itself in inlet, vent and leaks: holes that do not fit, parts that are missing."""

import math
from collections.abc import Iterator

from trainer.core.entrainment import leak_places
from trainer.core.terms import InletEnd
from trainer.domain.known_parts import find_size_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import InletFitting, SetUp
from trainer.domain.set_up_fault import SetUpFault
from trainer.domain.spool_path import path_of

# A hole that just touches the wall, or a size that came through another unit, is inside.
_SLACK_RATIO = 1e-9
_SMALLEST_LEAK_M2 = 1e-10  # a hole of 0.01 mm, the smallest that the core follows


def _bore_of(set_up: SetUp) -> float | None:
    size = find_size_of(set_up.pipe)
    return size.bore_m if size else None


def inlet_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """An inlet without the size that its end needs, or one that does not fit into the bore."""
    inlet, bore_m = set_up.inlet, _bore_of(set_up)
    if inlet is None:
        return
    if inlet.end in (InletEnd.OPEN_TUBE, InletEnd.RAG) and inlet.bore_m is None:
        yield SetUpFault(path="inlet.bore", code="inlet-bore-missing", facts={"end": str(inlet.end)})
    if inlet.end is InletEnd.DIFFUSER and inlet.face_area_m2 is None:
        yield SetUpFault(path="inlet.face_area", code="face-area-missing")
    if bore_m is None or path_of(set_up):
        return
    yield from inlet_in_bore_faults(inlet, bore_m)


def inlet_in_bore_faults(inlet: InletFitting, bore_m: float) -> Iterator[SetUpFault]:
    """The inlet's face or tube, where it does not fit into the bore."""
    area_m2 = math.pi / 4.0 * bore_m**2
    if inlet.face_area_m2 is not None and inlet.face_area_m2 > area_m2:
        yield SetUpFault(
            path="inlet.face_area", code="face-larger-than-bore", value=inlet.face_area_m2,
            dimension=Dimension.AREA, facts={"area_m2": area_m2},
        )  # fmt: skip
    yield from hole_faults("inlet", "bore", inlet.height_frac, inlet.bore_m, holes=1, bore_m=bore_m)


def vent_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Vent holes that do not fit into the bore."""
    vent, bore_m = set_up.vent, _bore_of(set_up)
    if vent is None or bore_m is None or path_of(set_up):
        return
    yield from hole_faults(
        "vent", "diameter", vent.height_frac, vent.diameter_m, holes=vent.count or 1, bore_m=bore_m
    )


def hole_faults(  # noqa: PLR0913 (a hole is two names, a place, a size, a count and what it has to fit into)
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


def leak_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Leaks at places that nobody knows."""
    for place, leak in enumerate(set_up.leaks):
        if leak.where is not None and leak.where not in leak_places():
            facts = {"known": ", ".join(leak_places())}
            yield SetUpFault(path=f"leaks.{place}.where", code="unknown-name", value=leak.where, facts=facts)


def tiny_leak_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Leaks below what is followed."""
    for place, leak in enumerate(set_up.leaks):
        if leak.area_m2 is not None and 0.0 < leak.area_m2 < _SMALLEST_LEAK_M2:
            yield SetUpFault(
                path=f"leaks.{place}.area", code="leak-too-small", value=leak.area_m2,
                dimension=Dimension.AREA, facts={"area_m2": _SMALLEST_LEAK_M2},
            )  # fmt: skip
