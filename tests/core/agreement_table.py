"""How the layered purge agrees with simulation, row by row; run it to write the table anew after a change.

`python tests/core/agreement_table.py` writes the table, good or bad; with `--print` it only shows it.
"""

import csv
import io
import sys
from pathlib import Path

from purge_cases import TARGETS, SimulatedRow, simulated_rows

from trainer.core.dilution import InletEnd, purge

TABLE = Path(__file__).parents[2] / "trainer" / "core" / "data" / "simulation_agreement.csv"
HEADER = """\
# Volume changes until the worst point of the root is last above a target: simulated in three dimensions, and as the
# layered purge model gives them. Simulated: tests/reference/purge_3d.csv, an independent finite-volume simulation.
# used_for: rows whose run has an odd first byte of its SHA-256 set constants (fit), the others only judge.
# Written by tests/core/agreement_table.py, as it is measured; a test holds it to what the model gives.
"""
COLUMNS = (
    "run",
    "description",
    "used_for",
    "target_o2_frac",
    "simulated_volume_changes",
    "expected_volume_changes",
    "lower_volume_changes",
    "upper_volume_changes",
)


def agreement_rows() -> list[dict[str, str]]:
    """One row for each run and target, numbers as they are printed."""
    return [found for row in simulated_rows() for found in _rows_of(row)]


def agreement_text() -> str:
    """The whole file."""
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(agreement_rows())
    return HEADER + text.getvalue()


def stored_rows() -> list[dict[str, str]]:
    """The rows of the file as it stands."""
    with TABLE.open(encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def _rows_of(row: SimulatedRow) -> list[dict[str, str]]:
    course = purge(row.case)
    rows = []
    for target, o2_frac in TARGETS.items():
        time_s = course.time_to(o2_frac)
        assert time_s is not None
        modelled = (time_s.expected, time_s.lower, time_s.upper)
        values = (
            row.name,
            _description(row),
            "fit" if row.is_fit_row else "judge",
            f"{o2_frac:g}",
            f"{row.volume_changes[target]:g}",
            *(f"{end_s / course.volume_change_s:.3f}" for end_s in modelled),
        )
        rows.append(dict(zip(COLUMNS, values, strict=True)))
    return rows


def _description(row: SimulatedRow) -> str:
    case = row.case
    section, slope = case.section, case.section.slope_deg
    end = "open tube" if case.inlet.end is InletEnd.OPEN_TUBE else "diffuser"
    gas = {"I1": "argon", "I2": "helium", "N1": "nitrogen"}[case.gas.symbol]
    inlet, vent = _place(case.inlet.height_frac), _place(case.vent.height_frac)
    ends, lies = f"{end} {inlet}, vent {vent}", "level"
    if section.is_upright:
        # The places on the dams' faces are of no account there.
        ends, lies = end, "upright, inlet below" if slope > 0.0 else "upright, inlet above"
    elif slope:
        lies = f"{abs(slope):g} degrees {'up' if slope > 0.0 else 'down'} towards the vent"
    return (
        f"{gas}, {ends}, {1000 * section.bore_m:g} mm bore, {1000 * section.length_m:g} mm long, "
        f"{60_000 * case.segments[0].flow_m3_s:g} L/min, {lies}"
    )


def _place(height_frac: float) -> str:
    return "at mid-height" if height_frac == 0.5 else "low" if height_frac < 0.5 else "high"


if __name__ == "__main__":
    if sys.argv[1:] == ["--print"]:
        sys.stdout.write(agreement_text())
    else:
        TABLE.write_text(agreement_text(), encoding="utf-8")
