"""Purges to test with: the base case with keyword overrides, and the simulated rows as cases."""

import csv
import hashlib
import math
from dataclasses import dataclass
from pathlib import Path

from trainer.core.dilution import FlowSegment, Inlet, InletEnd, PurgeCase, PurgeSection, VentHole
from trainer.core.gas import gas
from trainer.core.gas_column import gas_column
from trainer.core.layer_solution import solve_layers
from trainer.core.layers import Mixing, layer_balance
from trainer.core.purge_course import LayeredCourse, Stretch

ROWS = Path(__file__).parent.parent / "reference" / "purge_3d.csv"
TARGETS = {"1pct": 0.01, "1000ppm": 0.001, "100ppm": 0.0001}
L_MIN = 1.0 / 60_000.0


def base_case(**changes) -> PurgeCase:
    """NPS 6-like bore, 600 mm, argon at 15 L/min through a low diffuser, vent high."""
    section = {"bore_m": 0.161, "length_m": 0.6, "slope_deg": 0.0, "joint_from_inlet_dam_m": None}
    section |= {key: changes.pop(key) for key in list(changes) if key in section}
    flow_m3_s = changes.pop("flow_m3_s", 15.0 * L_MIN)
    vent = {
        "height_frac": changes.pop("vent_height_frac", 0.925),
        "diameter_m": changes.pop("vent_diameter_m", 0.019),
    }
    inlet = {
        "height_frac": changes.pop("inlet_height_frac", 0.015 / section["bore_m"]),
        "end": changes.pop("end", InletEnd.DIFFUSER),
        "bore_m": 0.00635,
        "face_area_m2": 28.3e-4,
    }
    values = {
        "section": PurgeSection(**section),
        "inlet": Inlet(**inlet),
        "vent": VentHole(**vent),
        "gas": gas(changes.pop("symbol", "I1")),
        "source_o2_frac": 0.0,
        "segments": (FlowSegment(flow_m3_s=flow_m3_s, duration_s=math.inf),),
    }
    return PurgeCase(**(values | changes))


def course_of(case: PurgeCase, *, mixing: Mixing, layers_count: int | None = None) -> LayeredCourse:
    """The course of a case's first flow at a given mixing, past the closure."""
    column = gas_column(case, layers_count=layers_count)
    balance = layer_balance(column, flow_m3_s=case.segments[0].flow_m3_s, mixing=mixing)
    return LayeredCourse(
        column, [Stretch(balance=balance, solution=solve_layers(balance), duration_s=math.inf)]
    )


@dataclass(frozen=True)
class SimulatedRow:
    """One row of the simulation, and the same set-up as a case."""

    name: str
    case: PurgeCase
    volume_changes: dict[str, float]
    mean_volume_changes: dict[str, float]
    root_over_vent: dict[int, float]

    @property
    def is_fit_row(self) -> bool:
        return hashlib.sha256(self.name.encode()).digest()[0] % 2 == 1


def simulated_rows() -> list[SimulatedRow]:
    """All rows of the file."""
    with ROWS.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return [_simulated_row(row) for row in rows]


def _simulated_row(row: dict[str, str]) -> SimulatedRow:
    bore_m = float(row["pipe_id_mm"]) / 1000.0
    edge_m = 0.010 if bore_m < 0.06 else 0.012
    inlet_height = {"low": 0.015 / bore_m, "mid": 0.5, "high": 1.0 - 0.015 / bore_m}
    vent_height = {"low": edge_m / bore_m, "mid": 0.5, "high": 1.0 - edge_m / bore_m}
    return SimulatedRow(
        name=row["case"],
        case=base_case(
            bore_m=bore_m,
            length_m=float(row["dam_spacing_mm"]) / 1000.0,
            slope_deg=float(row["slope_deg"]),
            flow_m3_s=float(row["flow_l_min"]) * L_MIN,
            symbol={"argon": "I1", "helium": "I2", "nitrogen": "N1"}[row["gas"]],
            end=InletEnd.OPEN_TUBE if row["inlet_type"] == "jet" else InletEnd.DIFFUSER,
            inlet_height_frac=inlet_height[row["inlet_height"]],
            vent_height_frac=vent_height[row["vent_height"]],
            vent_diameter_m=float(row["vent_bore_mm"]) / 1000.0,
        ),
        volume_changes={key: float(row[f"n_root_worst_{key}"]) for key in TARGETS},
        mean_volume_changes={key: float(row[f"n_mean_{key}"]) for key in TARGETS},
        root_over_vent={
            n: float(row[f"air_root_worst_n{n}"]) / float(row[f"air_vent_n{n}"])
            for n in (1, 3)
            if row[f"air_vent_n{n}"]
        },
    )


def flows(*pairs):
    return tuple(FlowSegment(flow_m3_s=flow * L_MIN, duration_s=duration) for flow, duration in pairs)
