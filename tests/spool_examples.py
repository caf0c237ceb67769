"""Spools made of the base set-up: their parts, an arch, a capped branch, several vents."""

import csv
from pathlib import Path

FLOW_CHECKS = Path(__file__).parent / "reference" / "flow_checks.csv"
L_MIN = 1e-3 / 60.0


def run_part(name, length, **more):
    return {"name": name, "part": "run", "length": length, **more}


def elbow(name, slope, angle="90 deg", radius="228.6 mm"):
    return {"name": name, "part": "elbow", "angle": angle, "bend_radius": radius, "slope": slope}


def spool(path, inlet="first", vent="last", **changes):
    """The base set-up as a spool: inlet at the beginning of one part, vent at the end of another."""
    placed = {"inlet__at": inlet, "inlet__along": 0, "vent__at": vent, "vent__along": 1, "dams": None}
    return {"section": {"path": path}, **placed, **changes}


def several_vents(*vents, **changes):
    return {**changes, "vent": None, "vents": list(vents)}


def tee(slope, *, name="tee", branch=None, **more):
    closed = [run_part("branch", "400 mm"), {"name": "cap", "part": "cap"}]
    return {
        "name": name, "part": "tee", "length": "286 mm", "outlet": "143 mm", "slope": slope,
        "branch": closed if branch is None else branch, **more,
    }  # fmt: skip


def with_branch(slope, **changes):
    return spool([run_part("first", "500 mm"), tee(slope), run_part("last", "500 mm")], **changes)


def arch(**changes):
    """Level, up by an elbow, over the top, down again, level."""
    return spool(
        [
            run_part("first", "500 mm"), elbow("foot", "90 deg"), run_part("up", "500 mm"), elbow("shoulder", "0 deg"),
            run_part("top", "400 mm"), elbow("far shoulder", "-90 deg"), run_part("down", "500 mm"),
            elbow("far foot", "0 deg"), run_part("last", "500 mm"),
        ],
        **changes,
    )  # fmt: skip


def reference_litres(row_id):
    with FLOW_CHECKS.open(encoding="utf-8") as file:
        rows = {row["id"]: row for row in csv.DictReader(line for line in file if not line.startswith("#"))}
    row = rows[row_id]
    return float(row[next(key for key in row if key in ("expected", "value"))])


BORES = {
    161.5: {"outside_diameter": "168.3 mm", "wall": "3.4 mm"},
    108.2: {"outside_diameter": "114.3 mm", "wall": "3.05 mm"},
    154.1: {"outside_diameter": "168.1 mm", "wall": "7 mm"},
}
