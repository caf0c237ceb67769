"""The time line of a run and what its readings say, in sentences with the reader's units."""

from flask_babel import gettext

from trainer.domain.purge_run import Expected, PurgeResult, PurgeRun, ReadingsResult, StageResult
from trainer.domain.quantities import NEVER, Dimension
from trainer.domain.set_up import SetUp, StageKind
from trainer.drawing.trace_stages import StageMark
from trainer.web.figures import oxygen_shown, shown


def stage_marks_of(purge: PurgeResult) -> tuple[StageMark, ...]:
    """The stages as the trace marks them."""
    return tuple(
        StageMark(words=each.kind, starts_s=each.starts_s, ends_s=each.ends_s)
        for each in purge.stages
        if each.kind is not None and each.starts_s is not None
    )


def stages_in_words(run: PurgeRun | None) -> tuple[str, ...]:
    """Each stage in a sentence, in order; none where no stages were declared."""
    return tuple(_stage_words(each) for each in run.purge.stages) if run and run.purge else ()


def _stage_words(stage: StageResult) -> str:
    words = {
        StageKind.PURGE: gettext("Purge"),
        StageKind.HOLD: gettext("Hold"),
        StageKind.PINCHED_HOSE: gettext("Pinched hose"),
        StageKind.LINE_OUT: gettext("Line out"),
        StageKind.RECOVERY: gettext("Recovery"),
    }
    flow = gettext("no gas")
    if stage.flow_m3_s:
        flow = shown(stage.flow_m3_s, Dimension.VOLUME_FLOW)
    told = {
        "stage": words[StageKind(stage.kind or "")],
        "flow": flow,
        "start": shown(stage.starts_s, Dimension.DURATION),
        "highest": oxygen_shown(stage.highest_oxygen_frac or 0.0),
    }
    if stage.ends_s is None or stage.oxygen_at_end_frac is None:
        return gettext("%(stage)s, %(flow)s, from %(start)s on: the root sees up to %(highest)s.", **told)
    return gettext(
        "%(stage)s, %(flow)s, from %(start)s to %(end)s: the root sees up to %(highest)s and %(last)s"
        " at the end.",
        **told,
        end=shown(stage.ends_s, Dimension.DURATION),
        last=oxygen_shown(stage.oxygen_at_end_frac.expected),
    )


def hold_in_words(run: PurgeRun | None) -> tuple[str, ...]:
    """What the root sees while the weld is made, where the hold after the wait is known."""
    highest_frac = run.purge.highest_in_hold_frac if run and run.purge else None
    if highest_frac is None:
        return ()
    return (gettext("During the hold the root sees up to %(highest)s.", highest=oxygen_shown(highest_frac)),)


def readings_in_words(own: SetUp | None, run: PurgeRun | None) -> tuple[str, ...]:
    """How long the readings say to wait still, and whether a floor shows in them."""
    if own is None or run is None or run.readings is None or own.target is None:
        return ()
    target = oxygen_shown(own.target.oxygen_frac or 0.0)
    return (_wait_words(run.readings, target), *_floor_words(run.readings))


def _wait_words(readings: ReadingsResult, target: str) -> str:
    still = readings.wait_still_s
    if still is NEVER or not isinstance(still, Expected):
        return gettext("By the readings no wait brings it down to %(target)s.", target=target)
    if still.upper == 0.0:
        return gettext("By the readings it is down to %(target)s.", target=target)
    return gettext(
        "By the readings %(time)s still to wait for %(target)s, between %(low)s and %(high)s.",
        time=shown(still.expected, Dimension.DURATION),
        target=target,
        low=shown(still.lower, Dimension.DURATION),
        high=shown(still.upper, Dimension.DURATION),
    )


def _floor_words(readings: ReadingsResult) -> tuple[str, ...]:
    if readings.floor_frac is not None:
        return (gettext("They show a floor of %(floor)s.", floor=oxygen_shown(readings.floor_frac)),)
    if readings.floor_reached:
        return (gettext("They no longer fall."),)
    return ()
