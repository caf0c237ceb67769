"""What a set-up does to the air around it: against the reference rows, by hand, and in shape."""

import json
import math

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from reference_rows import reference_rows
from set_up_examples import POLICY, codes, document, set_up

from trainer.cli import main
from trainer.domain.core_results import CoreResults, NotKnown
from trainer.domain.quantities import NEVER
from trainer.domain.run_breathing import breathing_result
from trainer.domain.set_up import SetUp
from trainer.set_up_files import SetUpFaults, read_set_up

_SHAPE = settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
_FRESH = 0.209
_ROWS_OF_AIR = reference_rows("atmosphere_checks")


def _air(surroundings, **changes):
    return breathing_result(set_up(surroundings=surroundings, **changes))


def _still(kind, volume, release="20 L/min", after="30 min", **more):
    return {"kind": kind, "volume": volume, "fan": "none", "release": release, "after": after, **more}


def _fanned(fan, flow, volume, release, after="60 min"):
    return {**_still("vessel", volume, release, after), "fan": fan, "fan_flow": flow}


def _people(*people):
    return {"people": [{"where": where, "face_height": height} for where, height in people]}


_TRENCH, _VESSEL, _ROOM = "3.24 m^3", "3 m^3", "15 m^3"
_PIPE_M3 = math.pi / 4 * 0.762**2 * 12.192
_TANK_M3 = math.pi / 4 * 1.2**2 * 22.0


def _percent(surroundings):
    return 100 * _air(surroundings).oxygen_mixed_frac


def _minutes(surroundings, level):
    return getattr(_air(surroundings), f"time_to_{level}_s") / 60


def _extract(release):
    room = {"kind": "room", "volume": _ROOM, "fan": "draws out", "release": release}
    return 60 * _air(room).ventilation_needed_m3_s


def _blown_minutes():
    """The vessel brought to 12 % by 20 L/min first, then blown out with 1 m3/min."""
    to_12_min = 3000 / 20 * math.log(20.9 / 12)
    vessel = _still("vessel", _VESSEL, after=f"{60 * to_12_min!r} s", blower="1 m^3/min")
    return _air(vessel).ventilated_s / 60


def _pooled(**more):
    return _air(_still("trench", _TRENCH, floor_area="2.7 m^2", **more))


def _reaches_kneeling():
    trench = _still("trench", "30 m^3", floor_area="2.7 m^2")
    (kneeling,) = _air(trench, scene=_people(("trench", "0.5 m"))).people
    return kneeling.time_to_6_s / 60


# Rows of atmosphere_checks.csv that a set-up can ask, each in the row's own unit.
_ROWS = {
    "A-01": lambda: _percent(_still("trench", _TRENCH)),
    "A-02": lambda: _percent(_still("trench", _TRENCH, "100 L/min")),
    "A-03": lambda: _percent(_still("vessel", _VESSEL)),
    "A-04": lambda: _percent(_still("vessel", _VESSEL, "10 L/min", "60 min")),
    "A-05": lambda: _percent(_still("room", _ROOM, "30 L/min", "120 min")),
    "A-06": lambda: _percent(_still("vessel", f"{_PIPE_M3!r} m^3", after="60 min")),
    "A-07": lambda: _minutes(_still("trench", _TRENCH), "19_5"),
    "A-08": lambda: _minutes(_still("trench", _TRENCH), "18"),
    "A-09": lambda: _minutes(_still("trench", _TRENCH), "16"),
    "A-10": lambda: _minutes(_still("trench", _TRENCH), "10"),
    "A-11": lambda: _minutes(_still("vessel", _VESSEL), "19_5"),
    "A-12": lambda: _minutes(_still("vessel", _VESSEL), "18"),
    "A-13": lambda: _minutes(_still("vessel", _VESSEL), "16"),
    "A-14": lambda: _minutes(_still("vessel", _VESSEL), "10"),
    "A-15": lambda: _minutes(_still("room", _ROOM, "100 L/min"), "19_5"),
    "A-16": lambda: _minutes(_still("room", _ROOM, "100 L/min"), "18"),
    "A-17": lambda: _minutes(_still("room", _ROOM, "100 L/min"), "16"),
    "A-18": lambda: _minutes(_still("room", _ROOM, "100 L/min"), "10"),
    "A-19": lambda: _percent(_fanned("blows in", "1.5 m^3/min", _ROOM, "50 L/min")),
    "A-20": lambda: 100 * _air(_fanned("blows in", "1.5 m^3/min", _ROOM, "50 L/min")).steady_frac,
    "A-21": lambda: _percent(_fanned("draws out", "1.5 m^3/min", _ROOM, "50 L/min")),
    "A-22": lambda: 100 * _air(_fanned("draws out", "1.5 m^3/min", _ROOM, "50 L/min")).steady_frac,
    "A-23": lambda: _minutes(_fanned("blows in", "0.5 m^3/min", _VESSEL, "100 L/min"), "19_5"),
    "A-24": lambda: _percent(_fanned("draws out", "0.05 m^3/min", _VESSEL, "100 L/min", "30 min")),
    "A-25": lambda: _extract("20 L/min"),
    "A-26": lambda: _extract("100 L/min"),
    "A-27": lambda: _air(_still("room", _ROOM)).air_changes_needed_per_h,
    "A-41": _blown_minutes,
    "A-42": lambda: _pooled().pool_depth_m,
    "A-43": _reaches_kneeling,
    "A-45": lambda: _percent(_still("vessel", f"{_TANK_M3!r} m^3", "30 L/min", "60 min")),
    "A-47": lambda: 100 * _air(_fanned("draws out", "57 m^3/min", _ROOM, "100 L/min")).steady_frac,
}


