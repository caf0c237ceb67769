"""Heat of the weld at each dam, against what a dam of its kind stands."""

from trainer.core.dam_heat import (
    CooledWall,
    Metal,
    Passes,
    dam_limit_k,
    heat_input_j_m,
    metal,
    peak_temperature_k,
    peak_with_loss_k,
)
from trainer.domain.known_parts import size_of, temperature_of
from trainer.domain.purge_run import DamResult
from trainer.domain.set_up import Dam, SetUp, Side

_CELSIUS_ZERO_K = 273.15


def dam_results(set_up: SetUp) -> tuple[DamResult, ...]:
    """One result per dam, in the set-up's order; what is not known of it is left out."""
    return tuple(
        DamResult(temperature_c=_celsius(_temperature_k(set_up, dam)), limit_c=_celsius(_limit_k(dam)))
        for dam in set_up.dams
    )


def _celsius(value_k: float | None) -> float | None:
    return None if value_k is None else value_k - _CELSIUS_ZERO_K


def _limit_k(dam: Dam) -> float | None:
    return None if dam.kind is None else dam_limit_k(dam.kind)


def _temperature_k(set_up: SetUp, dam: Dam) -> float | None:
    """Highest temperature at the dam's inner face, without any loss to the air: an upper bound."""
    size, heat_j_m, section = size_of(set_up.pipe), _heat_input_j_m(set_up), set_up.section
    if size is None or heat_j_m is None or section is None or set_up.material is None:
        return None
    distance_m = section.left_dam_m if dam.side is Side.LEFT else section.right_dam_m
    if distance_m is None:
        return None
    steel, ambient_k = metal(set_up.material), temperature_of(set_up)
    counted = (set_up.arc.passes if set_up.arc else None) or 1
    if counted == 1:
        return peak_temperature_k(
            distance_m, heat_input_j_m=heat_j_m, wall_m=size.wall_m, metal=steel, ambient_k=ambient_k
        )
    wall = _wall_without_loss(size.wall_m, steel, ambient_k)
    return peak_with_loss_k(distance_m, passes=Passes(heat_input_j_m=heat_j_m, count=counted), wall=wall)


def _wall_without_loss(wall_m: float, steel: Metal, ambient_k: float) -> CooledWall:
    return CooledWall(wall_m=wall_m, metal=steel, ambient_k=ambient_k, loss_w_m2_k=0.0)


def _heat_input_j_m(set_up: SetUp) -> float | None:
    arc = set_up.arc
    if arc is None or arc.current_a is None or arc.voltage_v is None:
        return None
    if arc.efficiency_frac is None or arc.travel_speed_m_s is None:
        return None
    return heat_input_j_m(
        arc.current_a,
        voltage_v=arc.voltage_v,
        efficiency_frac=arc.efficiency_frac,
        travel_speed_m_s=arc.travel_speed_m_s,
    )
