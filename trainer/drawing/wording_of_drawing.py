"""What a drawing of a set-up shows, in words; it tells what is drawn, never what follows from it."""

from trainer.domain.set_up import Dam, SetUp, Side
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader


def told(set_up: SetUp, *, outside_diameter_m: float | None, asked: Asked, reader: Reader) -> str:
    """The drawing in sentences, from left to right and then around the pipe."""
    parts = [
        _pipe(set_up, outside_diameter_m, reader),
        _dam(set_up, Side.LEFT, reader),
        _inlet(set_up, reader),
        _dam(set_up, Side.RIGHT, reader),
        _vent(set_up, reader),
        _near_heat(set_up, reader),
        *told_around(set_up, asked=asked, reader=reader),
    ]
    return " ".join(each for each in parts if each)


def told_around(set_up: SetUp, *, asked: Asked, reader: Reader) -> list[str]:
    """What stands around a pipe of any form, in sentences."""
    return [_hose(set_up, reader), _supply(set_up, reader), *_around(set_up, reader), _to_move(asked, reader)]


def _pipe(set_up: SetUp, outside_diameter_m: float | None, reader: Reader) -> str:
    words = reader.words
    size = (
        ""
        if outside_diameter_m is None
        else words(", {size} outside diameter").format(size=reader.outside_diameter(outside_diameter_m))
    )
    slope = set_up.section.slope_deg if set_up.section else None
    if not slope:
        lies = words("A pipe in section lies level")
    elif abs(slope) == 90.0:
        lies = (
            words("A pipe in section stands upright, its inlet below")
            if slope > 0
            else words("A pipe in section stands upright, its inlet above")
        )
    else:
        higher = words("A pipe in section slopes {angle}°, its vent's end higher")
        lower = words("A pipe in section slopes {angle}°, its vent's end lower")
        lies = (higher if slope > 0 else lower).format(angle=reader.number(abs(slope)))
    return f"{lies}{size}. {_joint(set_up, reader)}".strip()


def _joint(set_up: SetUp, reader: Reader) -> str:
    joint = set_up.joint
    if joint is None or joint.gap_m is None:
        return reader.words("The joint is in the middle.")
    if not joint.taped_frac:
        said = reader.words("The joint in the middle has a root gap of {gap}, not taped.")
    elif joint.taped_frac < 1.0:
        said = reader.words("The joint in the middle has a root gap of {gap}, taped in part.")
    else:
        said = reader.words("The joint in the middle has a root gap of {gap}, taped all round.")
    return said.format(gap=reader.length(joint.gap_m))


def dam_at(set_up: SetUp, side: Side) -> Dam | None:
    """The dam on a side, as far as the set-up describes it."""
    return next((each for each in set_up.dams if each.side is side), None)


def _dam(set_up: SetUp, side: Side, reader: Reader) -> str:
    dam, section = dam_at(set_up, side), set_up.section
    distance_m = (
        None if section is None else (section.left_dam_m if side is Side.LEFT else section.right_dam_m)
    )
    if dam is None and distance_m is None:
        return ""
    kind = reader.words(dam.kind.value) if dam and dam.kind else reader.words("not described")
    age = f", {reader.words(dam.age.value)}" if dam and dam.age else ""
    far = (
        reader.words("distance not given")
        if distance_m is None
        else reader.words("{distance} from the joint").format(distance=reader.length(distance_m))
    )
    rope = "" if dam is None or dam.rope_m is None else _rope(dam.rope_m, reader)
    name = reader.words("Left dam") if side is Side.LEFT else reader.words("Right dam")
    return f"{name}: {kind}{age}, {far}{rope}."


def _rope(rope_m: float, reader: Reader) -> str:
    return reader.words(", on a rope of {length}").format(length=reader.length(rope_m))