@pytest.mark.parametrize("row_id", list(_ROWS))
def test_a_set_up_answers_the_reference_rows(row_id):
    assert _ROWS_OF_AIR[row_id].holds(_ROWS[row_id]())


# ------------------------------------------------------------------ people, person by person

_PIT = _still("pit", "12 m^3", "15 L/min", "81 min", floor_area="6 m^2")


def test_a_lying_face_is_in_the_layer_while_a_standing_one_breathes_the_mixed_air():
    """15 L/min on 6 m2 rise 2.5 mm a minute: 0.2 m in 80 min; mixed 20.9 exp(-R t / V); by hand."""
    lying, standing = _air(_PIT, scene=_people(("pit", "0.2 m"), ("pit", "1.5 m"))).people
    assert (lying.oxygen_frac, lying.in_layer, lying.effect) == (0.0, True, "unconscious")
    assert lying.time_to_6_s == pytest.approx(80 * 60.0)
    assert standing.oxygen_frac == pytest.approx(_FRESH * math.exp(-81 * 15e-3 / 12.0))
    assert (standing.in_layer, standing.effect) == (False, "impaired without knowing")
    assert standing.time_to_19_5_s == pytest.approx(12.0 / 15e-3 * math.log(20.9 / 19.5) * 60)
    assert standing.effect_source.startswith("CSB bulletin 2003-10-B")


def test_somebody_elsewhere_is_told_of_without_figures():
    """The pool of the pit endangers nobody beside it; of the air elsewhere the set-up says nothing."""
    inside, beside, nowhere = _air(
        _PIT, scene={"people": [{"where": "pit", "face_height": "0.2 m"},
                                {"where": "open air", "face_height": "0.2 m"}, {"face_height": "0.2 m"}]}
    ).people  # fmt: skip
    assert inside.oxygen_frac == 0.0
    for person in (beside, nowhere):
        assert (person.oxygen_frac, person.in_layer, person.time_to_6_s) == (None, None, None)
    assert (beside.where, beside.face_height_m) == ("open air", 0.2)


def test_without_a_floor_nobody_can_say_whether_a_face_is_in_the_layer():
    (person,) = _air(_still("pit", "12 m^3"), scene=_people(("pit", "0.2 m"))).people
    assert (person.oxygen_frac, person.in_layer) == (None, None)
    fanned = {**_still("pit", "12 m^3"), "fan": "blows in", "fan_flow": "60 m^3/h"}
    (person,) = _air(fanned, scene=_people(("pit", "0.2 m"))).people
    assert person.oxygen_frac == pytest.approx(_air(fanned).oxygen_mixed_frac)


def test_without_a_volume_the_depth_still_tells_who_is_in_the_layer():
    floor = {"kind": "pit", "floor_area": "6 m^2", "fan": "none", "release": "15 L/min", "after": "81 min"}
    lying, standing = _air(floor, scene=_people(("pit", "0.2 m"), ("pit", "1.5 m"))).people
    assert (lying.in_layer, lying.oxygen_frac, lying.effect) == (True, 0.0, "unconscious")
    assert (standing.in_layer, standing.oxygen_frac, standing.effect) == (False, None, None)


def test_how_long_the_release_lasted_is_needed_for_the_oxygen_and_not_for_the_times():
    still = {key: each for key, each in _PIT.items() if key != "after"}
    (person,) = _air(still, scene=_people(("pit", "0.2 m")), wait=None).people
    assert person.oxygen_frac is None
    assert person.time_to_6_s == pytest.approx(80 * 60.0)


