"""A spool is drawn in elevation, true in slope. Checks are of our own drawing convention."""

import math
from xml.etree.ElementTree import fromstring

import pytest

from tests.drawing.read_back import SAME, SVG, Placed, corners_of
from tests.drawing.set_ups import a_set_up, drawn, part, parts, words
from tests.set_up_examples import A_RISER_WITHOUT_VENT, document
from trainer.core.spool_parts import Elbow, Run, Tee
from trainer.domain.set_up import BranchPart, PathPart, PathPartKind, Section
from trainer.drawing.inside import Inside
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.drawing.spool_elevation import part_of, seen_from_the_side
from trainer.set_up_files import read_set_up

BEND = {"bore_m": 0.1, "bend_radius_m": 0.15, "angle_deg": 90.0}


def riser(**changes):
    return read_set_up(document(**{**A_RISER_WITHOUT_VENT, **changes}, dams=None))


def ends_of(seen, name):
    of_part = part_of(seen, name)
    return of_part[0].begins, of_part[-1].ends


@pytest.mark.parametrize("slope_deg", [0.0, 20.0, -45.0, 90.0])
def test_a_run_is_seen_at_its_slope_and_length(slope_deg):
    seen = seen_from_the_side((Run(name="run", bore_m=0.1, length_m=1.0, slope_deg=slope_deg),))
    (x0, z0), (x1, z1) = ends_of(seen, "run")
    angle = math.radians(slope_deg)
    assert (x1 - x0, z1 - z0) == pytest.approx((math.cos(angle), math.sin(angle)), abs=1e-9)


def test_an_arch_goes_up_over_and_down_again():
    path = (
        Run(name="up", bore_m=0.1, length_m=0.5, slope_deg=90.0),
        Elbow(name="shoulder", to_slope_deg=0.0, **BEND),
        Run(name="top", bore_m=0.1, length_m=0.4),
        Elbow(name="far", to_slope_deg=-90.0, **BEND),
        Run(name="down", bore_m=0.1, length_m=0.5, slope_deg=-90.0),
    )
    _, (x, z) = ends_of(seen_from_the_side(path), "down")
    # By hand: two bends of 0.15 m and 0.4 m between them to the right, back at the level of the beginning.
    assert (x, z) == pytest.approx((0.7, 0.0), abs=2e-3)


def test_a_branch_straight_up_is_seen_so_and_a_level_one_on_end():
    def outlet(slope_deg):
        branch = (Run(name="branch", bore_m=0.1, length_m=0.5, slope_deg=slope_deg),)
        tee = Tee(
            name="tee", bore_m=0.1, run_length_m=0.2, outlet_m=0.1, outlet_slope_deg=slope_deg, branch=branch
        )
        return part_of(seen_from_the_side((Run(name="run", bore_m=0.1, length_m=1.0), tee)), "branch")

    upright = outlet(90.0)
    assert upright[-1].ends[0] == pytest.approx(upright[0].begins[0])
    assert not any(each.is_on_end for each in upright)
    assert all(each.is_on_end for each in outlet(0.0))


def test_a_branch_off_a_riser_is_seen_to_the_side():
    branch = (Run(name="branch", bore_m=0.1, length_m=0.5),)
    tee = Tee(name="tee", bore_m=0.1, run_length_m=0.2, outlet_m=0.1, outlet_slope_deg=0.0, branch=branch)
    seen = seen_from_the_side((Run(name="run", bore_m=0.1, length_m=1.0, slope_deg=90.0), tee))
    (x0, _), (x1, _) = ends_of(seen, "branch")
    assert x1 - x0 == pytest.approx(0.5)


def test_a_set_up_with_a_path_is_no_straight_pipe():
    picture = drawn(riser())
    assert part(picture, "spool") is not None
    assert not parts(picture, "wall")
    assert len(list(parts(picture, "part"))) >= 5
    for each in ("inlet", "vent", "joint"):
        assert part(picture, each) is not None
    said = " ".join(words(picture))
    for each in (
        "1 first, run",
        "2 tee",
        "3 riser, run",
        "4 cap",
        "5 last, run",
        "on the branch",
        "gauge at 200",
    ):
        assert each in said.replace("\u00a0", " ").replace("  ", " ")


def test_where_air_stays_is_marked_only_where_it_is_told():
    assert "air stays here" not in set_up_drawing(riser())
    marked = set_up_drawing(riser(), inside=Inside(dead_legs=["cap"]))
    assert marked.count('data-part="part with air"') == 1
    assert "air stays here" in marked
    lingering = set_up_drawing(riser(), inside=Inside(crossed=["cap"]))
    assert lingering.count('data-part="part with air"') == 1
    assert "air lingers here" in lingering
    assert "air stays here" not in lingering


