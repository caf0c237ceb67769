"""Hoses of a spool, drawn behind its parts: from the supply to the inlet, from the vents to where they lead.

A hose runs between the spool and the ground, rises beside its opening, and meets the end of the arrow there.
"""

from collections.abc import Iterator, Sequence

from trainer.domain.set_up import Place
from trainer.drawing.fittings import HALF_A_HOSE, hose_corners, hose_drawing
from trainer.drawing.layout import SUNKEN
from trainer.drawing.spool_elevation import At, Seen
from trainer.drawing.spool_openings import SIDEWAYS, Opening
from trainer.drawing.spool_sheet import WIDTH, Sheet
from trainer.drawing.spool_yard import Yard
from trainer.drawing.surroundings import gas_leaving
from trainer.drawing.svg import group

BESIDE = 14.0  # from an arrow that points sideways to the hose that rises there
ROUND = 24.0  # from the spool to a hose that goes round it to its upper side
SHEETS_EDGE = WIDTH - 22.0
BREATH = 20.0  # how far gas is drawn that leaves
SUPPLY_STUB = 14.0


def spool_hoses(openings: Sequence[Opening], *, yard: Yard | None, seen: Sequence[Seen], sheet: Sheet) -> str:
    """All hoses, and the gas at each open vent or at the end of its hose; words keep off them."""
    return group(*_hoses(openings, yard, seen, sheet))


def _hoses(
    openings: Sequence[Opening], yard: Yard | None, seen: Sequence[Seen], sheet: Sheet
) -> Iterator[str]:
    for each in openings:
        if each.is_inlet and yard is not None and yard.set_up.supply is not None:
            yield _supply_hose(each, yard, seen, sheet)
        elif not each.is_inlet and not each.is_blocked:
            yield _vent_gas(each, yard, seen, sheet)


def _supply_hose(inlet: Opening, yard: Yard, seen: Sequence[Seen], sheet: Sheet) -> str:
    (x, y), low_y = yard.outlet, yard.supply_channel
    turn_x = x + SUPPLY_STUB
    rise = list(reversed(_down_to(low_y, inlet, seen, sheet)))
    points = [(x, y), (turn_x, y), (turn_x, low_y), *rise]
    sheet.free.block_along(hose_corners(points, hose=yard.set_up.hose), half=HALF_A_HOSE)
    return group(hose_drawing(points, hose=yard.set_up.hose), data_part="hose to the inlet")


def _vent_gas(vent: Opening, yard: Yard | None, seen: Sequence[Seen], sheet: Sheet) -> str:
    ending = _vent_ending(yard)
    if yard is None or ending is None:
        right, rise = vent.out
        return _leaving(vent.end, (right, -rise), sheet)
    scene = yard.set_up.scene
    leads_to = scene.vent_leads_to.value if scene and scene.vent_leads_to else ""
    points = [*_down_to(yard.vent_channel, vent, seen, sheet), *ending]
    sheet.free.block_along(points, half=HALF_A_HOSE)
    (x1, y1), (x2, y2) = points[-2:]
    towards = (0.0, 1.0) if abs(y2 - y1) > abs(x2 - x1) else (1.0, 0.0)
    return group(
        hose_drawing(points, hose=None),
        _leaving(points[-1], towards, sheet),
        data_part=f"vent hose to {leads_to}",
    )


def _vent_ending(yard: Yard | None) -> list[At] | None:
    """How a vent's hose goes on from its channel; None where the gas leaves at the vent itself."""
    leads_to = yard.set_up.scene.vent_leads_to if yard and yard.set_up.scene else None
    if yard is None or leads_to is None:
        return None
    if leads_to in SUNKEN and yard.around is leads_to:
        x, y = yard.pit_end
        return [(x, yard.vent_channel), (x, y)]
    if leads_to is Place.OPEN_AIR and yard.around is not Place.OPEN_AIR:
        return [(SHEETS_EDGE, yard.vent_channel)]
    return None


def _down_to(low_y: float, opening: Opening, seen: Sequence[Seen], sheet: Sheet) -> list[At]:
    """From an opening's arrow down to a channel: straight, beside the arrow, or round the nearer end."""
    (x, y), (right, rise) = opening.end, opening.out
    if abs(right) >= SIDEWAYS:
        beside_x = x + (BESIDE if right > 0 else -BESIDE)
        return [(x, y), (beside_x, y), (beside_x, low_y)]
    if rise < 0:
        return [(x, y), (x, low_y)]
    ends = [sheet.at(place)[0] for each in seen for place in (each.begins, each.ends)]
    half = max(sheet.outer(each) for each in seen)
    left_x, right_x = min(ends) - half - ROUND, max(ends) + half + ROUND
    round_x = left_x if x - left_x <= right_x - x else right_x
    return [(x, y), (x, y - BESIDE), (round_x, y - BESIDE), (round_x, low_y)]


def _leaving(at: At, towards: At, sheet: Sheet) -> str:
    (x, y), (dx, dy) = at, towards
    far_x, far_y = x + dx * BREATH, y + dy * BREATH
    sheet.free.block(min(x, far_x) - 8, min(y, far_y) - 8, max(x, far_x) + 8, max(y, far_y) + 8)
    return gas_leaving(at, towards=towards)
