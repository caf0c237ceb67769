"""The quantities that a policy's thresholds may name, each None where the set-up does not tell it."""

from collections.abc import Mapping

from trainer.core.gas import G as GRAVITY_M_S2
from trainer.core.gas import reduced_gravity_m_s2, sinks_in_air
from trainer.core.terms import Fan, InletEnd
from trainer.domain.flows import purge_flow_of
from trainer.domain.judged import Judged, Quantity
from trainer.domain.known_parts import gas_of, temperature_of
from trainer.domain.purge_run import Expected
from trainer.domain.quantities import NEVER, Dimension
from trainer.domain.set_up import AnalyserAt, Bystander, Place

_CLOSED_PLACES = (Place.PIT, Place.TRENCH, Place.VESSEL, Place.PIPE, Place.VAN)
_STRONG_JET_RATIO = 0.8  # from here an open tube stirs the whole bore, wherever the vent is


def _ratio(value: float | None, by: float | None) -> float | None:
    return None if value is None or by is None or by <= 0.0 else value / by


def _wait_oxygen_frac(judged: Judged) -> float | None:
    purge = judged.run.purge
    after = purge.oxygen_after_wait_frac if purge else None
    return after.expected if after else None


def _target_frac(judged: Judged) -> float | None:
    return judged.set_up.target.oxygen_frac if judged.set_up.target else None


def _limit_frac(judged: Judged) -> float | None:
    limit = judged.policy.oxygen_limits.get(judged.set_up.material) if judged.set_up.material else None
    return limit.frac if limit else None


def _floor_over_target(judged: Judged) -> float | None:
    purge = judged.run.purge
    ratio = _ratio(purge.floor_frac if purge else None, _target_frac(judged))
    # The core decides what is never reached; a ratio that rounding left just below 1 may not disagree.
    return max(1.0, ratio) if ratio is not None and purge and purge.time_to_target_s is NEVER else ratio


def _floor_facts(judged: Judged) -> Mapping[str, float | str]:
    purge = judged.run.purge
    because = purge.never_because if purge else ()
    floor_frac = (purge.floor_frac if purge else None) or 0.0
    return {
        "floor_frac": floor_frac,
        "target_frac": _target_frac(judged) or 0.0,
        "causes": ", ".join(because),
    }


def _hold_facts(judged: Judged) -> Mapping[str, float | str]:
    return {"floor_frac": judged.hold_floor_frac or 0.0, "target_frac": _target_frac(judged) or 0.0}


def _oxygen_facts(judged: Judged) -> Mapping[str, float | str]:
    known = {
        "oxygen_frac": _wait_oxygen_frac(judged), "target_frac": _target_frac(judged),
        "material_limit_frac": _limit_frac(judged), "wait_s": judged.set_up.wait_s,
    }  # fmt: skip
    return {name: value for name, value in known.items() if value is not None}


def _lowest_face(judged: Judged) -> Bystander | None:
    scene, around = judged.set_up.scene, judged.set_up.surroundings
    place = around.kind if around else None
    here = [each for each in (scene.people if scene else ()) if each.where is place or place is None]
    faces = [each for each in here if each.face_height_m is not None]
    return min(faces, key=lambda each: each.face_height_m or 0.0) if faces else None


def _face_above_pool_m(judged: Judged) -> float | None:
    lowest, breathing, used = _lowest_face(judged), judged.run.breathing, gas_of(judged.set_up)
    if lowest is None or lowest.face_height_m is None or breathing is None or breathing.pool_depth_m is None:
        return None
    if used is None or not sinks_in_air(used) or not _may_pool(judged):
        return None
    return lowest.face_height_m - breathing.pool_depth_m


def _may_pool(judged: Judged) -> bool:
    """A fan stirs a layer up, and in the open it runs off."""
    around = judged.set_up.surroundings
    return around is not None and around.fan is Fan.NONE and around.kind is not Place.OPEN_AIR


def _pool_facts(judged: Judged) -> Mapping[str, float | str]:
    lowest, breathing = _lowest_face(judged), judged.run.breathing
    return {
        "face_height_m": (lowest.face_height_m if lowest else None) or 0.0,
        "pool_depth_m": (breathing.pool_depth_m if breathing else None) or 0.0,
        **_place_facts(judged),
    }


def _place_facts(judged: Judged) -> Mapping[str, float | str]:
    around, used = judged.set_up.surroundings, gas_of(judged.set_up)
    return {"place": str(around.kind or "") if around else "", "gas": used.name if used else ""}


