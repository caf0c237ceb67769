"""The hose: whether the flow gets through it."""

from trainer.core import hose as hoses
from trainer.core.gas import ATMOSPHERE_PA
from trainer.domain.flows import purge_flow_of
from trainer.domain.known_parts import gas_of, temperature_of
from trainer.domain.purge_run import HoseResult
from trainer.domain.set_up import SetUp


def hose_result(set_up: SetUp) -> HoseResult | None:
    """Pressure drop at the purge flow, and the largest flow at the regulator's gauge pressure."""
    part, used = set_up.hose, gas_of(set_up)
    if part is None or part.bore_m is None or part.length_m is None or used is None:
        return None
    hose = hoses.Hose(
        bore_m=part.bore_m,
        length_m=part.length_m,
        open_frac=1.0 if part.open_frac is None else part.open_frac,
    )
    temperature_k, flow_m3_s = temperature_of(set_up), purge_flow_of(set_up)
    drop_pa = (
        None
        if flow_m3_s is None
        else hoses.pressure_drop_pa(flow_m3_s, hose=hose, gas=used, temperature_k=temperature_k)
    )
    if part.inlet_pressure_pa is None:
        return None if drop_pa is None else HoseResult(pressure_drop_pa=drop_pa)
    before_pa = part.inlet_pressure_pa + ATMOSPHERE_PA
    return HoseResult(
        pressure_drop_pa=drop_pa,
        largest_flow_m3_s=hoses.largest_flow_m3_s(
            before_pa, hose=hose, gas=used, temperature_k=temperature_k
        ),
        choked=hoses.is_choked(before_pa, hose=hose, gas=used, temperature_k=temperature_k),
    )
