"""Signs of cylinders, hoses, meters and blowers; squares of 100 by 100."""

from collections.abc import Mapping

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
_SHELL = path(
    "line", "M", 4, 99, "L", 4, 30, "Q", 4, 4, 28, 4, "L", 72, 4, "Q", 96, 4, 96, 30, "L", 96, 99, "Z",
)
_PIT = path("wall", "M", 2, 40, "L", 26, 40, "L", 26, 98, "L", 98, 98, "L", 98, 40)
_GAS_DOWN = path("thin", "M", 62, 72, "l", -6, 16, "M", 69, 74, "l", 0, 18, "M", 76, 72, "l", 6, 16)
_GAS_RIGHT = path("thin", "M", 84, 12, "l", 13, -5, "M", 86, 20, "l", 13, 0, "M", 84, 28, "l", 13, 5)


def _o2(x: float, y: float) -> str:
    """The sign of oxygen, drawn: as type it would be too small to read in a sign on a phone."""
    two = path("line", "M", x + 5, y + 1, "q", 5, -6, 8, -1, "q", 1, 4, -9, 11, "l", 10, 0)
    return group(drawn("ellipse", "line", cx=x - 6, cy=y - 1, rx=7.5, ry=9.5), two)


_METER = group(
    drawn("rect", "steel", x=32, y=44, width=36, height=54, rx=4),
    drawn("rect", "shape", x=38, y=50, width=24, height=16),
    _o2(50, 84),
)
_READING = path("thin", "M", 42, 62, "L", 46, 54, "L", 50, 60, "L", 54, 55, "L", 58, 60)
_BLADES = group(
    drawn("circle", "shape", cx=0, cy=0, r=19),
    *(path("steel", "M", 0, 0, "q", 9, -12, 0, -16, "q", -8, 4, 0, 16, transform=f"rotate({turn})")
      for turn in (0, 120, 240)),
)
_FITTING = group(
    path("line", "M", 2, 54, "L", 34, 54, "M", 2, 72, "L", 34, 72, "M", 66, 54, "L", 98, 54, "M", 66, 72,
        "L", 98, 72),
    path("shape", "M", 34, 48, "L", 52, 48, "L", 52, 78, "L", 34, 78, "Z"),
)
_PIPE_WALLS = path("wall", "M", 2, 46, "L", 98, 46, "M", 2, 98, "L", 98, 98)


def _sampling(at_x: float, at_y: float) -> str:
    """A pipe with a joint, and an analyser that draws its sample at a place."""
    return group(
        _PIPE_WALLS,
        path("thin", "M", 60, 46, "L", 60, 56, "M", 60, 98, "L", 60, 88, "M", 14, 84, "L", 30, 84, "L",
            30, 90, "L", 14, 90, "Z"),
        drawn("rect", "steel", x=34, y=4, width=36, height=26), _o2(52, 17),
        path("thin", "M", 46, 30, "L", at_x, 40, "L", at_x, at_y), drawn("circle", "solid", cx=at_x,
            cy=at_y, r=4),
    )


