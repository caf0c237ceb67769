"""From the path of a set-up to the core's spool: which sizes each part needs, and how bore and slope go on.

The first part's bore is the pipe's; each part begins with the bore and in the direction that the one before
it ends with. A reducer ends with its own bore, a tee's branch begins with that of its outlet; only an elbow
turns the path.
"""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any

from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, SpoolPart, Tee
from trainer.domain.known_parts import size_of
from trainer.domain.set_up import BranchPart, InletFitting, Joint, PathPart, PathPartKind, SetUp, Vent

NEEDED: Mapping[PathPartKind, tuple[str, ...]] = {
    PathPartKind.RUN: ("length",),
    PathPartKind.ELBOW: ("angle", "bend_radius", "slope"),
    PathPartKind.REDUCER: ("length", "to_bore"),
    PathPartKind.TEE: ("length", "outlet", "slope"),
    PathPartKind.CAP: (),
}
# A run goes on as the part before it ends, level where it is the first; a tee's outlet is as wide as its run,
# and closed where it has no branch; a cap has no straight edge.
MAY_HAVE: Mapping[PathPartKind, tuple[str, ...]] = {
    PathPartKind.RUN: ("slope",),
    PathPartKind.ELBOW: (),
    PathPartKind.REDUCER: (),
    PathPartKind.TEE: ("to_bore", "branch"),
    PathPartKind.CAP: ("straight_flange",),
}
ATTRIBUTES: Mapping[str, str] = {
    "length": "length_m", "slope": "slope_deg", "angle": "angle_deg", "bend_radius": "bend_radius_m",
    "to_bore": "to_bore_m", "outlet": "outlet_m", "straight_flange": "straight_flange_m", "branch": "branch",
}  # fmt: skip
OUTLET = " outlet"


def path_of(set_up: SetUp) -> tuple[PathPart, ...]:
    """The parts of a spool; none where the section is a straight one."""
    return set_up.section.path if set_up.section else ()


def branch_of(part: BranchPart) -> tuple[BranchPart, ...]:
    """The parts on a tee's outlet."""
    return part.branch if isinstance(part, PathPart) else ()


def all_parts(path: Iterable[BranchPart]) -> list[BranchPart]:
    """The parts of a path with those of its branches."""
    return [each for part in path for each in (part, *branch_of(part))]


def part_names(path: Iterable[BranchPart]) -> tuple[str, ...]:
    """What a point may lie on: each part by its name, and a tee's outlet by the tee's name and "outlet"."""
    names = []
    for part in all_parts(path):
        if part.name is not None:
            names += [part.name, part.name + OUTLET] if part.part is PathPartKind.TEE else [part.name]
    return tuple(dict.fromkeys(names))


def vents_of(set_up: SetUp) -> tuple[Vent, ...]:
    """The vents of a set-up: the one, or those of a spool."""
    if set_up.vents:
        return set_up.vents
    return (set_up.vent,) if set_up.vent else ()


def lacking(part: BranchPart) -> tuple[str, ...]:
    """The keys that a part of its kind needs and has not."""
    if part.part is None:
        return ("part",)
    return tuple(key for key in NEEDED[part.part] if getattr(part, ATTRIBUTES[key]) is None)


def core_parts_of(set_up: SetUp) -> tuple[SpoolPart, ...] | None:
    """The path as the core lays it; None where the pipe's size or a part's is not known."""
    path, size = path_of(set_up), size_of(set_up.pipe)
    if not path or size is None or any(lacking(part) or part.name is None for part in all_parts(path)):
        return None
    return _laid(path, size.bore_m)


def spool_of(set_up: SetUp) -> Spool | None:
    """The spool with inlet, vents and joint; None where the place of one of them is not known."""
    parts, inlet_at, vents = core_parts_of(set_up), point_of(set_up.inlet), _spool_vents(set_up)
    joint_at = point_of(set_up.joint) if _is_told(set_up.joint) else None
    if parts is None or inlet_at is None or not vents or (_is_told(set_up.joint) and joint_at is None):
        return None
    return _spool(parts, inlet_at, vents, joint_at)


# A spool is asked for several times in a run, and its pieces are laid out once.
@lru_cache(maxsize=64)
def _spool(
    parts: tuple[SpoolPart, ...], inlet_at: Point, vents: tuple[SpoolVent, ...], joint_at: Point | None
) -> Spool:
    return Spool(path=parts, inlet_at=inlet_at, vents=vents, joint_at=joint_at)


@lru_cache(maxsize=64)
def _laid(path: tuple[PathPart, ...], bore_m: float) -> tuple[SpoolPart, ...]:
    return tuple(_in_order(path, bore_m, 0.0))


def _in_order(path: Iterable[BranchPart], bore_m: float, slope_deg: float) -> Iterable[SpoolPart]:
    for part in path:
        made = _core_part(part, bore_m, slope_deg)
        yield made
        if isinstance(made, Reducer):
            bore_m = made.other_bore_m
        elif isinstance(made, Run):
            slope_deg = made.slope_deg
        elif isinstance(made, Elbow):
            slope_deg = made.to_slope_deg


def _core_part(part: BranchPart, bore_m: float, slope_deg: float) -> SpoolPart:
    """One part; its sizes are all known, which mypy cannot see."""
    known: Any = part
    match part.part:
        case PathPartKind.RUN:
            goes_on_deg = slope_deg if part.slope_deg is None else part.slope_deg
            return Run(name=known.name, bore_m=bore_m, length_m=known.length_m, slope_deg=goes_on_deg)
        case PathPartKind.ELBOW:
            return Elbow(
                name=known.name,
                bore_m=bore_m,
                bend_radius_m=known.bend_radius_m,
                angle_deg=known.angle_deg,
                to_slope_deg=known.slope_deg,
            )
        case PathPartKind.REDUCER:
            return Reducer(
                name=known.name, bore_m=bore_m, other_bore_m=known.to_bore_m, length_m=known.length_m
            )
        case PathPartKind.TEE:
            return _core_tee(known, bore_m)
        case _:
            return Cap(name=known.name, bore_m=bore_m, straight_flange_m=part.straight_flange_m or 0.0)


def _core_tee(tee: Any, bore_m: float) -> Tee:
    return Tee(
        name=tee.name,
        bore_m=bore_m,
        run_length_m=tee.length_m,
        outlet_m=tee.outlet_m,
        outlet_slope_deg=tee.slope_deg,
        outlet_bore_m=tee.to_bore_m,
        branch=tuple(_in_order(branch_of(tee), tee.to_bore_m or bore_m, tee.slope_deg)),
    )


def _is_told(joint: Joint | None) -> bool:
    """Whether it is said where the joint lies; without a word of it the worst place of the spool counts."""
    return joint is not None and joint.at is not None


def point_of(placed: InletFitting | Vent | Joint | None) -> Point | None:
    """Where something lies; a joint goes all round, the others lie at a height across the bore."""
    if placed is None or placed.at is None or placed.along_frac is None:
        return None
    across_frac = 0.5 if isinstance(placed, Joint) else placed.height_frac
    if across_frac is None:
        return None
    return Point(part=placed.at, along_frac=placed.along_frac, across_frac=across_frac)


def _spool_vents(set_up: SetUp) -> tuple[SpoolVent, ...]:
    """The open vents with their places; none where one of them is not fully known."""
    made = []
    for vent in vents_of(set_up):
        if vent.blocked:
            continue
        at = point_of(vent)
        if at is None or vent.diameter_m is None:
            return ()
        made.append(SpoolVent(at=at, diameter_m=vent.diameter_m, count=vent.count or 1))
    return tuple(made)