def _leads_to_closed_place(judged: Judged) -> float | None:
    place = judged.set_up.scene.vent_leads_to if judged.set_up.scene else None
    return None if place is None else float(place in _CLOSED_PLACES)


def _led_facts(judged: Judged) -> Mapping[str, float | str]:
    place = judged.set_up.scene.vent_leads_to if judged.set_up.scene else None
    return {**_place_facts(judged), "place": str(place or "")}


def _gas_ruled_out(judged: Judged) -> float | None:
    used = judged.set_up.gas.symbol if judged.set_up.gas else None
    if judged.set_up.material is None or used is None:
        return None
    return float(judged.policy.gas_rule(judged.set_up.material, symbol=used) is not None)


def _gas_facts(judged: Judged) -> Mapping[str, float | str]:
    used = judged.set_up.gas.symbol if judged.set_up.gas else None
    rule = judged.policy.gas_rule(judged.set_up.material, symbol=used)
    return {**_place_facts(judged), "material": str(judged.set_up.material or ""),
            "verdict": str(rule.verdict) if rule else "", "why": rule.why if rule else ""}  # fmt: skip


def _needs_no_purge(judged: Judged) -> float | None:
    material = judged.set_up.material
    return None if material is None else float(material in judged.policy.unpurged_materials)


def _pocket_frac(judged: Judged) -> float | None:
    """The trapped pocket where placement matters: not behind a strong jet, nor with a near-neutral gas."""
    section, inlet = judged.run.section, judged.run.inlet
    end = judged.set_up.inlet.end if judged.set_up.inlet else None
    jet_ratio = inlet.jet_length_ratio if inlet else None
    if end is InletEnd.OPEN_TUBE and jet_ratio is not None and jet_ratio > _STRONG_JET_RATIO:
        return None
    if _is_placement_untrusted(judged):
        return None
    return section.pocket_beyond_vent_frac if section else None


def _is_placement_untrusted(judged: Judged) -> bool:
    difference = _density_difference_frac(judged)
    rows = [each for each in judged.policy.thresholds if each.code == "placement-untrusted"]
    return difference is not None and any(each.is_met_by(difference) for each in rows)


def _density_difference_frac(judged: Judged) -> float | None:
    used = gas_of(judged.set_up)
    if used is None:
        return None
    return reduced_gravity_m_s2(used, temperature_k=temperature_of(judged.set_up)) / GRAVITY_M_S2


def _root_over_reading(judged: Judged) -> float | None:
    """How many times the reading at the vent the worst root holds when the arc is struck."""
    scene, purge, wait_s = judged.set_up.scene, judged.run.purge, judged.set_up.wait_s
    if scene is None or scene.analyser_at is not AnalyserAt.VENT or purge is None or wait_s is None:
        return None
    at_strike = [row for row in purge.trace if row[0] == wait_s]
    return _ratio(at_strike[0][1], at_strike[0][3]) if at_strike else None


def _dam_margin_k(judged: Judged) -> float | None:
    margins = [
        each.limit_c - each.temperature_c
        for each in judged.run.dams
        if each.limit_c is not None and each.temperature_c is not None
    ]
    return min(margins) if margins else None


def _dam_facts(judged: Judged) -> Mapping[str, float | str]:
    hot = [each for each in judged.run.dams if each.limit_c is not None and each.temperature_c is not None]
    worst = min(hot, key=lambda each: (each.limit_c or 0.0) - (each.temperature_c or 0.0))
    dam = judged.set_up.dams[judged.run.dams.index(worst)]
    return {
        "temperature_c": worst.temperature_c or 0.0, "dam_limit_c": worst.limit_c or 0.0,
        "dam": str(dam.kind or ""), "side": str(dam.side or ""),
    }  # fmt: skip


def _purge_time_facts(judged: Judged) -> Mapping[str, float | str]:
    purge = judged.run.purge
    time_s = purge.time_to_target_s if purge else None
    return {"time_s": time_s.expected} if isinstance(time_s, Expected) else {}


def _supply_facts(judged: Judged) -> Mapping[str, float | str]:
    supply = judged.run.supply
    return {
        "usable_m3": (supply.usable_m3 if supply else None) or 0.0,
        "needed_m3": judged.gas_needed_m3 or 0.0,
    }


def _flow_m3_s(judged: Judged) -> float | None:
    return purge_flow_of(judged.set_up)


