"""The section at one moment, filled layer by layer with the colour that its oxygen would give the root."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.oxygen_scale import FILM, GradeOf, film_class
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, picture, tag

SIZE = (800.0, 220.0)
UPRIGHT_SIZE = (800.0, 380.0)
LEVEL_BOX = (20.0, 20.0, 530.0, 180.0)
UPRIGHT_BOX = (220.0, 20.0, 180.0, 340.0)


@dataclass(frozen=True, kw_only=True)
class Still:
    """The layers at one time: heights of their middles, lowest first, and the oxygen in each."""

    time_s: float
    heights_m: Sequence[float]
    oxygen_frac: Sequence[float]
    height_m: float  # of the whole section: the bore when level, the length when upright
    is_upright: bool = False


def filling_drawing(still: Still, *, grade_of: GradeOf, reader: Reader) -> str:
    """One still; a row of them, or a slider over them, shows the section filling."""
    x, y, width, height = UPRIGHT_BOX if still.is_upright else LEVEL_BOX
    edges = _edges(still)
    layers = []
    for (low_m, high_m), oxygen_frac in zip(edges, still.oxygen_frac, strict=True):
        grade = grade_of(oxygen_frac)
        top = y + height * (1 - high_m / still.height_m)
        thick = height * (high_m - low_m) / still.height_m
        layers.append(
            tag(
                "rect",
                x=x,
                y=top,
                width=width,
                height=thick + 0.3,
                fill=FILM[grade],
                class_=f"d-film {film_class(grade)}",
            )
        )
    minutes = reader.words("{minutes} min").format(minutes=reader.number(still.time_s / 60, ".1f"))
    levels = _levels(still, reader)
    return picture(
        group(*layers, data_part="layers"),
        drawn("rect", "wall", x=x, y=y, width=width, height=height),
        _words((x + width, y, height), minutes, levels),
        size=UPRIGHT_SIZE if still.is_upright else SIZE,
        name=reader.words("The section after {time}").format(time=minutes),
        told=reader.words("Oxygen from top to bottom: {levels}.").format(levels=", ".join(levels)),
        prefix=reader.prefix,
    )


def _edges(still: Still) -> list[tuple[float, float]]:
    """Lower and upper edge of each layer, half-way between the middles."""
    between = [(a + b) / 2 for a, b in zip(still.heights_m, list(still.heights_m)[1:], strict=False)]
    return list(zip([0.0, *between], [*between, still.height_m], strict=True))


def _levels(still: Still, reader: Reader) -> list[str]:
    """Oxygen at the top, in the middle and at the bottom."""
    last = len(still.oxygen_frac) - 1
    return [reader.oxygen(still.oxygen_frac[i]) for i in (last, last // 2, 0)]


def _words(beside: tuple[float, float, float], minutes: str, levels: list[str]) -> str:
    right, top, height = beside
    places = (top + 24, top + height / 2 + 8, top + height - 6)
    return group(
        *(
            group(line("dim", right, y - 8, right + 12, y - 8), label(words, right + 18, y, anchor="start"))
            for words, y in zip(levels, places, strict=True)
        ),
        label(minutes, 792, top + height / 2 + 8, anchor="end", pen="text"),
    )
