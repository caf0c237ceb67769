"""Spools whose gas has to go up, over a top without a vent and down again."""

import math

from spool_cases import BORE

from trainer.core.dilution import Inlet, InletEnd, PurgeCase, PurgeSection, VentHole, purge
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Elbow, Run

TARGETS = (0.01, 0.001, 1e-4)


def bend(name, to_slope_deg, bore_m=BORE):
    return Elbow(name=name, bore_m=bore_m, bend_radius_m=0.2286, angle_deg=90.0, to_slope_deg=to_slope_deg)


def over_the_top(*, up_m=1.0, top_m=2.0, down_m=1.0, sign=1.0, bore_m=BORE, joint_at=None):
    """Up a riser, along the level, down again, the vent at the foot; or all of it upside down."""
    return Spool(
        path=(
            Run(name="up", bore_m=bore_m, length_m=up_m, slope_deg=90.0 * sign),
            bend("shoulder", 0.0, bore_m),
            Run(name="top", bore_m=bore_m, length_m=top_m),
            bend("far shoulder", -90.0 * sign, bore_m),
            Run(name="down", bore_m=bore_m, length_m=down_m, slope_deg=-90.0 * sign),
        ),
        inlet_at=Point(part="up", along_frac=0.0),
        vents=(SpoolVent(at=Point(part="down", along_frac=1.0), diameter_m=0.006),),
        joint_at=joint_at,
    )


def crown_vent(part="top", diameter_m=0.006):
    return SpoolVent(at=Point(part=part, along_frac=0.5, across_frac=1.0), diameter_m=diameter_m)


def low_to_low(case):
    """The worst of the closures on the whole volume: a level section with inlet and vent low."""
    spool = case.spool
    bore_m = spool.pieces[0].bore_m
    section = PurgeSection(bore_m=bore_m, length_m=spool.volume_m3 / (math.pi / 4.0 * bore_m**2))
    return purge(
        PurgeCase(
            section=section,
            inlet=Inlet(height_frac=0.015 / bore_m, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
            vent=VentHole(height_frac=0.075, diameter_m=0.006),
            gas=case.gas,
            source_o2_frac=0.0,
            segments=case.segments,
        )
    )


def expected_s(case, o2_frac):
    return purge_spool(case).root.time_to(o2_frac).expected