def test_a_level_of_the_air_that_comes_in_is_reached_at_once_and_one_held_off_never():
    thin = {**_PIT, "fresh_oxygen": "19 %"}
    (person,) = _air(thin, scene=_people(("pit", "1.5 m"))).people
    assert person.time_to_19_5_s == 0.0
    airy = {**_PIT, "fan": "draws out", "fan_flow": "60 m^3/h"}
    (person,) = _air(airy, scene=_people(("pit", "0.2 m"))).people
    assert (person.time_to_19_5_s, person.time_to_6_s) == (NEVER, NEVER)


def test_in_the_open_no_layer_stays():
    open_air = {**_PIT, "kind": "open air"}
    (person,) = _air(open_air, scene=_people(("open air", "0.1 m"))).people
    assert person.in_layer is False


# ------------------------------------------------------------------ rescue


def test_blowing_a_pipe_out_from_nothing_takes_2_7_air_changes():
    """Row A-40: ln(20.9 / 1.4) = 2.70328 volumes of air from 0 %, by mass balance."""
    pit = {**_PIT, "blower": "0.5 m^3/min"}
    air = _air(pit, scene=_people(("pit", "0.2 m"), ("pit", "1.5 m")))
    assert _ROWS_OF_AIR["A-40"].holds(air.ventilated_s * 0.5 / 60 / 12.0)


def test_a_blower_starts_from_the_mixed_air_where_nobody_is_inside():
    mixed = _FRESH * math.exp(-81 * 15e-3 / 12.0)
    by_hand_s = 12.0 / 0.5 * math.log((_FRESH - mixed) / 0.014) * 60
    air = _air({**_PIT, "blower": "0.5 m^3/min"}, scene=_people(("open air", "0.2 m")))
    assert air.ventilated_s == pytest.approx(by_hand_s)


def test_a_blower_needs_no_time_for_air_that_is_fit_and_never_gets_there_with_thin_air():
    assert _air({**_PIT, "blower": "0.5 m^3/min", "after": "1 min"}).ventilated_s == 0.0
    for fresh in ("19 %", "19.5 %"):
        assert _air({**_PIT, "blower": "0.5 m^3/min", "fresh_oxygen": fresh}).ventilated_s is NEVER


# ------------------------------------------------------------------ where the gas lies


def test_helium_is_argon_turned_over():
    below = _air(_PIT, scene=_people(("pit", "0.2 m"))).people[0]
    air = _air(_PIT, scene=_people(("pit", "1.8 m")), gas__symbol="I2")
    assert air.pool_side == "ceiling"
    above = air.people[0]
    assert (above.oxygen_frac, above.in_layer) == (below.oxygen_frac, below.in_layer)
    assert above.time_to_6_s == pytest.approx(below.time_to_6_s, rel=1e-9)
    assert _air(_PIT, scene=_people(("pit", "0.2 m")), gas__symbol="I2").people[0].in_layer is False


def test_nitrogen_lies_nowhere_unless_it_is_cold():
    """At -150 degC nitrogen is 28.01/28.96 x 293/123 = 2.3 times as heavy as the air around, by hand."""
    warm = _air(_PIT, gas__symbol="N1", scene=_people(("pit", "0.1 m")))
    assert (warm.pool_side, warm.pool_depth_m, warm.people[0].in_layer) == ("nowhere", None, False)
    cold = _air({**_PIT, "gas_temperature": "-150 degC"}, gas__symbol="N1", scene=_people(("pit", "0.1 m")))
    assert (cold.pool_side, cold.people[0].in_layer) == ("floor", True)
    assert cold.pool_depth_m == pytest.approx(0.2025)


def test_argon_in_the_tank_lies_as_deep_as_the_handbook_says():
    """30 L/min for 60 min, 1.8 m3, along a lying tank 22 m x 1.2 m: 0.15 m of pure argon, and 19.4 % if mixed."""
    tank = _still("pipe", f"{_TANK_M3!r} m^3", "30 L/min", "60 min", floor_area="26.4 m^2")
    lying, sitting = _air(tank, scene=_people(("pipe", "0.15 m"), ("pipe", "0.8 m"))).people
    air = _air(tank)
    assert air.pipe_pool_depth_m == air.pool_depth_m == pytest.approx(0.15, abs=0.002)
    assert _ROWS_OF_AIR["A-45"].holds(100 * air.oxygen_mixed_frac)
    assert (lying.oxygen_frac, sitting.in_layer) == (0.0, False)


def test_the_welded_pipe_itself_fills_from_the_bottom():
    """Row A-51: 0.762 m bore, dams 1.524 m apart, 0.695 m3: full to the crown when so much gas has gone in."""
    pipe = {"outside_diameter": "0.782 m", "wall": "10 mm"}
    dams = {"left_dam": "0.762 m", "right_dam": "0.762 m"}

    def depth_m(after):
        around = {"kind": "pipe", "release": "0.695 m^3/h", "after": after}
        return _air(around, pipe=pipe, section=dams).pipe_pool_depth_m

    assert depth_m("30 min") == pytest.approx(0.381, rel=2e-3)  # half of it lies up to the axis
    assert 0.7 < depth_m("59 min") < 0.762
    assert depth_m("61 min") == pytest.approx(0.762)


