"""What each dam stands: heat of the weld, as at what else lies near it, and pressure across it."""

from dataclasses import dataclass

from trainer.core.arc_heat import SteadyFin, steady_fin_temperature_k
from trainer.core.dam_heat import dam_limit_k, heat_input_j_m, metal, peak_temperature_k
from trainer.core.dam_holding import FoamPlug, slip_pressure_pa
from trainer.core.heat_materials import material_limit_k
from trainer.core.interval import Interval
from trainer.core.pass_heat import CooledWall, Passes, peak_with_loss_k, safe_distance_m
from trainer.domain.known_parts import size_of, temperature_of
from trainer.domain.purge_run import DamResult, HotPartResult
from trainer.domain.set_up import Dam, DamAge, DamKind, HotPart, SetUp, Side

DEFAULT_BETWEEN_PASSES_S = 600.0
_LEAST_RISE_K = 0.1  # nearer to the limit than this, no distance is far enough
_CELSIUS_ZERO_K = 273.15


@dataclass(frozen=True, kw_only=True)
class _Heat:
    """The weld as a source of heat: its passes, the wall without loss, and an arc that never stops."""

    passes: Passes
    wall: CooledWall
    fin: SteadyFin

    def peak_k(self, distance_m: float) -> float:
        """Highest temperature at a distance, without any loss to the air: an upper bound."""
        if self.passes.count > 1:
            return peak_with_loss_k(distance_m, passes=self.passes, wall=self.wall)
        return peak_temperature_k(
            distance_m, heat_input_j_m=self.passes.heat_input_j_m, wall_m=self.wall.wall_m,
            metal=self.wall.metal, ambient_k=self.wall.ambient_k,
        )  # fmt: skip

    def safe_m(self, limit_k: float) -> float | None:
        """Distance at which that bound meets a limit; None where the site itself is as hot."""
        if limit_k - self.wall.ambient_k < _LEAST_RISE_K:
            return None
        return safe_distance_m(limit_k, passes=self.passes, wall=self.wall)


def dam_results(set_up: SetUp) -> tuple[DamResult, ...]:
    """One result per dam, in the set-up's order; what is not known of it is left out."""
    heat = _heat_of(set_up) if set_up.dams else None
    return tuple(_dam_result(set_up, dam, heat) for dam in set_up.dams)


def near_heat_results(set_up: SetUp) -> tuple[HotPartResult, ...]:
    """One result per rope, tape or hose near the weld, in the set-up's order."""
    heat = _heat_of(set_up) if set_up.near_heat else None
    return tuple(_hot_part_result(part, heat) for part in set_up.near_heat)


def way_out_m(set_up: SetUp, dam: Dam) -> float | None:
    """How far a dam has to travel to the pipe's open end on its side."""
    section, distance_m = set_up.section, _distance_m(set_up, dam)
    if section is None or distance_m is None:
        return None
    end_m = section.left_end_m if dam.side is Side.LEFT else section.right_end_m
    return None if end_m is None else end_m - distance_m


def rope_to_spare_m(set_up: SetUp, dam: Dam) -> float | None:
    """How much of a dam's rope hangs out of the pipe's open end; below 0 it does not reach it."""
    way_m = way_out_m(set_up, dam)
    return None if way_m is None or dam.rope_m is None else dam.rope_m - way_m


def _slips_at_pa(set_up: SetUp, dam: Dam) -> Interval | None:
    """Pressure across a dam at which it slips; of new foam only: an old edge has shrunk off the bore."""
    size = size_of(set_up.pipe)
    if size is None or dam.kind is not DamKind.FOAM or dam.age is not DamAge.NEW:
        return None
    if dam.density_kg_m3 is None or dam.thickness_m is None or dam.oversize_m is None:
        return None
    plug = FoamPlug(density_kg_m3=dam.density_kg_m3, thickness_m=dam.thickness_m, oversize_m=dam.oversize_m)
    return slip_pressure_pa(plug, bore_m=size.bore_m)


def longest_way_out_m(set_up: SetUp) -> float | None:
    """The longest way that a dam has to the open end on its side."""
    ways = [way_out_m(set_up, dam) for dam in set_up.dams]
    return max((each for each in ways if each is not None), default=None)


