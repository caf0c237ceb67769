"""What is drawn is the set-up: two hundred of each are drawn, read back from the SVG and held against it.

Nothing here calls the layout that placed things: positions are read from shapes, and compared by proportion.
"""

from itertools import combinations, pairwise, product
from math import hypot
from xml.etree.ElementTree import fromstring

import pytest
from example_counts import tried
from hypothesis import assume, given
from hypothesis import strategies as st
from set_up_strategies import spool_set_ups, straight_set_ups

from tests.drawing.read_back import (
    Box,
    apart,
    box_of,
    corners_of,
    frame_of,
    hoses_on,
    rings_on,
    signs_on,
    walked,
    walked_from,
    within,
    words_on,
)
from tests.drawing.set_ups import a_dam_handle, a_vent_handle, an_inlet_handle
from trainer.domain.known_parts import size_of
from trainer.domain.scenario import SceneObject
from trainer.domain.set_up import Place, SetUp, Side
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.drawing.signs import SHAPES
from trainer.set_up_files import read_set_up

ROUNDED = 0.06  # coordinates have one decimal


def longer(words: str) -> str:
    """A language that takes half as much room again."""
    return " ".join(
        each if "{" in each else each + each[: max(1, len(each) // 2)] for each in words.split(" ")
    )


READERS = st.builds(
    Reader, units=st.sampled_from(["metric", "us"]), words=st.sampled_from([lambda words: words, longer])
)


@st.composite
def asked_of_anything(draw):
    """Grips placed anywhere, as families ask for them, and things standing in the places that scenes have."""
    dams = tuple(a_dam_handle(side, low=0.1, step=0.01) for side in ("left", "right"))
    heights = (a_vent_handle(low=0.1, high=0.95, step=0.05), an_inlet_handle())
    handles = draw(st.sampled_from([(), dams, heights, (*dams, *heights)]))
    placed = {each.id: draw(st.floats(each.low, each.high)) for each in handles if draw(st.booleans())}
    signs = draw(st.lists(st.sampled_from(sorted(SHAPES)), max_size=12, unique=True))
    places = draw(st.permutations([(148.0 + 84 * i, y) for i in range(7) for y in (238.0, 312.0)]))
    objects = tuple(
        SceneObject(
            id=f"h{number}", text=sign, sign=sign, box=(x, y, draw(st.sampled_from([54.0, 76.0])), 72.0)
        )
        for number, (sign, (x, y)) in enumerate(zip(signs, places, strict=False), start=1)
    )
    return Asked(handles=handles, placed=placed, objects=objects, marked=("h1", "h11"))


@tried(200)
@given(straight_set_ups)
def test_a_section_read_back_is_the_set_up(made):
    set_up = read_set_up(made)
    # nearer than this the shape of one dam lies over the joint and cannot be told from the other's by its corners
    near_m, far_m = sorted((set_up.section.left_dam_m, set_up.section.right_dam_m))
    assume(near_m >= max(0.1, 0.15 * far_m))
    picture = fromstring(set_up_drawing(set_up))
    faces = {side: face_of_dam(picture, side) for side in Side}
    compare_distances(picture, set_up, faces)
    compare_bore_and_heights(picture, set_up)
    compare_joint(picture, set_up)
    compare_people(picture, set_up)


def face_of_dam(picture, side) -> float | None:
    """The dam's corner nearest to the joint; strips of tape lap over each other by two units."""
    corners = []
    for dam in walked(picture):
        if dam.part.startswith("dam "):
            for inner in dam.element.iter():
                drawn = [u for u, _ in corners_of(type(dam)(inner, dam.matrix))]
                # what stands right at the joint belongs to the side on which the rest of its shape is
                corners += [u for u in drawn if ((u or sum(drawn)) < 0) is (side is Side.LEFT)]
    return min(corners, key=abs) if corners else None


def compare_distances(picture, set_up: SetUp, faces) -> None:
    told = {Side.LEFT: set_up.section.left_dam_m, Side.RIGHT: set_up.section.right_dam_m}
    drawn = {side: abs(face) for side, face in faces.items()}
    furthest = max(told, key=lambda side: told[side])
    far_m, far_u = told[furthest], drawn[furthest]
    breaks = [abs(u) for each in within(picture, "length broken") for u, _ in corners_of(each)]
    assert bool(breaks) is (far_m > 1.5)
    lap = 2.0 if any(dam.kind == "tape" for dam in set_up.dams) else 0.0
    near = min(told, key=lambda side: told[side])
    if breaks:  # squeezed, as the break lines say: only the order is to be read
        assert drawn[near] <= far_u + lap + ROUNDED
        return
    meant = far_u * told[near] / far_m
    assert drawn[near] == pytest.approx(meant, abs=lap + 3 * ROUNDED), (near, told)


def compare_bore_and_heights(picture, set_up: SetUp) -> None:
    walls = [corner for each in within(picture, "wall") for corner in corners_of(each)]
    outer, inner = max(abs(v) for _, v in walls), min(abs(v) for _, v in walls)
    assert (
        14.0 - ROUNDED <= outer - inner <= 24.0 + ROUNDED
    )  # thicker than in scale, so that the hatching shows
    for part, height_frac in (("inlet", set_up.inlet.height_frac), ("vent", set_up.vent.height_frac)):
        place = next(
            each for each in walked(picture) if each.part.split(" ")[0] == part and each.element.get("data-v")
        )
        tubes = [
            v for each in place.element.iter() if each.tag.endswith("line") for v in (float(each.get("y1")),)
        ]
        middle = (min(tubes) + max(tubes)) / 2
        assert middle == pytest.approx(place.number("data-v"), abs=ROUNDED)
        assert min(tubes) >= -inner - ROUNDED
        assert max(tubes) <= inner + ROUNDED
        # the middle of a fitting can come as near to the wall as the fitting is thick
        assert (inner - middle) / (2 * inner) == pytest.approx(height_frac, abs=0.17), part
        assert (middle < 0) is (height_frac > 0.5) or abs(middle) < 0.5
    if size_of(set_up.pipe) is not None:
        hole = next(each for each in walked(picture) if each.part == "hole")
        scale = 2 * inner / size_of(set_up.pipe).bore_m
        in_scale = scale * set_up.vent.diameter_m
        assert hole.number("height") == pytest.approx(min(max(in_scale, 7.0), 60.0), abs=2 * ROUNDED)


def compare_joint(picture, set_up: SetUp) -> None:
    walls = [corner for each in within(picture, "wall") for corner in corners_of(each)]
    gap = 2 * min(abs(u) for u, _ in walls)
    assert min(u for u, _ in walls) == pytest.approx(-max(u for u, _ in walls), abs=ROUNDED)
    assert (gap == 0.0) is (set_up.joint.gap_m == 0.0)
    strips = len(within(picture, "tape"))
    assert strips == {0.0: 0, 1.0: 2}.get(set_up.joint.taped_frac, 1)


def compare_people(picture, set_up: SetUp) -> None:
    people = [each for each in walked(picture) if each.part == "person"]
    floor_y = 366.0
    around = set_up.surroundings.kind
    is_deep = around in (Place.PIT, Place.TRENCH)
    # whoever stands beside a pit is drawn after those in it, on another floor
    in_order = sorted(set_up.scene.people, key=lambda each: is_deep and each.where is not around)
    here = [each for each in in_order if each.where == around]
    heads = [
        inner.number("cy")
        for each in people
        for inner in _inside(each)
        if inner.element.tag.endswith("circle")
    ]
    scales = [
        (floor_y - y) / each.face_height_m
        for y, each in zip(heads, in_order, strict=False)
        if each in here and each.face_height_m * 40 > 11 and len(people) == len(set_up.scene.people)
    ]
    assert all(scale == pytest.approx(scales[0], rel=0.01) for scale in scales)


def _inside(placed):
    return [type(placed)(inner, placed.matrix) for inner in placed.element.iter()]


@tried(200)
@given(spool_set_ups, READERS)
def test_a_spools_supply_hose_and_people_read_back_are_the_set_up(made, reader):
    set_up = read_set_up(made)
    picture = fromstring(set_up_drawing(set_up, reader=reader))
    spool, supply, inlet = box_of(picture, "part"), box_of(picture, "supply"), within(picture, "inlet")
    assert supply.top > spool.bottom  # it stands under the spool, and nothing of it covers a part
    [hose] = hoses_on(picture, "hose to the inlet")
    assert near(hose[0], [at for each in within(picture, "supply") for at in on_sheet(each)])
    assert near(hose[-1], [at for each in inlet for at in on_sheet(each)])
    compare_people_under_a_spool(picture, set_up, spool.bottom)


@tried(200)
@given(spool_set_ups, READERS)
def test_words_of_a_spool_lie_neither_on_its_hoses_nor_on_its_supply_and_people(made, reader):
    picture = fromstring(set_up_drawing(read_set_up(made), reader=reader))
    kink = box_of(picture, "kink")
    things = [box_of(picture, "supply"), *heads_on(picture), *([kink] if kink else [])]
    things += straight_runs(picture, "hose to the inlet") + straight_runs(picture, "vent hose")
    for words, thing in product(words_on(picture), things):
        assert words.overlap(thing) <= 3.0, (words, thing)


@tried(200)
@given(spool_set_ups, READERS)
def test_words_of_a_spool_but_its_numbers_keep_off_its_pipe(made, reader):
    picture = fromstring(set_up_drawing(read_set_up(made), reader=reader))
    words = [each for each in words_on(picture) if not each.what.isdecimal()]
    for one, pipe in product(words, level_and_upright_parts(picture)):
        assert one.overlap(pipe) <= 3.0, (one, pipe)


@tried(200)
@given(straight_set_ups, READERS)
def test_words_of_a_section_do_not_lie_on_the_hose_that_leads_its_vent_away(made, reader):
    picture = fromstring(set_up_drawing(read_set_up(made), reader=reader))
    # the analyser's own box hides the hose that it is held to
    free = [each for each in words_on(picture) if each.what != "O₂"]
    for words, run in product(free, straight_runs(picture, "vent hose")):
        assert words.overlap(run) <= 3.0, (words, run)


def level_and_upright_parts(picture) -> list[Box]:
    """The bores of the straight parts of a spool, seen from the side."""
    parts = (each for each in within(picture, "part") if each.element.tag.endswith("path"))
    outlines = [corners_of(each) for each in parts if each.part in ("part", "part with air")]
    return [
        Box(*map(min, zip(*outline, strict=True)), *map(max, zip(*outline, strict=True)), "pipe")
        for outline in outlines
        if len({round(x) for x, _ in outline}) == len({round(y) for _, y in outline}) == 2
    ]


def straight_runs(picture, name) -> list[Box]:
    """Of a hose; a run aslant is the curve of a corner, which leaves half of the box around it free."""
    return [hose_box(*run) for hose in hoses_on(picture, name) for run in pairwise(hose) if is_straight(*run)]


def is_straight(start, end) -> bool:
    return min(abs(start[0] - end[0]), abs(start[1] - end[1])) <= ROUNDED


def hose_box(start, end) -> Box:
    (x1, y1), (x2, y2), half = start, end, 4.5
    return Box(min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half, "hose")


def heads_on(picture) -> list[Box]:
    return [
        Box(x - r, y - r, x + r, y + r, "head")
        for person in walked(picture)
        if person.part == "person"
        for each in walked_from(person)
        if each.element.tag.endswith("circle")
        for (x, y), r in [(each.on_sheet(each.number("cx"), each.number("cy")), each.number("r"))]
    ]


def on_sheet(placed) -> list[tuple[float, float]]:
    return [placed.on_sheet(*corner) for corner in corners_of(placed)]


def near(at, others) -> bool:
    return any(hypot(at[0] - x, at[1] - y) <= 3 * ROUNDED for x, y in others)


def compare_people_under_a_spool(picture, set_up: SetUp, spool_bottom: float) -> None:
    around = set_up.surroundings.kind
    shown = [
        each
        for each in set_up.scene.people
        if each.where is around or around in (Place.OPEN_AIR, Place.PIT, Place.TRENCH)
    ]
    people = [each for each in walked(picture) if each.part == "person"]
    assert len(people) == len(shown)
    ground = [each for each in within(picture, "ground") if each.element.get("class") == "d-earth"]
    floor_y = max(y for each in ground for _, y in on_sheet(each))
    heads = [(each.top + each.bottom) / 2 for each in heads_on(picture)]
    assert all(y > spool_bottom for y in heads)
    # whoever stands beside a pit is drawn after those in it, on another floor; and a head is never in the floor
    is_deep = around in (Place.PIT, Place.TRENCH)
    in_order = sorted(shown, key=lambda each: is_deep and each.where is not around)
    scales = [
        (floor_y - y) / each.face_height_m
        for y, each in zip(heads, in_order, strict=True)
        if (not is_deep or each.where is around) and each.face_height_m * 40 > 11
    ]
    assert all(scale == pytest.approx(scales[0], rel=0.01) for scale in scales)


@tried(200)
@given(st.one_of(straight_set_ups, spool_set_ups), READERS)
def test_nothing_that_is_read_lies_on_something_else_or_is_cut(made, reader):
    check_layout(set_up_drawing(read_set_up(made), reader=reader))


@tried(200)
@given(straight_set_ups, READERS, asked_of_anything())
def test_nor_does_it_where_parts_are_to_be_placed_and_things_to_be_marked(made, reader, asked):
    svg = set_up_drawing(read_set_up(made), asked=asked, reader=reader)
    check_layout(svg)
    if not asked.placed:  # grips that somebody has moved towards each other may come to lie on each other
        check_rings(svg)


def check_rings(svg: str) -> None:
    for one, other in combinations(rings_on(fromstring(svg)), 2):
        assert apart(one, other) >= 0.0, (one, other)


def check_layout(svg: str) -> None:
    picture = fromstring(svg)
    words, signs, sheet = words_on(picture), signs_on(picture), frame_of(picture)
    for each in words:
        assert sheet.left - 1 <= each.left, each
        assert each.right <= sheet.right + 1, each
        assert sheet.top - 1 <= each.top, each
        assert each.bottom <= sheet.bottom + 1, each
    for one, other in combinations([*words, *signs], 2):
        assert one.overlap(other) <= 3.0, (one, other)
