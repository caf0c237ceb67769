"""The names of core results and how each is asked of the core; every one is a part of what a run reports."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from trainer.core.dilution import mixing_time_s
from trainer.core.interval import Interval
from trainer.core.oxidation import grade, grade_thresholds
from trainer.core.pool import PoolSide
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.terms import RootGrade
from trainer.domain.air_space import pool_side_of
from trainer.domain.escaping_gas import release_of
from trainer.domain.flows import purge_flow_of
from trainer.domain.known_parts import size_of, temperature_of
from trainer.domain.purge_run import SupplyResult
from trainer.domain.quantities import NEVER, Dimension, Never
from trainer.domain.result_kind import Found, Question, ResultKind
from trainer.domain.run_dams import (
    dam_results,
    dams_hold_pa,
    dams_slip_pa,
    least_rope_to_spare_m,
    longest_way_out_m,
)
from trainer.domain.run_gas_used import gas_needed_m3, gas_used_result
from trainer.domain.run_people_air import people_here
from trainer.domain.run_results import RUN_RESULTS
from trainer.domain.run_section import section_result
from trainer.domain.run_supply import supply_result
from trainer.domain.run_time_line import volume_changes_by
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import with_values
from trainer.domain.time_line import gas_until_m3, stages_of

_UNEVEN_RATIO = 2.0  # from here the air is said to stay at one side
_REFERENCE = ReferenceCondition.AT_15C_1BAR


def _target_frac(asked: Question) -> float | None:
    return asked.set_up.target.oxygen_frac if asked.set_up.target else None


def _time_to_target(asked: Question) -> Interval | Never | None:
    target_frac, purge = _target_frac(asked), asked.purge
    return None if target_frac is None or purge is None else purge.time_to(target_frac) or NEVER


def _expected_time_to_target(asked: Question) -> float | Never | None:
    target_frac, purge = _target_frac(asked), asked.purge
    if target_frac is None or purge is None:
        return None
    time_s = purge.expected_time_s(target_frac)
    return NEVER if time_s is None else time_s


def _changes_to_target(asked: Question) -> Interval | Never | None:
    time, purge = _time_to_target(asked), asked.purge
    if not isinstance(time, Interval) or purge is None:
        return time
    counts = (volume_changes_by(purge, time_s=each) for each in (time.expected, time.lower, time.upper))
    return Interval(*counts)


def _gas_to_target(asked: Question) -> Interval | Never | None:
    time, flow, stages = _time_to_target(asked), purge_flow_of(asked.set_up), stages_of(asked.set_up)
    if isinstance(time, Interval) and stages:
        times_s = (time.expected, time.lower, time.upper)
        return Interval(*(gas_until_m3(stages, time_s=each) for each in times_s))
    if not isinstance(time, Interval) or flow is None:
        return time
    return Interval(time.expected * flow, time.lower * flow, time.upper * flow)


def _root_oxygen(asked: Question) -> Interval | None:
    wait_s, purge = asked.set_up.wait_s, asked.purge
    return purge.oxygen_at(wait_s) if purge is not None and wait_s is not None else None


def _expected_root_oxygen(asked: Question) -> float | None:
    wait_s, purge = asked.set_up.wait_s, asked.purge
    return purge.expected_o2_frac(wait_s) if purge is not None and wait_s is not None else None


def _vent_oxygen(asked: Question) -> float | None:
    wait_s, purge = asked.set_up.wait_s, asked.purge
    return purge.vent_oxygen_at(wait_s) if purge is not None and wait_s is not None else None


def _root_over_vent(asked: Question) -> float | None:
    root_frac, vent_frac = _expected_root_oxygen(asked), _vent_oxygen(asked)
    return root_frac / vent_frac if root_frac is not None and vent_frac else None


def _air_stays(asked: Question) -> str | None:
    """Where the air is found once two volumes of gas have gone in: crown, bottom or evenly."""
    purge = asked.purge
    if purge is None:
        return None
    _, oxygen = purge.profile(2.0 * purge.volume_change_s)
    bottom, crown = float(oxygen[0]), float(oxygen[-1])
    if crown > _UNEVEN_RATIO * bottom:
        return "crown"
    return "bottom" if bottom > _UNEVEN_RATIO * crown else "evenly"


def _mixing_time(asked: Question) -> float | Never | None:
    """What a perfectly stirred section of the same volume would need."""
    purge, target_frac = asked.purge, _target_frac(asked)
    if purge is None or target_frac is None:
        return None
    case = purge.case
    return mixing_time_s(
        case.section.volume_m3,
        flow_m3_s=case.segments[0].flow_m3_s,
        o2_frac=target_frac,
        source_o2_frac=case.source_o2_frac,
    )


def _section(attribute: str) -> Callable[[Question], Found | None]:
    """One size of the section."""
    return lambda asked: getattr(section_result(asked.set_up), attribute, None)


def _bore(asked: Question) -> float | None:
    size = size_of(asked.set_up.pipe)
    return size.bore_m if size is not None else None


def _supply(asked: Question) -> SupplyResult | None:
    return supply_result(asked.set_up, used=gas_used_result(asked.set_up), reference=_REFERENCE)


def _supply_usable(asked: Question) -> float | None:
    supply = _supply(asked)
    return supply.usable_m3 if supply is not None else None


def _gas_needed(asked: Question) -> float | None:
    """Gas of the whole joint, purge and hold, at the supply's reference condition."""
    used = gas_used_result(asked.set_up)
    return gas_needed_m3(asked.set_up, used=used, reference=_REFERENCE)


