"""Where one stage of a purge follows another, marked across an oxygen trace."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label
from trainer.drawing.trace_scales import PLOT, Scales

_LETTER_WIDTH = 9.0
_NUMBER_NEEDS = 20.0  # width that the number of a stage takes
_BASELINE = 20.0  # below the upper edge, clear of the arrow of the arc


@dataclass(frozen=True, kw_only=True)
class StageMark:
    """One stage: its kind in words, and from when to when, None for one without end."""

    words: str
    starts_s: float
    ends_s: float | None


def stage_marks(stages: Sequence[StageMark], *, scales: Scales, reader: Reader) -> str:
    """A line where each stage starts, and its number above it, with its kind where there is room for it."""
    return (
        group(
            *(_mark(number, stage, scales, reader) for number, stage in enumerate(stages, start=1)),
            data_part="time line",
        )
        if stages
        else ""
    )


def _mark(number: int, stage: StageMark, scales: Scales, reader: Reader) -> str:
    _, top, right, bottom = PLOT
    if stage.starts_s > scales.until_s:
        return ""
    x = scales.x(stage.starts_s)
    end_x = right if stage.ends_s is None else min(right, scales.x(stage.ends_s))
    pieces = []
    if stage.starts_s:
        pieces.append(drawn("line", "dashed", x1=x, y1=top, x2=x, y2=bottom, data_part="stage"))
    words = f"{number} {reader.words(stage.words)}"
    if end_x - x >= _LETTER_WIDTH * len(words):
        pieces.append(label(words, x + 6, top + _BASELINE, anchor="start", pen="small"))
    elif end_x - x >= _NUMBER_NEEDS:
        pieces.append(label(str(number), x + 6, top + _BASELINE, anchor="start", pen="small"))
    return group(*pieces)


def stages_told(stages: Sequence[StageMark], reader: Reader) -> str:
    """The stages in a sentence for those who do not see the plot."""
    each = [
        reader.words("{number} {stage} from {minutes} minutes").format(
            number=number, stage=reader.words(stage.words), minutes=reader.number(stage.starts_s / 60, ".1f")
        )
        for number, stage in enumerate(stages, start=1)
    ]
    return reader.words("Stages: {stages}.").format(stages=", ".join(each)) if each else ""
