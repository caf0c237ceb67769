"""Parts of a spool: volumes of fittings, whole and in pieces, and how an elbow climbs."""

import csv
import math
from pathlib import Path

import pytest

from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, Tee
from trainer.core.spool_pieces import spool_pieces

FLOW_CHECKS = Path(__file__).parent.parent / "reference" / "flow_checks.csv"

# Sizes as the rows state them; each row names its own source.
PARTS = {
    "V-04": Elbow(name="e", bore_m=0.1615, bend_radius_m=0.2286, angle_deg=90.0, to_slope_deg=90.0),
    "V-05": Elbow(name="e", bore_m=0.1615, bend_radius_m=0.1524, angle_deg=90.0, to_slope_deg=90.0),
    "V-06": Elbow(name="e", bore_m=0.1082, bend_radius_m=0.1524, angle_deg=45.0, to_slope_deg=45.0),
    "V-07": Tee(name="t", bore_m=0.1541, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=90.0),
    "V-09": Reducer(name="r", bore_m=0.1615, other_bore_m=0.1082, length_m=0.140),
    "V-10": Cap(name="c", bore_m=0.1615),
    "V-11": Cap(name="c", bore_m=0.1615, straight_flange_m=0.045),
}


def reference_row(row_id):
    with FLOW_CHECKS.open(encoding="utf-8") as file:
        rows = {row["id"]: row for row in csv.DictReader(line for line in file if not line.startswith("#"))}
    return rows[row_id]


def expected_of(row_id):
    row = reference_row(row_id)
    column = next(key for key in row if key in ("expected", "value"))
    return float(row[column]) / 1000.0


@pytest.mark.parametrize("row_id", PARTS)
def test_a_part_has_the_volume_of_its_row_whole_and_in_pieces(row_id):
    part, expected = PARTS[row_id], expected_of(row_id)
    assert part.volume_m3 == pytest.approx(expected, rel=1e-5)
    pieces = spool_pieces([Run(name="before", bore_m=part.bore_m, length_m=0.1), part])
    in_pieces = sum(piece.volume_m3 for piece in pieces if piece.part != "before")
    assert in_pieces == pytest.approx(expected, rel=1e-5)


def test_a_narrow_outlet_of_a_tee_has_the_volume_of_its_row_beside_the_run():
    tee = Tee(
        name="t", bore_m=0.1541, run_length_m=0.3, outlet_m=0.150, outlet_slope_deg=0.0, outlet_bore_m=0.0525
    )
    stub = tee.volume_m3 - math.pi / 4.0 * 0.1541**2 * 0.3
    assert stub == pytest.approx(expected_of("V-08"), rel=1e-5)


def test_an_elbow_climbs_by_its_radius_and_a_level_one_not_at_all():
    run = Run(name="run", bore_m=0.1, length_m=0.2)
    for to_slope_deg, climb in ((90.0, 0.15), (-90.0, -0.15), (0.0, 0.0)):
        elbow = Elbow(name="e", bore_m=0.1, bend_radius_m=0.15, angle_deg=90.0, to_slope_deg=to_slope_deg)
        last = spool_pieces([run, elbow])[-1]
        assert last.start_m + last.climb_m == pytest.approx(climb, abs=1e-3)


def test_a_return_bend_ends_above_where_it_began():
    run = Run(name="run", bore_m=0.1, length_m=0.2, slope_deg=90.0)
    bend = Elbow(name="bend", bore_m=0.1, bend_radius_m=0.15, angle_deg=180.0, to_slope_deg=-90.0)
    down = Run(name="down", bore_m=0.1, length_m=0.2, slope_deg=-90.0)
    pieces = spool_pieces([run, bend, down])
    assert max(piece.start_m for piece in pieces) == pytest.approx(0.35, abs=2e-3)
    assert pieces[-1].start_m + pieces[-1].climb_m == pytest.approx(0.0, abs=1e-3)
