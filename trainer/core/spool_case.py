"""What the purge of a spool is told: its path, where gas enters and leaves, the joint, gas and flows."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from trainer.core.errors import Limits, OutOfRange, UnknownName
from trainer.core.gas import Gas, sinks_in_air
from trainer.core.purge_parts import FlowSegment, InLeak, Inlet
from trainer.core.spool_parts import SpoolPart, Tee
from trainer.core.spool_piece import Piece
from trainer.core.spool_pieces import spool_pieces
from trainer.core.terms import PurgeModel

_FRAC = Limits(
    quantity="place on a part", unit="", low=0.0, high=1.0, why="0 where it begins, 1 where it ends"
)
_ACROSS = Limits(quantity="place on the bore", unit="", low=0.0, high=1.0, why="0 is lowest, 1 highest")
_HOLE = Limits(quantity="vent hole", unit="m", low=1e-5, high=3.0, why="air has to get through it")
_COUNT = Limits(quantity="number of vents", unit="", low=1, why="without a vent the pressure only rises")
_NEIGHBOUR = 1e-9


@dataclass(frozen=True, kw_only=True)
class Point:
    """A point on a spool.

    Args:
        part [text]: name of the part; a tee's outlet is the tee's name and "outlet"
        along_frac [-]: place along the part, 0 where it begins, 1 where it ends
        across_frac [-]: place on the bore there, 0 lowest, 1 highest
    Raises:
        OutOfRange: for a share outside 0 to 1

    Example:
        >>> Point(part="run").across_frac
        0.5

    Reference: own definition.
    """

    part: str
    along_frac: float = 0.5
    across_frac: float = 0.5

    def __post_init__(self) -> None:
        _FRAC.check(self.along_frac)
        _ACROSS.check(self.across_frac)


@dataclass(frozen=True, kw_only=True)
class SpoolVent:
    """A hole through which the air leaves a spool.

    Args:
        at [record]: where its centre lies
        diameter_m [m]: diameter
        count [-]: number of holes side by side
    Raises:
        OutOfRange: for a hole that is none

    Example:
        >>> SpoolVent(at=Point(part="cap", along_frac=1.0), diameter_m=0.006).count
        1

    Reference: own definition.
    """

    at: Point
    diameter_m: float
    count: int = 1

    def __post_init__(self) -> None:
        _HOLE.check(self.diameter_m)
        Limits(quantity="number of vent holes", unit="", low=1, high=1000, why="air needs a way out").check(
            self.count
        )


@dataclass(frozen=True, kw_only=True)
class Spool:
    """A path of runs and fittings, where the gas enters it and the air leaves it.

    Args:
        path [record]: the parts, end to end, each with a name of its own
        inlet_at [record]: where the gas enters
        vents [record]: where the air leaves
        joint_at [record]: where the root lies; every height of the body counts when left out
    Raises:
        OutOfRange: for a path that does not fit together, or without a part or vent
        UnknownName: for a point on a part that does not exist, or a name given twice

    Example:
        >>> from trainer.core.spool_parts import Run
        >>> run = Run(name="run", bore_m=0.161, length_m=0.6)
        >>> spool = Spool(path=(run,), inlet_at=Point(part="run", along_frac=0.0),
        ...     vents=(SpoolVent(at=Point(part="run", along_frac=1.0), diameter_m=0.006),))
        >>> round(spool.volume_m3 * 1000.0, 2)
        12.21

    Reference: own definition.
    """

    path: tuple[SpoolPart, ...]
    inlet_at: Point
    vents: tuple[SpoolVent, ...]
    joint_at: Point | None = None

    def __post_init__(self) -> None:
        Limits(quantity="number of parts", unit="", low=1, why="a spool is made of parts").check(
            len(self.path)
        )
        _COUNT.check(len(self.vents))
        names = Counter(_names(self.path))
        for name, count in names.items():
            Limits(
                quantity=f"parts named {name}", unit="", high=1, why="points are told apart by name"
            ).check(count)
        points = [self.inlet_at, *(vent.at for vent in self.vents)]
        for point in [*points, *([self.joint_at] if self.joint_at else [])]:
            self.piece_at(point)
        for vent in self.vents:
            bore_m = self.pieces[self.piece_at(vent.at)].bore_m
            if vent.diameter_m > bore_m:
                why = f"a vent on {vent.at.part} is not wider than its bore"
                raise OutOfRange("vent hole", vent.diameter_m, low=None, high=bore_m, unit="m", why=why)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """The path and its branches cut into short cylinders.

        Returns:
            [record] pieces
        """
        return spool_pieces(self.path)

    @cached_property
    def _numbers(self) -> dict[str, list[int]]:
        """The numbers of the pieces of each part, in the order of the path."""
        numbers: dict[str, list[int]] = {}
        for number, piece in enumerate(self.pieces):
            numbers.setdefault(piece.part, []).append(number)
        return numbers

    @property
    def volume_m3(self) -> float:
        """Volume of all parts.

        Returns:
            [m3] volume
        """
        return sum(piece.volume_m3 for piece in self.pieces)

    def piece_at(self, point: Point) -> int:
        """The piece on which a point lies.

        Args:
            point [record]: the point
        Returns:
            [-] number of the piece
        Raises:
            UnknownName: for a part that does not exist
        """
        numbers = self._numbers.get(point.part)
        if not numbers:
            raise UnknownName("part of the spool", point.part, known=tuple(self._numbers))
        return min(numbers, key=lambda n: abs(self.pieces[n].part_frac - point.along_frac) + n * _NEIGHBOUR)

    def height_m(self, point: Point) -> float:
        """Height of a point above the axis where the spool begins.

        Args:
            point [record]: the point
        Returns:
            [m] height
        """
        number = self.piece_at(point)
        piece = self.pieces[number]
        whole_m = sum(self.pieces[other].length_m for other in self._numbers[point.part])
        off_frac = (point.along_frac - piece.part_frac) * whole_m / piece.length_m
        along_frac = 0.5 + max(-0.5, min(0.5, off_frac))
        return piece.start_m + piece.climb_m * along_frac + (point.across_frac - 0.5) * piece.leaning_m


@dataclass(frozen=True, kw_only=True)
class SpoolCase:
    """Everything that decides how the oxygen in a spool falls.

    Args:
        spool [record]: the path with inlet and vents
        inlet [record]: what the gas enters through; its height is that of the spool's inlet point
        gas [record]: the purge gas
        source_o2_frac [-]: oxygen in the purge gas, mole fraction
        segments [record]: the flows, one after the other
        temperature_k [K]: temperature of pipe and gas
        leaks [record]: openings that let air in, by height of the gas space; a gap all round needs the joint
        model [text]: layered, or one of its limits
        vent_shares [-]: of what leaves, the share of each vent; by area when left out
    Raises:
        OutOfRange: for a gap all round without a joint

    Reference: own definition.
    """

    spool: Spool
    inlet: Inlet
    gas: Gas
    source_o2_frac: float
    segments: tuple[FlowSegment, ...]
    temperature_k: float = 293.15
    leaks: tuple[InLeak, ...] = ()
    model: PurgeModel = PurgeModel.LAYERED
    vent_shares: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        if self.spool.joint_at is None and any(leak.height_frac is None for leak in self.leaks):
            why = "a gap all round a joint lies where the joint does: say where"
            Limits(quantity="height of the leak", unit="", why=why).check(math.nan)

    def above_pool_m(self, height_m: float) -> float:
        """A height counted upwards for a gas that sinks, downwards for one that rises.

        Args:
            height_m [m]: height above the axis where the spool begins
        Returns:
            [m] the same as the gas sees it
        """
        return height_m if sinks_in_air(self.gas) else -height_m


def _names(path: Sequence[SpoolPart]) -> list[str]:
    names = []
    for part in path:
        names.append(part.name)
        if isinstance(part, Tee):
            names += [f"{part.name} outlet", *_names(part.branch)]
    return names