GAS_SIGNS: Mapping[str, str] = {
    "cylinder-chained": group(_POST, _BODY, _VALVE, _CHAIN_ON, path("shape", "M", 8, 99, "L", 8, 88, "Q",
        16, 78, 24, 88, "L", 24, 99, "Z")),
    "cylinder-loose": group(_BODY, _VALVE, path("shape", "M", 8, 99, "L", 8, 88, "Q", 16, 78, 24, 88,
        "L", 24, 99, "Z")),
    "cylinder-in-vessel": group(_SHELL, group(_BODY, _VALVE, transform="translate(14 24) scale(0.74)")),
    "spare-capped": group(_POST, _BODY, _CAP, _CHAIN_ON),
    "cap-missing": group(
        path(
            "shape", "M", 4, 98, "L", 4, 70, "L", 70, 70, "Q", 82, 70, 85, 80, "L", 85, 88,
            "Q", 82, 98, 70, 98, "Z",
        ),
        drawn("rect", "solid", x=85, y=81, width=10, height=6),
        drawn("rect", "solid", x=93, y=76, width=4, height=16),
    ),
    "vent-hose-in-pit": group(
        _PIT, _GAS_DOWN,
        path(
            "line", "M", 2, 22, "L", 56, 22, "Q", 74, 22, 74, 40, "L", 74, 66, "L", 64, 66, "L", 64, 42,
            "Q", 64, 32, 54, 32, "L", 2, 32,
        ),
    ),
    "vent-hose-out": group(
        path("wall", "M", 2, 50, "L", 22, 50, "L", 22, 98, "L", 62, 98, "L", 62, 50, "L", 98, 50),
        path(
            "line", "M", 36, 90, "L", 36, 34, "Q", 36, 15, 54, 15, "L", 80, 15, "L", 80, 25, "L", 54, 25,
            "Q", 46, 25, 46, 34, "L", 46, 90,
        ),
        _GAS_RIGHT,
    ),
    "vent-hose-by-face": group(
        path("wall", "M", 8, 98, "L", 14, 62, "M", 38, 98, "L", 32, 62, "M", 6, 62, "L", 40, 62),
        path(
            "line", "M", 50, 98, "L", 50, 28, "Q", 50, 15, 62, 15, "L", 80, 15, "L", 80, 25, "L", 66, 25,
            "Q", 60, 25, 60, 32, "L", 60, 98, "M", 44, 50, "L", 66, 50, "M", 44, 56, "L", 66, 56,
        ),
        _GAS_RIGHT,
    ),
    "hose-kinked": group(
        path(
            "line", "M", 2, 66, "L", 40, 66, "L", 50, 46, "L", 58, 66, "L", 98, 66, "M", 2, 78, "L", 46, 78,
            "L", 50, 64, "L", 54, 78, "L", 98, 78,
        ),
        drawn("rect", "steel", x=28, y=82, width=44, height=5), drawn("rect", "steel", x=28, y=28,
            width=44, height=12),
        path("line", "M", 32, 40, "L", 32, 66, "M", 68, 40, "L", 68, 66, "M", 28, 98, "L", 28, 87, "M",
            72, 98, "L", 72, 87),
    ),
    "hose-clear": group(
        path("wall", "M", 8, 20, "L", 92, 20, "M", 26, 20, "q", 0, 16, 8, 12, "M", 74, 20, "q", 0, 16,
            -8, 12),
        path("line", "M", 2, 74, "Q", 22, 66, 30, 32, "Q", 50, 62, 70, 32, "Q", 78, 66, 98, 74),
    ),
    "hose-loose": group(
        _FITTING, drawn("rect", "shape", x=60, y=48, width=12, height=30),
        path("thin", "M", 56, 44, "q", -8, -10, 0, -24, "M", 50, 46, "q", -12, -6, -14, -18, "M", 62, 44,
            "q", 8, -8, 12, -20),
    ),
    "hose-tight": group(
        _FITTING, drawn("rect", "shape", x=52, y=48, width=14, height=30),
        path("line", "M", 20, 48, "L", 20, 78, "M", 26, 48, "L", 26, 78, "M", 74, 48, "L", 74, 78, "M",
            80, 48, "L", 80, 78),
        *(drawn("circle", "thin", cx=x, cy=y, r=r) for x, y, r in ((48, 40, 5), (57, 36, 4), (52, 86, 4))),
    ),
    "oxygen-hose": group(
        _PIT, _GAS_DOWN,
        path("line", "M", 69, 66, "L", 69, 32, "Q", 69, 22, 58, 22, "L", 38, 22),
        _o2(14, 24),
    ),
    "meter-at-hatch": group(path("wall", "M", 6, 14, "L", 94, 14), path("line", "M", 50, 14, "L", 50,
        44), _METER, _READING),
    "meter-at-work": group(path("line", "M", 50, 0, "L", 50, 44), path("wall", "M", 4, 99, "L", 96, 99),
        _METER, _READING),
    "meter-off": group(path("wall", "M", 4, 99, "L", 96, 99), _METER),
    "analyser-at-inlet": _sampling(30.0, 80.0),
    "analyser-at-crown": _sampling(66.0, 54.0),
    "blower-in-pit": group(
        _PIT, group(_BLADES, transform="translate(62 76)"),
        path("thin", "M", 92, 66, "l", -9, 4, "M", 94, 76, "l", -11, 0, "M", 92, 86, "l", -9, -4),
        path("line", "M", 52, 60, "L", 52, 20, "L", 72, 20, "L", 72, 60),
    ),
    "blower-up-top": group(
        _PIT, group(_BLADES, transform="translate(22 20)"),
        path("line", "M", 40, 12, "L", 74, 12, "L", 74, 76, "L", 60, 76, "L", 60, 26, "L", 40, 26),
        path("thin", "M", 62, 82, "l", 0, 10, "M", 67, 82, "l", 0, 12, "M", 72, 82, "l", 0, 10),
    ),
    "duct-end": group(
        path("wall", "M", 4, 98, "L", 96, 98),
        path("line", "M", 34, 2, "L", 34, 62, "L", 66, 62, "L", 66, 2, "M", 34, 16, "L", 66, 16, "M", 34,
            32, "L", 66, 32, "M", 34, 48, "L", 66, 48),
        path("thin", "M", 40, 70, "l", -8, 18, "M", 50, 72, "l", 0, 18, "M", 60, 70, "l", 8, 18),
    ),
}
# fmt: on
