"""Oxygen against time as a drawing, and the same as rows of a table for those who do not see it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from trainer.drawing.oxygen_scale import (
    FILM,
    GradeOf,
    film_class,
    film_legend,
    grade_bands,
)
from trainer.drawing.plot_frame import polyline, time_frame
from trainer.drawing.reader import Reader
from trainer.drawing.svg import STEEL_2, drawn, group, label, line, number, path, picture, tag
from trainer.drawing.trace_scales import AIR_FRAC, PLOT, Scales, scales_for
from trainer.drawing.trace_stages import StageMark, stage_marks, stages_told

Trace = Sequence[tuple[float, float, float, float]]  # time in s, then root, mean and vent as mole fractions
SIZE = (800.0, 440.0)
STRIP = (676.0, 694.0)
WORD_NEEDS = 25.0  # height that a word in the strip takes
TABLE_ROWS = 12


@dataclass(frozen=True, kw_only=True)
class TraceMarks:
    """What is drawn beside the trace: target, floor, arc strike, the interval of its time, the stages."""

    target_frac: float | None = None
    floor_frac: float | None = None
    strike_s: float | None = None
    shaded_s: tuple[float, float] | None = None
    stages: tuple[StageMark, ...] = ()
    moment_s: float | None = None  # the time that a moving picture beside it shows


def trace_plot(trace: Trace, *, marks: TraceMarks, grade_of: GradeOf, reader: Reader) -> str:
    """Root, mean and vent oxygen against time; the root's line carries the colours of the oxide."""
    scales = plot_scales(trace, marks=marks)
    return picture(
        _shaded(marks, scales),
        _axes(scales, reader),
        _strip(scales, grade_of, reader),
        _lines(trace, scales, grade_of),
        stage_marks(marks.stages, scales=scales, reader=reader),
        _marks(marks, scales, reader),
        _names(trace, scales, reader),
        _moment(marks, scales),
        size=SIZE,
        name=reader.words("Oxygen against time"),
        told=_told(trace, marks, reader),
        prefix=reader.prefix,
    )


def plot_scales(trace: Trace, *, marks: TraceMarks) -> Scales:
    """The scales of that plot, for whatever moves along it."""
    return scales_for(trace, others_frac=[each for each in (marks.target_frac, marks.floor_frac) if each])


def trace_legend(trace: Trace, *, grade_of: GradeOf, reader: Reader) -> str:
    """The colours that the root's line passes through, with their words."""
    return film_legend([grade_of(row[1]) for row in trace], reader=reader)


def trace_rows(trace: Trace, *, reader: Reader) -> list[tuple[str, str, str, str]]:
    """A dozen rows for a table: time in minutes, then root, mean and vent oxygen with their units."""
    step = max((len(trace) - 1) / (TABLE_ROWS - 1), 1.0)
    picked = sorted({min(round(i * step), len(trace) - 1) for i in range(TABLE_ROWS)}) if trace else []
    rows = (
        (reader.number(row[0] / 60, ".1f"), *map(reader.oxygen, row[1:]))
        for row in map(trace.__getitem__, picked)
    )
    return list(rows)  # type: ignore[arg-type]


def _axes(scales: Scales, reader: Reader) -> str:
    levels = [(scales.y(each), reader.oxygen(each)) for each in scales.decades()]
    return time_frame(PLOT, levels=levels, scales=scales, x=scales.x, reader=reader)


def _strip(scales: Scales, grade_of: GradeOf, reader: Reader) -> str:
    """The oxygen scale along the right edge, its words where there is room for them."""
    left, right = STRIP
    pieces = []
    for grade, low_frac, high_frac in grade_bands(grade_of, low_frac=scales.low_frac, high_frac=AIR_FRAC):
        top, bottom = scales.y(high_frac), scales.y(low_frac)
        pieces.append(
            tag(
                "rect", x=left, y=top, width=right - left, height=bottom - top, fill=FILM[grade],
                class_=f"d-film {film_class(grade)}",
            )
        )  # fmt: skip
        if bottom - top >= WORD_NEEDS:
            y = (top + bottom) / 2 + 8
            pieces.append(label(reader.words(grade.value), right + 6, y, anchor="start", pen="small"))
    return group(
        *pieces, drawn("rect", "film-edge", x=left, y=PLOT[1], width=right - left, height=PLOT[3] - PLOT[1])
    )


def _lines(trace: Trace, scales: Scales, grade_of: GradeOf) -> str:
    """Mean and vent as dashes and dots, the root on top as a solid line in the colours of the oxide."""
    return group(
        _line("mean", [(row[0], row[2]) for row in trace], scales),
        _line("vent", [(row[0], row[3]) for row in trace], scales),
        _line("root-edge", [(row[0], row[1]) for row in trace], scales),
        *_coloured(trace, scales, grade_of),
    )


def _line(pen: str, points: Iterable[tuple[float, float]], scales: Scales) -> str:
    return polyline(pen, ((scales.x(time_s), scales.y(level)) for time_s, level in points), name=pen)