def test_a_spool_of_which_little_is_known_is_still_listed():
    path = (
        PathPart(name="a", part=PathPartKind.RUN, length_m=1.0),
        PathPart(),
        PathPart(part=PathPartKind.TEE, branch=(BranchPart(name="b"),)),
    )
    said = " ".join(words(drawn(a_set_up(pipe=None, section=Section(path=path)))))
    assert "1 a, run" in said.replace("  ", " ")


def test_every_vent_is_drawn_and_a_blocked_one_says_so():
    vents = [
        {"at": "riser", "along": 0.5, "height": 1, "diameter": "6 mm", "blocked": True},
        {"at": "last", "along": 1, "height": 0.5, "diameter": "6 mm"},
        {"at": "first", "along": 0.3},
    ]
    without = {key: value for key, value in A_RISER_WITHOUT_VENT.items() if not key.startswith("vent__")}
    picture = drawn(read_set_up(document(**without, vent=None, vents=vents, dams=None)))
    assert len(list(parts(picture, "vent"))) == 2  # the place of the third is not known
    assert any("blocked" in each for each in words(picture))


def test_gas_is_seen_to_leave_at_an_open_vent_and_not_at_a_blocked_one():
    assert len(parts(drawn(riser()), "gas leaving")) == 1
    assert not parts(drawn(riser(vent__blocked=True)), "gas leaving")


@pytest.mark.parametrize(
    ("around", "leads_to", "is_led"),
    [("pit", "pit", True), ("room", "open air", True), ("room", "room", False), ("open air", "pit", False)],
)
def test_a_vents_hose_is_drawn_where_it_leads_into_the_pit_or_out_of_the_space(around, leads_to, is_led):
    picture = drawn(riser(surroundings__kind=around, scene={"vent_leads_to": leads_to}))
    assert bool(parts(picture, f"vent hose to {leads_to}")) is is_led
    assert len(parts(picture, "gas leaving")) == 1


def test_a_spool_of_which_only_the_path_is_told_stands_on_no_ground():
    alone = riser(supply=None, scene=None, surroundings=None)
    assert not parts(drawn(alone), "ground")
    assert not parts(drawn(alone), "hose")


def test_a_kinked_hose_of_a_spool_is_seen_to_be_kinked():
    assert parts(drawn(riser(hose__open_fraction=0.4)), "kink")
    assert not parts(drawn(riser()), "kink")


def a_run_of_pipe(length: str, **pipe: str):
    path = [{"name": "run", "part": "run", "length": length, "slope": "0 deg"}]
    return riser(section__path=path, pipe=pipe, joint__at="run", inlet__at="run", vent__at="run")


def high(shape) -> float:
    """How far a shape reaches across a level run."""
    ys = [y for _, y in corners_of(Placed(shape, SAME))]
    return max(ys) - min(ys)


@pytest.mark.parametrize("length", ["400 mm", "700 mm", "3 m"])
def test_metal_stands_around_the_bore_and_is_drawn_in_scale_where_that_can_be_seen(length):
    # NPS 12 Sch 80: 323.9 mm outside, 17.5 mm of wall (ASME B36.10M), so 288.9 mm of bore
    picture = drawn(a_run_of_pipe(length, nps="12", schedule="80"))
    outer, bore = high(part(picture, "metal")), high(part(picture, "part"))
    wall = (outer - bore) / 2
    in_scale = bore * 17.5 / 288.9
    assert 2.0 <= wall <= 14.0
    assert wall >= min(in_scale, 14.0) - 0.1
    assert wall <= max(2.0, 0.13 * bore) + 0.1


@pytest.mark.parametrize(("length", "is_hatched"), [("400 mm", True), ("6 m", False)])
def test_a_wall_is_hatched_as_a_straight_sections_and_filled_where_it_is_thin(length, is_hatched):
    svg = set_up_drawing(a_run_of_pipe(length, nps="6", schedule="10S"))
    metal = part(fromstring(svg), "metal")
    assert (metal.get("fill") == "url(#set-up-metal)") is is_hatched
    assert (metal.get("class") == "d-solid") is not is_hatched
    assert svg.count('id="set-up-metal"') == 1


def test_every_part_has_its_metal_and_a_cap_is_closed_by_it():
    picture = drawn(riser())
    assert len(parts(picture, "metal")) == len(
        [each for each in parts(picture, "part") if "number" not in (each.get("data-part") or "")]
    )
    tops = {
        name: min(y for each in parts(picture, name) for _, y in corners_of(Placed(each, SAME)))
        for name in ("metal", "part")
    }
    assert tops["part"] - tops["metal"] >= 2.0


def test_the_mouth_of_a_branch_is_open():
    """Bores are filled after all their lines were drawn, so that no line is left where two of them meet."""
    shapes = [
        (each.get("class"), each.get("data-part"))
        for each in part(drawn(riser()), "spool").iter(f"{SVG}path")
    ]
    lines = [place for place, (pen, _) in enumerate(shapes) if pen == "d-wall"]
    bores = [place for place, (_, name) in enumerate(shapes) if name == "part"]
    assert max(lines) < min(bores)
