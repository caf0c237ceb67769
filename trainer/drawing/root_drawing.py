"""The root as it would look from inside: the bead, and the oxide beside it from its peak to bare metal."""

from trainer.core.terms import RootGrade
from trainer.drawing.oxygen_scale import FILM, ORDER, film_class
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, path, picture, tag

SIZE = (800.0, 250.0)
MIDDLE_X = 290.0
BEAD_HALF = 26.0
BAND_WIDTH = 200.0  # of the oxide on one side of the bead, shared by the colours in it
TOP, BOTTOM = 12.0, 238.0
LEFT, RIGHT = 12.0, 568.0


def root_drawing(grade: RootGrade, *, peak_colour: str | None, oxygen_words: str, reader: Reader) -> str:
    """The bead with its bands; the peak colour, where given, is the film's own at the worst point."""
    shown = ORDER[: ORDER.index(grade) + 1]
    return picture(
        _metal(),
        *_bands(shown, peak_colour),
        _bead(grade),
        _sugar() if grade is RootGrade.SUGARED else "",
        drawn("rect", "line", x=LEFT, y=TOP, width=RIGHT - LEFT, height=BOTTOM - TOP),
        _words(shown, oxygen_words, reader),
        size=SIZE,
        name=reader.words("The root as it would look"),
        told=reader.words(
            "Worst point of the root: {grade}, {oxygen}. The colours fade outwards: {colours}."
        ).format(
            grade=reader.words(grade.value),
            oxygen=oxygen_words,
            colours=", ".join(reader.words(each.value) for each in reversed(shown)),
        ),
        prefix=reader.prefix,
    )


def _metal() -> str:
    return _film("rect", RootGrade.BRIGHT, x=LEFT, y=TOP, width=RIGHT - LEFT, height=BOTTOM - TOP)


def _film(name: str, grade: RootGrade, **places: float) -> str:
    return tag(name, fill=FILM[grade], class_=f"d-film {film_class(grade)}", data_band=grade.value, **places)


def _bands(shown: tuple[RootGrade, ...], peak_colour: str | None) -> list[str]:
    """From the outermost colour to the peak, each laid over the one before, narrower each time."""
    tints = shown[1:]
    drawings = []
    for i, grade in enumerate(tints):
        half = BEAD_HALF + BAND_WIDTH * (1 - i / len(tints)) ** 0.8
        place = {"x": MIDDLE_X - half, "y": TOP, "width": 2 * half, "height": BOTTOM - TOP}
        if grade is tints[-1] and peak_colour is not None:
            drawings.append(tag("rect", fill=peak_colour, data_band=grade.value, **place))
        else:
            drawings.append(_film("rect", grade, **place))
    return drawings


def _bead(grade: RootGrade) -> str:
    """The bead with its ripples."""
    ripples = [
        path("thin", "M", MIDDLE_X - BEAD_HALF, y, "q", BEAD_HALF, 16, 2 * BEAD_HALF, 0)
        for y in range(int(TOP) + 8, int(BOTTOM) - 16, 18)
    ]
    fill = _film("rect", grade, x=MIDDLE_X - BEAD_HALF, y=TOP, width=2 * BEAD_HALF, height=BOTTOM - TOP)
    light = drawn("rect", "bead", x=MIDDLE_X - BEAD_HALF, y=TOP, width=2 * BEAD_HALF, height=BOTTOM - TOP)
    return group(fill if grade in (RootGrade.BLACK, RootGrade.SUGARED) else light, *ripples, data_part="bead")


def _sugar() -> str:
    """Granular oxide on the bead: it is drawn as grains, so that it also reads in print."""
    places = ((i * 37 % 52 - 26, i * 53 % 220) for i in range(70))
    return group(
        *(
            drawn("circle", "grain", cx=MIDDLE_X + dx, cy=TOP + 4 + dy, r=3 + (i % 3))
            for i, (dx, dy) in enumerate(places)
        ),
        data_part="sugar",
    )


def _words(shown: tuple[RootGrade, ...], oxygen_words: str, reader: Reader) -> str:
    """The peak in large beside the picture; under it the colours outwards."""
    outwards = [reader.words(each.value) for each in reversed(shown)]
    rows = [" → ".join(outwards[i : i + 2]) for i in range(0, len(outwards), 2)]
    return group(
        line("dim", MIDDLE_X + BEAD_HALF, 40, RIGHT + 14, 40),
        label(reader.words(shown[-1].value), RIGHT + 20, 48, anchor="start"),
        group(label(oxygen_words, RIGHT + 20, 82, anchor="start"), data_part="oxygen"),
        *(label(row, RIGHT + 20, 126 + 28 * i, anchor="start", pen="small") for i, row in enumerate(rows)),
    )
