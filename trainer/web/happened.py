"""What happened when the arc was struck, in a sentence or two of shop words, from the person's numbers."""

from math import ceil

from flask_babel import gettext

from trainer.core.terms import RootGrade
from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension, Never
from trainer.domain.set_up import SetUp
from trainer.web.figures import oxygen_shown, shown

_HALF_MINUTE_S = 30  # nobody in a shop waits to the second


def what_happened(own: SetUp | None, run: PurgeRun | None) -> str:
    """The first sentence of a result."""
    if own is None or run is None:
        return gettext("Your set-up was left incomplete, so no arc was struck.")
    after = run.purge.oxygen_after_wait_frac if run.purge else None
    if after is None or own.wait_s is None:
        return gettext("No time from gas on to the arc was given, so no arc was struck.")
    struck = gettext(
        "You struck after %(wait)s. The root saw %(oxygen)s oxygen at its worst point",
        wait=shown(own.wait_s, Dimension.DURATION),
        oxygen=oxygen_shown(after.expected),
    )
    return f"{struck}: {_root_words(run)} {_remedy(own, run, after.expected)}".strip()


def grade_words(grade: RootGrade | None) -> str:
    """A grade of the root in a word."""
    words = {
        RootGrade.BRIGHT: gettext("bright"),
        RootGrade.STRAW: gettext("straw"),
        RootGrade.GOLD: gettext("gold"),
        RootGrade.BROWN: gettext("brown"),
        RootGrade.VIOLET: gettext("violet"),
        RootGrade.BLUE: gettext("blue"),
        RootGrade.GREY: gettext("grey"),
        RootGrade.BLACK: gettext("black"),
        RootGrade.SUGARED: gettext("sugared"),
    }
    return words[grade] if grade is not None else "–"


def _root_words(run: PurgeRun) -> str:
    grade = run.root.grade if run.root else None
    codes = {each.code for each in run.cautions}
    if grade is None:
        return gettext("what it would look like is not known.")
    colour = grade_words(grade)
    if "root-lost" in codes:
        return gettext("it comes out %(colour)s and has to be cut out.", colour=colour)
    if "oxygen-above-target" in codes:
        return gettext("it comes out %(colour)s, above what was asked for.", colour=colour)
    return gettext("it comes out %(colour)s.", colour=colour)


def _remedy(own: SetUp, run: PurgeRun, oxygen_frac: float) -> str:
    """What would have saved it, where waiting would; nothing where it was good enough."""
    target = own.target.oxygen_frac if own.target else None
    needed = run.purge.time_to_target_s if run.purge else None
    if target is None or needed is None or oxygen_frac <= target:
        return ""
    if isinstance(needed, Never):
        return gettext("With this set-up no wait would have been long enough.")
    more_s = needed.upper - (own.wait_s or 0.0)
    if more_s <= 0:
        return ""
    return gettext(
        "About %(more)s more would have made the target of %(target)s sure.",
        more=shown(_HALF_MINUTE_S * ceil(more_s / _HALF_MINUTE_S), Dimension.DURATION),
        target=oxygen_shown(target),
    )
