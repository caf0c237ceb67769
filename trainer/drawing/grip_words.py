"""Where a grip may stop, and what is said of each place: from the joint, or on the bore and by the clock."""

from json import dumps
from math import acos, floor, pi

from trainer.domain.scenario import Handle
from trainer.drawing.reader import Reader

WHOLE_M = {"metric": 0.01, "us": 0.0127}  # whole centimetres, half inches
FINE = 1e-6


def step_of(handle: Handle, reader: Reader) -> float:
    """How far one step goes: in lengths, so many whole 10 mm or half inches as the handle's step holds."""
    if handle.dimension is None:
        return handle.step
    whole_m = WHOLE_M[reader.units]
    return max(1, round(handle.step / whole_m)) * whole_m


def said_of(handle: Handle, value: float, *, bore_m: float | None, reader: Reader) -> str:
    """A place in words."""
    if handle.dimension is not None:
        return reader.words("{distance} from the joint").format(
            distance=reader.measure(value, reader.handle_unit(handle.dimension))
        )
    clock, height = _oclock(value), reader.number(value, ".2f")
    if bore_m is None:
        said = reader.words("{height} of the bore's height, near {hour} o'clock")
        return said.format(height=height, hour=clock)
    return reader.words(
        "{height} of the bore's height, {rise} from its lowest point, near {hour} o'clock"
    ).format(height=height, rise=reader.length(value * bore_m), hour=clock)


def stops_of(handle: Handle, *, bore_m: float | None, reader: Reader) -> str | None:
    """Every height that a grip may stop at, with its words, as the script reads them; lengths need none."""
    if handle.dimension is not None:
        return None
    first, last = floor(handle.low / handle.step + FINE), floor(handle.high / handle.step + FINE)
    inner = [number * handle.step for number in range(first + 1, last + 1)]
    heights = [
        handle.low,
        *(each for each in inner if handle.low + FINE < each < handle.high - FINE),
        handle.high,
    ]
    return dumps(
        [[round(each, 6), said_of(handle, each, bore_m=bore_m, reader=reader)] for each in heights],
        ensure_ascii=False,
    )


def _oclock(height_frac: float) -> int:
    """The nearest hour of a clock face laid on the bore, on its right-hand side: 12 on top, 3 half-way."""
    angle = acos(min(max(2.0 * height_frac - 1.0, -1.0), 1.0))
    return round(angle / pi * 6.0) or 12
