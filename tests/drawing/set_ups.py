"""Set-ups to draw, valid by default; a test names only what it is about."""

from dataclasses import replace
from typing import Any
from xml.etree.ElementTree import Element, fromstring

from trainer.core.terms import InletEnd
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Handle
from trainer.domain.set_up import (
    Dam,
    DamKind,
    Hose,
    InletFitting,
    Joint,
    Pipe,
    Scene,
    Section,
    SetUp,
    Side,
    Supply,
    SupplyKind,
    Surroundings,
    Vent,
)
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.reader import Reader
from trainer.drawing.set_up_drawing import set_up_drawing

SVG = "{http://www.w3.org/2000/svg}"


def a_set_up(**changes: Any) -> SetUp:
    whole = SetUp(
        pipe=Pipe(nps="6", schedule="10S"),
        section=Section(left_dam_m=0.3, right_dam_m=0.3, slope_deg=0.0),
        inlet=InletFitting(height_frac=0.1, end=InletEnd.DIFFUSER),
        vent=Vent(height_frac=0.95, diameter_m=0.006, count=1),
        joint=Joint(gap_m=0.003, taped_frac=1.0),
        hose=Hose(open_frac=1.0),
        supply=Supply(kind=SupplyKind.SINGLE_CYLINDER, pressure_pa=2e7),
        dams=(Dam(side=Side.LEFT, kind=DamKind.FOAM), Dam(side=Side.RIGHT, kind=DamKind.METAL_PLATE)),
        surroundings=Surroundings(),
        scene=Scene(),
    )
    return replace(whole, **changes)


def a_dam_handle(side: str = "left", **changes: Any) -> Handle:
    usual = {
        "id": side,
        "label": f"{side} dam",
        "sets": f"section.{side}_dam",
        "along": f"pipe {side}",
        "low": 0.05,
        "high": 6.0,
        "step": 0.05,
        "dimension": Dimension.LENGTH,
    }
    return Handle(**{**usual, **changes})


def a_vent_handle(**changes: Any) -> Handle:
    usual = {
        "id": "vent",
        "label": "Vent height",
        "sets": "vent.height",
        "along": "height",
        "low": 0.03,
        "high": 0.97,
        "step": 0.01,
        "dimension": None,
    }
    return Handle(**{**usual, **changes})


def an_inlet_handle(**changes: Any) -> Handle:
    usual = {
        "id": "inlet",
        "label": "Inlet height",
        "sets": "inlet.height",
        "along": "height",
        "low": 0.1,
        "high": 0.9,
        "step": 0.05,
        "dimension": None,
    }
    return Handle(**{**usual, **changes})


def drawn(set_up: SetUp, asked: Asked = NOTHING_ASKED, reader: Reader | None = None) -> Element:
    return fromstring(set_up_drawing(set_up, asked=asked, reader=reader or Reader()))


def part(picture: Element, name: str) -> Element:
    found = parts(picture, name)
    assert found, (
        f"no part {name!r} in {sorted({e.get('data-part') for e in picture.iter() if e.get('data-part')})}"
    )
    return found[0]


def parts(picture: Element, name: str) -> list[Element]:
    return [each for each in picture.iter() if (each.get("data-part") or "").startswith(name)]


def words(picture: Element) -> list[str]:
    return [(each.text or "").replace("\u00a0", " ") for each in picture.iter(f"{SVG}text")]


def described(picture: Element) -> str:
    told = picture.find(f"{SVG}desc")
    assert told is not None
    return (told.text or "").replace("\u00a0", " ")
