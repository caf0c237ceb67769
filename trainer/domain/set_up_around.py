"""What surrounds the purge: dams, arc and what it heats, people, and the space they are in."""

from dataclasses import dataclass

from trainer.core.terms import Fan
from trainer.domain.quantities import Dimension, choice, flag, measured, number, parts, text, whole_number
from trainer.domain.set_up_terms import AnalyserAt, DamAge, DamKind, Place, Side


@dataclass(frozen=True, kw_only=True)
class Dam:
    """One dam and the state it is in."""

    side: Side | None = choice("side", Side)
    kind: DamKind | None = choice("kind", DamKind)
    thickness_m: float | None = measured(
        "thickness", Dimension.LENGTH, 0.0, 1.0, why="dams up to 1 m thick", low_is_open=True
    )
    age: DamAge | None = choice("age", DamAge)
    rope_m: float | None = measured(
        "rope", Dimension.LENGTH, 0.0, 100.0, why="length of the rope that draws the dam out"
    )
    density_kg_m3: float | None = measured(
        "density", Dimension.DENSITY, 15.0, 120.0, why="flexible foam as it is sold"
    )
    oversize_m: float | None = measured(
        "oversize", Dimension.LENGTH, 0.0, 0.5, why="by how much a foam dam was cut wider than the bore"
    )


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
    passes: int | None = whole_number("passes", 1, 100, why="1 to 100 passes")
    between_passes_s: float | None = measured(
        "between_passes", Dimension.DURATION, 1.0, 86400.0, why="from the start of one pass to the next"
    )


@dataclass(frozen=True, kw_only=True)
class HotPart:
    """Something besides the dams that lies near the weld: a rope, a tape, a hose end, by its own material."""

    what: str | None = text("what", why="what lies there, in your own words")
    material: str | None = text("material", why="a material whose behaviour in heat is known")
    distance_m: float | None = measured(
        "distance", Dimension.LENGTH, 0.0, 50.0, why="from the joint, up to 50 m", low_is_open=True
    )


@dataclass(frozen=True, kw_only=True)
class Bystander:
    """A person near the joint: in which space, and how high the face is above its floor or lowest point.

    Somebody may be in another space than the one that the set-up describes; of the air there nothing is told.
    """

    where: Place | None = choice("where", Place)
    face_height_m: float | None = measured(
        "face_height", Dimension.LENGTH, 0.0, 3.0, why="0 lying to 3 m on a stage"
    )


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What is drawn and what hazards refer to; nothing here enters a sum unless the core names it."""

    cylinder_chained: bool | None = flag(
        "cylinder_chained", why="true where the cylinder is held against falling"
    )
    cap_on: bool | None = flag("cap_on", why="true where the cap is on a cylinder that is not in use")
    analyser_at: AnalyserAt | None = choice("analyser_at", AnalyserAt)
    vent_leads_to: Place | None = choice("vent_leads_to", Place)
    people: tuple[Bystander, ...] = parts("people", Bystander)


@dataclass(frozen=True, kw_only=True)
class Surroundings:
    """The space that gas escapes into, how it is ventilated, and for how long gas has escaped.

    The floor area of a pipe is its bore times its length. A room or van holds its supply unless it is said
    not to; anywhere else the supply stands outside unless it is said to stand inside.
    """

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
        0.4,
        why="fresh air reads about 20.9 %; above 23.5 % it is enriched, and up to 40 % calculated with",
    )
    air_changes_per_h: float | None = number(
        "air_changes_per_h", 0.0, 100.0, why="by draught alone, without a fan, up to 100 an hour"
    )
    gas_temperature_k: float | None = measured(
        "gas_temperature", Dimension.TEMPERATURE, 77.0, 400.0, why="boil-off is cold, and cold gas sinks"
    )
    supply_inside: bool | None = flag("supply_inside", why="true where the supply stands in this space")
    blower_m3_s: float | None = measured(
        "blower",
        Dimension.VOLUME_FLOW,
        0.0,
        1000.0,
        why="a rescue blower, up to a tunnel fan",
        low_is_open=True,
    )
