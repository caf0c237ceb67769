"""What is wrong with the points of a spool: names of no part, holes that do not fit, vents told of twice."""

from collections.abc import Iterator

from trainer.core.errors import OutOfRange, UnknownSize
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_places import is_in_end_face
from trainer.domain.faults_of_openings import hole_faults, inlet_in_bore_faults
from trainer.domain.faults_of_path import path_faults
from trainer.domain.set_up import InletFitting, Joint, SetUp, Vent
from trainer.domain.set_up_fault import SetUpFault
from trainer.domain.spool_path import core_parts_of, part_names, path_of

_Placed = InletFitting | Vent | Joint


def point_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Points that lie on no part, and vents told of in two ways."""
    yield from _two_ways(set_up)
    names = part_names(path_of(set_up))
    for where, placed in _all_placed(set_up):
        if placed.at is None:
            if placed.along_frac is not None:
                yield SetUpFault(
                    path=f"{where}.along", code="along-without-at", value=placed.along_frac,
                    involves=(f"{where}.at",),
                )  # fmt: skip
        elif not path_of(set_up):
            yield SetUpFault(
                path=f"{where}.at", code="at-without-path", value=placed.at, involves=("section.path",)
            )
        elif placed.at not in names:
            yield SetUpFault(
                path=f"{where}.at", code="no-such-part", value=placed.at,
                facts={"known": ", ".join(names)}, involves=("section.path",),
            )  # fmt: skip


def spool_hole_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Holes and faces that do not fit where they lie: in a dam or cap within its bore, in a wall up to it."""
    if not path_of(set_up) or any(path_faults(set_up)):
        return
    names = part_names(path_of(set_up))
    for where, placed in _all_placed(set_up):
        if isinstance(placed, Joint) or placed.at not in names or placed.along_frac is None:
            continue
        point = Point(part=placed.at or "", along_frac=placed.along_frac)
        spool = _laid_out(set_up, point)
        if spool is None:
            return
        bore_m = spool.pieces[spool.piece_at(point)].bore_m
        if isinstance(placed, InletFitting):
            yield from inlet_in_bore_faults(placed, bore_m)
        else:
            height_frac = placed.height_frac if is_in_end_face(spool, point=point) else None
            yield from hole_faults(
                where, "diameter", height_frac, placed.diameter_m,
                holes=1 if height_frac is None else placed.count or 1, bore_m=bore_m,
            )  # fmt: skip


def _laid_out(set_up: SetUp, point: Point) -> Spool | None:
    """The path laid out, whatever else is known of it; None where sizes are not known or lie out of range."""
    try:
        parts = core_parts_of(set_up)
        vent = SpoolVent(at=point, diameter_m=1e-4)
        return None if parts is None else Spool(path=parts, inlet_at=point, vents=(vent,))
    except (UnknownSize, OutOfRange):
        return None


def _two_ways(set_up: SetUp) -> Iterator[SetUpFault]:
    if set_up.vents and set_up.vent is not None:
        yield SetUpFault(path="vents", code="vent-and-vents", involves=("vent",))
    if set_up.vents and not path_of(set_up):
        yield SetUpFault(path="vents", code="vents-without-path", involves=("section.path",))


def _all_placed(set_up: SetUp) -> Iterator[tuple[str, _Placed]]:
    for where, placed in (("inlet", set_up.inlet), ("vent", set_up.vent), ("joint", set_up.joint)):
        if placed is not None:
            yield where, placed
    for number, vent in enumerate(set_up.vents):
        yield f"vents.{number}", vent
