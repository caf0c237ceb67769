"""What the core answers to the rows of flow_checks.csv on the inlet's jet."""

from functools import cache

from purge_cases import L_MIN, base_case

from trainer.core.dilution import Inlet, InletEnd, purge

BORE_M = 0.161


@cache
def jet(end):
    inlet = Inlet(height_frac=0.1, end=end, bore_m=0.00635, face_area_m2=15e-4)
    return purge(base_case(inlet=inlet, bore_m=BORE_M, flow_m3_s=15 * L_MIN))


INLET_ANSWERS = {
    "J-01": lambda: jet(InletEnd.OPEN_TUBE).inlet_velocity_m_s,
    "J-02": lambda: jet(InletEnd.DIFFUSER).inlet_velocity_m_s,
    "J-03": lambda: jet(InletEnd.OPEN_TUBE).inlet_froude,
    "J-04": lambda: jet(InletEnd.DIFFUSER).inlet_froude,
    "J-05": lambda: jet(InletEnd.OPEN_TUBE).jet_length_ratio * BORE_M,
}
