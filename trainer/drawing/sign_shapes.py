"""The shapes of the signs, each in a square of 100 by 100 standing on its lower edge."""

from collections.abc import Mapping

from trainer.drawing.sign_people import PEOPLE_AND_METERS
from trainer.drawing.svg import drawn, group, path

# fmt: off
_VALVE = group(
    drawn("rect", "solid", x=47, y=6, width=6, height=13),
    drawn("rect", "solid", x=41, y=3, width=18, height=5),
)
_CAP = path("shape", "M", 42, 19, "L", 42, 8, "Q", 50, -2, 58, 8, "L", 58, 19, "Z")
_BODY = path(
    "shape",
    "M", 36, 99, "L", 36, 34, "Q", 36, 20, 47, 18, "L", 53, 18, "Q", 64, 20, 64, 34, "L", 64, 99, "Z",
)
_POST = path("wall", "M", 88, 99, "L", 88, 30)
_CHAIN_ON = path("line", "M", 88, 46, "Q", 50, 64, 30, 48, stroke_dasharray="6 3")
_CHAIN_OFF = path("line", "M", 88, 42, "q", -12, 20, -5, 46, stroke_dasharray="6 3")

_CYLINDERS: Mapping[str, str] = {
    "chained-cylinder": group(_POST, _BODY, _CAP, _CHAIN_ON),
    "unchained-cylinder": group(_POST, _BODY, _CAP, _CHAIN_OFF),
    "capped-cylinder": group(_BODY, _CAP),
    "uncapped-cylinder": group(_BODY, _VALVE),
    "lying-cylinder": group(
        path(
            "shape", "M", 4, 98, "L", 4, 70, "L", 70, 70, "Q", 82, 70, 85, 80, "L", 85, 88,
            "Q", 82, 98, 70, 98, "Z",
        ),
        drawn("rect", "solid", x=85, y=81, width=10, height=6),
        drawn("rect", "solid", x=93, y=76, width=4, height=16),
    ),
}

_HOSES: Mapping[str, str] = {
    "hose": group(
        *(drawn("ellipse", "line", cx=46, cy=78 - 9 * i, rx=36, ry=15) for i in range(3)),
        path("line", "M", 82, 78, "Q", 96, 82, 97, 98),
    ),
    "kinked-hose": path(
        "line", "M", 3, 76, "L", 42, 74, "L", 57, 40, "L", 64, 76, "L", 97, 76,
        "M", 3, 90, "L", 52, 88, "L", 57, 58, "L", 57, 90, "L", 97, 90, "M", 48, 50, "L", 68, 60,
    ),
    "torn-hose": group(
        path("line", "M", 3, 72, "L", 38, 72, "L", 46, 81, "L", 54, 72, "L", 97, 72, "M", 3, 90, "L", 97, 90),
        path(
            "thin", "M", 46, 64, "q", -5, -10, 0, -18, "M", 36, 64, "q", -12, -7, -12, -16,
            "M", 56, 64, "q", 12, -7, 12, -16,
        ),
    ),
    "hose-end": group(
        path(
            "line", "M", 4, 30, "L", 40, 30, "Q", 62, 30, 62, 52, "L", 62, 62,
            "L", 46, 62, "L", 46, 56, "Q", 46, 46, 36, 46, "L", 4, 46,
        ),
        path("thin", "M", 47, 70, "l", -6, 20, "M", 54, 70, "l", 0, 24, "M", 61, 70, "l", 6, 20),
    ),
    "loose-fitting": group(
        path("shape", "M", 4, 62, "L", 36, 62, "L", 36, 80, "L", 4, 80, "Z", "M", 52, 56, "L", 74, 56,
             "L", 74, 86, "L", 52, 86, "Z"),
        path("line", "M", 74, 62, "L", 97, 62, "M", 74, 80, "L", 97, 80, "M", 59, 56, "L", 59, 86, "M", 66,
            56, "L", 66, 86),
        path("thin", "M", 44, 54, "q", -6, -9, 0, -18, "M", 38, 56, "q", -11, -6, -12, -15),
    ),
}

