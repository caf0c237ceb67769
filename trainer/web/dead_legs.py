"""Where air stays in a spool, in sentences: place, how much, and how long it alone would take."""

from flask_babel import gettext

from trainer.domain.purge_run import DeadLegResult, PurgeRun
from trainer.domain.quantities import Dimension
from trainer.drawing.oxygen_scale import written_oxygen
from trainer.web.figures import shown


def dead_places(run: PurgeRun | None) -> tuple[str, ...]:
    """Names of the parts in which air stays."""
    return tuple(leg.place or "" for leg in run.purge.dead_legs) if run and run.purge else ()


def dead_legs_in_words(run: PurgeRun | None) -> tuple[str, ...]:
    """One sentence a place, and the one that comes down last; none where the gas reaches everything."""
    if run is None or run.purge is None or not run.purge.dead_legs:
        return ()
    said = [_leg_words(leg) for leg in run.purge.dead_legs]
    if run.purge.worst_place is not None:
        said.append(gettext("Last to come down to the target: %(place)s.", place=run.purge.worst_place))
    return tuple(said)


def _leg_words(leg: DeadLegResult) -> str:
    words = gettext(
        "%(place)s: %(volume)s of air that the gas passes at %(mouth)s; only diffusion clears it.",
        place=leg.place,
        volume=shown(leg.volume_m3, Dimension.VOLUME),
        mouth=leg.mouth,
    )
    if isinstance(leg.time_to_target_s, float):
        words = f"{words} " + gettext(
            "By itself it needs %(time)s.", time=shown(leg.time_to_target_s, Dimension.DURATION)
        )
    if leg.oxygen_after_wait_frac is not None:
        oxygen = written_oxygen(leg.oxygen_after_wait_frac)
        words = f"{words} " + gettext("When you struck, its end held %(oxygen)s oxygen.", oxygen=oxygen)
    return words
