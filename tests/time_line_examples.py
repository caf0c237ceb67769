"""Lines of stages on the base set-up, and what a mixed section makes of them by hand."""

import math

from set_up_examples import run_of

AIR = 0.2095
L_MIN = 1.0 / 60_000.0
VOLUME_M3 = math.pi / 4.0 * 0.1615**2 * 0.6


def line(*stages, **changes):
    """A run of the base set-up with these stages, mixed, of a gas without oxygen, unless told otherwise."""
    told = {"model": "perfect mixing", "gas__oxygen": "0 ppm", "flow__hold_for": None} | changes
    return run_of(**told, flow__stages=list(stages))


def stage(kind, minutes=None, **more):
    return {"kind": kind} | ({} if minutes is None else {"for": f"{minutes!r} min"}) | more


def mixed(*flows_and_minutes):
    """Oxygen after a chain of flows in L/min, each for some minutes, without air coming in."""
    changes = sum(flow * L_MIN * 60.0 * minutes for flow, minutes in flows_and_minutes) / VOLUME_M3
    return AIR * math.exp(-changes)
