"""The drawing shows what the set-up says. Checks are of our own drawing convention; no outside source applies."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.drawing.set_ups import a_set_up, described, drawn, part, parts, words
from trainer.core.terms import Fan, InletEnd
from trainer.domain.set_up import (
    AnalyserAt,
    Bystander,
    Dam,
    DamAge,
    DamKind,
    Hose,
    HotPart,
    InletFitting,
    Joint,
    Leak,
    Pipe,
    Place,
    Scene,
    Section,
    SetUp,
    Side,
    Supply,
    SupplyKind,
    Surroundings,
    Vent,
)
from trainer.drawing.reader import Reader
from trainer.drawing.set_up_drawing import set_up_drawing


def v_of(set_up: SetUp, name: str) -> float:
    return float(part(drawn(set_up), name).get("data-v", "nan"))


def test_an_empty_set_up_still_draws_a_pipe():
    assert part(drawn(SetUp()), "wall") is not None


def test_a_higher_vent_is_drawn_higher():
    low, high = (a_set_up(vent=Vent(height_frac=h, diameter_m=0.006)) for h in (0.1, 0.9))
    assert v_of(high, "vent") < v_of(low, "vent") - 50


def test_a_higher_inlet_is_drawn_higher():
    low, high = (a_set_up(inlet=InletFitting(height_frac=h, end=InletEnd.RAG)) for h in (0.1, 0.9))
    assert v_of(high, "inlet") < v_of(low, "inlet") - 50


def test_a_larger_vent_is_drawn_larger():
    sizes = [
        float(part(drawn(a_set_up(vent=Vent(height_frac=0.5, diameter_m=d))), "hole").get("height", "0"))
        for d in (0.012, 0.05)
    ]
    assert sizes[1] > 2 * sizes[0]


def test_a_vent_of_unknown_height_is_drawn_as_a_question():
    picture = drawn(a_set_up(vent=Vent(diameter_m=0.006)))
    assert part(picture, "not known") is not None
    assert "?" in words(picture)


@pytest.mark.parametrize("end", list(InletEnd))
def test_each_inlet_end_is_drawn_in_its_own_way(end):
    pictures = {
        each: set_up_drawing(a_set_up(inlet=InletFitting(height_frac=0.1, end=each))).split("<title")[1]
        for each in InletEnd
    }
    assert len(set(pictures.values())) == len(InletEnd)
    assert (
        part(drawn(a_set_up(inlet=InletFitting(height_frac=0.1, end=end))), f"inlet {end.value}") is not None
    )


@pytest.mark.parametrize("kind", list(DamKind))
def test_each_kind_of_dam_is_drawn(kind):
    dams = (Dam(side=Side.LEFT, kind=kind), Dam(side=Side.RIGHT, kind=kind))
    assert len(parts(drawn(a_set_up(dams=dams)), f"dam {kind.value}")) == 2


def test_old_foam_crumbles():
    new, old = (drawn(a_set_up(dams=(Dam(side=Side.LEFT, kind=DamKind.FOAM, age=age),))) for age in DamAge)
    assert part(new, "dam foam").get("data-worn") is None
    assert part(old, "dam foam").get("data-worn") == "yes"


def test_a_kinked_hose_is_drawn_kinked():
    assert parts(drawn(a_set_up()), "kink") == []
    assert part(drawn(a_set_up(hose=Hose(open_frac=0.05))), "kink") is not None


@pytest.mark.parametrize("kind", list(SupplyKind))
def test_each_supply_is_drawn_with_its_gauge(kind):
    picture = drawn(a_set_up(supply=Supply(kind=kind, pressure_pa=3e6)))
    assert part(part(picture, f"supply {kind.value}"), "gauge") is not None
    assert "30 bar" in words(picture)


def test_a_vessel_of_liquid_is_described_with_its_level():
    dewar = drawn(a_set_up(supply=Supply(kind=SupplyKind.LIQUID_DEWAR, pressure_pa=1e6, fill_frac=0.95)))
    assert "Supply: liquid dewar, its gauge at 10 bar, 95 % full of liquid." in described(dewar)
    tank = drawn(a_set_up(supply=Supply(kind=SupplyKind.BULK_TANK, fill_frac=0.4)))
    assert "Supply: bulk tank, 40 % full of liquid." in described(tank)


def test_an_unchained_cylinder_shows_its_hanging_chain():
    free, held = (drawn(a_set_up(scene=Scene(cylinder_chained=each))) for each in (False, True))
    assert part(free, "not chained") is not None
    assert part(held, "chained") is not None


def test_a_missing_cap_is_drawn_on_the_spare_cylinder():
    assert part(drawn(a_set_up(scene=Scene(cap_on=False))), "spare without cap") is not None
    assert part(drawn(a_set_up(scene=Scene(cap_on=True))), "spare capped") is not None


@pytest.mark.parametrize("place", list(Place))
def test_each_kind_of_space_is_drawn_and_named(place):
    picture = drawn(a_set_up(surroundings=Surroundings(kind=place)))
    assert part(picture, f"surroundings {place.value}") is not None
    assert place.value in words(picture)


@pytest.mark.parametrize("around", list(Place))
@pytest.mark.parametrize("slope_deg", [0.0, 3.0, 45.0, 90.0, -90.0])
def test_the_vent_hose_leads_where_the_scene_says(around, slope_deg):
    for leads_to in Place:
        set_up = a_set_up(
            section=Section(left_dam_m=0.3, right_dam_m=0.3, slope_deg=slope_deg),
            surroundings=Surroundings(kind=around),
            scene=Scene(vent_leads_to=leads_to),
        )
        picture = drawn(set_up)
        assert part(picture, f"vent hose to {leads_to.value}") is not None
        assert f"vent → {leads_to.value}" in words(picture)


def test_fans_blow_in_or_draw_out():
    for fan in (Fan.BLOWS_IN, Fan.DRAWS_OUT):
        picture = drawn(a_set_up(surroundings=Surroundings(kind=Place.ROOM, fan=fan)))
        assert part(picture, f"fan {fan.value}") is not None
    assert parts(drawn(a_set_up(surroundings=Surroundings(kind=Place.ROOM, fan=Fan.NONE))), "fan") == []


@given(low_m=st.floats(0.2, 1.4), more_m=st.floats(0.2, 1.4))
@settings(max_examples=40)
def test_a_face_held_higher_is_drawn_higher(low_m, more_m):
    people = (
        Bystander(where=Place.ROOM, face_height_m=low_m),
        Bystander(where=Place.ROOM, face_height_m=low_m + more_m),
    )
    picture = drawn(a_set_up(scene=Scene(people=people), surroundings=Surroundings(kind=Place.ROOM)))
    lower, higher = (float(each.get("data-face-y", "nan")) for each in parts(picture, "person"))
    assert higher < lower


def test_somebody_in_the_pit_stands_below_somebody_beside_it():
    people = (
        Bystander(where=Place.PIT, face_height_m=1.5),
        Bystander(where=Place.ROOM, face_height_m=1.5),
    )
    picture = drawn(a_set_up(scene=Scene(people=people), surroundings=Surroundings(kind=Place.PIT)))
    in_pit, beside = (float(each.get("data-face-y", "nan")) for each in parts(picture, "person"))
    assert in_pit > beside + 100


@pytest.mark.parametrize("around", [Place.ROOM, Place.VESSEL, Place.PIPE, Place.VAN])
def test_nobody_is_drawn_into_a_space_that_they_are_not_in(around):
    people = (
        Bystander(where=around, face_height_m=1.5),
        Bystander(where=Place.OPEN_AIR, face_height_m=1.5),
        Bystander(where=Place.PIT, face_height_m=1.5),
    )
    picture = drawn(a_set_up(scene=Scene(people=people), surroundings=Surroundings(kind=around)))
    assert len(list(parts(picture, "person"))) == 1


@pytest.mark.parametrize("at", list(AnalyserAt))
def test_the_analyser_is_drawn_where_it_samples(at):
    assert part(drawn(a_set_up(scene=Scene(analyser_at=at))), f"analyser at {at.value}") is not None


@pytest.mark.parametrize("where", ["hose fitting", "hose", "regulator", "dam edge", "joint tape", "branch"])
def test_a_leak_is_drawn_at_its_place(where):
    assert part(drawn(a_set_up(leaks=(Leak(where=where, area_m2=1e-6),))), f"leak {where}") is not None


def test_an_untaped_joint_has_no_tape():
    assert parts(drawn(a_set_up(joint=Joint(gap_m=0.003, taped_frac=0.0))), "tape") == []
    assert len(parts(drawn(a_set_up()), "tape")) == 2
    assert len(parts(drawn(a_set_up(joint=Joint(gap_m=0.003, taped_frac=0.5))), "tape")) == 1


def test_a_long_run_is_broken_and_a_short_one_is_not():
    long = a_set_up(section=Section(left_dam_m=6.0, right_dam_m=6.0))
    assert len(parts(drawn(long), "length broken")) == 2
    assert parts(drawn(a_set_up()), "length broken") == []


def test_dimensions_are_in_the_persons_units():
    assert "300 mm" in words(drawn(a_set_up()))
    assert "11.81 in" in words(drawn(a_set_up(), reader=Reader(units="us")))


def test_the_text_alternative_tells_the_parts():
    told = described(drawn(a_set_up(hose=Hose(open_frac=0.1), surroundings=Surroundings(kind=Place.TRENCH))))
    for piece in ("lies level", "168.3 mm", "Left dam: foam", "diffuser", "0.95", "kinked", "trench"):
        assert piece in told


def test_a_blocked_vent_a_rope_and_what_lies_near_the_weld_are_told():
    sheet = drawn(
        a_set_up(
            vent=Vent(height_frac=0.95, diameter_m=0.006, blocked=True),
            dams=(Dam(side=Side.LEFT, kind=DamKind.FOAM, rope_m=2.0),),
            near_heat=(HotPart(what="draw rope", distance_m=0.06),),
        )
    )
    for piece in ("6 mm, blocked.", "on a rope of 2 m", "Near the weld: draw rope, 60 mm from the joint"):
        assert piece in described(sheet)
    assert "vent 6 mm, blocked" in words(sheet)


@pytest.mark.parametrize(
    ("slope_deg", "said"),
    [(90.0, "inlet below"), (-90.0, "inlet above"), (3.0, "end higher"), (-3.0, "end lower")],
)
def test_the_text_alternative_tells_the_slope(slope_deg, said):
    section = Section(left_dam_m=0.3, right_dam_m=0.3, slope_deg=slope_deg)
    assert said in described(drawn(a_set_up(section=section)))


@given(
    slope_deg=st.floats(-90, 90),
    left_m=st.floats(0.02, 50),
    right_m=st.floats(0.02, 50),
    outside_m=st.floats(0.054, 0.61),
    height_frac=st.floats(0, 1),
)
@settings(max_examples=120, deadline=None)
def test_any_set_up_draws_inside_the_sheet(slope_deg, left_m, right_m, outside_m, height_frac):
    picture = drawn(
        a_set_up(
            pipe=Pipe(outside_diameter_m=outside_m, wall_m=0.02 * outside_m),
            section=Section(left_dam_m=left_m, right_dam_m=right_m, slope_deg=slope_deg),
            vent=Vent(height_frac=height_frac, diameter_m=0.01),
            inlet=InletFitting(height_frac=1 - height_frac, end=InletEnd.OPEN_TUBE),
        )
    )
    for each in picture.iter():
        assert "style" not in each.attrib
        for name in ("x", "y", "x1", "x2", "y1", "y2", "cx", "cy"):
            if each.get(name) is not None:
                assert abs(float(each.get(name, "nan"))) <= 810


def test_the_drawing_tells_apart_nothing_finer_than_a_tenth_of_a_unit():
    exact = a_set_up(section=Section(left_dam_m=0.3, right_dam_m=0.3, slope_deg=0.0))
    nearly = replace(exact, section=Section(left_dam_m=0.3 + 1e-6, right_dam_m=0.3, slope_deg=0.0))
    assert set_up_drawing(exact) == set_up_drawing(nearly)


def test_what_is_not_drawn_leaves_no_trace():
    plain = a_set_up()
    timed = replace(plain, wait_s=360.0, temperature_k=300.0)
    assert set_up_drawing(plain) == set_up_drawing(timed)


def test_ids_carry_the_prefix():
    picture = drawn(a_set_up(), reader=Reader(prefix="left-one"))
    ids = [each.get("id") for each in picture.iter() if each.get("id")]
    assert ids
    assert len(ids) == len(set(ids))
    assert all(each.startswith("left-one-") for each in ids if each)


def test_translated_words_are_escaped():
    shout = Reader(words=lambda text: f"<b>&{text}")
    assert "<b>" not in set_up_drawing(a_set_up(), reader=shout)
    assert drawn(a_set_up(), reader=shout) is not None
