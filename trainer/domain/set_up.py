"""SetUp: everything physical about one purge, in SI, each part left out where it is not known."""

from dataclasses import dataclass

from trainer.core.terms import MaterialGroup, PurgeModel
from trainer.domain.quantities import Dimension, choice, measured, part, parts
from trainer.domain.set_up_around import Arc, Bystander, Dam, HotPart, Scene, Surroundings
from trainer.domain.set_up_gas import (
    Analyser,
    Flow,
    FlowMeter,
    Hose,
    Prices,
    PurgeGas,
    Reading,
    Stage,
    Supply,
)
from trainer.domain.set_up_openings import InletFitting, Leak, Vent
from trainer.domain.set_up_pipe import BranchPart, Joint, PathPart, Pipe, Section
from trainer.domain.set_up_terms import (
    AnalyserAt,
    DamAge,
    DamKind,
    PathPartKind,
    Place,
    Side,
    StageKind,
    SupplyKind,
)

__all__ = [
    "Analyser", "AnalyserAt", "Arc", "BranchPart", "Bystander", "Dam", "DamAge", "DamKind", "Flow",
    "FlowMeter", "Hose", "HotPart", "InletFitting", "Joint", "Leak", "PathPart", "PathPartKind", "Pipe",
    "Place", "Prices", "PurgeGas", "Reading", "Scene", "Section", "SetUp", "Side", "Stage", "StageKind",
    "Supply", "SupplyKind", "Surroundings", "Target", "Vent",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Target:
    """The oxygen that the root may see at arc strike."""

    oxygen_frac: float | None = measured(
        "oxygen", Dimension.FRACTION, 1e-6, 0.2, why="from 1 ppm to 20 %; air itself holds 20.95 %"
    )


@dataclass(frozen=True, kw_only=True)
class SetUp:
    """Everything physical about one purge. What is None is not known, and nothing is made of it."""

    material: MaterialGroup | None = choice("material", MaterialGroup)
    pipe: Pipe | None = part("pipe", Pipe)
    section: Section | None = part("section", Section)
    inlet: InletFitting | None = part("inlet", InletFitting)
    vent: Vent | None = part("vent", Vent)
    joint: Joint | None = part("joint", Joint)
    gas: PurgeGas | None = part("gas", PurgeGas)
    flow: Flow | None = part("flow", Flow)
    target: Target | None = part("target", Target)
    wait_s: float | None = measured("wait", Dimension.DURATION, 0.0, 7 * 86400.0, why="up to a week")
    hose: Hose | None = part("hose", Hose)
    supply: Supply | None = part("supply", Supply)
    dams: tuple[Dam, ...] = parts("dams", Dam)
    arc: Arc | None = part("arc", Arc)
    temperature_k: float | None = measured(
        "temperature", Dimension.TEMPERATURE, 233.15, 333.15, why="sites from -40 to 60 degC"
    )
    leaks: tuple[Leak, ...] = parts("leaks", Leak)
    scene: Scene | None = part("scene", Scene)
    meter: FlowMeter | None = part("meter", FlowMeter)
    surroundings: Surroundings | None = part("surroundings", Surroundings)
    vents: tuple[Vent, ...] = parts("vents", Vent)
    readings: tuple[Reading, ...] = parts("readings", Reading)
    analyser: Analyser | None = part("analyser", Analyser)
    prices: Prices | None = part("prices", Prices)
    near_heat: tuple[HotPart, ...] = parts("near_heat", HotPart)
    model: PurgeModel | None = choice("model", PurgeModel)
