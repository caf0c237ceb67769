"""Where things stand on the sheet: the pipe's own frame (level, sloping or upright) and the ground below it.

In the pipe's frame u runs along the axis from the inlet's end to the vent's, 0 at the joint, and v across
it, downwards on a level pipe; both in drawing units. Turned into sheet coordinates only for words,
hoses and people.
"""

from dataclasses import dataclass
from math import cos, radians, sin

from trainer.domain.set_up import Place, SetUp
from trainer.drawing.asked import Asked
from trainer.drawing.free_places import FreePlaces
from trainer.drawing.knots import Knots

SHEET = (800.0, 420.0)
SUPPLY_X = 50.0
FLOOR_Y = 366.0
GROUND_OVER_A_PIT_Y = 250.0
CAPTION_Y = 404.0

ACROSS_AT = (420.0, 142.0)
LEANING_AT = (370.0, 186.0)
FITTING_HALF = 10.0  # half of what a diffuser or a hose end takes across the bore

GENTLE_DEG = (
    15.0  # steeper than this, the pipe is never drawn across the sheet with the surroundings under it
)
TRUE_TO_SCALE_M = 1.5  # a section that fits is drawn to scale in its length
BREAK_AT_M = 0.6  # otherwise the scale holds this far from the joint, and the rest is squeezed
BREAK_SHARE = 0.6  # of the drawn half length that goes to the part in scale
LEVEL_LENGTH = 600.0
END_UNITS = 62.0  # kept at each end for the dam's thickness and the hose behind it
GRIPPED_END_UNITS = 100.0  # and where a dam can be moved, for the figure beside its grip
LARGEST_DRAWN_M = 0.33  # pipes above NPS 12 are drawn as thick as it

SUNKEN = (Place.PIT, Place.TRENCH)


@dataclass(frozen=True, kw_only=True)
class Layout:
    """The frame of one drawing."""

    slope_deg: float
    is_flat: bool  # whether the pipe lies across the sheet, with the surroundings below
    centre: tuple[float, float]
    half_length: float
    outer: float  # drawn outside diameter
    wall: float  # drawn wall
    along: Knots  # distance from the joint in m → units along the axis
    ground_y: float
    floor_y: float
    broken: bool
    free: FreePlaces  # room for words on the sheet, less with each that is written

    @property
    def bore(self) -> float:
        """Drawn bore."""
        return self.outer - 2 * self.wall

    @property
    def dimension_side(self) -> int:
        """Where dimensions go: over a level pipe, to the left of one that stands; -1 is up in its frame."""
        return 1 if not self.is_flat and self.slope_deg < 0 else -1

    @property
    def heights(self) -> Knots:
        """Fraction of the bore's height → v; a fitting at either end lies against the wall, not in it."""
        reach = self.bore / 2 - FITTING_HALF
        return Knots(((0.0, reach), (1.0, -reach)))

    @property
    def turned(self) -> str:
        """The transform from the pipe's frame to the sheet."""
        x, y = self.centre
        return f"translate({x:.1f} {y:.1f}) rotate({-self.slope_deg:.2f})"

    def sheet(self, u: float, v: float) -> tuple[float, float]:
        """A point of the pipe's frame, on the sheet."""
        angle = radians(-self.slope_deg)
        x, y = self.centre
        return x + u * cos(angle) - v * sin(angle), y + u * sin(angle) + v * cos(angle)

    def pipe_frame(self, x: float, y: float) -> tuple[float, float]:
        """A point of the sheet, in the pipe's frame."""
        angle = radians(self.slope_deg)
        dx, dy = x - self.centre[0], y - self.centre[1]
        return dx * cos(angle) - dy * sin(angle), dx * sin(angle) + dy * cos(angle)


def layout_for(
    set_up: SetUp, *, asked: Asked, outside_diameter_m: float | None, wall_m: float | None
) -> Layout:
    """The frame that holds a set-up and the parts that can still be moved in it."""
    slope_deg = set_up.section.slope_deg if set_up.section and set_up.section.slope_deg else 0.0
    outer = _drawn_diameter(outside_diameter_m)
    across, leaning = _half_across_the_sheet(slope_deg, outer), _half_leaning(slope_deg, outer)
    # A thick pipe that leans a little would be a stub above the surroundings; beside them it has room.
    is_flat = abs(slope_deg) < GENTLE_DEG and across >= leaning
    half_length = across if is_flat else leaning
    moves_dam = any(each.along.startswith("pipe") for each in asked.handles)
    reach = half_length - (GRIPPED_END_UNITS if moves_dam else END_UNITS)
    furthest_m = _furthest_m(set_up, asked)
    sunken = set_up.surroundings is not None and set_up.surroundings.kind in SUNKEN
    return Layout(
        slope_deg=slope_deg,
        is_flat=is_flat,
        centre=ACROSS_AT if is_flat else LEANING_AT,
        half_length=half_length,
        outer=outer,
        wall=_drawn_wall(outer, outside_diameter_m, wall_m),
        along=_along(furthest_m, reach),
        ground_y=GROUND_OVER_A_PIT_Y if sunken else FLOOR_Y,
        floor_y=FLOOR_Y,
        broken=furthest_m > TRUE_TO_SCALE_M,
        free=FreePlaces((2.0, 0.0, SHEET[0] - 2.0, SHEET[1])),
    )


def _drawn_diameter(outside_diameter_m: float | None) -> float:
    """Thicker for a larger pipe, but never so thin that the vent cannot be seen."""
    size_m = LARGEST_DRAWN_M / 2 if outside_diameter_m is None else min(outside_diameter_m, LARGEST_DRAWN_M)
    return 92.0 + 58.0 * size_m / LARGEST_DRAWN_M


def _drawn_wall(outer: float, outside_diameter_m: float | None, wall_m: float | None) -> float:
    share = 0.0 if not outside_diameter_m or wall_m is None else wall_m / outside_diameter_m
    return min(max(outer * share, 14.0), 24.0)


def _half_across_the_sheet(slope_deg: float, outer: float) -> float:
    """Half the drawn length of a pipe that has the sheet's width and the height above the surroundings."""
    angle = radians(abs(slope_deg))
    rise = max(170.0 - outer * cos(angle), 0.0)
    return (min(LEVEL_LENGTH, rise / sin(angle)) if angle else LEVEL_LENGTH) / 2


def _half_leaning(slope_deg: float, outer: float) -> float:
    """Half the drawn length of a pipe that has the height of the sheet, the surroundings beside it."""
    angle = radians(abs(slope_deg))
    across = (430.0 - outer * sin(angle)) / max(cos(angle), 1e-6)
    up = (306.0 - outer * cos(angle)) / max(sin(angle), 1e-6)
    return min(across, up) / 2


def _furthest_m(set_up: SetUp, asked: Asked) -> float:
    section = set_up.section
    known = [] if section is None else [section.left_dam_m, section.right_dam_m]
    reached = [each for each in known if each is not None]
    reached += [each.high for each in asked.handles if each.along.startswith("pipe")]
    return max(reached, default=1.0)


def _along(furthest_m: float, reach: float) -> Knots:
    if furthest_m <= TRUE_TO_SCALE_M:
        return Knots(((0.0, 0.0), (furthest_m, reach)))
    return Knots(((0.0, 0.0), (BREAK_AT_M, BREAK_SHARE * reach), (furthest_m, reach)))