def _coloured(trace: Trace, scales: Scales, grade_of: GradeOf) -> list[str]:
    """The root's line in runs of one grade; a run starts where the one before it ended."""
    runs: list[tuple[str, list[tuple[float, float]]]] = []
    for before, row in zip(trace, trace[1:], strict=False):
        grade = grade_of(row[1])
        if not runs or runs[-1][0] != grade.value:
            runs.append((grade.value, [(before[0], before[1])]))
        runs[-1][1].append((row[0], row[1]))
    drawings = []
    for word, points in runs:
        places = " ".join(f"{scales.x(t):.1f},{scales.y(o):.1f}" for t, o in points)
        drawings.append(
            tag(
                "polyline", points=places, fill="none", stroke=FILM[next(g for g in FILM if g.value == word)],
                stroke_width=4, vector_effect="non-scaling-stroke", class_=f"d-film-line oxygen-{word}",
            )
        )  # fmt: skip
    return drawings


def _shaded(marks: TraceMarks, scales: Scales) -> str:
    if marks.shaded_s is None:
        return ""
    low, high = (min(each, scales.until_s) for each in marks.shaded_s)
    x, width = scales.x(low), max(scales.x(high) - scales.x(low), 1.0)
    return tag(
        "rect",
        x=x,
        y=PLOT[1],
        width=width,
        height=PLOT[3] - PLOT[1],
        fill=STEEL_2,
        class_="d-shade",
        data_part="interval",
    )


def _marks(marks: TraceMarks, scales: Scales, reader: Reader) -> str:
    left, top, right, bottom = PLOT
    pieces = []
    if marks.target_frac:
        y = scales.y(marks.target_frac)
        words = reader.words("target {oxygen}").format(oxygen=reader.oxygen(marks.target_frac))
        pieces += [drawn("line", "target", x1=left, y1=y, x2=right, y2=y, data_part="target")]
        pieces += [label(words, left + 8, y - 8, anchor="start", pen="small")]
    if marks.floor_frac:
        y = scales.y(marks.floor_frac)
        words = reader.words("floor {oxygen}").format(oxygen=reader.oxygen(marks.floor_frac))
        pieces += [drawn("line", "dashed", x1=left, y1=y, x2=right, y2=y, data_part="floor")]
        pieces += [label(words, left + 8, y - 8, anchor="start", pen="small")]
    if marks.strike_s is not None and marks.strike_s <= scales.until_s:
        x = scales.x(marks.strike_s)
        spark = path("solid", "M", x, top - 4, "l", -9, -20, "l", 18, 0, "Z")
        anchor = "end" if x > (left + right) / 2 else "start"
        words = label(
            reader.words("arc"), x + (-14 if anchor == "end" else 14), top - 8, anchor=anchor, pen="small"
        )
        pieces += [group(line("line", x, top - 4, x, bottom), spark, words, data_part="arc strike")]
    return group(*pieces)


def _moment(marks: TraceMarks, scales: Scales) -> str:
    """A line across the plot that a script moves."""
    if marks.moment_s is None:
        return ""
    _, top, _, bottom = PLOT
    x = number(scales.x(marks.moment_s))
    return group(line("moment", 0, top, 0, bottom), transform=f"translate({x} 0)", data_part="moment")


def _names(trace: Trace, scales: Scales, reader: Reader) -> str:
    """Each line's name at a place of its own along it, so that the three do not meet."""
    if not trace:
        return ""
    pieces = []
    named = ((reader.words("root"), 0.55), (reader.words("mean"), 0.35), (reader.words("vent"), 0.18))
    for column, (name, share) in enumerate(named, start=1):
        row = trace[min(int(len(trace) * share), len(trace) - 1)]
        x, y = scales.x(row[0]), scales.y(row[column])
        above = column == 1
        pieces.append(
            label(
                name,
                x,
                y - 12 if above else y + 28,
                anchor="start" if above else "end",
                pen="small",
            )
        )
    return group(*pieces)


def _told(trace: Trace, marks: TraceMarks, reader: Reader) -> str:
    if not trace:
        return reader.words("No trace.")
    first, last = trace[0], trace[-1]
    course = (
        reader.words("Oxygen at the root goes from {first} to {last} in {minutes} minutes.")
        if marks.stages
        else reader.words("Oxygen at the root falls from {first} to {last} in {minutes} minutes.")
    )
    said = [
        course.format(
            first=reader.oxygen(first[1]),
            last=reader.oxygen(last[1]),
            minutes=reader.number(last[0] / 60, ".1f"),
        )
    ]
    if marks.stages:
        said.append(stages_told(marks.stages, reader))
    if marks.target_frac:
        said.append(reader.words("The target is {oxygen}.").format(oxygen=reader.oxygen(marks.target_frac)))
    if marks.floor_frac:
        said.append(reader.words("The floor is {oxygen}.").format(oxygen=reader.oxygen(marks.floor_frac)))
    if marks.strike_s is not None:
        said.append(
            reader.words("The arc is struck after {minutes} minutes.").format(
                minutes=reader.number(marks.strike_s / 60, ".1f")
            )
        )
    return " ".join(said)
