"""Signs of what stands in and on the pipe, and of the gear around it; squares of 100 by 100."""

from collections.abc import Mapping

from trainer.drawing.svg import drawn, group, path

# fmt: off
_WALLS = path("wall", "M", 2, 30, "L", 98, 30, "M", 2, 98, "L", 98, 98)
_DOTS = ((40, 42), (54, 48), (44, 58), (58, 64), (42, 72), (55, 80), (45, 90))
_STIPPLE = group(*(drawn("circle", "solid", cx=x, cy=y, r=2.2) for x, y in _DOTS))
_FOAM = group(_WALLS, drawn("rect", "shape", x=32, y=30, width=36, height=68), _STIPPLE)
_JOINT = group(
    path("wall", "M", 2, 46, "L", 46, 46, "L", 50, 54, "L", 54, 46, "L", 98, 46),
    path("wall", "M", 2, 98, "L", 46, 98, "L", 50, 90, "L", 54, 98, "L", 98, 98),
)
_DAM = group(_WALLS, drawn("rect", "shape", x=54, y=30, width=30, height=68))
_ON_STANDS = group(
    drawn("rect", "shape", x=4, y=48, width=92, height=24), path("line", "M", 50, 48, "L", 50, 72),
    path("wall", "M", 22, 72, "L", 12, 98, "M", 22, 72, "L", 32, 98, "M", 78, 72, "L", 68, 98, "M", 78, 72,
        "L", 88, 98),
)

PIPE_SIGNS: Mapping[str, str] = {
    "foam-new": _FOAM,
    "foam-crumbling": group(
        _WALLS,
        path(
            "shape", "M", 38, 30, "L", 44, 38, "L", 54, 36, "L", 60, 42, "L", 68, 40, "L", 68, 98, "L",
                44, 98,
            "L", 40, 90, "L", 32, 88, "L", 36, 70, "L", 30, 60, "L", 34, 40, "Z",
        ),
        _STIPPLE, *(drawn("circle", "line", cx=x, cy=93, r=r) for x, r in ((24, 4), (15, 3), (7, 4))),
    ),
    "foam-wet": group(
        _FOAM,
        *(path("shape", "M", x, y, "q", -6, 10, 0, 13, "q", 6, -3, 0, -13) for x, y in ((22, 46), (16,
            68), (78, 56), (84, 74))),
        path("line", "M", 8, 95, "q", 8, -5, 16, 0, "M", 74, 95, "q", 8, -5, 16, 0),
    ),
    "tape-whole": group(
        _JOINT, drawn("rect", "steel", x=26, y=38, width=48, height=9), drawn("rect", "steel", x=26,
            y=97, width=48, height=3),
        path("line", "M", 74, 38, "L", 84, 30, "L", 76, 28, "L", 68, 38),
    ),
    "tape-peeled": group(
        _JOINT, drawn("rect", "steel", x=26, y=97, width=48, height=3),
        path("steel", "M", 26, 38, "L", 44, 38, "Q", 62, 34, 66, 10, "L", 74, 12, "Q", 70, 44, 44, 47,
            "L", 26, 47, "Z"),
    ),
    "rope-tail": group(
        _DAM, path("line", "M", 54, 64, "Q", 40, 58, 26, 66, "Q", 12, 74, 4, 60, "L", 4, 12, "q", 8, -9,
            12, 0, "q", -2, 9, -12, 5),
    ),
    "rope-short": group(_DAM, path("line", "M", 54, 64, "L", 44, 64, "M", 44, 58, "l", -6, -3, "M", 44,
        64, "l", -7, 0, "M", 44, 70, "l", -6, 3)),
    "pipe-on-stands": _ON_STANDS,
    "pipe-on-stands-gas": group(
        _ON_STANDS, drawn("rect", "solid", x=4, y=48, width=8, height=24), drawn("rect", "solid", x=88, y=48,
            width=8, height=24),
        path("line", "M", 4, 66, "Q", -2, 84, 8, 98, "M", 96, 53, "q", 4, -16, -4, -28, "q", -8, -12, 0, -20),
    ),
    "solvent-rag": group(
        drawn("rect", "shape", x=52, y=36, width=38, height=62), drawn("ellipse", "steel", cx=71, cy=36,
            rx=19, ry=6),
        path("thin", "M", 64, 26, "q", -5, -8, 0, -16, "M", 76, 26, "q", 6, -8, 0, -16),
        path("shape", "M", 4, 97, "Q", 2, 74, 16, 78, "Q", 24, 62, 36, 76, "Q", 48, 78, 46, 97, "Z"),
    ),
    "extinguisher": group(
        path("shape", "M", 36, 98, "L", 36, 42, "Q", 36, 30, 50, 30, "Q", 64, 30, 64, 42, "L", 64, 98, "Z"),
        drawn("rect", "solid", x=45, y=18, width=10, height=12),
        path("line", "M", 45, 20, "L", 68, 12, "M", 55, 24, "Q", 84, 26, 80, 62, "L", 76, 74, "M", 36,
            58, "L", 64, 58),
    ),
    "permit-board": group(
        drawn("rect", "shape", x=18, y=6, width=64, height=62),
        path("thin", "M", 26, 20, "L", 74, 20, "M", 26, 32, "L", 74, 32, "M", 26, 44, "L", 74, 44, "M",
            26, 56, "L", 54, 56, "M", 50, 20, "L", 50, 56),
        path("wall", "M", 50, 68, "L", 50, 98),
    ),
    "borescope": group(
        path("wall", "M", 4, 98, "L", 96, 98), drawn("rect", "steel", x=10, y=46, width=34, height=26,
            rx=4),
        path("line", "M", 27, 72, "L", 27, 96, "M", 44, 58, "Q", 64, 40, 78, 60, "Q", 88, 78, 70, 88),
            drawn("circle", "solid", cx=68, cy=88, r=5),
    ),
    "lamp-low-voltage": group(
        path("shape", "M", 28, 12, "L", 72, 12, "L", 62, 44, "L", 38, 44, "Z"),
        path("wall", "M", 50, 44, "L", 50, 82, "M", 50, 82, "L", 28, 98, "M", 50, 82, "L", 72, 98),
        path("thin", "M", 20, 8, "l", -10, -6, "M", 16, 26, "l", -12, 2, "M", 80, 8, "l", 10, -6, "M",
            84, 26, "l", 12, 2),
    ),
    "toolbox": group(
        drawn("rect", "shape", x=8, y=52, width=84, height=46),
        path("line", "M", 34, 52, "L", 34, 38, "L", 66, 38, "L", 66, 52, "M", 8, 68, "L", 92, 68),
            drawn("rect", "solid", x=45, y=63, width=10, height=10),
    ),
    "ladder-tied": group(
        path(
            "line", "M", 34, 4, "L", 34, 98, "M", 66, 4, "L", 66, 98, "M", 34, 20, "L", 66, 20, "M", 34,
                38, "L", 66, 38,
            "M", 34, 56, "L", 66, 56, "M", 34, 74, "L", 66, 74, "M", 34, 90, "L", 66, 90,
        ),
        path("line", "M", 66, 14, "q", 14, -8, 28, 2, "M", 66, 14, "q", 14, 10, 28, 2), path("wall", "M",
            94, 2, "L", 94, 98),
    ),
    "kneeling-mat": group(
        drawn("circle", "shape", cx=36, cy=70, r=27), drawn("circle", "line", cx=36, cy=70, r=17),
            drawn("circle", "line", cx=36, cy=70, r=7),
        path("shape", "M", 36, 97, "L", 94, 97, "L", 94, 91, "L", 52, 91),
    ),
}
# fmt: on
