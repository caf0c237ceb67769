"""Oxygen at the root of two set-ups against time in one plot: A as a solid line, B as a broken one."""

from collections.abc import Sequence

from trainer.drawing.plot_frame import polyline, time_frame
from trainer.drawing.reader import Reader
from trainer.drawing.svg import group, label, line, picture
from trainer.drawing.trace_plot import Trace, TraceMarks
from trainer.drawing.trace_scales import PLOT, Scales, scales_for

SIZE = (800.0, 440.0)
_PENS = ("line", "mean")
_APART = 26.0  # between the letters at the lines' ends


def two_traces(traces: Sequence[tuple[str, Trace, TraceMarks]], *, reader: Reader) -> str:
    """The root's oxygen of each, named by its letter where the line ends, with targets and strikes."""
    both = [row for _, trace, _ in traces for row in trace]
    levels = [marks.target_frac for _, _, marks in traces if marks.target_frac]
    scales = scales_for([(row[0], row[1], row[1], row[1]) for row in both], others_frac=levels)
    return picture(
        _axes(scales, reader),
        *(_target(each, scales, reader) for each in sorted(set(levels))),
        *(_line(trace, pen, scales) for (_, trace, _), pen in zip(traces, _PENS, strict=False)),
        *(_strike(letter, marks, place, scales) for place, (letter, _, marks) in enumerate(traces)),
        _letters(traces, scales),
        size=SIZE,
        name=reader.words("Oxygen at the root of both set-ups against time"),
        told=_told(traces, reader),
        prefix=reader.prefix,
    )


def _axes(scales: Scales, reader: Reader) -> str:
    levels = [(scales.y(each), reader.oxygen(each)) for each in scales.decades()]
    return time_frame(PLOT, levels=levels, scales=scales, x=scales.x, reader=reader)


def _line(trace: Trace, pen: str, scales: Scales) -> str:
    return polyline(pen, ((scales.x(row[0]), scales.y(row[1])) for row in trace), name=pen)


def _target(target_frac: float, scales: Scales, reader: Reader) -> str:
    left, _, right, _ = PLOT
    y = scales.y(target_frac)
    words = reader.words("target {oxygen}").format(oxygen=reader.oxygen(target_frac))
    return group(
        line("target", left, y, right, y), label(words, left + 8, y - 8, anchor="start", pen="small")
    )


def _strike(letter: str, marks: TraceMarks, place: int, scales: Scales) -> str:
    """A flag at the time of the arc; the second one hangs lower, so that two at one time can be read."""
    _, top, right, bottom = PLOT
    if marks.strike_s is None or marks.strike_s > scales.until_s:
        return ""
    x = scales.x(marks.strike_s)
    is_late = x > right - 60.0
    words = label(
        letter, x + (-8 if is_late else 8), top + 14 + _APART * place, anchor="end" if is_late else "start",
        pen="small",
    )  # fmt: skip
    pen = "line" if place == 0 else "dashed"
    return group(line(pen, x, top - 4, x, bottom), words, data_part=f"arc strike {letter}")


def _letters(traces: Sequence[tuple[str, Trace, TraceMarks]], scales: Scales) -> str:
    """Each line's letter at its end, pushed apart where two lines end alike."""
    ends = sorted(
        (scales.y(trace[-1][1]), scales.x(trace[-1][0]), letter) for letter, trace, _ in traces if trace
    )
    pieces, last = [], float("-inf")
    for y, x, letter in ends:
        placed = max(y, last + _APART)
        pieces.append(label(letter, x + 10, placed + 8, anchor="start", pen="text"))
        last = placed
    return group(*pieces)


def _told(traces: Sequence[tuple[str, Trace, TraceMarks]], reader: Reader) -> str:
    said = []
    for letter, trace, marks in traces:
        if not trace:
            continue
        words = reader.words("{letter}: from {first} to {last} in {minutes} minutes.")
        said.append(
            words.format(
                letter=letter,
                first=reader.oxygen(trace[0][1]),
                last=reader.oxygen(trace[-1][1]),
                minutes=reader.number(trace[-1][0] / 60, ".1f"),
            )
        )
        if marks.strike_s is not None:
            struck = reader.words("{letter} strikes after {minutes} minutes.")
            said.append(struck.format(letter=letter, minutes=reader.number(marks.strike_s / 60, ".1f")))
    return " ".join(said)