def test_a_face_in_the_pipe_between_its_dams_is_told_by_the_depth_alone():
    around = {"kind": "pipe", "after": "20 s"}
    low, high = _air(around, scene=_people(("pipe", "0.04 m"), ("pipe", "0.1 m"))).people
    assert (low.oxygen_frac, low.in_layer) == (0.0, True)
    assert (high.oxygen_frac, high.in_layer) == (None, False)


def test_gas_in_an_upright_pipe_stands_on_its_bore_and_in_a_sloping_one_at_its_lower_end():
    """15 L/min for 20 s, 5 L on 204.85 cm2 (bore 161.5 mm): 0.2441 m upright; by hand.

    At 45 degrees the wedge below the lower end's crown holds pi R^3 tan(45 deg) = 1.654 L; each metre of axis, and so
    0.707 m of height, holds 20.485 L more: 161.5 mm x 0.7071 + (5 - 1.654) / 20.485 x 0.7071 m = 0.2297 m; by hand.
    """
    around = {"kind": "pipe", "volume": "0.2 m^3", "fan": "none", "after": "20 s"}
    upright = _air(around, section__slope="90 deg")
    assert upright.pipe_pool_depth_m == pytest.approx(5e-3 / 0.020485, rel=1e-4)
    for slope in ("45 deg", "-45 deg"):
        assert _air(around, section__slope=slope).pipe_pool_depth_m == pytest.approx(0.2297, rel=1e-3)
    assert _air(around, section__slope="0 deg").pipe_pool_depth_m < 0.01


# ------------------------------------------------------------------ what escapes here


def test_only_what_the_joint_lets_out_stays_where_the_vent_is_led_away():
    """Gap 2 mm all round a bore of 161.5 mm, a tenth open, 101.5 mm2, beside a vent of 28.27 mm2: 78.2 %; by hand."""
    around = {key: each for key, each in _PIT.items() if key != "release"}

    def escaping(**changes):
        return _air(around, **changes).release_m3_s * 60000

    assert escaping() == pytest.approx(15.0)
    assert escaping(scene={"vent_leads_to": "pit"}) == pytest.approx(15.0)
    away = {"vent_leads_to": "open air"}
    assert escaping(scene=away) == 0.0
    assert escaping(scene=away, joint=None) == 0.0
    open_joint = {"gap": "2 mm", "taped": 0.9}
    gap_mm2 = math.pi * 161.5 * 2 * 0.1
    vent_mm2 = math.pi / 4 * 36.0
    assert escaping(scene=away, joint=open_joint) == pytest.approx(
        15 * gap_mm2 / (gap_mm2 + vent_mm2), rel=1e-3
    )
    assert escaping(scene=away, joint={"taped": 0.9}) == pytest.approx(
        15.0
    )  # how much is not known: all counts


def test_a_stated_release_wins():
    around = {**_PIT, "release": "3 L/min"}
    air = _air(around, scene={"vent_leads_to": "open air"})
    assert air.release_m3_s * 60000 == pytest.approx(3.0)


_DEWAR = {
    "kind": "liquid dewar",
    "water_volume": "180 L",
    "pressure": "9 bar",
    "fill": 0.95,
    "daily_loss": "3 %",
}


def _standing(kind="van", **more):
    return {"kind": kind, "volume": "10 m^3", "floor_area": "5 m^2", "fan": "none", "after": "8 h", **more}


def test_a_dewar_in_a_closed_van_makes_the_air_unfit_within_a_working_day():
    """122 m3 of gas at 15 degC, 3 % a day, into 10 m3: t = V / R ln(20.9 / 19.5); by hand."""
    air = _air(_standing(), supply=_DEWAR, flow=None, temperature="15 degC")
    by_hand_m3_h = 122.0 * 0.03 / 24 * 1e5 / 101325
    assert air.boil_off_m3_s * 3600 == pytest.approx(by_hand_m3_h, rel=5e-3)
    assert air.time_to_19_5_s / 3600 == pytest.approx(10.0 / by_hand_m3_h * math.log(20.9 / 19.5), rel=5e-3)
    assert air.boil_off_steady_frac == 0.0
    assert air.air_changes_needed_per_h == pytest.approx(by_hand_m3_h * 20.9 / 1.4 / 10.0, rel=5e-3)


