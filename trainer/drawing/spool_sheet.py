"""The sheet of a spool: from metres to drawing units, and the room that is left on it for words."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.free_places import FreePlaces
from trainer.drawing.spool_elevation import At, Seen

WIDTH, DRAWN_HEIGHT = 800.0, 400.0
MARGIN, ASIDE = 64.0, 160.0
EDGE = 4.0
LINE = 30.0
LEAST_BORE_UNITS = 9.0
LEAST_WALL, MOST_WALL = 2.0, 14.0
WALL_SHARE = 0.13  # of the bore


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """From metres, right and up, to units on the sheet."""

    scale: float
    left: float
    bottom: float
    wall: float  # drawn thickness of the metal
    free: FreePlaces

    def at(self, place: At) -> At:
        """A place on the sheet."""
        return self.left + place[0] * self.scale, self.bottom - place[1] * self.scale

    def half(self, seen: Seen) -> float:
        """Half of a drawn bore, never so narrow that it cannot be seen."""
        return max(seen.half_m * self.scale, LEAST_BORE_UNITS / 2.0)

    def outer(self, seen: Seen) -> float:
        """Half of a drawn outside diameter."""
        return self.half(seen) + self.wall


def sheet_for(seen: Sequence[Seen], *, wall_m: float | None = None) -> Sheet:
    """The sheet on which a spool is as large as fits."""
    places = [(place, each.half_m) for each in seen for place in (each.begins, each.ends)]
    lefts, rights = [at[0] - half for at, half in places], [at[0] + half for at, half in places]
    lows, highs = [at[1] - half for at, half in places], [at[1] + half for at, half in places]
    wide_m, high_m = max(rights) - min(lefts), max(highs) - min(lows)
    scale = min((WIDTH - 2 * ASIDE) / wide_m, (DRAWN_HEIGHT - 2 * MARGIN) / high_m)
    return Sheet(
        scale=scale,
        wall=_drawn_wall(scale, max(each.half_m for each in seen), wall_m),
        free=FreePlaces((EDGE, 0.0, WIDTH - EDGE, DRAWN_HEIGHT - LINE)),
        left=(WIDTH + ASIDE / 4 - scale * wide_m) / 2.0 - scale * min(lefts),
        bottom=(DRAWN_HEIGHT + scale * high_m) / 2.0 + scale * min(lows),
    )


def _drawn_wall(scale: float, half_m: float, wall_m: float | None) -> float:
    """In scale where that can be seen, otherwise a share of the bore, as on a straight section."""
    in_scale = scale * (wall_m or 0.0)
    return min(max(in_scale, WALL_SHARE * 2.0 * half_m * scale, LEAST_WALL), MOST_WALL)