def _supply_share(asked: Question) -> float | Never | None:
    """How much of what can be drawn the purge until the target takes, at its conservative end."""
    time, usable = _time_to_target(asked), _supply_usable(asked)
    if not isinstance(time, Interval) or usable is None:
        return time if isinstance(time, Never) else None
    purged = with_values(asked.set_up, {"wait": time.upper, "flow.hold_for": None})
    before = gas_needed_m3(purged, used=gas_used_result(purged), reference=_REFERENCE)
    return before / usable if before is not None else None


def _dam_heat(asked: Question) -> float | None:
    """The rise at the hotter dam over the rise that its material stands: above 1 it is too close."""
    results = dam_results(asked.set_up)
    ambient_c = temperature_of(asked.set_up) - 273.15
    shares = [
        (each.temperature_c - ambient_c) / (each.limit_c - ambient_c)
        for each in results
        if each.temperature_c is not None and each.limit_c is not None
    ]
    return max(shares, default=None)


def _of(figure: Callable[[SetUp], float | None]) -> Callable[[Question], float | None]:
    """A figure that the set-up alone tells, without its purge."""
    return lambda asked: figure(asked.set_up)


def _root_grade(asked: Question) -> str | None:
    """How the root comes out if the arc is struck after the wait."""
    oxygen_frac, material = _expected_root_oxygen(asked), asked.set_up.material
    if oxygen_frac is None or material is None:
        return None
    return grade(oxygen_frac, thresholds=grade_thresholds(material)).value


def _breathing(attribute: str) -> Callable[[Question], Found | None]:
    """One figure of the air that is left for people."""

    def asked_for(asked: Question) -> Found | None:
        result = asked.breathing()
        found: Found | None = getattr(result, attribute) if result is not None else None
        return found

    return asked_for


def _lowest_at_a_face(asked: Question) -> float | None:
    """Oxygen at the face that has least of it; None where nobody is there or it is not known of everybody."""
    result, scene = asked.breathing(), asked.set_up.scene
    here = people_here(asked.set_up)
    told = zip(scene.people if scene else (), result.people if result else (), strict=False)
    known = [air.oxygen_frac for person, air in told if person in here and air.oxygen_frac is not None]
    return min(known) if known and len(known) == len(here) else None


def _space_volume(asked: Question) -> float | None:
    return asked.set_up.surroundings.volume_m3 if asked.set_up.surroundings is not None else None


def _space_filling_time(asked: Question) -> float | None:
    """What it takes to put as much gas in as the space holds air."""
    volume, release = _space_volume(asked), release_of(asked.set_up)
    return volume / release if volume is not None and release else None


def _supply_contents(asked: Question) -> float | None:
    supply = _supply(asked)
    return supply.contents_m3 if supply is not None else None


def _gas_gathers(asked: Question) -> str | None:
    """Where escaped gas gathers: floor, ceiling or nowhere."""
    side = pool_side_of(asked.set_up)
    return side.value if side is not None else None