def test_five_nitrogen_dewars_in_a_basement_take_it_down_as_published():
    """Rows A-32 and A-33: five 10 L dewars, 0.15 L a day doubled for age, 0.044 m3/h; 36 m3 at 0.4 air changes an hour
    fall by 0.06 % from 21 %. The publication takes 700 volumes of gas from one of liquid, CoolProp gives 695.
    """
    dewars = {"kind": "liquid dewar", "water_volume": "10 L", "pressure": "0 bar", "fill": 0.95, "count": 5,
              "daily_loss": f"{100 * 0.3 / 9.5!r} %"}  # fmt: skip
    basement = {"kind": "room", "volume": "36 m^3", "air_changes_per_h": 0.4, "fresh_oxygen": "21 %"}
    air = _air(basement, supply=dewars, gas={"symbol": "N1"}, flow=None)
    assert air.boil_off_m3_s * 3600 == pytest.approx(_ROWS_OF_AIR["A-32"].expected, rel=2e-2)
    assert _ROWS_OF_AIR["A-33"].holds(21.0 - 100 * air.boil_off_steady_frac)


def test_boil_off_is_cold_so_that_nitrogen_from_a_dewar_lies_on_the_floor():
    nitrogen = {"supply": _DEWAR, "flow": None, "gas": {"symbol": "N1"}}
    assert _air(_standing(), **nitrogen).pool_side == "floor"
    assert _air(_standing(gas_temperature="20 degC"), **nitrogen).pool_side == "nowhere"
    assert _air(_standing(release="20 L/min"), **nitrogen).pool_side == "nowhere"


def test_what_is_drawn_is_boil_off_first_and_all_of_it_vents_while_nothing_is_drawn():
    boil_off = _air(_standing(), supply=_DEWAR, flow=None).release_m3_s
    assert _air(_standing(), supply=_DEWAR).release_m3_s * 60000 == pytest.approx(15.0)
    led_out = _air(_standing(), supply=_DEWAR, scene={"vent_leads_to": "open air"})
    assert led_out.release_m3_s == boil_off > 0.0


@pytest.mark.parametrize(
    ("kind", "inside", "boils_off"),
    [("van", None, True), ("room", None, True), ("pit", None, False), ("vessel", None, False),
     ("vessel", True, True), ("room", False, False), ("open air", None, False)],
)  # fmt: skip
def test_a_supply_stands_in_rooms_and_vans_unless_it_is_said_where(kind, inside, boils_off):
    around = _standing(kind) if inside is None else _standing(kind, supply_inside=inside)
    assert (_air(around, supply=_DEWAR).boil_off_m3_s is not None) is boils_off


def test_a_draught_holds_the_mixed_air_up_and_leaves_the_layer():
    airy = {key: each for key, each in _PIT.items() if key != "fan"} | {"air_changes_per_h": 4}
    air = _air(airy, scene=_people(("pit", "0.2 m")))
    assert air.steady_frac == pytest.approx(
        _FRESH * (1 - 0.9 / 48.0)
    )  # R = 0.9 m3/h, Q = 4 x 12 m3/h; by hand
    assert air.people[0].in_layer
    assert air.time_to_19_5_s is NEVER


# ------------------------------------------------------------------ the whole supply


def test_all_of_a_cylinder_let_go_leaves_what_displacement_and_mixing_leave():
    """Row A-35: 50 L at 200 bar is 10.7627 m3 at 20 degC and 1 atm when filled at 15 degC; here the room is at 15 degC.
    At once 20.9 (1 - Vg / V), slowly 20.9 exp(-Vg / V); BCGA GN11 section 3.2 and the slow limit of case C.
    """
    room = _still("room", "40 m^3")
    air = _air(room, temperature="15 degC")
    gas_m3 = 10.7627 * 288.15 / 293.15
    assert 40.0 * (1 - air.supply_emptied_frac / _FRESH) == pytest.approx(gas_m3, rel=5e-3)
    assert -40.0 * math.log(air.supply_leaked_frac / _FRESH) == pytest.approx(gas_m3, rel=5e-3)


def test_more_gas_than_room_leaves_nothing_to_breathe():
    """Row A-39: 180 L of liquid argon into 60 m3."""
    air = _air(_still("room", "60 m^3"), supply={**_DEWAR, "pressure": "0 bar"})
    assert air.supply_emptied_frac == 0.0
    assert 0.0 < air.supply_leaked_frac < 0.06


def test_a_160_l_nitrogen_dewar_takes_a_large_room_below_the_limit():
    """Row A-31: 70 x 70 x 10 ft; the publication says only: below 19.5 %."""
    room = _still("room", f"{70 * 70 * 10 * 0.3048**3!r} m^3")
    dewar = {**_DEWAR, "water_volume": "160 L", "pressure": "0 bar"}
    assert _air(room, supply=dewar, gas={"symbol": "N1"}).supply_emptied_frac < 0.195


def _liquid_nitrogen(litres):
    """So much liquid at no pressure, in a vessel with a twentieth of vapour over it."""
    return {**_DEWAR, "water_volume": f"{litres / 0.95!r} L", "pressure": "0 bar"}


