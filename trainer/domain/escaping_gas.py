"""What escapes into the space around the joint: of the purge, and of a liquid supply that stands there."""

from trainer.core.dewar import dewar_contents_m3
from trainer.core.gas import ATMOSPHERE_PA
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3
from trainer.core.standing_vessel import boil_off_temperature_k, vented_m3_s
from trainer.core.supply import contents_m3
from trainer.domain.flows import open_gap_area_m2, purge_flow_of, vent_outflow_of
from trainer.domain.known_parts import gas_of, section_of, temperature_of
from trainer.domain.set_up import Place, SetUp
from trainer.domain.supply_stock import LIQUID_KINDS, cylinders_of, vessels_of

_REFERENCE = ReferenceCondition.AT_15C_1BAR
# The supply of a van rides in it and that of a room stands in it; into pits, trenches, vessels and pipes none
# is taken (29 CFR 1910.252(b)(4)(iii): cylinders and machines stay outside).
_HOLDS_ITS_SUPPLY = (Place.ROOM, Place.VAN)


def is_supply_inside(set_up: SetUp) -> bool:
    """Whether the supply stands in the surroundings: as said, else where it usually does."""
    around = set_up.surroundings
    if around is None or set_up.supply is None:
        return False
    return around.kind in _HOLDS_ITS_SUPPLY if around.supply_inside is None else around.supply_inside


def release_of(set_up: SetUp) -> float | None:
    """Gas that escapes into the surroundings, at their temperature and one atmosphere.

    As stated; else what the purge lets out there, or the boil-off of a liquid supply inside where that is
    more: what is drawn is boil-off first, and while nothing is drawn all of it vents.
    """
    around = set_up.surroundings
    if around is not None and around.release_m3_s is not None:
        return around.release_m3_s
    known = (each for each in (_purge_escaping_of(set_up), boil_off_of(set_up)) if each is not None)
    return max(known, default=None)


def is_release_boil_off(set_up: SetUp) -> bool:
    """Whether what escapes is the boil-off, as cold as it boils."""
    around, boil_off = set_up.surroundings, boil_off_of(set_up)
    if around is None or around.release_m3_s is not None or not boil_off:
        return False
    return release_of(set_up) == boil_off


def _purge_escaping_of(set_up: SetUp) -> float | None:
    """The purge flow; only what the joint lets out where the vent is led to another space.

    Where it is not known how much leaves by the joint, all of it counts.
    """
    flow_m3_s = purge_flow_of(set_up)
    if flow_m3_s is None or not is_vent_led_away(set_up):
        return flow_m3_s
    section = section_of(set_up)
    if open_gap_area_m2(set_up) == 0.0:
        return 0.0
    out_m3_s = vent_outflow_of(set_up, section=section, flow_m3_s=flow_m3_s) if section is not None else None
    return flow_m3_s if out_m3_s is None else max(flow_m3_s - out_m3_s, 0.0)


def is_vent_led_away(set_up: SetUp) -> bool:
    """Whether the vent's gas is led to another space than the surroundings."""
    leads_to = set_up.scene.vent_leads_to if set_up.scene else None
    around = set_up.surroundings.kind if set_up.surroundings else None
    return leads_to is not None and around is not None and leads_to is not around


def boil_off_of(set_up: SetUp) -> float | None:
    """What a liquid supply in the surroundings vents while nothing is drawn; None where it is not known."""
    if set_up.supply is None or set_up.supply.kind not in LIQUID_KINDS or not is_supply_inside(set_up):
        return None
    vessels = vessels_of(set_up)
    if vessels is None:
        return None
    return vessels.count * vented_m3_s(vessels.each, temperature_k=temperature_of(set_up))


def supply_contents_of(set_up: SetUp) -> float | None:
    """All that the supply holds, as gas at the temperature of the surroundings and one atmosphere."""
    cylinders = cylinders_of(set_up)
    if cylinders is not None:
        held_m3 = contents_m3(cylinders, reference=_REFERENCE)
    else:
        vessels = vessels_of(set_up)
        if vessels is None:
            return None
        held_m3 = vessels.count * dewar_contents_m3(vessels.each.vessel, reference=_REFERENCE)
    here = GasState(temperature_k=temperature_of(set_up), pressure_pa=ATMOSPHERE_PA)
    return converted_volume_m3(held_m3, stated_at=_REFERENCE.state, wanted_at=here)


def gas_temperature_of(set_up: SetUp) -> float:
    """How cold the gas escapes: as stated, else as cold as it boils for boil-off, else as the air."""
    around, used = set_up.surroundings, gas_of(set_up)
    if around is not None and around.gas_temperature_k is not None:
        return around.gas_temperature_k
    if used is not None and is_release_boil_off(set_up):
        return boil_off_temperature_k(used)
    return temperature_of(set_up)
