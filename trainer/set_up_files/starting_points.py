"""Set-ups to start from, each in metric and in inch-pound: what an address says is told against one of them.

An address names its starting point and only what differs from it, so a starting point that has once been
published never changes: a better one gets a new name, and the old one stays readable. A test holds each to
its digest.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from trainer.set_up_files.flat import flat

OPENS_WITH = "shop"
US_EDITION = "-us"

_STEEL_PIPE: dict[str, Any] = {
    "material": "austenitic stainless",
    "pipe": {"nps": "6", "schedule": "10S"},
    "temperature": ("20 degC", "68 degF"),
    "gas": {"symbol": "I1", "oxygen": "5 ppm"},
    "target": {"oxygen": "0.1 %"},
    "inlet": {
        "height": 0.1, "end": "diffuser", "bore": ("6 mm", "0.25 in"), "face_area": ("15 cm^2", "2.4 in^2"),
    },
    "hose": {
        "bore": ("6 mm", "0.25 in"), "length": ("10 m", "30 ft"), "inlet_pressure": ("2 bar", "30 psi"),
        "open_fraction": 1,
    },
    "arc": {
        "current": "80 A", "voltage": "11 V", "efficiency": 0.7, "travel_speed": ("90 mm/min", "3.5 in/min"),
        "passes": 2, "between_passes": "10 min",
    },
    "prices": {"gas_per_m3": 6, "labour_per_h": 40, "lost_joint": 400},
}  # fmt: skip
_CYLINDER: dict[str, Any] = {
    "kind": "single cylinder", "water_volume": "50 L", "pressure": ("200 bar", "2900 psi"),
    "stop_pressure": ("5 bar", "75 psi"), "count": 1,
}  # fmt: skip
_SHOP_AIR: dict[str, Any] = {
    "kind": "room", "volume": ("400 m^3", "14000 ft^3"), "floor_area": ("80 m^2", "860 ft^2"), "fan": "none",
    "after": "45 min",
}  # fmt: skip
_FOAM: dict[str, Any] = {"kind": "foam", "thickness": ("100 mm", "4 in"), "age": "new"}
_PAPER: dict[str, Any] = {"kind": "soluble paper", "thickness": ("1 mm", "0.04 in")}
_VENT: dict[str, Any] = {"height": 0.9, "diameter": ("8 mm", "0.31 in"), "count": 1}
_TAPED_JOINT: dict[str, Any] = {"gap": ("3 mm", "0.125 in"), "taped": 1}
_SHOP_FLOW: dict[str, Any] = {
    "purge": ("15 L/min", "32 cfh"), "hold": ("8 L/min", "16 cfh"), "hold_for": "20 min",
    "after_for": "5 min",
}  # fmt: skip
_SHOP_SCENE: dict[str, Any] = {
    "people": [{"where": "room", "face_height": ("1.6 m", "5 ft")}],
    "cylinder_chained": True, "analyser_at": "vent", "vent_leads_to": "room",
}  # fmt: skip


def _two_dams(dam: dict[str, Any]) -> list[dict[str, Any]]:
    return [{"side": "left", **dam}, {"side": "right", **dam}]


def _run(name: str, length: tuple[str, str], **more: Any) -> dict[str, Any]:
    return {"name": name, "part": "run", "length": length, **more}


def _elbow(name: str, slope: str) -> dict[str, Any]:
    return {
        "name": name, "part": "elbow", "angle": "90 deg", "bend_radius": ("229 mm", "9 in"), "slope": slope,
    }  # fmt: skip


_SPOOL: dict[str, Any] = {
    **_STEEL_PIPE,
    "flow": {**_SHOP_FLOW, "purge": ("20 L/min", "40 cfh")},
    "joint": _TAPED_JOINT,
    "supply": _CYLINDER,
    "surroundings": _SHOP_AIR,
    "scene": _SHOP_SCENE,
}  # fmt: skip

_BY_BOTH: dict[str, dict[str, Any]] = {
    "shop": {
        **_STEEL_PIPE,
        "section": {"left_dam": ("300 mm", "12 in"), "right_dam": ("300 mm", "12 in"), "slope": "0 deg"},
        "vent": _VENT,
        "joint": _TAPED_JOINT,
        "flow": _SHOP_FLOW,
        "wait": "5 min",
        "supply": _CYLINDER,
        "dams": _two_dams(_FOAM),
        "surroundings": _SHOP_AIR,
        "scene": _SHOP_SCENE,
    },
    "long-run": {
        **_STEEL_PIPE,
        "section": {"left_dam": ("6 m", "20 ft"), "right_dam": ("6 m", "20 ft"), "slope": "0 deg"},
        "vent": {**_VENT, "diameter": ("10 mm", "0.38 in")},
        "joint": _TAPED_JOINT,
        "flow": {**_SHOP_FLOW, "purge": ("20 L/min", "42 cfh"), "hold": ("10 L/min", "20 cfh")},
        "wait": "30 min",
        "supply": {**_CYLINDER, "count": 2},
        "dams": _two_dams(_PAPER),
        "surroundings": {**_SHOP_AIR, "after": "90 min"},
        "scene": _SHOP_SCENE,
    },
    "trench": {
        **_STEEL_PIPE,
        "pipe": {"nps": "8", "schedule": "10S"},
        "section": {"left_dam": ("400 mm", "16 in"), "right_dam": ("400 mm", "16 in"), "slope": "1 deg"},
        "inlet": {"height": 0.1, "end": "open tube", "bore": ("6 mm", "0.25 in")},
        "vent": _VENT,
        "joint": {**_TAPED_JOINT, "taped": 0.9},
        "flow": {**_SHOP_FLOW, "purge": ("20 L/min", "42 cfh"), "hold_for": "25 min"},
        "wait": "15 min",
        "supply": _CYLINDER,
        "dams": _two_dams(_FOAM),
        "surroundings": {
            "kind": "trench", "volume": ("14 m^3", "500 ft^3"), "floor_area": ("8 m^2", "86 ft^2"),
            "fan": "none", "after": "45 min",
        },
        "scene": {
            **_SHOP_SCENE, "people": [{"where": "trench", "face_height": ("0.5 m", "20 in")}],
            "vent_leads_to": "trench",
        },
    },
    "riser": {
        **_STEEL_PIPE,
        "section": {"left_dam": ("300 mm", "12 in"), "right_dam": ("600 mm", "24 in"), "slope": "90 deg"},
        "inlet": {**_STEEL_PIPE["inlet"], "height": 0.5},
        "vent": {**_VENT, "height": 0.5},
        "joint": _TAPED_JOINT,
        "flow": _SHOP_FLOW,
        "wait": "3 min",
        "supply": _CYLINDER,
        "dams": _two_dams(_FOAM),
        "surroundings": _SHOP_AIR,
        "scene": _SHOP_SCENE,
    },
    "spool-riser": {
        **_SPOOL,
        "section": {"path": [
            _run("first", ("600 mm", "24 in")), _elbow("foot", "90 deg"), _run("riser", ("1200 mm", "48 in")),
            _elbow("shoulder", "0 deg"), _run("last", ("600 mm", "24 in")),
        ]},
        "inlet": {**_STEEL_PIPE["inlet"], "at": "first", "along": 0},
        "vent": {**_VENT, "at": "last", "along": 1},
        "joint": {**_TAPED_JOINT, "at": "riser", "along": 0.5},
        "wait": "8 min",
    },
    "spool-branch": {
        **_SPOOL,
        "section": {"path": [
            _run("first", ("600 mm", "24 in")),
            {
                "name": "tee", "part": "tee", "slope": "90 deg",
                "length": ("286 mm", "11.25 in"), "outlet": ("143 mm", "5.62 in"),
                "branch": [_run("stand-up", ("400 mm", "16 in")), {"name": "cap", "part": "cap"}],
            },
            _run("last", ("600 mm", "24 in")),
        ]},
        "inlet": {**_STEEL_PIPE["inlet"], "at": "first", "along": 0},
        "vent": {**_VENT, "at": "last", "along": 1},
        "joint": {**_TAPED_JOINT, "at": "first", "along": 0.5},
        "wait": "20 min",
    },
    "spool-over": {
        **_SPOOL,
        "section": {"path": [
            _run("up", ("1 m", "40 in"), slope="90 deg"), _elbow("shoulder", "0 deg"),
            _run("top", ("2 m", "80 in")), _elbow("far shoulder", "-90 deg"), _run("down", ("1 m", "40 in")),
        ]},
        "inlet": {**_STEEL_PIPE["inlet"], "height": 0.5, "at": "up", "along": 0},
        "vent": {**_VENT, "height": 0.5, "at": "down", "along": 1},
        "joint": {**_TAPED_JOINT, "at": "top", "along": 0.5},
        "wait": "25 min",
    },
}  # fmt: skip


def _edition(value: Any, place: int) -> Any:
    if isinstance(value, tuple):
        return value[place]
    if isinstance(value, dict):
        return {key: _edition(each, place) for key, each in value.items()}
    return [_edition(each, place) for each in value] if isinstance(value, list) else value


STARTING_POINTS: Mapping[str, Mapping[str, Any]] = MappingProxyType(
    {
        f"{name}{ending}": MappingProxyType(flat(_edition(document, place)))
        for name, document in _BY_BOTH.items()
        for place, ending in enumerate(("", US_EDITION))
    }
)
NAMES = tuple(_BY_BOTH)