RESULTS: Mapping[str, ResultKind] = MappingProxyType(
    {
        **RUN_RESULTS,
        "time to target": ResultKind(
            needs_wait=False,
            ask=_time_to_target,
            ask_expected=_expected_time_to_target,
            dimension=Dimension.DURATION,
        ),
        "volume changes to target": ResultKind(needs_wait=False, ask=_changes_to_target),
        "gas to target": ResultKind(needs_wait=False, ask=_gas_to_target, dimension=Dimension.VOLUME),
        "root oxygen": ResultKind(
            ask=_root_oxygen, ask_expected=_expected_root_oxygen, dimension=Dimension.FRACTION
        ),
        "vent oxygen": ResultKind(ask=_vent_oxygen, dimension=Dimension.FRACTION),
        "root over vent": ResultKind(ask=_root_over_vent),
        "floor": ResultKind(
            needs_wait=False,
            ask=lambda asked: asked.purge.floors_o2_frac[-1] if asked.purge else None,
            dimension=Dimension.FRACTION,
        ),
        "air stays": ResultKind(needs_wait=False, ask=_air_stays, words=("crown", "bottom", "evenly")),
        "one volume change": ResultKind(
            needs_wait=False,
            ask=lambda asked: asked.purge.volume_change_s if asked.purge else None,
            dimension=Dimension.DURATION,
        ),
        "mixing time": ResultKind(needs_wait=False, ask=_mixing_time, dimension=Dimension.DURATION),
        "section volume": ResultKind(needs_wait=False, ask=_section("volume_m3"), dimension=Dimension.VOLUME),
        "section length": ResultKind(needs_wait=False, ask=_section("length_m"), dimension=Dimension.LENGTH),
        "bore": ResultKind(needs_wait=False, ask=_bore, dimension=Dimension.LENGTH),
        "true flow": ResultKind(needs_wait=False, ask=_of(purge_flow_of), dimension=Dimension.VOLUME_FLOW),
        "supply usable": ResultKind(ask=_supply_usable, dimension=Dimension.VOLUME),
        "gas needed": ResultKind(ask=_gas_needed, dimension=Dimension.VOLUME),
        "supply share": ResultKind(needs_wait=False, ask=_supply_share),
        "root grade": ResultKind(ask=_root_grade, words=tuple(each.value for each in RootGrade)),
        "nearby oxygen": ResultKind(ask=_breathing("oxygen_mixed_frac"), dimension=Dimension.FRACTION),
        "steady oxygen": ResultKind(ask=_breathing("steady_frac"), dimension=Dimension.FRACTION),
        "time to 19.5 %": ResultKind(ask=_breathing("time_to_19_5_s"), dimension=Dimension.DURATION),
        "time to 18 %": ResultKind(ask=_breathing("time_to_18_s"), dimension=Dimension.DURATION),
        "time to 10 %": ResultKind(ask=_breathing("time_to_10_s"), dimension=Dimension.DURATION),
        "pool depth": ResultKind(ask=_breathing("pool_depth_m"), dimension=Dimension.LENGTH),
        "ventilation needed": ResultKind(
            ask=_breathing("ventilation_needed_m3_s"), dimension=Dimension.VOLUME_FLOW
        ),
        "space volume": ResultKind(needs_wait=False, ask=_space_volume, dimension=Dimension.VOLUME),
        "release": ResultKind(needs_wait=False, ask=_of(release_of), dimension=Dimension.VOLUME_FLOW),
        "space filling time": ResultKind(ask=_space_filling_time, dimension=Dimension.DURATION),
        "supply contents": ResultKind(ask=_supply_contents, dimension=Dimension.VOLUME),
        "whole supply oxygen": ResultKind(
            ask=_breathing("supply_emptied_frac"), dimension=Dimension.FRACTION
        ),
        "leaked supply oxygen": ResultKind(
            ask=_breathing("supply_leaked_frac"), dimension=Dimension.FRACTION
        ),
        "oxygen at a face": ResultKind(ask=_lowest_at_a_face, dimension=Dimension.FRACTION),
        "oxygen with boil-off": ResultKind(
            ask=_breathing("boil_off_steady_frac"), dimension=Dimension.FRACTION
        ),
        "air changes needed": ResultKind(ask=_breathing("air_changes_needed_per_h")),
        "time to blow out": ResultKind(ask=_breathing("ventilated_s"), dimension=Dimension.DURATION),
        "gas gathers": ResultKind(
            needs_wait=False, ask=_gas_gathers, words=tuple(each.value for each in PoolSide)
        ),
        "dam heat": ResultKind(needs_wait=False, ask=_dam_heat),
        "way out": ResultKind(needs_wait=False, ask=_of(longest_way_out_m), dimension=Dimension.LENGTH),
        "rope to spare": ResultKind(
            needs_wait=False,
            ask=_of(least_rope_to_spare_m),
            dimension=Dimension.LENGTH,
        ),
        "dams surely hold": ResultKind(needs_wait=False, ask=_of(dams_hold_pa), dimension=Dimension.PRESSURE),
        "dams surely slip": ResultKind(needs_wait=False, ask=_of(dams_slip_pa), dimension=Dimension.PRESSURE),
    }
)