_GEAR: Mapping[str, str] = {
    "extinguisher": group(
        path("shape", "M", 36, 98, "L", 36, 42, "Q", 36, 30, 50, 30, "Q", 64, 30, 64, 42, "L", 64, 98, "Z"),
        drawn("rect", "solid", x=45, y=18, width=10, height=12),
        path(
            "line", "M", 45, 20, "L", 68, 12, "M", 55, 24, "Q", 84, 26, 80, 62, "L", 76, 74,
            "M", 36, 58, "L", 64, 58,
        ),
    ),
    "fan": group(
        drawn("circle", "shape", cx=50, cy=46, r=36),
        *(
            path("steel", "M", 50, 46, "q", 18, -22, 0, -31, "q", -14, 8, 0, 31,
                transform=f"rotate({turn} 50 46)")
            for turn in (0, 120, 240)
        ),
        path("wall", "M", 30, 98, "L", 40, 81, "M", 70, 98, "L", 60, 81, "M", 22, 98, "L", 78, 98),
    ),
    "ladder": path(
        "line", "M", 34, 4, "L", 34, 98, "M", 66, 4, "L", 66, 98, "M", 34, 20, "L", 66, 20, "M", 34, 38,
            "L", 66, 38,
        "M", 34, 56, "L", 66, 56, "M", 34, 74, "L", 66, 74, "M", 34, 90, "L", 66, 90,
    ),
    "rope": group(
        *(drawn("ellipse", "line", cx=50, cy=86 - 8 * i, rx=30 - 3 * i, ry=10,
            stroke_dasharray="7 2") for i in range(4)),
        path("line", "M", 76, 82, "Q", 94, 78, 92, 98, stroke_dasharray="7 2"),
    ),
    "tripod": group(
        path("wall", "M", 50, 6, "L", 10, 98, "M", 50, 6, "L", 90, 98),
        path("line", "M", 50, 8, "L", 50, 66, "q", 0, 10, 8, 8, "q", 6, -3, 2, -8, "M", 28, 56, "L", 72, 56),
    ),
    "barrier": group(
        drawn("rect", "shape", x=6, y=36, width=88, height=20),
        path("line", "M", 18, 56, "L", 32, 36, "M", 44, 56, "L", 58, 36, "M", 70, 56, "L", 84, 36),
        path("wall", "M", 18, 56, "L", 18, 98, "M", 82, 56, "L", 82, 98),
    ),
    "notice-board": group(
        drawn("rect", "shape", x=22, y=10, width=56, height=60),
        path("thin", "M", 30, 24, "L", 70, 24, "M", 30, 36, "L", 70, 36, "M", 30, 48, "L", 58, 48),
        path("wall", "M", 50, 70, "L", 50, 98),
    ),
    "permit": group(
        path("shape", "M", 24, 8, "L", 64, 8, "L", 78, 22, "L", 78, 96, "L", 24, 96, "Z"),
        path(
            "thin", "M", 64, 8, "L", 64, 22, "L", 78, 22, "M", 33, 36, "L", 69, 36, "M", 33, 48, "L", 69, 48,
            "M", 33, 60, "L", 56, 60, "M", 46, 80, "l", 7, 7, "l", 15, -17,
        ),
    ),
    "lamp": group(
        drawn("circle", "shape", cx=50, cy=44, r=21),
        drawn("rect", "steel", x=40, y=65, width=20, height=16),
        path("line", "M", 50, 12, "L", 50, 2, "M", 22, 24, "L", 14, 17, "M", 78, 24, "L", 86, 17, "M", 50,
            81, "L", 50, 98),
    ),
    "cable": group(
        path("wall", "M", 4, 92, "Q", 20, 60, 38, 84, "Q", 54, 106, 66, 80, "Q", 74, 64, 78, 62),
        drawn("rect", "steel", x=76, y=50, width=18, height=16, rx=3),
    ),
    "grinder": group(
        path("shape", "M", 8, 52, "L", 58, 52, "L", 66, 60, "L", 66, 70, "L", 8, 70, "Z"),
        drawn("rect", "steel", x=60, y=70, width=10, height=8),
        path("wall", "M", 42, 82, "L", 92, 82),
    ),
    "tool-box": group(
        drawn("rect", "shape", x=10, y=54, width=80, height=44),
        path("line", "M", 34, 54, "L", 34, 40, "L", 66, 40, "L", 66, 54, "M", 10, 70, "L", 90, 70),
    ),
    "bucket": group(
        path("shape", "M", 20, 48, "L", 80, 48, "L", 70, 98, "L", 30, 98, "Z"),
        path("line", "M", 20, 48, "Q", 50, 4, 80, 48),
    ),
    "rag": path(
        "shape", "M", 12, 96, "Q", 8, 66, 26, 70, "Q", 34, 48, 52, 62, "Q", 74, 52, 78, 74, "Q", 96, 78, 88,
            97, "Z",
    ),
    "tape": group(
        drawn("circle", "shape", cx=46, cy=64, r=32), drawn("circle", "shape", cx=46, cy=64, r=15),
        path("line", "M", 46, 96, "L", 92, 96, "L", 92, 88),
    ),
    "foam": group(
        drawn("rect", "shape", x=22, y=46, width=56, height=52, rx=6),
        *(drawn("circle", "solid", cx=x, cy=y, r=2.4) for x, y in ((34, 58), (50, 54), (66, 60), (40, 72),
            (58, 74), (70, 82), (34, 88), (52, 90))),
    ),
    "flow-meter": group(
        drawn("rect", "shape", x=38, y=6, width=24, height=74, rx=4),
        path("thin", "M", 46, 20, "L", 54, 20, "M", 46, 32, "L", 54, 32, "M", 46, 44, "L", 54, 44, "M", 46,
            56, "L", 54, 56, "M", 46, 68, "L", 54, 68),
        drawn("circle", "solid", cx=50, cy=46, r=6),
        path("wall", "M", 50, 80, "L", 50, 92, "L", 24, 92, "M", 50, 92, "L", 76, 92),
    ),
    "gauge": group(
        drawn("circle", "shape", cx=50, cy=52, r=38),
        path("line", "M", 50, 52, "L", 32, 30, "M", 20, 66, "L", 26, 63, "M", 50, 16, "L", 50, 23, "M", 80,
            66, "L", 74, 63),
        drawn("circle", "solid", cx=50, cy=52, r=5),
    ),
    "mask": group(
        path("shape", "M", 26, 22, "Q", 50, 6, 74, 22, "Q", 80, 62, 50, 84, "Q", 20, 62, 26, 22, "Z"),
        path("line", "M", 33, 36, "L", 67, 36, "M", 26, 30, "L", 8, 24, "M", 74, 30, "L", 92, 24),
        drawn("circle", "steel", cx=50, cy=68, r=12),
    ),
    "radio": group(
        drawn("rect", "shape", x=34, y=34, width=32, height=62, rx=4),
        path("line", "M", 40, 34, "L", 40, 6), drawn("rect", "steel", x=40, y=42, width=20, height=14),
        path("thin", "M", 42, 66, "L", 58, 66, "M", 42, 74, "L", 58, 74, "M", 42, 82, "L", 58, 82),
    ),
    "cover": group(
        drawn("ellipse", "shape", cx=50, cy=78, rx=44, ry=16), drawn("ellipse", "thin", cx=50, cy=76, rx=33,
            ry=10),
        path("line", "M", 40, 74, "L", 60, 74),
    ),
    "door": group(
        drawn("rect", "shape", x=24, y=4, width=52, height=94), drawn("circle", "solid", cx=66, cy=54, r=4),
        path("thin", "M", 32, 12, "L", 68, 12, "L", 68, 40, "L", 32, 40, "Z"),
    ),
    "welding-lead": group(
        path("wall", "M", 4, 92, "Q", 40, 92, 46, 66, "L", 56, 44),
        path("steel", "M", 50, 48, "L", 66, 20, "L", 76, 25, "L", 60, 53, "Z"), path("line", "M", 71, 22,
            "L", 82, 6),
    ),
    "clamp": path("wall", "M", 22, 30, "L", 22, 92, "L", 78, 92, "L", 78, 54, "M", 12, 30, "L", 34, 30, "M",
        78, 54, "L", 60, 54),
}

SHAPES: Mapping[str, str] = {**_CYLINDERS, **_HOSES, **_GEAR, **PEOPLE_AND_METERS}
# fmt: on
