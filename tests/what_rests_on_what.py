"""Which answers of a run rest on which field of a set-up, written down once, field by field.

A row holds for its field and all below it that have no row of their own. Answers are named by how their paths
begin, without the numbers of lists.
"""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class RestsOn:
    """`goes`: without the field they are missing. `otherwise`: they may come out otherwise, or only then come up.

    The second kind rests on a usual value that stands in for the field (a taped joint, one vent, a sound hose),
    or on what else is known (rates from readings alone, all of the gas where its way out is not known).
    """

    goes: tuple[str, ...] = ()
    otherwise: tuple[str, ...] = ()


_POCKET = "section.pocket_beyond_vent_fraction"
_AFTER_PURGE = ("root", "gas_used.wasted_l", "cost.lost_joint", "cost.total", "cost.wasted_gas")
_PURGE = ("purge", *_AFTER_PURGE, "readings")
_COURSE = ("inlet", *_PURGE)
_HOLDING = "vent.flow_that_holds_air_out_l_min"
_AT_VENT = ("vent.velocity_m_s", "vent.pressure", "vent.reaches_pool_head_s")
_JOINTS = (
    "supply.joints", "supply.supplies_needed", "supply.left_over_l", "supply.change_below",
    "supply.joints_last_h",
)  # fmt: skip
_AMOUNTS = ("gas_used", "cost", *_JOINTS)
_HEAT = ("dams.temperature_c", "dams.steady_c", "dams.safe_distance_m", "near_heat.temperature_c", "near_heat.safe_distance_mm")  # fmt: skip
_DAM_HOLDS = ("dams.surely_holds_pa", "dams.surely_slips_pa")
_ONE_PASS = tuple(each for each in _HEAT if each != "dams.steady_c")  # what no number of passes exceeds
_OF_FLOW = (*_COURSE, *_AT_VENT, *_AMOUNTS, "supply.runs_for_min", "hose.pressure_drop_bar", "breathing")
_OF_GAS = (*_COURSE, *_AT_VENT, _HOLDING, *_AMOUNTS, "gas", "hose", "supply", "flow", "breathing", _POCKET)
# Readings tell rates of their own without a course, and all of the gas is taken to escape where its way is not known.
_STANDS_IN = ("readings", "breathing")