QUANTITIES: Mapping[str, Quantity] = {
    "people.face_above_pool": Quantity(
        fact="face_above_pool_m", dimension=Dimension.LENGTH, value=_face_above_pool_m, facts=_pool_facts
    ),
    "breathing.oxygen": Quantity(
        fact="oxygen_frac", dimension=Dimension.FRACTION, facts=_place_facts,
        value=lambda judged: judged.run.breathing.oxygen_mixed_frac if judged.run.breathing else None,
    ),
    "vent.leads_to_closed_place": Quantity(
        fact="closed_place_count", dimension=None, value=_leads_to_closed_place, facts=_led_facts
    ),
    "gas.ruled_out": Quantity(fact="rule_count", dimension=None, value=_gas_ruled_out, facts=_gas_facts),
    "material.needs_no_purge": Quantity(
        fact="unpurged_count", dimension=None, value=_needs_no_purge, facts=_gas_facts
    ),
    "purge.floor_over_target": Quantity(
        fact="floor_ratio", dimension=None, value=_floor_over_target, facts=_floor_facts
    ),
    "root.oxygen_over_limit": Quantity(
        fact="oxygen_ratio", dimension=None, facts=_oxygen_facts,
        value=lambda judged: _ratio(_wait_oxygen_frac(judged), _limit_frac(judged)),
    ),
    "purge.oxygen_over_target": Quantity(
        fact="oxygen_ratio", dimension=None,
        facts=lambda judged: {**_oxygen_facts(judged), **_purge_time_facts(judged)},
        value=lambda judged: _ratio(_wait_oxygen_frac(judged), _target_frac(judged)),
    ),
    "purge.hold_floor_over_target": Quantity(
        fact="floor_ratio", dimension=None,
        facts=_hold_facts,
        value=lambda judged: _ratio(judged.hold_floor_frac, _target_frac(judged)),
    ),
    "supply.usable_over_needed": Quantity(
        fact="supply_ratio", dimension=None, facts=_supply_facts,
        value=lambda judged: _ratio(
            judged.run.supply.usable_m3 if judged.run.supply else None, judged.gas_needed_m3
        ),
    ),
    "hose.largest_over_flow": Quantity(
        fact="hose_ratio", dimension=None,
        facts=lambda judged: {
            "largest_m3_s": (judged.run.hose.largest_flow_m3_s if judged.run.hose else None) or 0.0,
            "flow_m3_s": _flow_m3_s(judged) or 0.0,
        },
        value=lambda judged: _ratio(
            judged.run.hose.largest_flow_m3_s if judged.run.hose else None, _flow_m3_s(judged)
        ),
    ),
    "dams.margin": Quantity(
        fact="margin_k", dimension=Dimension.TEMPERATURE, value=_dam_margin_k, facts=_dam_facts
    ),
    "section.pocket_beyond_vent": Quantity(
        fact="pocket_frac", dimension=Dimension.FRACTION, value=_pocket_frac, facts=_place_facts
    ),
    "gas.density_difference": Quantity(
        fact="density_difference_frac", dimension=Dimension.FRACTION, facts=_place_facts,
        value=_density_difference_frac,
    ),
    "vent.pressure_rise": Quantity(
        fact="pressure_pa", dimension=Dimension.PRESSURE,
        value=lambda judged: judged.run.vent.pressure_rise_pa if judged.run.vent else None,
    ),
    "vent.pressure_while_welding": Quantity(
        fact="pressure_pa", dimension=Dimension.PRESSURE,
        value=lambda judged: judged.pressure_while_welding_pa,
    ),
    "vent.outflow_over_needed": Quantity(
        fact="vent_ratio", dimension=None,
        facts=lambda judged: {
            "needed_m3_s": (judged.run.vent.flow_that_holds_air_out_m3_s if judged.run.vent else None) or 0.0,
            "flow_m3_s": judged.vent_outflow_m3_s or 0.0,
        },
        value=lambda judged: _ratio(
            judged.vent_outflow_m3_s,
            judged.run.vent.flow_that_holds_air_out_m3_s if judged.run.vent else None,
        ),
    ),
    "analyser.root_over_reading": Quantity(fact="root_ratio", dimension=None, value=_root_over_reading),
    "purge.untested_counts": Quantity(
        fact="untested_count", dimension=None, facts=lambda judged: {"reasons": "; ".join(judged.untested)},
        value=lambda judged: None if judged.run.purge is None else float(len(judged.untested)),
    ),
    "target.oxygen": Quantity(
        fact="target_frac", dimension=Dimension.FRACTION, value=_target_frac,
        facts=lambda _: {},
    ),
}  # fmt: skip
