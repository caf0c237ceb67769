"""Whatever spool people may lay out: its run is finite and holds together, or it is refused as documented."""

import json
import math
from dataclasses import fields, is_dataclass

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from set_up_examples import POLICY, document

from trainer.domain.quantities import NEVER
from trainer.domain.run_set_up import run
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.set_up_files import read_set_up, write_run, write_set_up

_THOROUGH = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
_SLOPES = st.sampled_from([-90.0, -45.0, -10.0, 0.0, 3.0, 30.0, 90.0])


def _mm(low, high):
    return st.floats(low, high).map(lambda mm: f"{mm!r} mm")


@st.composite
def _parts(draw, prefix="", slope=0.0, depth=0):
    """Parts that go on as they must: an elbow turns by what lies between its two slopes."""
    made = [{"name": f"{prefix}0", "part": "run", "length": draw(_mm(50, 2000)), "slope": f"{slope!r} deg"}]
    for number in range(1, draw(st.integers(1, 4))):
        name, kind = f"{prefix}{number}", draw(st.sampled_from(["run", "elbow", "tee", "reducer"]))
        if kind == "elbow":
            before, slope = slope, draw(_SLOPES.filter(lambda to, at=slope: abs(to + at) < 179.0))
            least, most = abs(slope - before), 180.0 - abs(slope + before)
            angle = max(1.0, draw(st.floats(least, most)))
            made.append(
                {
                    "name": name,
                    "part": kind,
                    "angle": f"{angle!r} deg",
                    "bend_radius": "300 mm",
                    "slope": f"{slope!r} deg",
                }
            )
        elif kind == "tee" and depth == 0:
            outlet = draw(_SLOPES)
            branch = draw(_parts(prefix=f"{name}.", slope=outlet, depth=1)) if draw(st.booleans()) else []
            made.append(
                {
                    "name": name,
                    "part": kind,
                    "length": "300 mm",
                    "outlet": "150 mm",
                    "slope": f"{outlet!r} deg",
                    "branch": branch,
                }
            )
        elif kind == "reducer" and depth == 0:
            made.append(
                {
                    "name": name,
                    "part": "reducer",
                    "length": "150 mm",
                    "to_bore": f"{60 + 20 * number + draw(st.floats(0, 10))!r} mm",
                }
            )
        else:
            made.append({"name": name, "part": "run", "length": draw(_mm(50, 2000))})
    if draw(st.booleans()):
        made.append({"name": f"{prefix}end", "part": "cap"})
    return made


def _names(parts):
    return [name for part in parts for name in (part["name"], *_names(part.get("branch", [])))]


@st.composite
def _spools(draw):
    parts = draw(_parts(slope=draw(_SLOPES)))
    at = st.sampled_from(_names(parts))
    vents = [
        {
            "at": draw(at),
            "along": draw(st.sampled_from([0, 0.3, 1]) | st.floats(0, 1)),
            "height": 0.5,
            "diameter": "5 mm",
        }
        for _ in range(draw(st.integers(1, 3)))
    ]
    told = draw(st.booleans())
    ends = {"end": "diffuser", "face_area": "6 cm^2"}, {"end": "open tube", "bore": "0.25 in"}
    return document(
        section={"path": parts}, dams=None, vent=None, vents=vents,
        inlet={"at": draw(at), "along": draw(st.floats(0, 1)), "height": 0.5, **draw(st.sampled_from(ends))},
        joint__at=draw(at) if told else None, joint__along=draw(st.floats(0, 1)) if told else None,
        joint__taped=draw(st.sampled_from([1.0, 0.9])), gas__symbol=draw(st.sampled_from(["I1", "I2", "N1"])),
        flow__purge=f"{draw(st.floats(1, 40))!r} L/min", wait=f"{draw(st.floats(0, 7200))!r} s",
        target__oxygen=draw(st.sampled_from(["20 ppm", "0.1 %", "1 %"])),
        model=draw(st.sampled_from(["layered", "perfect mixing", "displacement"])),
    )  # fmt: skip


def _numbers(value):
    if isinstance(value, float | int):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _numbers(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from _numbers(getattr(value, each.name))


@pytest.mark.slow
@_THOROUGH
@given(_spools())
def test_a_spool_that_fits_together_is_answered_soundly_and_drawn(made):
    there = read_set_up(made)
    assert set_up_drawing(there).startswith("<svg")
    assert read_set_up(write_set_up(there)) is not None
    try:
        answered = run(there, policy=POLICY)
    except UnusableSetUp:
        return  # what the core cannot follow, such as a vent too small for the flow
    assert not any(math.isnan(each) for each in _numbers(answered))
    for part in (answered.section, answered.purge, answered.vent):
        assert all(each >= 0 for each in _numbers(part))
    json.dumps(write_run(answered), allow_nan=False)
    if answered.purge is None:
        return
    purge, dead_m3 = answered.purge, sum(leg.volume_m3 for leg in answered.purge.dead_legs)
    assert dead_m3 < answered.section.volume_m3
    assert answered.section.pocket_beyond_vent_frac >= dead_m3 / answered.section.volume_m3 - 1e-9
    assert ("dead-leg" in [each.code for each in answered.cautions]) <= bool(purge.dead_legs)
    assert purge.worst_place in {"body", *(leg.place for leg in purge.dead_legs)}
    if purge.dead_legs and purge.time_to_target_s is not NEVER:
        assert purge.time_to_target_s.expected >= purge.body_time_to_target_s.expected * (1 - 1e-6) or made[
            "joint"
        ].get("at")