WHAT_RESTS_ON_WHAT = {
    "material": RestsOn(
        goes=("root", "cost.lost_joint", "cost.total", "gas.verdict", "vent.bridging_pressure_pa", "vent.pool_head_pa",
              "vent.reaches_pool_head_s", *_HEAT),
    ),
    "pipe": RestsOn(goes=("pipe", "section", *_COURSE, *_AT_VENT, _HOLDING, *_HEAT, *_DAM_HOLDS, "breathing.pipe_pool"), otherwise=_STANDS_IN),
    "section": RestsOn(goes=("section", *_COURSE, *_AT_VENT, _HOLDING, "dams.temperature_c", "dams.steady_c", "dams.rope_long_enough", "breathing.pipe_pool"), otherwise=(_HOLDING, *_STANDS_IN)),
    "section.slope": RestsOn(otherwise=(_POCKET, *_PURGE, _HOLDING, "breathing.pipe_pool")),
    "section.path.branch": RestsOn(otherwise=("section", *_COURSE, *_AT_VENT, _HOLDING)),  # a spool without it
    "section.path.straight_flange": RestsOn(otherwise=("section", *_PURGE)),
    "section.left_end": RestsOn(goes=("dams.rope_long_enough",)),
    "section.path.slope": RestsOn(otherwise=(_POCKET, *_PURGE, _HOLDING)),
    "inlet": RestsOn(goes=(_POCKET, *_COURSE, *_AT_VENT, _HOLDING), otherwise=("readings",)),
    "inlet.bore": RestsOn(),
    "vent": RestsOn(goes=(_POCKET, *_COURSE, *_AT_VENT, _HOLDING), otherwise=_STANDS_IN),
    "vent.count": RestsOn(otherwise=(*_PURGE, *_AT_VENT, _HOLDING, "breathing")),
    "vent.blocked": RestsOn(otherwise=(_POCKET, *_COURSE, *_AT_VENT, _HOLDING, "breathing")),
    "vents": RestsOn(goes=(_POCKET, *_COURSE, *_AT_VENT, _HOLDING), otherwise=_STANDS_IN),
    "vents.count": RestsOn(otherwise=(*_PURGE, *_AT_VENT, _HOLDING, "breathing")),
    "vents.blocked": RestsOn(otherwise=(_POCKET, *_COURSE, *_AT_VENT, _HOLDING, "breathing")),
    "joint": RestsOn(otherwise=(_POCKET, *_COURSE, "vent", "breathing")),
    "joint.gap": RestsOn(goes=(*_COURSE, "vent"), otherwise=_STANDS_IN),
    "joint.taped": RestsOn(goes=(*_COURSE, *_AT_VENT), otherwise=_STANDS_IN),
    "joint.left_open": RestsOn(goes=("vent.pressure_at_last_of_joint_pa", "vent.reaches_pool_head_s")),
    "joint.pool_depth": RestsOn(goes=("vent.pool_head_pa", "vent.reaches_pool_head_s")),
    "gas": RestsOn(goes=_OF_GAS, otherwise=_STANDS_IN),
    "gas.oxygen": RestsOn(otherwise=("gas.oxygen", *_PURGE)),
    "gas.purity": RestsOn(goes=("gas.oxygen_at_most_ppm",), otherwise=("gas.oxygen", *_PURGE)),
    "gas.frost_point": RestsOn(goes=("gas.moisture_ppm",)),
    "flow": RestsOn(goes=_OF_FLOW, otherwise=("vent.pressure", "purge.trace", *_STANDS_IN)),
    "flow.hold": RestsOn(otherwise=("vent.pressure",)),
    "flow.hold_for": RestsOn(goes=("purge.highest_in_hold_ppm", *_AMOUNTS)),
    "flow.after_for": RestsOn(goes=("gas_used.after_arc_l",), otherwise=_AMOUNTS),
    "flow.stages": RestsOn(otherwise=_OF_FLOW),
    "meter": RestsOn(goes=("flow", *_OF_FLOW), otherwise=("vent.pressure", *_STANDS_IN)),
    "target": RestsOn(
        goes=("purge.body_time_to_target_s", "purge.dead_legs", "purge.never_because", "purge.time_to_target_s",
              "purge.volume_changes_to_target", "purge.worst_place", "gas_used.wasted_l", "cost.wasted_gas"),
        otherwise=("purge.trace",),
    ),
    "wait": RestsOn(
        goes=("purge.dead_legs", "purge.highest_after_wait_ppm", "purge.highest_in_hold_ppm", "purge.oxygen_after_wait_ppm",
              "root", *_AMOUNTS),
        otherwise=("purge.trace", "breathing"),
    ),
    "hose": RestsOn(goes=("hose",)),
    "hose.open_fraction": RestsOn(otherwise=("hose.largest_flow_l_min", "hose.choked")),
    "supply": RestsOn(goes=("supply", "breathing"), otherwise=("breathing",)),
    "supply.count": RestsOn(otherwise=("supply", "breathing")),
    "supply.daily_loss": RestsOn(otherwise=("supply", "breathing")),
    "supply.residual": RestsOn(otherwise=("supply.residual_fraction", "supply.usable_l", "supply.runs_for_min", *_JOINTS)),
    "supply.stop_pressure": RestsOn(otherwise=("supply.stop_pressure_bar", "supply.usable_l", "supply.runs_for_min", *_JOINTS)),
    "supply.joints_wanted": RestsOn(goes=("supply.supplies_needed", "supply.left_over_l")),
    "supply.largest_draw": RestsOn(otherwise=("supply.deliverable_l_min",)),
    # Without it one joint follows the other at once.
    "supply.joint_every": RestsOn(otherwise=("supply.evaporates_between_joints_l", *_JOINTS)),
    "dams": RestsOn(goes=("dams",)),
    "dams.rope": RestsOn(goes=("dams.rope_long_enough",)),
    "dams.density": RestsOn(goes=_DAM_HOLDS),
    "dams.oversize": RestsOn(goes=_DAM_HOLDS),
    "arc": RestsOn(goes=_HEAT),
    "arc.passes": RestsOn(otherwise=_ONE_PASS),
    "arc.between_passes": RestsOn(otherwise=_ONE_PASS),
    "near_heat": RestsOn(goes=("near_heat",)),
    "temperature": RestsOn(otherwise=(*_PURGE, "vent.pressure", _HOLDING, *_AMOUNTS, *_HEAT, "gas", "hose", "supply", "breathing")),
    "leaks": RestsOn(otherwise=_COURSE),
    "leaks.where": RestsOn(goes=_COURSE, otherwise=("readings",)),
    "leaks.area": RestsOn(goes=_COURSE, otherwise=("readings",)),
    "scene": RestsOn(goes=("breathing.people",), otherwise=("breathing",)),
    "scene.people": RestsOn(goes=("breathing.people",), otherwise=("breathing.ventilated_s",)),
    "scene.analyser_at": RestsOn(),
    "surroundings": RestsOn(goes=("breathing",)),
    "surroundings.after": RestsOn(otherwise=("breathing",)),
    "surroundings.air_changes_per_h": RestsOn(otherwise=("breathing",)),
    "surroundings.blower": RestsOn(goes=("breathing.ventilated_s",)),
    "surroundings.floor_area": RestsOn(goes=("breathing.pool_depth_m", "breathing.people"), otherwise=("breathing.ventilated_s",)),
    "surroundings.fresh_oxygen": RestsOn(otherwise=("breathing",)),
    "surroundings.gas_temperature": RestsOn(goes=("breathing.pool_depth_m",), otherwise=("breathing",)),
    "surroundings.kind": RestsOn(goes=("breathing",), otherwise=("breathing",)),
    "surroundings.release": RestsOn(otherwise=("breathing",)),
    "surroundings.supply_inside": RestsOn(otherwise=("breathing",)),
    "readings": RestsOn(goes=("readings",), otherwise=("purge.trace",)),
    "analyser": RestsOn(),
    "prices": RestsOn(goes=("cost",), otherwise=("cost.total",)),
    "model": RestsOn(otherwise=_PURGE),
}  # fmt: skip

# What a field decides only beside something else that is there.
THROUGH_THE_HOSE = RestsOn(goes=_OF_FLOW, otherwise=_OF_FLOW)  # a stage pinches it, or it leaks
THROUGH_A_STAGE = RestsOn(goes=_OF_FLOW)  # a hold of the time line without a flow of its own
THROUGH_THE_PIPE = RestsOn(
    goes=("breathing",), otherwise=("breathing",)
)  # itself the space, where no other is told
THROUGH_OLD_FOAM = RestsOn(goes=_COURSE, otherwise=_COURSE)  # which lets air in past its edge


def row_of(path: str) -> RestsOn:
    """The row of the field, or of the nearest part above it that has one; raises KeyError where none has."""
    while path not in WHAT_RESTS_ON_WHAT:
        path, _, key = path.rpartition(".")
        if not path:
            raise KeyError(key)
    return WHAT_RESTS_ON_WHAT[path]
