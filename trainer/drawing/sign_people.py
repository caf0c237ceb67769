"""Signs of people and of what they wear or watch with; squares of 100 by 100."""

from collections.abc import Mapping

from trainer.drawing.svg import drawn, group, path

# fmt: off
_KNEELING = group(
    drawn("circle", "shape", cx=46, cy=32, r=12),
    path("wall", "M", 46, 44, "L", 36, 72, "L", 64, 93, "L", 22, 97, "M", 43, 52, "L", 72, 60),
)
_STANDING = group(
    drawn("circle", "shape", cx=50, cy=14, r=12),
    path(
        "wall", "M", 50, 26, "L", 50, 62, "M", 36, 98, "L", 50, 62, "L", 64, 98,
        "M", 32, 52, "L", 50, 36, "L", 70, 50,
    ),
)
_PIT = path("wall", "M", 2, 16, "L", 2, 98, "L", 98, 98, "L", 98, 16)
_SHELL = path(
    "line", "M", 4, 99, "L", 4, 30, "Q", 4, 2, 28, 2, "L", 72, 2, "Q", 96, 2, 96, 30, "L", 96, 99, "Z",
)
_CHAIR = path("wall", "M", 28, 98, "L", 28, 20, "M", 28, 62, "L", 70, 62, "L", 70, 98)
_RADIO = group(drawn("rect", "steel", x=44, y=40, width=14, height=22), path("line", "M", 48, 40, "L",
    48, 24))
_ARC = path("thin", "M", 84, 60, "l", 12, -10, "M", 84, 66, "l", 14, 0, "M", 84, 72, "l", 12, 10)

PEOPLE_SIGNS: Mapping[str, str] = {
    "helper-in-pit": group(_PIT, _KNEELING),
    "helper-in-vessel": group(
        _SHELL, drawn("circle", "shape", cx=40, cy=42, r=11),
        path("wall", "M", 40, 53, "L", 36, 84, "L", 62, 84, "L", 62, 97, "M", 40, 62, "L", 64, 58),
        path("line", "M", 64, 58, "L", 64, 44), drawn("circle", "shape", cx=64, cy=36, r=8),
    ),
    "head-in-pipe": group(
        path("wall", "M", 98, 22, "L", 40, 22, "M", 98, 72, "L", 40, 72),
        drawn("circle", "shape", cx=66, cy=46, r=12),
        path("wall", "M", 54, 48, "L", 14, 56, "L", 18, 98, "M", 14, 56, "L", 2, 98, "M", 42, 51, "L",
            58, 66),
    ),
    "screen-missing": group(_STANDING, _ARC),
    "screen-up": group(
        drawn("rect", "steel", x=12, y=8, width=60, height=78),
        path("wall", "M", 18, 86, "L", 12, 98, "M", 66, 86, "L", 72, 98, "M", 32, 8, "L", 32, 86, "M",
            52, 8, "L", 52, 86),
        _ARC,
    ),
    "attendant": group(_STANDING, drawn("rect", "steel", x=66, y=34, width=13, height=20), path("line",
        "M", 70, 34, "L", 70, 20)),
    "no-attendant": group(_CHAIR, _RADIO),
    "fire-watch": group(
        _STANDING, drawn("circle", "shape", cx=82, cy=42, r=11), path("thin", "M", 82, 34, "L", 82, 42,
            "L", 88, 45),
        path("shape", "M", 6, 78, "L", 30, 78, "L", 27, 98, "L", 9, 98, "Z"), path("line", "M", 6, 78,
            "Q", 18, 58, 30, 78),
    ),
    "filter-mask": group(
        path("shape", "M", 22, 50, "Q", 50, 26, 78, 50, "Q", 76, 90, 50, 94, "Q", 24, 90, 22, 50, "Z"),
        drawn("circle", "steel", cx=50, cy=72, r=10),
        path("line", "M", 22, 52, "Q", 2, 40, 10, 26, "M", 78, 52, "Q", 98, 40, 90, 26, "M", 34, 52, "L",
            66, 52),
    ),
    "breathing-set": group(
        drawn("rect", "shape", x=4, y=34, width=92, height=64), path("line", "M", 36, 34, "L", 36, 24,
            "L", 64, 24, "L", 64, 34),
        path("steel", "M", 14, 92, "L", 14, 56, "Q", 22, 46, 30, 56, "L", 30, 92, "Z"),
        path("shape", "M", 54, 56, "Q", 68, 46, 82, 56, "Q", 82, 84, 68, 88, "Q", 54, 84, 54, 56, "Z"),
        path("line", "M", 30, 56, "Q", 42, 50, 54, 72),
    ),
}
# fmt: on
