"""A spool in words: the list of its parts beside the drawing, and the whole for those who do not see it."""

from collections.abc import Collection
from typing import Any

from trainer.domain.set_up import BranchPart, InletFitting, PathPartKind, SetUp, Vent
from trainer.domain.spool_path import all_parts, path_of, vents_of
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader
from trainer.drawing.wording_of_drawing import told_around


def list_words(
    set_up: SetUp, *, dead_legs: Collection[str], crossed: Collection[str] = (), reader: Reader
) -> list[str]:
    """One line for each part, by its number in the drawing."""
    on_path = {part.name for part in path_of(set_up)}
    return [
        f"{number}  "
        + ", ".join(
            [
                _part_words(part, part.name not in on_path, reader),
                *_air_words(part, dead_legs, crossed, reader),
            ]
        )
        for number, part in enumerate(all_parts(path_of(set_up)), start=1)
    ]


def told_of_spool(
    set_up: SetUp,
    *,
    dead_legs: Collection[str],
    crossed: Collection[str] = (),
    asked: Asked,
    reader: Reader,
) -> str:
    """The drawing in sentences."""
    parts = "; ".join(list_words(set_up, dead_legs=dead_legs, crossed=crossed, reader=reader))
    said = [
        reader.words("A spool in elevation, its path from left to right: {parts}.").format(parts=parts),
        _opening(reader.words("Inlet"), set_up.inlet, reader),
        *(_opening(_vent_name(vent, reader), vent, reader) for vent in vents_of(set_up)),
        _opening(reader.words("Joint"), set_up.joint, reader),
        *told_around(set_up, asked=asked, reader=reader),
    ]
    return " ".join(each for each in said if each)


def _part_words(part: BranchPart, is_on_branch: bool, reader: Reader) -> str:
    words = reader.words
    kind = words(part.part.value) if part.part else words("part")
    name = words(part.name) if part.name else ""
    said = [name if name != kind else "", kind, *_sizes(part, reader)]
    if is_on_branch:
        said.append(words("on the branch"))
    return ", ".join(each for each in said if each)


def _air_words(
    part: BranchPart, dead_legs: Collection[str], crossed: Collection[str], reader: Reader
) -> list[str]:
    if part.name in dead_legs:
        return [reader.words("air stays here")]
    return [reader.words("air lingers here")] if part.name in crossed else []


def _sizes(part: BranchPart, reader: Reader) -> list[str]:
    words = reader.words
    sizes = [reader.length(part.length_m)] if part.length_m is not None else []
    if part.angle_deg is not None:
        sizes.append(f"{reader.number(part.angle_deg)}°")
    if part.to_bore_m is not None:
        sizes.append(words("to a bore of {bore}").format(bore=reader.length(part.to_bore_m)))
    if part.slope_deg is not None:
        slope = _slope_words(part.slope_deg, reader)
        said = {PathPartKind.TEE: words("outlet {slope}"), PathPartKind.ELBOW: words("then {slope}")}
        sizes.append(said.get(part.part or PathPartKind.RUN, "{slope}").format(slope=slope))
    return sizes


def _slope_words(slope_deg: float, reader: Reader) -> str:
    if slope_deg == 0.0:
        return reader.words("level")
    if abs(slope_deg) == 90.0:
        return reader.words("straight up") if slope_deg > 0 else reader.words("straight down")
    rising, falling = reader.words("rising {angle}°"), reader.words("falling {angle}°")
    return (rising if slope_deg > 0 else falling).format(angle=reader.number(abs(slope_deg)))


def _vent_name(vent: Vent, reader: Reader) -> str:
    name = reader.words("Blocked vent") if vent.blocked else reader.words("Vent")
    return name if vent.diameter_m is None else f"{name} {reader.length(vent.diameter_m)}"


def _opening(name: str, placed: Any, reader: Reader) -> str:
    if placed is None:
        return ""
    if placed.at is None or placed.along_frac is None:
        return reader.words("{name}: place not given.").format(name=name)
    share = f"{100 * placed.along_frac:.0f} %"
    height = ""
    if isinstance(placed, InletFitting | Vent) and placed.height_frac is not None:
        height = reader.words(", at {share} of the bore's height").format(
            share=reader.number(placed.height_frac, ".2g")
        )
    return reader.words("{name}: on {part}, {share} of the way along{height}.").format(
        name=name, part=reader.words(placed.at), share=share, height=height
    )
