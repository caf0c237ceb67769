"""People near the joint, drawn so that the face is as high above their floor as the set-up says."""

from collections.abc import Sequence

from trainer.domain.set_up import Bystander
from trainer.domain.set_up import Place as Space
from trainer.drawing.free_places import Place
from trainer.drawing.layout import FLOOR_Y, SUNKEN, Layout
from trainer.drawing.reader import Reader
from trainer.drawing.surroundings import span_of
from trainer.drawing.svg import drawn, group, line, path

UNITS_PER_M = 62.0
TALLEST_UNITS = 112.0
HEAD = 11.0
KNEELING_M, CROUCHING_M, LYING_M = 1.15, 0.75, 0.4
ABOVE_GROUND_X = 776.0  # beside the pipe, at the edge of a pit
BESIDE_EACH_OTHER = 46.0
WHERE_X = (340.0, 500.0, 250.0, 590.0, 180.0)
UPRIGHT_X = (660.0, 530.0, 180.0)


def people_drawing(
    people: Sequence[Bystander],
    *,
    layout: Layout,
    around: Space,
    reader: Reader,
) -> str:
    """Everybody whose face height is known, in the space drawn or at the edge of a pit."""
    placed = [each for each in people if each.face_height_m is not None and _is_in_sight(each, around)]
    highest_m = max((each.face_height_m or 0.0 for each in placed), default=1.0)
    scale = min(UNITS_PER_M, TALLEST_UNITS / highest_m) if highest_m else UNITS_PER_M
    spots = WHERE_X if layout.is_flat else UPRIGHT_X
    beside = [each for each in placed if around in SUNKEN and each.where is not around]
    below = [each for each in placed if not any(each is other for other in beside)]
    places = [_within(spots[i % len(spots)], layout, around) for i in range(len(below))]
    for x, each in zip(places, below, strict=True):
        _keep_words_off(x, min(FLOOR_Y - (each.face_height_m or 0.0) * scale, FLOOR_Y - HEAD), layout)
    figures = []
    for x, each in zip(places, below, strict=True):
        height_m = each.face_height_m or 0.0
        figures.append(_person(layout, x, height_m=height_m, scale=scale, words=reader.height(height_m)))
    for i, each in enumerate(beside):
        height_m = each.face_height_m or 0.0
        figures.append(_beside_pit(layout, i, height_m=height_m, scale=scale, words=reader.height(height_m)))
    return group(*figures)


def _keep_words_off(x: float, face_y: float, layout: Layout) -> None:
    """Heights of others are written beside a head, not on it."""
    layout.free.block(x - HEAD - 2, face_y - HEAD - 2, x + HEAD + 2, face_y + HEAD + 2)


def _is_in_sight(each: Bystander, around: Space) -> bool:
    """Whether a person is where the drawing shows: outside a room, vessel, pipe or van it does not."""
    return each.where in (None, around) or around in (*SUNKEN, Space.OPEN_AIR)


def _within(x: float, layout: Layout, around: Space) -> float:
    """A usual spot, or the nearest within the walls of a pit."""
    if around not in SUNKEN:
        return x
    left, right = span_of(around, layout)
    return min(max(x, left + 40), right - 110)


def _beside_pit(layout: Layout, order: int, *, height_m: float, scale: float, words: str) -> str:
    """Somebody on the ground beside a pit, the height of the face written in the earth below."""
    ground_y = layout.ground_y
    x = ABOVE_GROUND_X - order * BESIDE_EACH_OTHER
    face_y = min(ground_y - height_m * scale, ground_y - HEAD)
    below = layout.free.write(words, Place(796.0, ground_y + 38.0 + order * 28, "end"))
    return group(
        _body(x, ground_y, face_y, height_m), _head(x, face_y), below, data_part="person", data_face_y=face_y
    )


def _person(layout: Layout, x: float, *, height_m: float, scale: float, words: str) -> str:
    floor_y = FLOOR_Y
    face_y = floor_y - height_m * scale
    face_y = min(face_y, floor_y - HEAD)
    body = _body(x, floor_y, face_y, height_m)
    beside = x + 34
    dimension = group(
        line("dim", x + HEAD + 4, face_y, beside + 8, face_y),
        line("dim", beside, face_y, beside, floor_y),
        path("dim", "M", beside - 4, face_y + 8, "L", beside, face_y, "L", beside + 4, face_y + 8),
        path("dim", "M", beside - 4, floor_y - 8, "L", beside, floor_y, "L", beside + 4, floor_y - 8),
    )
    above = layout.free.write(words, Place(beside + 10.0, min(face_y + 22, floor_y - 5), "start"))
    return group(
        dimension,
        body,
        _head(x, face_y),
        above,
        data_part="person",
        data_face_y=face_y,
    )


def _head(x: float, face_y: float) -> str:
    return drawn("circle", "shape", cx=x, cy=face_y, r=HEAD)


def _body(x: float, floor_y: float, face_y: float, height_m: float) -> str:
    """Lying, on hands and knees, kneeling or standing, as the height of the face tells."""
    if height_m < LYING_M:
        return _lying(x, floor_y)
    if height_m < CROUCHING_M:
        return _crouching(x, floor_y, face_y)
    if height_m < KNEELING_M:
        return _kneeling(x, floor_y, face_y)
    return _standing(x, floor_y, face_y)


def _standing(x: float, floor_y: float, face_y: float) -> str:
    hip = face_y + (floor_y - face_y) * 0.5
    return path(
        "wall",
        "M", x, face_y + HEAD, "L", x, hip, "M", x - 14, floor_y, "L", x, hip, "L", x + 14, floor_y,
        "M", x - 18, face_y + HEAD + 26, "L", x, face_y + HEAD + 8, "L", x + 18, face_y + HEAD + 22,
    )  # fmt: skip


def _kneeling(x: float, floor_y: float, face_y: float) -> str:
    hip_y = floor_y - max((floor_y - face_y) * 0.36, 10.0)
    return path(
        "wall",
        "M", x, face_y + HEAD, "L", x - 10, hip_y, "L", x + 16, floor_y - 4, "L", x - 22, floor_y - 3,
        "M", x - 2, face_y + HEAD + 6, "L", x + 22, face_y + HEAD + 12,
    )  # fmt: skip


def _crouching(x: float, floor_y: float, face_y: float) -> str:
    """On hands and knees, the face no higher than the back."""
    hip_x, hip_y = x - 52, face_y - 2
    return path(
        "wall",
        "M", x - HEAD, face_y, "L", hip_x, hip_y, "L", hip_x - 4, floor_y - 3, "L", hip_x - 24, floor_y - 3,
        "M", x - 16, face_y, "L", x - 14, floor_y - 3,
    )  # fmt: skip


def _lying(x: float, floor_y: float) -> str:
    y = floor_y - 8
    return path(
        "wall",
        "M",
        x - HEAD,
        y,
        "L",
        x - 48,
        y,
        "L",
        x - 88,
        floor_y - 3,
        "M",
        x - 20,
        y,
        "L",
        x - 2,
        floor_y - 3,
    )