def least_rope_to_spare_m(set_up: SetUp) -> float | None:
    """What the shortest rope still hangs out of its open end by; below 0 it does not reach it."""
    spare = [rope_to_spare_m(set_up, dam) for dam in set_up.dams]
    return min((each for each in spare if each is not None), default=None)


def dams_hold_pa(set_up: SetUp) -> float | None:
    """What every dam surely holds across it; None where it is not known of each."""
    known = _slips_at(set_up)
    return min(each.lower for each in known) if known else None


def dams_slip_pa(set_up: SetUp) -> float | None:
    """What surely pushes out whichever dam sits tightest; None where it is not known of each."""
    known = _slips_at(set_up)
    return max(each.upper for each in known) if known else None


def _slips_at(set_up: SetUp) -> list[Interval]:
    """Of every dam, or of none where one is not known."""
    found = [_slips_at_pa(set_up, dam) for dam in set_up.dams]
    known = [each for each in found if each is not None]
    return known if len(known) == len(found) else []


def _dam_result(set_up: SetUp, dam: Dam, heat: _Heat | None) -> DamResult:
    distance_m = _distance_m(set_up, dam)
    limit_k = None if dam.kind is None else dam_limit_k(dam.kind)
    spare_m = rope_to_spare_m(set_up, dam)
    slips_at = _slips_at_pa(set_up, dam)
    return DamResult(
        temperature_c=None if heat is None or distance_m is None else _celsius(heat.peak_k(distance_m)),
        limit_c=_celsius(limit_k),
        steady_c=None if heat is None or distance_m is None else _steady_c(heat.fin, distance_m),
        safe_distance_m=None if heat is None or limit_k is None else heat.safe_m(limit_k),
        rope_long_enough=None if spare_m is None else spare_m > 0.0,
        surely_holds_pa=None if slips_at is None else slips_at.lower,
        surely_slips_pa=None if slips_at is None else slips_at.upper,
    )


def _hot_part_result(part: HotPart, heat: _Heat | None) -> HotPartResult:
    limit_k = None if part.material is None else material_limit_k(part.material)
    peak_k = None if heat is None or part.distance_m is None else heat.peak_k(part.distance_m)
    return HotPartResult(
        what=part.what,
        temperature_c=_celsius(peak_k),
        limit_c=_celsius(limit_k),
        safe_distance_m=None if heat is None or limit_k is None else heat.safe_m(limit_k),
    )


def _celsius(value_k: float | None) -> float | None:
    return None if value_k is None else value_k - _CELSIUS_ZERO_K


def _steady_c(fin: SteadyFin, distance_m: float) -> float:
    return steady_fin_temperature_k(fin, distance_m=distance_m) - _CELSIUS_ZERO_K


def _distance_m(set_up: SetUp, dam: Dam) -> float | None:
    section = set_up.section
    if section is None or dam.side is None:
        return None
    return section.left_dam_m if dam.side is Side.LEFT else section.right_dam_m


def _heat_of(set_up: SetUp) -> _Heat | None:
    size, arc = size_of(set_up.pipe), set_up.arc
    if size is None or arc is None or set_up.material is None:
        return None
    if arc.current_a is None or arc.voltage_v is None or arc.efficiency_frac is None:
        return None
    if arc.travel_speed_m_s is None:
        return None
    steel, ambient_k = metal(set_up.material), temperature_of(set_up)
    heat_j_m = heat_input_j_m(
        arc.current_a,
        voltage_v=arc.voltage_v,
        efficiency_frac=arc.efficiency_frac,
        travel_speed_m_s=arc.travel_speed_m_s,
    )
    between_s = DEFAULT_BETWEEN_PASSES_S if arc.between_passes_s is None else arc.between_passes_s
    return _Heat(
        passes=Passes(heat_input_j_m=heat_j_m, count=arc.passes or 1, interval_s=between_s),
        wall=CooledWall(wall_m=size.wall_m, metal=steel, ambient_k=ambient_k, loss_w_m2_k=0.0),
        fin=SteadyFin(
            power_w=arc.efficiency_frac * arc.voltage_v * arc.current_a,
            outside_diameter_m=size.outside_diameter_m,
            wall_m=size.wall_m,
            metal=steel,
            ambient_k=ambient_k,
        ),
    )
