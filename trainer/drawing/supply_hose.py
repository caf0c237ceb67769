"""The hoses outside the pipe: from the supply to its end, and from its other end to where the vent leads."""

from trainer.domain.set_up import Place, SetUp
from trainer.drawing.fittings import HALF_A_HOSE, hose_drawing
from trainer.drawing.layout import Layout
from trainer.drawing.supply import OUTLET_ABOVE_GROUND, OUTLET_X
from trainer.drawing.surroundings import gas_leaving, vent_route
from trainer.drawing.svg import group


def supply_hose(set_up: SetUp, *, layout: Layout) -> str:
    """The hose to the inlet, kinked where the set-up says so."""
    if set_up.supply is None and set_up.hose is None:
        return ""
    return hose_drawing(supply_route(layout), hose=set_up.hose)


def supply_route(layout: Layout) -> list[tuple[float, float]]:
    """From the regulator to the pipe's end."""
    outlet = (OUTLET_X, layout.ground_y - OUTLET_ABOVE_GROUND)
    end = layout.sheet(-layout.half_length, 0.0)
    if layout.is_flat:
        drop_x = OUTLET_X + 14.0
        return [outlet, (drop_x, outlet[1]), (drop_x, end[1]), end]
    before = layout.sheet(-layout.half_length - 24.0, 0.0)
    return [outlet, (114.0, outlet[1]), (114.0, before[1]), before, end]


def vent_hose(set_up: SetUp, *, layout: Layout, around: Place) -> str:
    """The hose that leads the vent gas away, where the scene has one."""
    leads_to = set_up.scene.vent_leads_to if set_up.scene else None
    if leads_to is None:
        return ""
    start = layout.sheet(layout.half_length, 0.0)
    points = vent_route(start, leads_to=leads_to, layout=layout, around=around)
    layout.free.block_along(points, half=HALF_A_HOSE)
    (x1, y1), (x2, y2) = points[-2:]
    is_upright = abs(y2 - y1) > abs(x2 - x1)
    leaving = gas_leaving(points[-1], towards=(0.0, 1.0) if is_upright else (1.0, 0.0))
    return group(hose_drawing(points, hose=None), leaving, data_part=f"vent hose to {leads_to.value}")