def test_a_litre_of_liquid_nitrogen_in_a_cubic_metre_leaves_what_is_published():
    """Rows A-29 and A-30: 0.68 m3 of gas from a litre, which it has at 15 degC; 6.7 % is left, and 0.2 L leave 18 %."""
    cold = {"gas": {"symbol": "N1"}, "temperature": "15 degC"}
    room = _still("room", "1 m^3")
    emptied = _air(room, supply=_liquid_nitrogen(1.0), **cold).supply_emptied_frac
    assert _ROWS_OF_AIR["A-29"].holds(100 * emptied)
    assert 100 * _air(room, supply=_liquid_nitrogen(0.2), **cold).supply_emptied_frac == pytest.approx(
        18, rel=1e-2
    )


def test_a_cylinder_taken_as_ideal_gas_leaves_a_little_more_than_it_does():
    """Row A-28: 20 L at 200 bar taken as 4 m3 in 57.096 m3 leave 19.53 % of 21 %. By row A-35 they are 4.23 m3 at
    15 degC and 1 atm (10.7627 m3 x 20 / 50 x 288.15 / 293.15), and leave a little less.
    """
    room = _still("room", "57.096 m^3", fresh_oxygen="21 %")
    cylinder = {"kind": "single cylinder", "water_volume": "20 L", "pressure": "200 bar"}
    emptied = 100 * _air(room, supply=cylinder, temperature="15 degC").supply_emptied_frac
    assert 19.4 < emptied < _ROWS_OF_AIR["A-28"].expected
    assert 57.096 * (1 - emptied / 21) == pytest.approx(10.7627 * 0.4 * 288.15 / 293.15, rel=5e-3)


def test_of_a_supply_in_the_open_nothing_is_said():
    assert _air(_still("open air", "100 m^3")).supply_emptied_frac is None


# ------------------------------------------------------------------ cautions


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"surroundings": _PIT, "scene": _people(("pit", "1.9 m")), "gas__symbol": "I2"}, "collects-at-ceiling"),
        ({"scene": _people(("pipe", "0.05 m"))}, "inside-purged-pipe"),
        ({"surroundings": _standing(), "supply": _DEWAR, "flow": None}, "boil-off-collects"),
        ({"surroundings": _standing("room", volume="50 m^3")}, "supply-could-empty-here"),
        ({"surroundings": _standing("vessel", supply_inside=True)}, "supply-could-empty-here"),
        ({"surroundings__fresh_oxygen": "24 %"}, "enriched-air"),
    ],
    ids=lambda value: str(value)[:40],
)  # fmt: skip
def test_what_endangers_people_is_said(changes, code):
    assert code in codes(**changes)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"surroundings": _PIT, "scene": _people(("pit", "1.7 m")), "gas__symbol": "I2"}, "collects-at-ceiling"),
        ({"surroundings": _PIT, "scene": _people(("pit", "1.9 m"))}, "collects-at-ceiling"),
        ({"scene": _people(("room", "0.05 m"))}, "inside-purged-pipe"),
        ({"scene": _people(("pipe", "0.05 m")), "flow": None}, "inside-purged-pipe"),
        ({"surroundings": _standing(air_changes_per_h=1), "supply": _DEWAR, "flow": None}, "boil-off-collects"),
        ({"surroundings": _standing("pit")}, "supply-could-empty-here"),
        ({"surroundings": _standing(supply_inside=False)}, "supply-could-empty-here"),
        ({"surroundings__fresh_oxygen": "23.5 %"}, "enriched-air"),
    ],
    ids=lambda value: str(value)[:40],
)  # fmt: skip
def test_what_does_not_is_not(changes, code):
    assert code not in codes(**changes)


def test_nobody_is_warned_of_a_layer_that_is_not_there():
    away = {"vent_leads_to": "open air", **_people(("pit", "0 m"))}
    around = {key: each for key, each in _PIT.items() if key != "release"}
    assert "asphyxiation" not in codes(surroundings=around, scene=away)


# ------------------------------------------------------------------ through the command


def _solve(given):
    return CliRunner().invoke(main, ["solve", "-"], input=json.dumps(given))


def test_the_command_answers_for_every_person_and_for_the_rescue():
    given = document(
        surroundings={**_PIT, "blower": "0.5 m^3/min"}, scene=_people(("pit", "0.2 m"), ("room", "1 m"))
    )
    answered = _solve(given)
    assert answered.exit_code == 0
    air = json.loads(answered.stdout)["breathing"]
    inside, outside = air["people"]
    assert outside == {"where": "room", "face_height_m": 1.0}
    assert (inside["oxygen_percent"], inside["in_layer"], inside["effect"]) == (0.0, True, "unconscious")
    assert set(inside) == {
        "where", "face_height_m", "oxygen_percent", "in_layer", "effect", "effect_source", "time_to_19_5_s",
        "time_to_10_s", "time_to_6_s",
    }  # fmt: skip
    assert {"pool_side", "release_l_min", "supply_emptied_percent", "supply_leaked_percent",
            "air_changes_needed_per_h", "ventilated_s"} <= set(air)  # fmt: skip


