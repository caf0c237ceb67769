"""Signs of people, oxygen meters and things about the pipe; squares of 100 by 100."""

from collections.abc import Mapping

from trainer.drawing.svg import drawn, group, label, path

# fmt: off
_KNEELING = group(
    drawn("circle", "shape", cx=46, cy=32, r=12),
    path("wall", "M", 46, 44, "L", 36, 72, "L", 64, 93, "L", 22, 97, "M", 43, 52, "L", 72, 60),
)
_STANDING = group(
    drawn("circle", "shape", cx=50, cy=14, r=12),
    path(
        "wall", "M", 50, 26, "L", 50, 62, "M", 34, 98, "L", 50, 62, "L", 66, 98,
        "M", 30, 52, "L", 50, 36, "L", 70, 50,
    ),
)
_METER = group(
    drawn("rect", "steel", x=32, y=44, width=36, height=54, rx=4),
    drawn("rect", "shape", x=38, y=50, width=24, height=16),
    label("O₂", 50, 90, pen="sign"),
)

PEOPLE_AND_METERS: Mapping[str, str] = {
    "standing-person": _STANDING,
    "kneeling-person": _KNEELING,
    "lying-person": group(
        drawn("circle", "shape", cx=84, cy=84, r=11),
        path("wall", "M", 73, 87, "L", 34, 90, "L", 4, 96, "M", 62, 88, "L", 76, 98),
    ),
    "person-with-meter": group(_KNEELING, drawn("rect", "solid", x=50, y=50, width=13, height=17)),
    "watcher": group(_STANDING, path("line", "M", 70, 50, "L", 86, 40, "L", 86, 30)),
    "meter": _METER,
    "hung-meter": group(path("line", "M", 38, 44, "Q", 50, 10, 62, 44), _METER),
    "lowered-meter": group(path("line", "M", 50, 0, "L", 50, 44), _METER),
    "joint-tape": group(
        path("wall", "M", 4, 62, "L", 96, 62, "M", 4, 96, "L", 96, 96),
        drawn("rect", "steel", x=34, y=57, width=32, height=44),
    ),
    "open-joint": group(
        path("wall", "M", 4, 62, "L", 44, 62, "M", 56, 62, "L", 96, 62, "M", 4, 96, "L", 44, 96, "M", 56,
            96, "L", 96, 96),
        path("thin", "M", 50, 54, "L", 50, 34, "M", 45, 40, "L", 50, 34, "L", 55, 40),
    ),
    "vent-into-pit": group(
        path("wall", "M", 4, 44, "L", 38, 44, "L", 38, 97, "L", 94, 97, "L", 94, 44),
        path("line", "M", 4, 24, "L", 56, 24, "Q", 68, 24, 68, 36, "L", 68, 58),
        path("thin", "M", 60, 64, "l", -6, 16, "M", 68, 66, "l", 0, 18, "M", 76, 64, "l", 6, 16),
    ),
    "vent-led-out": group(
        path("wall", "M", 4, 44, "L", 24, 44, "L", 24, 97, "L", 62, 97, "L", 62, 44, "L", 96, 44),
        path("line", "M", 42, 78, "L", 42, 30, "Q", 42, 20, 52, 20, "L", 78, 20),
        path("thin", "M", 84, 12, "l", 13, -5, "M", 86, 20, "l", 13, 0, "M", 84, 28, "l", 13, 5),
    ),
}
# fmt: on
