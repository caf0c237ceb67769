"""Who breathes what: faces in the layer and above it, on which side it lies, and the time until it is blown out."""

import math

import pytest
from air_examples import FRESH, PIT, ROWS_OF_AIR, TANK_M3, air_of, people_at, still

from trainer.domain.quantities import NEVER


def test_a_lying_face_is_in_the_layer_while_a_standing_one_breathes_the_mixed_air():
    """15 L/min on 6 m2 rise 2.5 mm a minute: 0.2 m in 80 min; mixed 20.9 exp(-R t / V); by hand."""
    lying, standing = air_of(PIT, scene=people_at(("pit", "0.2 m"), ("pit", "1.5 m"))).people
    assert (lying.oxygen_frac, lying.in_layer, lying.effect) == (0.0, True, "unconscious")
    assert lying.time_to_6_s == pytest.approx(80 * 60.0)
    assert standing.oxygen_frac == pytest.approx(FRESH * math.exp(-81 * 15e-3 / 12.0))
    assert (standing.in_layer, standing.effect) == (False, "impaired without knowing")
    assert standing.time_to_19_5_s == pytest.approx(12.0 / 15e-3 * math.log(20.9 / 19.5) * 60)
    assert standing.effect_source.startswith("CSB bulletin 2003-10-B")


def test_somebody_elsewhere_is_told_of_without_figures():
    """The pool of the pit endangers nobody beside it; of the air elsewhere the set-up says nothing."""
    inside, beside, nowhere = air_of(
        PIT, scene={"people": [{"where": "pit", "face_height": "0.2 m"},
                                {"where": "open air", "face_height": "0.2 m"}, {"face_height": "0.2 m"}]}
    ).people  # fmt: skip
    assert inside.oxygen_frac == 0.0
    for person in (beside, nowhere):
        assert (person.oxygen_frac, person.in_layer, person.time_to_6_s) == (None, None, None)
    assert (beside.where, beside.face_height_m) == ("open air", 0.2)


def test_without_a_floor_nobody_can_say_whether_a_face_is_in_the_layer():
    (person,) = air_of(still("pit", "12 m^3"), scene=people_at(("pit", "0.2 m"))).people
    assert (person.oxygen_frac, person.in_layer) == (None, None)
    fanned = {**still("pit", "12 m^3"), "fan": "blows in", "fan_flow": "60 m^3/h"}
    (person,) = air_of(fanned, scene=people_at(("pit", "0.2 m"))).people
    assert person.oxygen_frac == pytest.approx(air_of(fanned).oxygen_mixed_frac)


def test_without_a_volume_the_depth_still_tells_who_is_in_the_layer():
    floor = {"kind": "pit", "floor_area": "6 m^2", "fan": "none", "release": "15 L/min", "after": "81 min"}
    lying, standing = air_of(floor, scene=people_at(("pit", "0.2 m"), ("pit", "1.5 m"))).people
    assert (lying.in_layer, lying.oxygen_frac, lying.effect) == (True, 0.0, "unconscious")
    assert (standing.in_layer, standing.oxygen_frac, standing.effect) == (False, None, None)


def test_how_long_the_release_lasted_is_needed_for_the_oxygen_and_not_for_the_times():
    still = {key: each for key, each in PIT.items() if key != "after"}
    (person,) = air_of(still, scene=people_at(("pit", "0.2 m")), wait=None).people
    assert person.oxygen_frac is None
    assert person.time_to_6_s == pytest.approx(80 * 60.0)


def test_a_level_of_the_air_that_comes_in_is_reached_at_once_and_one_held_off_never():
    thin = {**PIT, "fresh_oxygen": "19 %"}
    (person,) = air_of(thin, scene=people_at(("pit", "1.5 m"))).people
    assert person.time_to_19_5_s == 0.0
    airy = {**PIT, "fan": "draws out", "fan_flow": "60 m^3/h"}
    (person,) = air_of(airy, scene=people_at(("pit", "0.2 m"))).people
    assert (person.time_to_19_5_s, person.time_to_6_s) == (NEVER, NEVER)


def test_in_the_open_no_layer_stays():
    open_air = {**PIT, "kind": "open air"}
    (person,) = air_of(open_air, scene=people_at(("open air", "0.1 m"))).people
    assert person.in_layer is False


def test_blowing_a_pipe_out_from_nothing_takes_2_7_air_changes():
    """Row A-40: ln(20.9 / 1.4) = 2.70328 volumes of air from 0 %, by mass balance."""
    pit = {**PIT, "blower": "0.5 m^3/min"}
    air = air_of(pit, scene=people_at(("pit", "0.2 m"), ("pit", "1.5 m")))
    assert ROWS_OF_AIR["A-40"].holds(air.ventilated_s * 0.5 / 60 / 12.0)


def test_a_blower_starts_from_the_mixed_air_where_nobody_is_inside():
    mixed = FRESH * math.exp(-81 * 15e-3 / 12.0)
    by_hand_s = 12.0 / 0.5 * math.log((FRESH - mixed) / 0.014) * 60
    air = air_of({**PIT, "blower": "0.5 m^3/min"}, scene=people_at(("open air", "0.2 m")))
    assert air.ventilated_s == pytest.approx(by_hand_s)