def test_a_time_that_never_comes_is_null():
    given = document(surroundings=_PIT, scene={"vent_leads_to": "open air", **_people(("pit", "1 m"))})
    del given["surroundings"]["release"]
    air = json.loads(_solve(given).stdout)["breathing"]
    assert air["people"][0]["time_to_6_s"] is None
    assert air["time_to_6_s"] is None


def test_every_fault_of_the_surroundings_is_told_at_once():
    around = {
        "kind": "pit", "volume": "12 m^3", "floor_area": "6 m^2", "fan": "blows in", "fan_flow": "1 m^3/h",
        "air_changes_per_h": 2, "blower": "5 m^3/min",
    }  # fmt: skip
    given = document(surroundings=around, wait=None, scene=_people(("pit", "2.5 m"), ("room", "2.5 m")))
    answered = _solve(given)
    assert (answered.exit_code, answered.stdout) == (2, "")
    told = dict(line.split(": ", 1) for line in answered.stderr.splitlines())
    assert set(told) == {
        "surroundings.air_changes_per_h", "surroundings.blower", "scene.people.0.face_height",
    }  # fmt: skip
    assert "contradict fan 'blows in'" in told["surroundings.air_changes_per_h"]
    assert "surroundings.after or wait" in told["surroundings.blower"]
    assert "2000 mm" in told["scene.people.0.face_height"]


@pytest.mark.parametrize(
    ("around", "path", "says"),
    [
        ({"kind": "pit", "volume": "12 m^3", "gas_temperature": "-100 degC"}, "surroundings.gas_temperature", "floor_area"),
        ({"kind": "pipe", "volume": "12 m^3", "floor_area": "1 m^2"}, "surroundings.volume", "up to a bore of 3 m"),
        ({"kind": "pipe", "volume": "120 m^3"}, "surroundings.volume", "1000 m of length"),
        ({"kind": "room", "fresh_oxygen": "41 %"}, "surroundings.fresh_oxygen", "enriched"),
    ],
)  # fmt: skip
def test_a_space_that_cannot_be_is_refused(around, path, says):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(surroundings=around))
    told = {each.path: each.message for each in caught.value.faults}
    assert says in told[path]


def test_a_face_under_the_crown_of_its_pipe_fits_and_one_above_it_does_not():
    with pytest.raises(SetUpFaults, match="scene.people.0.face_height"):
        read_set_up(document(surroundings={"kind": "pipe"}, scene=_people(("pipe", "0.17 m"))))
    assert isinstance(
        read_set_up(document(surroundings={"kind": "pipe"}, scene=_people(("pipe", "161.5 mm")))), SetUp
    )


# ------------------------------------------------------------------ shape

_FLOWS = st.floats(0.1, 500.0)
_MINUTES = st.floats(0.1, 2000.0)


def _space(release, minutes, **more):
    return _still("pit", "12 m^3", f"{release!r} L/min", f"{minutes!r} min", floor_area="6 m^2", **more)


def _breathed(release, minutes, face_m, **more):
    return _air(_space(release, minutes, **more), scene=_people(("pit", f"{face_m!r} m")))


def _ventilated(how, m3_h):
    if how == "none":
        return {}
    if how == "draught":
        return {"air_changes_per_h": m3_h / 12.0}
    return {"fan": how, "fan_flow": f"{m3_h!r} m^3/h"}


_VENTILATION = st.builds(
    _ventilated, st.sampled_from(["none", "draught", "blows in", "draws out"]), st.floats(0.0, 1000.0)
)


@_SHAPE
@given(_FLOWS, st.floats(1.0, 3.0), _MINUTES, st.floats(0.0, 2.0), _VENTILATION)
def test_more_gas_never_raises_the_oxygen_that_anybody_breathes(release, more, minutes, face_m, airing):
    less = _breathed(release, minutes, face_m, **airing)
    worse = _breathed(release * more, minutes, face_m, **airing)
    assert worse.oxygen_mixed_frac <= less.oxygen_mixed_frac + 1e-12
    assert worse.people[0].oxygen_frac <= less.people[0].oxygen_frac + 1e-12
    assert worse.steady_frac <= less.steady_frac + 1e-12