def _near_heat(set_up: SetUp, reader: Reader) -> str:
    """What lies near the weld is told and not drawn: where it lies around the pipe is not given."""
    said = [
        reader.words("Near the weld: {what}, {distance} from the joint.").format(
            what=reader.words(part.what or part.material or "something"),
            distance=reader.length(part.distance_m),
        )
        for part in set_up.near_heat
        if part.distance_m is not None
    ]
    return " ".join(said)


def _inlet(set_up: SetUp, reader: Reader) -> str:
    inlet = set_up.inlet
    if inlet is None:
        return ""
    end = reader.words(inlet.end.value) if inlet.end else reader.words("end not given")
    return reader.words("Inlet through the left dam: {end}, {height}.").format(
        end=end, height=_height(inlet.height_frac, reader)
    )


def _vent(set_up: SetUp, reader: Reader) -> str:
    vent = set_up.vent
    if vent is None:
        return ""
    size = "" if vent.diameter_m is None else f", {reader.length(vent.diameter_m)}"
    holes = f", × {vent.count}" if vent.count and vent.count > 1 else ""
    blocked = reader.words(", blocked") if vent.blocked else ""
    return reader.words("Vent through the right dam: {height}{size}{holes}{blocked}.").format(
        height=_height(vent.height_frac, reader), size=size, holes=holes, blocked=blocked
    )


def _height(height_frac: float | None, reader: Reader) -> str:
    if height_frac is None:
        return reader.words("height not given")
    return reader.words("centre at {share} of the bore's height").format(
        share=reader.number(height_frac, ".2g")
    )


def _hose(set_up: SetUp, reader: Reader) -> str:
    if set_up.hose is None or set_up.hose.open_frac is None or set_up.hose.open_frac >= 1.0:
        return ""
    return reader.words("The hose is kinked.")


def _supply(set_up: SetUp, reader: Reader) -> str:
    supply = set_up.supply
    if supply is None:
        return ""
    kind = reader.words(supply.kind.value) if supply.kind else reader.words("gas supply")
    level = ""
    if supply.fill_frac is not None:
        level = reader.words(", {percent} % full of liquid").format(
            percent=reader.number(100 * supply.fill_frac, ".3g")
        )
    if supply.pressure_pa is None:
        return reader.words("Supply: {kind}{level}.").format(kind=kind, level=level)
    return reader.words("Supply: {kind}, its gauge at {pressure}{level}.").format(
        kind=kind, pressure=reader.pressure(supply.pressure_pa), level=level
    )


def _around(set_up: SetUp, reader: Reader) -> list[str]:
    scene, words = set_up.scene, reader.words
    said = []
    if set_up.surroundings and set_up.surroundings.kind:
        said.append(words("Around it: {place}.").format(place=words(set_up.surroundings.kind.value)))
    if scene is None:
        return said
    if scene.vent_leads_to:
        said.append(words("The vent hose leads to: {place}.").format(place=words(scene.vent_leads_to.value)))
    for each in scene.people:
        if each.face_height_m is not None:
            where = words(each.where.value) if each.where else words("beside the joint")
            said.append(
                words("A person ({where}), face {height} above the floor.").format(
                    where=where, height=reader.height(each.face_height_m)
                )
            )
    if scene.analyser_at:
        said.append(
            words("The oxygen analyser samples at: {place}.").format(place=words(scene.analyser_at.value))
        )
    return said + _cylinder(set_up, reader)


def _cylinder(set_up: SetUp, reader: Reader) -> list[str]:
    scene, words = set_up.scene, reader.words
    said = []
    if scene and scene.cylinder_chained is not None:
        said.append(
            words("The cylinder is chained.")
            if scene.cylinder_chained
            else words("A chain hangs beside the cylinder.")
        )
    if scene and scene.cap_on is not None:
        said.append(
            words("The spare cylinder wears its cap.")
            if scene.cap_on
            else words("The spare cylinder shows its bare valve.")
        )
    return said


def _to_move(asked: Asked, reader: Reader) -> str:
    if not asked.handles:
        return ""
    names = ", ".join(reader.words(each.label) for each in asked.handles)
    return reader.words("To be placed: {parts}.").format(parts=names)
