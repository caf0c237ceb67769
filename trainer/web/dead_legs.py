"""Where air stays in a spool, in sentences: place, how much, and how long it alone would take."""

from flask_babel import gettext

from trainer.domain.purge_run import DeadLegResult, Expected, PurgeRun
from trainer.domain.quantities import Dimension
from trainer.web.figures import oxygen_shown, shown
from trainer.web.said import said


def dead_places(run: PurgeRun | None) -> tuple[str, ...]:
    """Names of the parts in which air stays."""
    return tuple(leg.place or "" for leg in _high_points(run) if not leg.crossed)


def crossed_places(run: PurgeRun | None) -> tuple[str, ...]:
    """Names of the parts in which air lingers while gas goes through."""
    return tuple(leg.place or "" for leg in _high_points(run) if leg.crossed)


def dead_legs_in_words(run: PurgeRun | None) -> tuple[str, ...]:
    """One sentence a place, and the one that comes down last; none where the gas reaches everything."""
    if run is None or run.purge is None or not run.purge.dead_legs:
        return ()
    told = [_crossed_words(run, leg) if leg.crossed else _leg_words(leg) for leg in run.purge.dead_legs]
    if all(leg.crossed for leg in run.purge.dead_legs):
        return tuple(told)
    if run.purge.worst_place is not None:
        told.append(gettext("Last to come down to the target: %(place)s.", place=said(run.purge.worst_place)))
    return tuple(told)


def _leg_words(leg: DeadLegResult) -> str:
    words = gettext(
        "%(place)s: %(volume)s of air that the gas passes at %(mouth)s; only diffusion clears it.",
        place=said(leg.place or ""),
        volume=shown(leg.volume_m3, Dimension.VOLUME),
        mouth=said(leg.mouth or ""),
    )
    return f"{words} {_time_and_oxygen_words(leg)}".rstrip()


def _crossed_words(run: PurgeRun, leg: DeadLegResult) -> str:
    """What lingers in a high point that the gas crosses, and what a vent there saves."""
    words = gettext(
        "%(place)s: gas comes in from %(mouth)s and has to cross this point, and the %(volume)s of pipe here"
        " keep air beside its stream.",
        place=said(leg.place or ""),
        mouth=said(leg.mouth or ""),
        volume=shown(leg.volume_m3, Dimension.VOLUME),
    )
    words = f"{words} {_time_and_oxygen_words(leg)}".rstrip()
    whole = run.purge.time_to_target_s if run.purge else None
    if (
        isinstance(whole, Expected)
        and leg.time_with_vent_there_s
        and whole.expected > leg.time_with_vent_there_s
    ):
        words = f"{words} " + gettext(
            "With the vent there the purge takes %(vented)s instead of %(time)s.",
            vented=shown(leg.time_with_vent_there_s, Dimension.DURATION),
            time=shown(whole.expected, Dimension.DURATION),
        )
    return words


def _time_and_oxygen_words(leg: DeadLegResult) -> str:
    words = ""
    if isinstance(leg.time_to_target_s, float):
        words = f"{words} " + gettext(
            "By itself it needs %(time)s.", time=shown(leg.time_to_target_s, Dimension.DURATION)
        )
    if leg.oxygen_after_wait_frac is not None:
        oxygen = oxygen_shown(leg.oxygen_after_wait_frac)
        end = (
            gettext("When you struck, it still held %(oxygen)s oxygen.", oxygen=oxygen)
            if leg.crossed
            else gettext("When you struck, its end held %(oxygen)s oxygen.", oxygen=oxygen)
        )
        words = f"{words} {end}"
    return words.strip()


def _high_points(run: PurgeRun | None) -> tuple[DeadLegResult, ...]:
    return run.purge.dead_legs if run and run.purge else ()
