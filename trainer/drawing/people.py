"""People near the joint, drawn so that the face is as high above their floor as the set-up says."""

from collections.abc import Sequence

from trainer.domain.set_up import Bystander, Place
from trainer.drawing.layout import FLOOR_Y, SUNKEN, Layout
from trainer.drawing.reader import Reader
from trainer.drawing.surroundings import span_of
from trainer.drawing.svg import drawn, group, label, line, path

Box = tuple[float, float, float, float]

UNITS_PER_M = 62.0
TALLEST_UNITS = 112.0
HEAD = 11.0
KNEELING_M, CROUCHING_M, LYING_M = 1.15, 0.75, 0.4
ABOVE_GROUND_X = 776.0  # beside the pipe, at the edge of a pit
WHERE_X = (340.0, 500.0, 250.0, 590.0, 180.0)
UPRIGHT_X = (660.0, 530.0, 180.0)


def people_drawing(
    people: Sequence[Bystander],
    *,
    layout: Layout,
    around: Place,
    reader: Reader,
    kept_free: Sequence[Box] = (),
) -> str:
    """Everybody whose face height is known, in the space drawn or at the edge of a pit."""
    placed = [each for each in people if each.face_height_m is not None and _is_in_sight(each, around)]
    highest_m = max((each.face_height_m or 0.0 for each in placed), default=1.0)
    scale = min(UNITS_PER_M, TALLEST_UNITS / highest_m) if highest_m else UNITS_PER_M
    spots = _spots(WHERE_X if layout.is_flat else UPRIGHT_X, kept_free)
    figures = []
    for i, each in enumerate(placed):
        x, floor_y = _stands(each, spots[i % len(spots)], layout, around)
        height_m = each.face_height_m or 0.0
        figures.append(_person(x, floor_y, height_m=height_m, scale=scale, words=reader.height(height_m)))
    return group(*figures)


def _is_in_sight(each: Bystander, around: Place) -> bool:
    """Whether a person is where the drawing shows: outside a room, vessel, pipe or van it does not."""
    return each.where in (None, around) or around in (*SUNKEN, Place.OPEN_AIR)


def _spots(spots: Sequence[float], kept_free: Sequence[Box]) -> list[float]:
    """The usual places, those first that nothing else stands in."""

    def crowded(x: float) -> float:
        low, high = x - 30.0, x + 60.0
        return sum(
            max(0.0, min(high, left + width) - max(low, left)) * (top + height > FLOOR_Y - TALLEST_UNITS)
            for left, top, width, height in kept_free
        )

    return sorted(spots, key=crowded)


def _stands(each: Bystander, x: float, layout: Layout, around: Place) -> tuple[float, float]:
    if around in SUNKEN:
        if each.where is not around:
            return ABOVE_GROUND_X, layout.ground_y
        left, right = span_of(around, layout)
        return min(max(x, left + 40), right - 110), FLOOR_Y
    return x, FLOOR_Y


def _person(x: float, floor_y: float, *, height_m: float, scale: float, words: str) -> str:
    face_y = floor_y - height_m * scale
    face_y = min(face_y, floor_y - HEAD)
    if height_m < LYING_M:
        body = _lying(x, floor_y)
    elif height_m < CROUCHING_M:
        body = _crouching(x, floor_y, face_y)
    elif height_m < KNEELING_M:
        body = _kneeling(x, floor_y, face_y)
    else:
        body = _standing(x, floor_y, face_y)
    if x == ABOVE_GROUND_X:
        figure = group(
            body, drawn("circle", "shape", cx=x, cy=face_y, r=HEAD), data_part="person", data_face_y=face_y
        )
        return group(figure, label(words, 796, floor_y + 38, anchor="end"))
    beside = x + 34
    dimension = group(
        line("dim", x + HEAD + 4, face_y, beside + 8, face_y),
        line("dim", beside, face_y, beside, floor_y),
        path("dim", "M", beside - 4, face_y + 8, "L", beside, face_y, "L", beside + 4, face_y + 8),
        path("dim", "M", beside - 4, floor_y - 8, "L", beside, floor_y, "L", beside + 4, floor_y - 8),
    )
    above = label(words, beside + 10, min(face_y + 22, floor_y - 5), anchor="start")
    return group(
        dimension,
        body,
        drawn("circle", "shape", cx=x, cy=face_y, r=HEAD),
        above,
        data_part="person",
        data_face_y=face_y,
    )


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
