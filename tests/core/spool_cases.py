"""Spools to test with: a straight run, and one with a riser on a tee."""

import math

from purge_cases import L_MIN

from trainer.core.gas import gas
from trainer.core.purge_parts import FlowSegment, Inlet
from trainer.core.spool_case import Point, Spool, SpoolCase, SpoolVent
from trainer.core.spool_parts import Cap, Run, Tee
from trainer.core.terms import InletEnd

BORE = 0.161


def spool_case(spool: Spool, *, symbol: str = "I1", flow_l_min: float = 15.0, **changes) -> SpoolCase:
    """Argon at 15 L/min through a diffuser, whatever the spool."""
    values = {
        "spool": spool,
        "inlet": Inlet(height_frac=0.015 / BORE, end=InletEnd.DIFFUSER, face_area_m2=28.3e-4),
        "gas": gas(symbol),
        "source_o2_frac": 0.0,
        "segments": (FlowSegment(flow_m3_s=flow_l_min * L_MIN, duration_s=math.inf),),
    }
    return SpoolCase(**(values | changes))


def straight_spool(slope_deg: float, *, length_m: float = 0.6, vent_across_frac: float = 0.925) -> Spool:
    """One run between two dams, inlet low at its beginning, vent at its end."""
    return Spool(
        path=(Run(name="run", bore_m=BORE, length_m=length_m, slope_deg=slope_deg),),
        inlet_at=Point(part="run", along_frac=0.0, across_frac=0.015 / BORE),
        vents=(
            SpoolVent(at=Point(part="run", along_frac=1.0, across_frac=vent_across_frac), diameter_m=0.019),
        ),
        joint_at=None if slope_deg == 0.0 else Point(part="run"),
    )


def spool_with_branch(
    outlet_slope_deg: float, *, branch_m: float = 0.4, further_vents: tuple[SpoolVent, ...] = ()
) -> Spool:
    """A level run, a tee with a capped branch, another run to the vent."""
    tee = Tee(
        name="tee",
        bore_m=BORE,
        run_length_m=0.286,
        outlet_m=0.143,
        outlet_slope_deg=outlet_slope_deg,
        branch=(
            Run(name="branch", bore_m=BORE, length_m=branch_m, slope_deg=outlet_slope_deg),
            Cap(name="cap", bore_m=BORE),
        ),
    )
    return Spool(
        path=(
            Run(name="first", bore_m=BORE, length_m=0.5),
            tee,
            Run(name="last", bore_m=BORE, length_m=0.5),
        ),
        inlet_at=Point(part="first", along_frac=0.0, across_frac=0.015 / BORE),
        vents=(
            SpoolVent(at=Point(part="last", along_frac=1.0, across_frac=0.925), diameter_m=0.019),
            *further_vents,
        ),
        joint_at=Point(part="first"),
    )
