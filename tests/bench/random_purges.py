"""Random level set-ups within the tested range, with the ends, gases and heights mixed."""

import math
import random

from trainer.core.batch import PurgeQuestion
from trainer.core.gas import gas
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import FlowSegment, Inlet, PurgeSection, VentHole
from trainer.core.terms import InletEnd

BORES_M = (0.0543, 0.0779, 0.1023, 0.1541, 0.2027, 0.2545, 0.3048)


def random_questions(source: random.Random, count: int) -> list[PurgeQuestion]:
    """As many questions as wanted, each of a set-up of its own."""
    return [_question(source) for _ in range(count)]


def _question(source: random.Random) -> PurgeQuestion:
    bore_m = source.choice(BORES_M)
    case = PurgeCase(
        section=PurgeSection(bore_m=bore_m, length_m=source.uniform(2.0, 15.0) * bore_m),
        inlet=_inlet(source),
        vent=VentHole(height_frac=source.uniform(0.12, 0.88), diameter_m=source.choice((0.004, 0.006, 0.01))),
        gas=gas(source.choice(("I1", "I1", "I1", "I2", "N1"))),
        source_o2_frac=5e-6,
        segments=(FlowSegment(flow_m3_s=source.uniform(2.0, 40.0) / 60000.0, duration_s=math.inf),),
    )
    return PurgeQuestion(
        case=case, target_o2_frac=10 ** source.uniform(-4.0, -2.0), wait_s=source.uniform(30.0, 1800.0)
    )


def _inlet(source: random.Random) -> Inlet:
    end, height_frac = source.choice(list(InletEnd)), source.uniform(0.15, 0.85)
    if end is InletEnd.DIFFUSER:
        return Inlet(height_frac=height_frac, end=end, face_area_m2=10 ** source.uniform(-3.5, -2.3))
    return Inlet(height_frac=height_frac, end=end, bore_m=0.00635)