@_SHAPE
@given(
    _FLOWS,
    _MINUTES,
    st.sampled_from(["draught", "blows in", "draws out"]),
    st.floats(0.0, 900.0),
    st.floats(0.0, 300.0),
)
def test_more_ventilation_never_lowers_the_oxygen(release, minutes, how, m3_h, more):
    less = _breathed(release, minutes, 1.0, **_ventilated(how, m3_h))
    better = _breathed(release, minutes, 1.0, **_ventilated(how, m3_h + more))
    assert better.oxygen_mixed_frac >= less.oxygen_mixed_frac - 1e-12
    assert better.people[0].oxygen_frac >= less.people[0].oxygen_frac - 1e-12


@_SHAPE
@given(_FLOWS, _MINUTES, st.floats(0.0, 2.0), _VENTILATION, st.sampled_from(["I1", "I2", "N1"]))
def test_a_lower_level_never_comes_sooner_and_nothing_is_above_fresh(
    release, minutes, face_m, airing, symbol
):
    air = _air(
        _space(release, minutes, blower="1 m^3/min", **airing),
        scene=_people(("pit", f"{face_m!r} m")), gas__symbol=symbol,
    )  # fmt: skip
    assert air.steady_frac - 1e-12 <= air.oxygen_mixed_frac <= _FRESH
    assert 0.0 <= air.people[0].oxygen_frac <= air.oxygen_mixed_frac
    for owner, levels in ((air, ("19_5", "18", "16", "10", "6")), (air.people[0], ("19_5", "10", "6"))):
        times = [getattr(owner, f"time_to_{level}_s") for level in levels]
        ordered = [math.inf if each is NEVER else each for each in times]
        assert ordered == sorted(ordered)
        assert all(each >= 0.0 for each in ordered)
    assert air.ventilated_s is not NEVER
    assert math.isfinite(air.ventilated_s)


@_SHAPE
@given(_FLOWS, _MINUTES, st.floats(0.01, 1.99))
def test_argon_and_helium_mirror_each_other_between_floor_and_ceiling(release, minutes, face_m):
    low = _breathed(release, minutes, face_m)
    high = _air(_space(release, minutes), scene=_people(("pit", f"{2.0 - face_m!r} m")), gas__symbol="I2")
    assert high.pool_depth_m == low.pool_depth_m
    assert high.people[0].time_to_6_s == pytest.approx(low.people[0].time_to_6_s, rel=1e-6)
    if abs(low.pool_depth_m - face_m) > 1e-9:
        assert high.people[0].in_layer is low.people[0].in_layer


@_SHAPE
@given(_FLOWS, _MINUTES, st.floats(0.0, 2.0))
def test_a_face_is_in_the_layer_exactly_when_the_caution_says_so(release, minutes, face_m):
    """The layer's caution alone: without a volume nothing is known of the mixed air."""
    around, scene = _space(release, minutes), _people(("pit", f"{face_m!r} m"))
    del around["volume"]
    in_layer = _air(around, scene=scene).people[0].in_layer
    assert ("asphyxiation" in codes(surroundings=around, scene=scene)) is in_layer


# ------------------------------------------------------------------ what a scenario may ask


@pytest.mark.parametrize(
    ("name", "by_hand"),
    [
        ("oxygen at a face", 0.0),
        ("air changes needed", 0.9 * 20.9 / 1.4 / 12.0),  # 0.9 m3/h into 12 m3, drawn out
        ("time to blow out", 24 * 60 * math.log(20.9 / 1.4)),  # 12 m3 over 0.5 m3/min, from no oxygen at all
    ],
)
def test_a_scenario_may_ask_for_it(name, by_hand):
    pit = {**_PIT, "blower": "0.5 m^3/min"}
    asked = set_up(surroundings=pit, scene=_people(("pit", "0.2 m"), ("pit", "1.5 m"), ("room", "0.2 m")))
    assert CoreResults(POLICY).number(asked, name) == pytest.approx(by_hand)


def test_of_a_face_that_nothing_is_known_of_nothing_is_answered():
    results = CoreResults(POLICY)
    unknown_height = {"people": [{"where": "pit", "face_height": "1 m"}, {"where": "pit"}]}
    for scene in (_people(("room", "0.2 m")), {"people": []}, unknown_height):
        with pytest.raises(NotKnown):
            results.number(set_up(surroundings=_PIT, scene=scene), "oxygen at a face")


def test_a_supply_that_stands_there_may_be_asked_about():
    asked = set_up(surroundings=_standing(air_changes_per_h=1), supply=_DEWAR, flow=None)
    results = CoreResults(POLICY)
    assert results.number(asked, "whole supply oxygen") == 0.0
    assert 0.0 < results.number(asked, "leaked supply oxygen") < 1e-4
    air = breathing_result(asked)
    assert results.number(asked, "oxygen with boil-off") == air.boil_off_steady_frac
