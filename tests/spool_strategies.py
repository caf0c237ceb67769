"""Spools drawn by Hypothesis, built part after part so that each fits the one before it."""

from hypothesis import strategies as st

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
            outlet = draw(_SLOPES.filter(lambda to, at=slope: abs(to) <= 90.0 - abs(at)))
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
    """Changes that turn the base set-up into a spool: path, inlet, vents and joint."""
    parts = draw(_parts(slope=draw(_SLOPES)))
    at = st.sampled_from(_names(parts))
    along = st.sampled_from([0, 0.3, 1]) | st.floats(0, 1)
    vents = [
        {"at": draw(at), "along": draw(along), "height": 0.5, "diameter": "5 mm"}
        for _ in range(draw(st.integers(1, 3)))
    ]
    told = draw(st.booleans())
    ends = {"end": "diffuser", "face_area": "1.5 cm^2"}, {"end": "open tube", "bore": "0.25 in"}
    return {
        "section": {"path": parts}, "dams": None, "vent": None, "vents": vents,
        "inlet": {"at": draw(at), "along": draw(st.floats(0, 1)), "height": 0.5, **draw(st.sampled_from(ends))},
        "joint__at": draw(at) if told else None, "joint__along": draw(st.floats(0, 1)) if told else None,
        "joint__taped": draw(st.sampled_from([1.0, 0.9])),
    }  # fmt: skip


spools = _spools()
