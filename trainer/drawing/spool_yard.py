"""The ground under a spool: its supply, the space that it stands in, and people with their faces at height.

It has a strip of its own below the spool, so that nothing of it covers a part or a word. Within the strip,
places are those of a straight section's sheet, moved down.
"""

from dataclasses import dataclass, replace

from trainer.core.terms import Fan
from trainer.domain.set_up import Place, SetUp
from trainer.drawing.asked import NOTHING_ASKED
from trainer.drawing.free_places import FreePlaces
from trainer.drawing.layout import FLOOR_Y, SHEET, SUNKEN, Layout, layout_for
from trainer.drawing.people import HEAD, TALLEST_UNITS, people_drawing
from trainer.drawing.reader import Reader
from trainer.drawing.spool_elevation import At
from trainer.drawing.spool_sheet import DRAWN_HEIGHT
from trainer.drawing.supply import GAUGE_RADIUS, OUTLET_ABOVE_GROUND, OUTLET_X, supply_drawing
from trainer.drawing.surroundings import ground_drawing, span_of
from trainer.drawing.svg import group

CHANNEL = 18.0  # between the spool and what stands under it, for each hose that runs there
EARTH = 14.0
INTO_A_PIT = 34.0  # how far over its floor a hose ends


@dataclass(frozen=True, kw_only=True)
class Yard:
    """What stands under a spool, and by how much its own places are moved down on the sheet."""

    set_up: SetUp
    around: Place
    layout: Layout
    drop: float

    @property
    def foot(self) -> float:
        """Where it ends on the sheet."""
        return self.drop + FLOOR_Y + EARTH

    @property
    def supply_channel(self) -> float:
        """How low the hose to the inlet runs."""
        return DRAWN_HEIGHT - CHANNEL / 2

    @property
    def vent_channel(self) -> float:
        """How low a hose from a vent runs."""
        return self.supply_channel + CHANNEL

    @property
    def outlet(self) -> At:
        """Where the hose sits on the supply."""
        return OUTLET_X, self.layout.ground_y - OUTLET_ABOVE_GROUND + self.drop

    @property
    def pit_end(self) -> At:
        """Where a hose that leads into the pit ends."""
        return span_of(self.around, self.layout)[1] - 26.0, self.drop + FLOOR_Y - INTO_A_PIT


def yard_of(set_up: SetUp) -> Yard | None:
    """The ground with what the set-up tells of; None where it tells of nothing that stands there."""
    around = set_up.surroundings
    kind = around.kind if around and around.kind else Place.OPEN_AIR
    people = set_up.scene.people if set_up.scene else ()
    blows = around is not None and around.fan in (Fan.BLOWS_IN, Fan.DRAWS_OUT)
    if set_up.supply is None and not people and not blows and kind not in SUNKEN:
        return None
    layout = layout_for(set_up, asked=NOTHING_ASKED, outside_diameter_m=None, wall_m=None)
    layout = replace(layout, is_flat=True, slope_deg=0.0)
    top = FLOOR_Y - TALLEST_UNITS - 2 * HEAD
    if kind in SUNKEN and people:
        top = layout.ground_y - TALLEST_UNITS - 2 * HEAD
    if set_up.supply is not None:
        top = min(top, layout.ground_y - OUTLET_ABOVE_GROUND - GAUGE_RADIUS - 6.0)
    free = FreePlaces((2.0, top, SHEET[0] - 2.0, FLOOR_Y + EARTH), taken=[(0.0, top, OUTLET_X, FLOOR_Y)])
    drop = DRAWN_HEIGHT + 2 * CHANNEL - top
    return Yard(set_up=set_up, around=kind, layout=replace(layout, free=free), drop=drop)


def yard_drawing(yard: Yard, reader: Reader) -> str:
    """The ground, the supply and the people."""
    scene = yard.set_up.scene
    return group(
        ground_drawing(yard.set_up.surroundings, layout=yard.layout),
        supply_drawing(yard.set_up.supply, scene=scene, ground_y=yard.layout.ground_y),
        people_drawing(scene.people if scene else (), layout=yard.layout, around=yard.around, reader=reader),
        transform=f"translate(0 {yard.drop:g})",
        data_part="yard",
    )
