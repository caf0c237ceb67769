"""Signs of what burns, and of what is missing against it; squares of 100 by 100."""

from collections.abc import Mapping

from trainer.drawing.svg import drawn, group, path

# fmt: off
_FLOOR = path("wall", "M", 4, 99, "L", 96, 99)


def _box(x: float, y: float) -> str:
    """A cardboard box with its strip of tape."""
    return group(
        drawn("rect", "shape", x=x, y=y, width=38, height=30),
        path("thin", "M", x, y + 9, "l", 38, 0, "M", x + 19, y, "l", 0, 9),
    )


FIRE_SIGNS: Mapping[str, str] = {
    "boxes": group(_FLOOR, _box(10.0, 68.0), _box(50.0, 68.0), _box(30.0, 37.0)),
    "hook-empty": group(
        drawn("rect", "steel", x=24, y=6, width=52, height=84, rx=4),
        path("line", "M", 50, 22, "L", 50, 34, "Q", 50, 44, 60, 44, "Q", 68, 44, 68, 36),
    ),
}
# fmt: on
