"""SetUp: everything physical about one purge, in SI, each part left out where it is not known."""

from dataclasses import dataclass

from trainer.core.terms import Fan, InletEnd, MaterialGroup, PurgeModel
from trainer.domain.quantities import (
    Dimension,
    choice,
    count,
    flag,
    measured,
    number,
    part,
    parts,
    text,
)
from trainer.domain.set_up_terms import AnalyserAt, DamAge, DamKind, Place, Side, SupplyKind

__all__ = [
    "AnalyserAt", "Arc", "Bystander", "Dam", "DamAge", "DamKind", "Flow", "FlowMeter", "Hose",
    "InletFitting", "Joint", "Leak", "Pipe", "Place", "PurgeGas", "Scene", "Section", "SetUp", "Side",
    "Supply", "SupplyKind", "Surroundings", "Target", "Vent",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Pipe:
    """The pipe: by size and schedule, or by its own outside diameter and wall."""

    nps: str | None = text("nps")
    dn: str | None = text("dn")
    schedule: str | None = text("schedule")
    outside_diameter_m: float | None = measured(
        "outside_diameter", Dimension.LENGTH, 0.003, 2.5, why="tube and pipe from 3 mm to 2.5 m"
    )
    wall_m: float | None = measured("wall", Dimension.LENGTH, 0.0002, 0.15, why="walls from 0.2 mm to 150 mm")


@dataclass(frozen=True, kw_only=True)
class Section:
    """The dammed section: distance from the joint to each dam's inner face, and how the vent's end lies."""

    left_dam_m: float | None = measured(
        "left_dam", Dimension.LENGTH, 0.0, 50.0, why="a dam on the joint to one 50 m away", low_is_open=True
    )
    right_dam_m: float | None = measured(
        "right_dam", Dimension.LENGTH, 0.0, 50.0, why="a dam on the joint to one 50 m away", low_is_open=True
    )
    slope_deg: float | None = measured(
        "slope", Dimension.ANGLE, -90.0, 90.0, why="90 is upright with the inlet below, -90 with it above"
    )


@dataclass(frozen=True, kw_only=True)
class InletFitting:
    """Where and through what the gas enters; height is the place on the dam's face, 0 lowest to 1 highest."""

    height_frac: float | None = number(
        "height", 0.0, 1.0, why="0 is the lowest point of the bore, 1 the highest"
    )
    end: InletEnd | None = choice("end", InletEnd)
    bore_m: float | None = measured(
        "bore", Dimension.LENGTH, 0.001, 0.1, why="hose and tube ends from 1 mm to 100 mm"
    )
    face_area_m2: float | None = measured(
        "face_area", Dimension.AREA, 1e-5, 0.1, why="diffusers from 0.1 cm2 to 1000 cm2"
    )


@dataclass(frozen=True, kw_only=True)
class Vent:
    """The hole or holes that the air leaves by; height is that of their centres."""

    height_frac: float | None = number(
        "height", 0.0, 1.0, why="0 is the lowest point of the bore, 1 the highest"
    )
    diameter_m: float | None = measured(
        "diameter", Dimension.LENGTH, 0.0005, 0.3, why="vent holes from 0.5 mm to 300 mm"
    )
    count: int | None = count("count", 1, 50, why="1 to 50 holes")


@dataclass(frozen=True, kw_only=True)
class Joint:
    """The root gap, and the share of its circumference that is taped shut."""

    gap_m: float | None = measured("gap", Dimension.LENGTH, 0.0, 0.02, why="root gaps up to 20 mm")
    taped_frac: float | None = number("taped", 0.0, 1.0, why="0 is all open, 1 all taped")


@dataclass(frozen=True, kw_only=True)
class PurgeGas:
    """The purge gas by its ISO 14175 symbol, and the oxygen that it carries."""

    symbol: str | None = text("symbol")
    composition: str | None = text("composition")
    oxygen_frac: float | None = measured(
        "oxygen", Dimension.FRACTION, 0.0, 0.01, why="a purge gas with over 1 % oxygen is no purge gas"
    )


@dataclass(frozen=True, kw_only=True)
class Flow:
    """Purge flow until the arc is struck, hold flow after it."""

    purge_m3_s: float | None = measured(
        "purge", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min", low_is_open=True
    )
    hold_m3_s: float | None = measured("hold", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min")
    hold_for_s: float | None = measured("hold_for", Dimension.DURATION, 0.0, 7 * 86400.0, why="up to a week")


@dataclass(frozen=True, kw_only=True)
class Target:
    """The oxygen that the root may see at arc strike."""

    oxygen_frac: float | None = measured(
        "oxygen", Dimension.FRACTION, 1e-6, 0.2, why="from 1 ppm to 20 %; air itself holds 20.95 %"
    )


@dataclass(frozen=True, kw_only=True)
class Hose:
    """The hose from the regulator to the inlet; open_fraction below 1 is a kink."""

    bore_m: float | None = measured(
        "bore", Dimension.LENGTH, 0.001, 0.1, why="hoses from 1 mm to 100 mm bore"
    )
    length_m: float | None = measured(
        "length", Dimension.LENGTH, 0.0, 500.0, why="hoses up to 500 m", low_is_open=True
    )
    inlet_pressure_pa: float | None = measured(
        "inlet_pressure", Dimension.PRESSURE, 0.0, 2e6, why="regulators give up to 20 bar", low_is_open=True
    )
    open_frac: float | None = number("open_fraction", 0.0, 1.0, why="0 is pinched shut, 1 sound")


@dataclass(frozen=True, kw_only=True)
class Supply:
    """The gas supply; pressures are gauge."""

    kind: SupplyKind | None = choice("kind", SupplyKind)
    water_volume_m3: float | None = measured(
        "water_volume", Dimension.VOLUME, 0.0001, 100.0, why="from a 0.1 L lecture bottle to a 100 m3 tank"
    )
    pressure_pa: float | None = measured(
        "pressure", Dimension.PRESSURE, 0.0, 3.2e7, why="cylinders are filled to 300 bar at the most"
    )
    stop_pressure_pa: float | None = measured(
        "stop_pressure",
        Dimension.PRESSURE,
        0.0,
        3.2e7,
        why="what is left in the cylinder keeps air out of it",
    )
    count: int | None = count("count", 1, 100, why="1 to 100 cylinders")


@dataclass(frozen=True, kw_only=True)
class Dam:
    """One dam and the state it is in."""

    side: Side | None = choice("side", Side)
    kind: DamKind | None = choice("kind", DamKind)
    thickness_m: float | None = measured(
        "thickness", Dimension.LENGTH, 0.0, 1.0, why="dams up to 1 m thick", low_is_open=True
    )
    age: DamAge | None = choice("age", DamAge)


@dataclass(frozen=True, kw_only=True)
class Arc:
    """The welding arc, for the heat that reaches the dams."""

    current_a: float | None = measured("current", Dimension.CURRENT, 1.0, 1000.0, why="1 to 1000 A")
    voltage_v: float | None = measured("voltage", Dimension.VOLTAGE, 1.0, 100.0, why="1 to 100 V")
    efficiency_frac: float | None = number(
        "efficiency", 0.05, 1.0, why="share of arc power that enters the metal"
    )
    travel_speed_m_s: float | None = measured(
        "travel_speed", Dimension.SPEED, 1e-5, 0.5, why="0.6 mm/min to 30 m/min"
    )
    passes: int | None = count("passes", 1, 100, why="1 to 100 passes")


@dataclass(frozen=True, kw_only=True)
class Leak:
    """A place where air is drawn in."""

    where: str | None = text("where")
    area_m2: float | None = measured("area", Dimension.AREA, 0.0, 0.01, why="leaks up to 100 cm2")


@dataclass(frozen=True, kw_only=True)
class Bystander:
    """A person near the joint: in which space, and how high the face is above its floor."""

    where: Place | None = choice("where", Place)
    face_height_m: float | None = measured(
        "face_height", Dimension.LENGTH, 0.0, 3.0, why="0 lying to 3 m on a stage"
    )


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What is drawn and what hazards refer to; nothing here enters a sum unless the core names it."""

    cylinder_chained: bool | None = flag("cylinder_chained")
    cap_on: bool | None = flag("cap_on")
    analyser_at: AnalyserAt | None = choice("analyser_at", AnalyserAt)
    vent_leads_to: Place | None = choice("vent_leads_to", Place)
    people: tuple[Bystander, ...] = parts("people", Bystander)


@dataclass(frozen=True, kw_only=True)
class FlowMeter:
    """What a float meter shows, and the gas that its scale was made for."""

    reads_m3_s: float | None = measured(
        "reads", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min", low_is_open=True
    )
    calibrated_for: str | None = text("calibrated_for")


@dataclass(frozen=True, kw_only=True)
class Surroundings:
    """The space that gas escapes into, how it is ventilated, and for how long gas has escaped."""

    kind: Place | None = choice("kind", Place)
    volume_m3: float | None = measured(
        "volume", Dimension.VOLUME, 0.01, 1e6, why="from a pipe's end to a large hall"
    )
    floor_area_m2: float | None = measured("floor_area", Dimension.AREA, 0.01, 1e6, why="up to a large hall")
    fan: Fan | None = choice("fan", Fan)
    fan_flow_m3_s: float | None = measured(
        "fan_flow", Dimension.VOLUME_FLOW, 0.0, 1000.0, why="up to a tunnel fan"
    )
    release_m3_s: float | None = measured("release", Dimension.VOLUME_FLOW, 0.0, 1.0, why="up to 60 m3/min")
    after_s: float | None = measured("after", Dimension.DURATION, 0.0, 7 * 86400.0, why="up to a week")
    fresh_oxygen_frac: float | None = measured(
        "fresh_oxygen",
        Dimension.FRACTION,
        0.15,
        0.235,
        why="fresh air reads about 20.9 %; above 23.5 % is enriched",
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
    model: PurgeModel | None = choice("model", PurgeModel)
