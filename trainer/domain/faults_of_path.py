"""What is wrong with the path of a spool: sizes that parts lack or do not need, and parts that do not fit."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from trainer.core.errors import UnknownName, UnknownSize
from trainer.core.fittings import long_radius_m
from trainer.domain.known_parts import find_size_of
from trainer.domain.quantities import Dimension, specs_of
from trainer.domain.set_up import BranchPart, PathPart, PathPartKind, SetUp
from trainer.domain.set_up_fault import SetUpFault
from trainer.domain.spool_path import ATTRIBUTES, MAY_HAVE, NEEDED, OUTLET, branch_of, lacking, path_of

_SLACK_DEG = 0.1  # slopes and angles are read off drawings
_SLACK_RATIO = 1e-9  # a bore that came through another unit is the same bore
BODY = "body"  # what the answer calls all that the gas reaches


def path_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """Every fault of the path: beside dams, in its names, in each part, and where parts meet."""
    path = path_of(set_up)
    if not path:
        return
    yield from _beside(set_up)
    placed = list(_placed(path, "section.path"))
    yield from _name_faults(placed)
    long_radius = _long_radius_m(set_up)
    for where, part in placed:
        yield from _size_faults(where, part, long_radius)
    size = find_size_of(set_up.pipe)
    yield from _Walk(bore_m=size.bore_m if size else None, slope_deg=0.0).along(path, "section.path")


def _placed(parts: Iterable[BranchPart], where: str) -> Iterator[tuple[str, BranchPart]]:
    for number, part in enumerate(parts):
        yield f"{where}.{number}", part
        yield from _placed(branch_of(part), f"{where}.{number}.branch")


def _beside(set_up: SetUp) -> Iterator[SetUpFault]:
    section = set_up.section
    assert section is not None  # it has a path
    for key, value, dimension in (
        ("left_dam", section.left_dam_m, Dimension.LENGTH),
        ("right_dam", section.right_dam_m, Dimension.LENGTH),
        ("slope", section.slope_deg, Dimension.ANGLE),
    ):
        if value is not None:
            yield SetUpFault(
                path=f"section.{key}", code="beside-path", value=value, dimension=dimension,
                involves=("section.path",),
            )  # fmt: skip


def _name_faults(placed: Iterable[tuple[str, BranchPart]]) -> Iterator[SetUpFault]:
    """Parts without a name, and names that a point could mean two things by."""
    taken = {BODY: "the answer"}
    for where, part in placed:
        if part.name is None:
            yield SetUpFault(path=f"{where}.name", code="part-name-missing", facts={"kind": _kind(part)})
            continue
        names = [part.name, part.name + OUTLET] if part.part is PathPartKind.TEE else [part.name]
        twice = next((name for name in names if name in taken), None)
        if twice is not None:
            facts = {"first": taken[twice], "name": twice}
            yield SetUpFault(path=f"{where}.name", code="part-name-twice", value=part.name, facts=facts)
        taken.update({name: where for name in names if name not in taken})


def _size_faults(where: str, part: BranchPart, long_radius_m: float | None) -> Iterator[SetUpFault]:
    """What a kind of part needs and has not, and what it has and does not need."""
    if part.part is None:
        known = ", ".join(PathPartKind)
        yield SetUpFault(path=f"{where}.part", code="part-kind-missing", facts={"known": known})
        return
    for key in lacking(part):
        facts: dict[str, float | str] = {
            "kind": _kind(part),
            "key": key,
            "needs": ", ".join(NEEDED[part.part]),
        }
        if key == "bend_radius" and long_radius_m is not None:
            facts["usual_m"] = long_radius_m
        yield SetUpFault(path=f"{where}.{key}", code="part-size-missing", facts=facts)
    accepted = ("name", "part", *NEEDED[part.part], *MAY_HAVE[part.part])
    for key, attribute in ATTRIBUTES.items():
        value = getattr(part, attribute, None)
        if key not in accepted and value not in (None, ()):
            yield SetUpFault(
                path=f"{where}.{key}",
                code="part-size-not-of-kind",
                value=None if isinstance(value, tuple) else value,
                dimension=specs_of(PathPart)[key].dimension,
                facts={"kind": _kind(part), "key": key, "known": ", ".join(accepted)},
            )


def _kind(part: BranchPart) -> str:
    return part.part.value if part.part else "part"


@dataclass
class _Walk:
    """Bore and direction on the way along a path; None where a fault has made them unknown."""

    bore_m: float | None
    slope_deg: float | None
    has_begun: bool = False

    def along(self, parts: tuple[BranchPart, ...], where: str) -> Iterator[SetUpFault]:
        for number, part in enumerate(parts):
            here = f"{where}.{number}"
            if number == 0 and not self.has_begun and part.part not in (None, PathPartKind.RUN):
                yield SetUpFault(path=f"{here}.part", code="path-starts-without-run", value=_kind(part))
            match part.part:
                case PathPartKind.RUN:
                    yield from self._run(part, here)
                case PathPartKind.ELBOW:
                    yield from self._elbow(part, here)
                case PathPartKind.REDUCER:
                    yield from self._reducer(part, here)
                case PathPartKind.TEE:
                    yield from self._tee(part, here)
                case PathPartKind.CAP if number < len(parts) - 1:
                    yield SetUpFault(path=f"{here}.part", code="cap-not-last", value=_kind(part))
            self.has_begun = True

    def _run(self, run: BranchPart, here: str) -> Iterator[SetUpFault]:
        goes_on_deg = self.slope_deg
        if run.slope_deg is None:
            return
        if self.has_begun and goes_on_deg is not None and abs(run.slope_deg - goes_on_deg) > _SLACK_DEG:
            yield SetUpFault(
                path=f"{here}.slope", code="run-turns", value=run.slope_deg, dimension=Dimension.ANGLE,
                facts={"before_deg": goes_on_deg},
            )  # fmt: skip
        self.slope_deg = run.slope_deg

    def _elbow(self, elbow: BranchPart, here: str) -> Iterator[SetUpFault]:
        before_deg, after_deg, self.slope_deg = self.slope_deg, elbow.slope_deg, elbow.slope_deg
        if before_deg is not None and after_deg is not None and elbow.angle_deg is not None:
            least_deg = abs(after_deg - before_deg)
            most_deg = 180.0 - abs(after_deg + before_deg)
            if not least_deg - _SLACK_DEG <= elbow.angle_deg <= most_deg + _SLACK_DEG:
                yield SetUpFault(
                    path=f"{here}.angle", code="elbow-cannot-turn", value=elbow.angle_deg,
                    dimension=Dimension.ANGLE,
                    facts={
                        "before_deg": before_deg, "after_deg": after_deg, "low_deg": least_deg,
                        "high_deg": most_deg,
                    },
                )  # fmt: skip
        if self.bore_m and elbow.bend_radius_m is not None and elbow.bend_radius_m < self.bore_m / 2.0:
            yield SetUpFault(
                path=f"{here}.bend_radius", code="bend-too-sharp", value=elbow.bend_radius_m,
                dimension=Dimension.LENGTH, facts={"bore_m": self.bore_m, "least_m": self.bore_m / 2.0},
            )  # fmt: skip

    def _reducer(self, reducer: BranchPart, here: str) -> Iterator[SetUpFault]:
        before_m, self.bore_m = self.bore_m, reducer.to_bore_m
        if before_m and reducer.to_bore_m and abs(reducer.to_bore_m - before_m) <= _SLACK_RATIO * before_m:
            yield SetUpFault(
                path=f"{here}.to_bore", code="reducer-changes-nothing", value=reducer.to_bore_m,
                dimension=Dimension.LENGTH,
            )  # fmt: skip

    def _tee(self, tee: BranchPart, here: str) -> Iterator[SetUpFault]:
        bore_m = self.bore_m
        if bore_m is not None:
            yield from _tee_faults(tee, here, bore_m)
        if self.slope_deg is not None and tee.slope_deg is not None:
            steepest_deg = 90.0 - abs(self.slope_deg)
            if abs(tee.slope_deg) > steepest_deg + _SLACK_DEG:
                yield SetUpFault(
                    path=f"{here}.slope", code="outlet-not-square", value=tee.slope_deg,
                    dimension=Dimension.ANGLE,
                    facts={
                        "before_deg": self.slope_deg, "low_deg": 0.0 - steepest_deg, "high_deg": steepest_deg,
                    },
                )  # fmt: skip
        branch = _Walk(bore_m=tee.to_bore_m or bore_m, slope_deg=tee.slope_deg, has_begun=True)
        yield from branch.along(branch_of(tee), f"{here}.branch")


def _tee_faults(tee: BranchPart, here: str, bore_m: float) -> Iterator[SetUpFault]:
    for key, value, least_m in (
        ("length", tee.length_m, bore_m),
        ("outlet", tee.outlet_m, bore_m / 2.0),
    ):
        if value is not None and value < least_m * (1.0 - _SLACK_RATIO):
            yield SetUpFault(
                path=f"{here}.{key}", code=f"tee-{key}-too-short", value=value, dimension=Dimension.LENGTH,
                facts={"bore_m": bore_m, "least_m": least_m},
            )  # fmt: skip
    if tee.to_bore_m is not None and tee.to_bore_m > bore_m * (1.0 + _SLACK_RATIO):
        yield SetUpFault(
            path=f"{here}.to_bore", code="outlet-wider-than-run", value=tee.to_bore_m,
            dimension=Dimension.LENGTH, facts={"bore_m": bore_m},
        )  # fmt: skip


def _long_radius_m(set_up: SetUp) -> float | None:
    """What a long-radius elbow of the pipe's size has, to name it where a radius is missing."""
    try:
        return long_radius_m(set_up.pipe.nps) if set_up.pipe and set_up.pipe.nps else None
    except (UnknownSize, UnknownName):
        return None