def test_a_blower_needs_no_time_for_air_that_is_fit_and_never_gets_there_with_thin_air():
    assert air_of({**PIT, "blower": "0.5 m^3/min", "after": "1 min"}).ventilated_s == 0.0
    for fresh in ("19 %", "19.5 %"):
        assert air_of({**PIT, "blower": "0.5 m^3/min", "fresh_oxygen": fresh}).ventilated_s is NEVER


def test_helium_is_argon_turned_over():
    below = air_of(PIT, scene=people_at(("pit", "0.2 m"))).people[0]
    air = air_of(PIT, scene=people_at(("pit", "1.8 m")), gas__symbol="I2")
    assert air.pool_side == "ceiling"
    above = air.people[0]
    assert (above.oxygen_frac, above.in_layer) == (below.oxygen_frac, below.in_layer)
    assert above.time_to_6_s == pytest.approx(below.time_to_6_s, rel=1e-9)
    assert air_of(PIT, scene=people_at(("pit", "0.2 m")), gas__symbol="I2").people[0].in_layer is False


def test_nitrogen_lies_nowhere_unless_it_is_cold():
    """At -150 degC nitrogen is 28.01/28.96 x 293/123 = 2.3 times as heavy as the air around, by hand."""
    warm = air_of(PIT, gas__symbol="N1", scene=people_at(("pit", "0.1 m")))
    assert (warm.pool_side, warm.pool_depth_m, warm.people[0].in_layer) == ("nowhere", None, False)
    cold = air_of(
        {**PIT, "gas_temperature": "-150 degC"}, gas__symbol="N1", scene=people_at(("pit", "0.1 m"))
    )
    assert (cold.pool_side, cold.people[0].in_layer) == ("floor", True)
    assert cold.pool_depth_m == pytest.approx(0.2025)


def test_argon_in_the_tank_lies_as_deep_as_the_handbook_says():
    """30 L/min for 60 min, 1.8 m3, along a lying tank 22 m x 1.2 m: 0.15 m of pure argon, and 19.4 % if mixed."""
    tank = still("pipe", f"{TANK_M3!r} m^3", "30 L/min", "60 min", floor_area="26.4 m^2")
    lying, sitting = air_of(tank, scene=people_at(("pipe", "0.15 m"), ("pipe", "0.8 m"))).people
    air = air_of(tank)
    assert air.pipe_pool_depth_m == air.pool_depth_m == pytest.approx(0.15, abs=0.002)
    assert ROWS_OF_AIR["A-45"].holds(100 * air.oxygen_mixed_frac)
    assert (lying.oxygen_frac, sitting.in_layer) == (0.0, False)


def test_the_welded_pipe_itself_fills_from_the_bottom():
    """Row A-51: 0.762 m bore, dams 1.524 m apart, 0.695 m3: full to the crown when so much gas has gone in."""
    pipe = {"outside_diameter": "0.782 m", "wall": "10 mm"}
    dams = {"left_dam": "0.762 m", "right_dam": "0.762 m"}

    def depth_m(after):
        around = {"kind": "pipe", "release": "0.695 m^3/h", "after": after}
        return air_of(around, pipe=pipe, section=dams).pipe_pool_depth_m

    assert depth_m("30 min") == pytest.approx(0.381, rel=2e-3)  # half of it lies up to the axis
    assert 0.7 < depth_m("59 min") < 0.762
    assert depth_m("61 min") == pytest.approx(0.762)


def test_a_face_in_the_pipe_between_its_dams_is_told_by_the_depth_alone():
    around = {"kind": "pipe", "after": "20 s"}
    low, high = air_of(around, scene=people_at(("pipe", "0.04 m"), ("pipe", "0.1 m"))).people
    assert (low.oxygen_frac, low.in_layer) == (0.0, True)
    assert (high.oxygen_frac, high.in_layer) == (None, False)


def test_gas_in_an_upright_pipe_stands_on_its_bore_and_in_a_sloping_one_at_its_lower_end():
    """15 L/min for 20 s, 5 L on 204.85 cm2 (bore 161.5 mm): 0.2441 m upright; by hand.

    At 45 degrees the wedge below the lower end's crown holds pi R^3 tan(45 deg) = 1.654 L; each metre of axis, and so
    0.707 m of height, holds 20.485 L more: 161.5 mm x 0.7071 + (5 - 1.654) / 20.485 x 0.7071 m = 0.2297 m; by hand.
    """
    around = {"kind": "pipe", "volume": "0.2 m^3", "fan": "none", "after": "20 s"}
    upright = air_of(around, section__slope="90 deg")
    assert upright.pipe_pool_depth_m == pytest.approx(5e-3 / 0.020485, rel=1e-4)
    for slope in ("45 deg", "-45 deg"):
        assert air_of(around, section__slope=slope).pipe_pool_depth_m == pytest.approx(0.2297, rel=1e-3)
    assert air_of(around, section__slope="0 deg").pipe_pool_depth_m < 0.01
