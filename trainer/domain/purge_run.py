"""PurgeRun: what the core makes of a set-up, in SI; what its inputs do not allow is left out (None).

`NEVER` stands for a time that does not come. Each field names its key in files, whose ending is the unit,
and what an SI value is multiplied by to be written there.
"""

from dataclasses import dataclass

from trainer.domain.around_results import BreathingResult, DamResult, HotPartResult, PersonResult
from trainer.domain.gas_results import CostResult, FlowResult, GasResult, GasUsed, HoseResult, SupplyResult
from trainer.domain.purge_results import (
    DeadLegResult,
    InletResult,
    PipeResult,
    PurgeResult,
    ReadingsResult,
    RootResult,
    SectionResult,
    StageResult,
    VentResult,
)
from trainer.domain.written import BAR, L_MIN, LITRES, M3_H, MM, PERCENT, PPM, Expected, Written, written_as

__all__ = [
    "BAR", "BreathingResult", "Caution", "CostResult", "DamResult", "DeadLegResult", "Expected",
    "FlowResult", "GasResult", "GasUsed", "HoseResult", "HotPartResult", "InletResult", "LITRES", "L_MIN",
    "M3_H", "MM", "PERCENT", "PPM", "PersonResult", "PipeResult", "PurgeResult", "PurgeRun",
    "ReadingsResult", "RootResult", "SectionResult", "StageResult", "SupplyResult", "VentResult", "Written",
    "written_as",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Caution:
    """A caution by its stable code, with the figures that raised it, in SI."""

    code: str
    facts: tuple[tuple[str, float | str], ...] = ()


@dataclass(frozen=True, kw_only=True)
class PurgeRun:
    """Everything that the core answers for one set-up."""

    pipe: PipeResult | None = None
    section: SectionResult | None = None
    inlet: InletResult | None = None
    purge: PurgeResult | None = None
    vent: VentResult | None = None
    hose: HoseResult | None = None
    supply: SupplyResult | None = None
    gas_used: GasUsed | None = None
    root: RootResult | None = None
    dams: tuple[DamResult, ...] = ()
    flow: FlowResult | None = None
    breathing: BreathingResult | None = None
    gas: GasResult | None = None
    readings: ReadingsResult | None = None
    cost: CostResult | None = None
    near_heat: tuple[HotPartResult, ...] = ()
    cautions: tuple[Caution, ...] = ()
