"""The purge as it happens: frames for the script that plays them, stills for those who see none moving."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext
from markupsafe import Markup

from trainer.core.terms import RootGrade
from trainer.domain.filling import BANDS_COUNT, Filling, Moment, filling_of
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.set_up import SetUp
from trainer.drawing.filling_drawing import Still, filling_drawing
from trainer.drawing.oxygen_scale import ORDER, GradeOf, film_class, film_legend
from trainer.drawing.root_drawing import root_drawing
from trainer.drawing.trace_plot import TraceMarks, plot_scales
from trainer.web.figures import number_shown, oxygen_shown
from trainer.web.happened import grade_words
from trainer.web.preferences import drawing_reader

_STILLS_COUNT = 4
_STEEP_DEG = 45.0  # from here on a still is drawn standing


@dataclass(frozen=True, kw_only=True)
class PurgeShown:
    """What the script plays, which frame the page opens with, and what stands still without it."""

    frames: str  # JSON: a list of what `_frame` gives
    classes: str  # of the oxygen scale, in the order that frames count in
    opens_with: int
    last: int
    opening_words: str
    opening_bands: tuple[RootGrade, ...]
    roots: tuple[tuple[int, Markup], ...]  # by place in the scale, those that come up
    stills: tuple[Markup, ...]
    legend: Markup


def purge_shown(
    set_up: SetUp, run: PurgeRun | None, *, grade_of: GradeOf, marks: TraceMarks | None, number: int
) -> PurgeShown | None:
    """The purge of a set-up from its start to the end of its trace; None where there is no trace."""
    if run is None or run.purge is None or not run.purge.trace or marks is None:
        return None
    stages_s = [each.starts_s for each in run.purge.stages if each.starts_s is not None]
    wait_s = set_up.wait_s
    asked_s = [*stages_s, *([wait_s] if wait_s is not None else [])]
    until_s = run.purge.trace[-1][0]
    needed = run.purge.time_to_target_s
    closely_s = needed.upper if isinstance(needed, Expected) else until_s
    filling = filling_of(set_up, until_s=until_s, closely_until_s=closely_s, also_s=asked_s)
    if filling is None:
        return None
    moments = filling.moments
    opens_with = _nearest(moments, moments[-1].time_s if wait_s is None else wait_s)
    grades = [grade_of(each.root_frac) for each in moments]
    scales = plot_scales(run.purge.trace, marks=marks)
    frames = [
        _frame(each, grade, grade_of=grade_of, x=scales.x(each.time_s))
        for each, grade in zip(moments, grades, strict=True)
    ]
    return PurgeShown(
        frames=json.dumps(frames, ensure_ascii=False, separators=(",", ":")),
        classes=" ".join(film_class(each) for each in ORDER),
        opens_with=opens_with,
        last=len(frames) - 1,
        opening_words=frames[opens_with]["told"],
        opening_bands=tuple(grade_of(each) for each in moments[opens_with].bands_frac),
        roots=tuple(
            (ORDER.index(each), _root(each, number)) for each in sorted(set(grades), key=ORDER.index)
        ),
        stills=_stills(filling, set_up, grade_of=grade_of, number=number),
        legend=_legend(moments, grade_of=grade_of, number=number),
    )


def _frame(moment: Moment, grade: RootGrade, *, grade_of: GradeOf, x: float) -> dict[str, Any]:
    """One frame as the script takes it: the line's place, each band's place in the scale, and all words."""
    oxygen = oxygen_shown(moment.root_frac)
    return {
        "seconds": round(moment.time_s, 1),
        "x": round(x, 1),
        "root": ORDER.index(grade),
        "oxygen": oxygen,
        "bands": "".join(str(ORDER.index(grade_of(each))) for each in moment.bands_frac),
        "told": gettext(
            "%(time)s: %(oxygen)s at the root; an arc now would leave it %(colour)s",
            time=_minutes(moment.time_s),
            oxygen=oxygen,
            colour=grade_words(grade),
        ),
    }


def _minutes(time_s: float) -> str:
    if time_s >= 3 * 3600:
        return gettext("%(hours)s h", hours=number_shown(time_s / 3600, ".1f"))
    return gettext("%(minutes)s min", minutes=number_shown(time_s / 60, ".1f"))


def _nearest(moments: Sequence[Moment], time_s: float) -> int:
    return min(range(len(moments)), key=lambda number: abs(moments[number].time_s - time_s))


def _root(grade: RootGrade, number: int) -> Markup:
    reader = drawing_reader(f"moment-{number}-{grade.value}")
    return Markup(root_drawing(grade, peak_colour=None, oxygen_words="", reader=reader))


def _stills(filling: Filling, set_up: SetUp, *, grade_of: GradeOf, number: int) -> tuple[Markup, ...]:
    """The start, the end, and what lies evenly between."""
    if filling.height_m is None:
        return ()
    slope_deg = set_up.section.slope_deg if set_up.section else None
    height_m, last = filling.height_m, len(filling.moments) - 1
    middles_m = [(band + 0.5) * height_m / BANDS_COUNT for band in range(BANDS_COUNT)]
    drawings = []
    for place in range(_STILLS_COUNT):
        moment = filling.moments[round(place * last / (_STILLS_COUNT - 1))]
        still = Still(
            time_s=moment.time_s,
            heights_m=middles_m,
            oxygen_frac=moment.bands_frac,
            height_m=height_m,
            is_upright=abs(slope_deg or 0.0) > _STEEP_DEG,
        )
        reader = drawing_reader(f"still-{number}-{place}")
        drawings.append(Markup(filling_drawing(still, grade_of=grade_of, reader=reader)))
    return tuple(drawings)


def _legend(moments: Sequence[Moment], *, grade_of: GradeOf, number: int) -> Markup:
    levels = [level for each in moments for level in (each.root_frac, *each.bands_frac)]
    return Markup(film_legend([grade_of(each) for each in levels], reader=drawing_reader(f"scale-{number}")))
