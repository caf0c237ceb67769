"""Where gas comes in, where it goes out, and where air gets in."""

from dataclasses import dataclass

from trainer.core.terms import InletEnd
from trainer.domain.quantities import Dimension, choice, flag, measured, number, text, whole_number


@dataclass(frozen=True, kw_only=True)
class InletFitting:
    """Where and through what the gas enters; height is the place on the dam's face, 0 lowest to 1 highest."""

    height_frac: float | None = number(
        "height", 0.0, 1.0, why="0 is the lowest point of the bore, 1 the highest"
    )
    end: InletEnd | None = choice("end", InletEnd)
    bore_m: float | None = measured(
        "bore", Dimension.LENGTH, 0.001, 0.1, why="hose and tube ends from 1 mm to 100 mm"
    )
    face_area_m2: float | None = measured(
        "face_area", Dimension.AREA, 1e-5, 0.1, why="diffusers from 0.1 cm2 to 1000 cm2"
    )
    at: str | None = text("at", why="the part of section.path that the inlet lies on")
    along_frac: float | None = number(
        "along", 0.0, 1.0, why="0 is where the part named in at begins, 1 where it ends"
    )


@dataclass(frozen=True, kw_only=True)
class Vent:
    """The hole or holes that the air leaves by; height is that of their centres."""

    height_frac: float | None = number(
        "height", 0.0, 1.0, why="0 is the lowest point of the bore, 1 the highest"
    )
    diameter_m: float | None = measured(
        "diameter", Dimension.LENGTH, 0.0005, 0.3, why="vent holes from 0.5 mm to 300 mm"
    )
    count: int | None = whole_number("count", 1, 50, why="1 to 50 holes")
    at: str | None = text("at", why="the part of section.path that the vent lies on")
    along_frac: float | None = number(
        "along", 0.0, 1.0, why="0 is where the part named in at begins, 1 where it ends"
    )
    blocked: bool | None = flag("blocked", why="true where nothing leaves by this vent any more")


@dataclass(frozen=True, kw_only=True)
class Leak:
    """A place where air is drawn in."""

    where: str | None = text("where", why="the kind of place that leaks")
    area_m2: float | None = measured("area", Dimension.AREA, 0.0, 0.01, why="leaks up to 100 cm2")
