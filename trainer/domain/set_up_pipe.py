"""The pipe, the dammed section or the spool between the dams, and the joint in it."""

from dataclasses import dataclass

from trainer.domain.quantities import Dimension, choice, measured, number, parts, text
from trainer.domain.set_up_terms import PathPartKind


@dataclass(frozen=True, kw_only=True)
class Pipe:
    """The pipe: by size and schedule, or by its own outside diameter and wall."""

    nps: str | None = text("nps", why="nominal pipe size in inches; together with schedule")
    dn: str | None = text("dn", why="nominal diameter in millimetres; together with schedule")
    schedule: str | None = text("schedule", why="of ASME B36.10M or B36.19M; 10S is not 10")
    outside_diameter_m: float | None = measured(
        "outside_diameter", Dimension.LENGTH, 0.003, 2.5, why="tube and pipe from 3 mm to 2.5 m"
    )
    wall_m: float | None = measured("wall", Dimension.LENGTH, 0.0002, 0.15, why="walls from 0.2 mm to 150 mm")


@dataclass(frozen=True, kw_only=True)
class BranchPart:
    """One part of a spool or of a tee's branch, by name; the sizes that it needs follow from its kind."""

    name: str | None = text(
        "name", why="what inlet, vents and joint say in at, and the answer calls the part"
    )
    part: PathPartKind | None = choice("part", PathPartKind)
    length_m: float | None = measured(
        "length", Dimension.LENGTH, 0.001, 50.0, why="runs, reducers and tees from 1 mm to 50 m"
    )
    slope_deg: float | None = measured(
        "slope", Dimension.ANGLE, -90.0, 90.0, why="90 goes straight up along the path, -90 straight down"
    )
    angle_deg: float | None = measured(
        "angle", Dimension.ANGLE, 1.0, 180.0, why="elbows turn by 1 to 180 degrees"
    )
    bend_radius_m: float | None = measured(
        "bend_radius", Dimension.LENGTH, 0.0, 20.0, why="centre line radius of an elbow", low_is_open=True
    )
    to_bore_m: float | None = measured(
        "to_bore", Dimension.LENGTH, 0.005, 2.5, why="bore at a reducer's far end, or of a tee's outlet"
    )
    outlet_m: float | None = measured(
        "outlet",
        Dimension.LENGTH,
        0.0,
        3.0,
        why="a tee's outlet from the run's centre line",
        low_is_open=True,
    )
    straight_flange_m: float | None = measured(
        "straight_flange", Dimension.LENGTH, 0.0, 0.5, why="the straight edge of a cap"
    )


@dataclass(frozen=True, kw_only=True)
class PathPart(BranchPart):
    """One part of a spool; only a tee has a branch, which ends where its list ends, closed."""

    branch: tuple[BranchPart, ...] = parts("branch", BranchPart)


@dataclass(frozen=True, kw_only=True)
class Section:
    """The dammed section: distance from the joint to each dam's inner face, and how the vent's end lies.

    Where the pipe ends open beyond a dam is told too: the rope that draws the dam out has to lead that far.
    A spool is given by its path instead: parts in order from the inlet's end to the far end.
    """

    left_dam_m: float | None = measured(
        "left_dam", Dimension.LENGTH, 0.0, 50.0, why="a dam on the joint to one 50 m away", low_is_open=True
    )
    right_dam_m: float | None = measured(
        "right_dam", Dimension.LENGTH, 0.0, 50.0, why="a dam on the joint to one 50 m away", low_is_open=True
    )
    slope_deg: float | None = measured(
        "slope", Dimension.ANGLE, -90.0, 90.0, why="90 is upright with the inlet below, -90 with it above"
    )
    left_end_m: float | None = measured(
        "left_end",
        Dimension.LENGTH,
        0.0,
        200.0,
        why="from the joint to the pipe's open end",
        low_is_open=True,
    )
    right_end_m: float | None = measured(
        "right_end",
        Dimension.LENGTH,
        0.0,
        200.0,
        why="from the joint to the pipe's open end",
        low_is_open=True,
    )
    path: tuple[PathPart, ...] = parts("path", PathPart)


@dataclass(frozen=True, kw_only=True)
class Joint:
    """The root gap, and the share of its circumference that is taped shut."""

    gap_m: float | None = measured("gap", Dimension.LENGTH, 0.0, 0.02, why="root gaps up to 20 mm")
    taped_frac: float | None = number("taped", 0.0, 1.0, why="0 is all open, 1 all taped")
    at: str | None = text("at", why="the part of section.path that the joint lies on")
    along_frac: float | None = number(
        "along", 0.0, 1.0, why="0 is where the part named in at begins, 1 where it ends"
    )
    left_open_m: float | None = measured(
        "left_open",
        Dimension.LENGTH,
        0.0,
        8.0,
        why="length of root still open while welding, once round at most",
    )
    pool_depth_m: float | None = measured(
        "pool_depth", Dimension.LENGTH, 0.0005, 0.05, why="molten pools from 0.5 mm to 50 mm deep"
    )
