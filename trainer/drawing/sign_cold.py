"""Signs of liquid gas: vessels with coil and relief, lines, gloves; squares of 100 by 100."""

from collections.abc import Mapping

from trainer.drawing.svg import drawn, group, path

# fmt: off
_VESSEL = group(
    path(
        "shape", "M", 24, 92, "L", 24, 44, "Q", 24, 30, 40, 28, "L", 60, 28, "Q", 76, 30, 76, 44, "L", 76, 92,
        "Z",
    ),
    path("thin", "M", 24, 52, "L", 76, 52, "M", 24, 60, "L", 76, 60, "M", 24, 68, "L", 76, 68),
)
_TOP = group(
    drawn("rect", "solid", x=47, y=18, width=6, height=10),
    path("line", "M", 50, 22, "L", 68, 22, "L", 68, 14),
    drawn("rect", "solid", x=64, y=6, width=8, height=8),
    drawn("circle", "shape", cx=36, cy=16, r=9),
    path("thin", "M", 36, 16, "L", 41, 11, "M", 36, 25, "L", 42, 28),
)
_WHEELS = group(drawn("circle", "solid", cx=32, cy=96, r=4), drawn("circle", "solid", cx=68, cy=96, r=4))
_FLOOR = path("wall", "M", 4, 99, "L", 96, 99)
_MITT = path(
    "shape", "M", 34, 60, "L", 34, 26, "Q", 34, 8, 50, 8, "Q", 66, 8, 66, 26, "L", 66, 32, "Q", 78,
        22, 84, 32,
    "Q", 84, 42, 66, 52, "L", 66, 60, "Z",
)

COLD_SIGNS: Mapping[str, str] = {
    "vessel-standing": group(_VESSEL, _TOP, _WHEELS, _FLOOR),
    "vessel-iced": group(
        _VESSEL, _TOP, _WHEELS, _FLOOR,
        path("shape", "M", 56, 18, "Q", 54, 2, 66, 2, "Q", 80, -2, 82, 8, "Q", 88, 18, 76, 20, "Q",
            66, 24, 56,
            18, "Z"),
        path("thin", "M", 62, 8, "l", 6, 6, "M", 70, 6, "l", 6, 6),
    ),
    "vessel-lying": group(_FLOOR, group(_VESSEL, _TOP, transform="translate(100 18) rotate(90) scale(0.98)")),
    "gloves-in-sleeves": group(
        _MITT, path("shape", "M", 28, 99, "L", 30, 54, "L", 70, 54, "L", 72, 99, "Z"),
        path("thin", "M", 30, 60, "L", 70, 60),
    ),
    "gloves-loose": group(
        path("line", "M", 36, 99, "L", 36, 74, "M", 64, 99, "L", 64, 74), _MITT,
        path("shape", "M", 26, 84, "L", 34, 58, "L", 66, 58, "L", 74, 84, "Z"),
    ),
    "line-shut-both-ends": group(
        path("line", "M", 2, 56, "L", 18, 56, "M", 2, 68, "L", 18, 68, "M", 34, 56, "L", 66, 56, "M",
            34, 68, "L",
            66, 68, "M", 82, 56, "L", 98, 56, "M", 82, 68, "L", 98, 68),
        path("shape", "M", 18, 50, "L", 34, 74, "L", 34, 50, "L", 18, 74, "Z", "M", 66, 50, "L", 82,
            74, "L", 82,
            50, "L", 66, 74, "Z"),
        path("wall", "M", 26, 62, "L", 26, 38, "M", 18, 38, "L", 34, 38, "M", 74, 62, "L", 74, 38,
            "M", 66, 38, "L",
            82, 38),
    ),
}
# fmt: on
