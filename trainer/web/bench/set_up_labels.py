"""The fields of a set-up on the bench: in groups, with their labels. What they take is declared elsewhere."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from flask_babel import lazy_gettext as _l

Labels = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class RowList:
    """A list of parts: its path, what one row is called, labels by key, and what a new row holds."""

    path: str
    row: Any
    add: Any
    labels: Labels
    starts_with: Mapping[str, Any]
    most: int = 12


@dataclass(frozen=True, kw_only=True)
class Group:
    """One fold of the form."""

    key: str
    title: Any
    labels: Labels = field(default_factory=dict)
    lists: tuple[RowList, ...] = ()


_PART = {
    "name": _l("Name"), "part": _l("Kind"), "length": _l("Length"), "slope": _l("Slope, up along the path"),
    "angle": _l("Turns by"), "bend_radius": _l("Bend radius"), "to_bore": _l("Bore at the far end or outlet"),
    "outlet": _l("Outlet from the centre line"), "straight_flange": _l("Straight edge"),
}  # fmt: skip
PATH_LIST = RowList(
    path="section.path",
    row=_l("Part %(number)s"),
    add=_l("Add a part at the far end"),
    labels=_PART,
    starts_with={"part": "run", "length": "500 mm"},
    most=20,
)
BRANCH_LIST = RowList(
    path="branch",
    row=_l("On the branch, %(number)s"),
    add=_l("Add a part to the branch"),
    labels=_PART,
    starts_with={"part": "run", "length": "300 mm"},
    most=8,
)

GROUPS: tuple[Group, ...] = (
    Group(
        key="pipe",
        title=_l("Pipe"),
        labels={
            "material": _l("Material"),
            "pipe.nps": _l("Nominal pipe size (NPS)"),
            "pipe.dn": _l("or nominal diameter (DN)"),
            "pipe.schedule": _l("Schedule"),
            "pipe.outside_diameter": _l("or outside diameter"),
            "pipe.wall": _l("with a wall of"),
            "temperature": _l("Temperature of air, gas and pipe"),
        },
    ),
    Group(
        key="section",
        title=_l("Section and dams"),
        labels={
            "section.left_dam": _l("Joint to the dam on the inlet's side"),
            "section.right_dam": _l("Joint to the dam on the vent's side"),
            "section.slope": _l("Slope, up from inlet to vent"),
            "section.left_end": _l("Joint to the open end on the inlet's side"),
            "section.right_end": _l("Joint to the open end on the vent's side"),
        },
        lists=(
            RowList(
                path="dams",
                row=_l("Dam %(number)s"),
                add=_l("Add a dam"),
                labels={
                    "side": _l("Side: left is the inlet's"),
                    "kind": _l("Kind"),
                    "thickness": _l("Thickness"),
                    "age": _l("Age of the foam"),
                    "rope": _l("Rope"),
                    "density": _l("Density of the foam"),
                    "oversize": _l("How much wider than the bore it was cut"),
                },
                starts_with={"side": "right", "kind": "foam", "thickness": "100 mm", "age": "new"},
                most=2,
            ),
        ),
    ),
    Group(key="spool", title=_l("Spool instead of a straight section"), lists=(PATH_LIST,)),
    Group(
        key="joint",
        title=_l("Joint"),
        labels={
            "joint.gap": _l("Root gap"),
            "joint.taped": _l("Share that is taped, 0 to 1"),
            "joint.left_open": _l("Root still open at the last of the joint"),
            "joint.pool_depth": _l("Depth of the molten pool"),
            "joint.at": _l("In a spool, on the part named"),
            "joint.along": _l("How far along that part the joint lies, 0 to 1"),
        },
    ),
    Group(
        key="openings",
        title=_l("Inlet and vent"),
        labels={
            "inlet.height": _l("Height of the inlet, 0 lowest to 1 highest"),
            "inlet.end": _l("End of the inlet"),
            "inlet.bore": _l("Inside of the inlet tube"),
            "inlet.face_area": _l("Face that the gas comes out of"),
            "inlet.at": _l("Inlet in a spool, on the part named"),
            "inlet.along": _l("How far along that part the inlet lies, 0 to 1"),
            "vent.height": _l("Height of the vent, 0 lowest to 1 highest"),
            "vent.diameter": _l("Diameter of a vent hole"),
            "vent.count": _l("Vent holes"),
            "vent.blocked": _l("Vent blocked"),
            "vent.at": _l("Vent in a spool, on the part named"),
            "vent.along": _l("How far along that part the vent lies, 0 to 1"),
        },
        lists=(
            RowList(
                path="vents",
                row=_l("Vent %(number)s of several in a spool"),
                add=_l("Give several vents instead of one"),
                labels={
                    "height": _l("Height, 0 lowest to 1 highest"),
                    "diameter": _l("Diameter of a hole"),
                    "count": _l("Holes"),
                    "blocked": _l("Blocked"),
                    "at": _l("On the part named"),
                    "along": _l("How far along it, 0 to 1"),
                },
                starts_with={"height": 0.9, "diameter": "8 mm", "count": 1, "along": 0.5},
                most=8,
            ),
            RowList(
                path="leaks",
                row=_l("Leak %(number)s"),
                add=_l("Add a leak"),
                labels={"where": _l("Place of the leak"), "area": _l("Area of the leak")},
                starts_with={"where": "hose fitting", "area": "1 mm^2"},
                most=6,
            ),
        ),
    ),
    Group(
        key="gas",
        title=_l("Gas"),
        labels={
            "gas.symbol": _l("Gas by ISO 14175"),
            "gas.composition": _l("Composition, where the symbol is a range"),
            "gas.oxygen": _l("Oxygen in the gas as it comes"),
            "gas.purity": _l("or its purity"),
            "gas.frost_point": _l("Frost point of the gas"),
            "target.oxygen": _l("Oxygen at arc strike, at most"),
        },
    ),
    Group(
        key="flow",
        title=_l("Flow and time"),
        labels={
            "flow.purge": _l("Purge flow"),
            "wait": _l("Time from gas on to the arc"),
            "flow.hold": _l("Hold flow while welding"),
            "flow.hold_for": _l("Time for root and hot pass"),
            "flow.after_for": _l("Gas on after the weld for"),
            "meter.reads": _l("What the flow meter reads, instead of the purge flow"),
            "meter.calibrated_for": _l("Gas that its scale was made for: I1, N1 or AIR"),
            "model": _l("How the gas is taken to mix"),
        },
        lists=(
            RowList(
                path="flow.stages",
                row=_l("Stage %(number)s"),
                add=_l("Tell the purge in stages"),
                labels={
                    "kind": _l("What happens"),
                    "flow": _l("Flow of the stage"),
                    "for": _l("How long"),
                    "opening": _l("Hole of a fallen line"),
                    "open_fraction": _l("Open share of a pinched hose"),
                },
                starts_with={"kind": "purge"},
                most=8,
            ),
            RowList(
                path="readings",
                row=_l("Reading %(number)s"),
                add=_l("Add an analyser reading"),
                labels={"after": _l("Read after"), "oxygen": _l("It showed")},
                starts_with={"after": "5 min", "oxygen": "1 %"},
                most=4,
            ),
        ),
    ),
    Group(
        key="supply",
        title=_l("Hose, supply and prices"),
        labels={
            "hose.bore": _l("Inside of the hose"),
            "hose.length": _l("Length of the hose"),
            "hose.inlet_pressure": _l("Pressure at the start of the hose"),
            "hose.open_fraction": _l("Open share of a kinked hose, 0 to 1"),
            "supply.kind": _l("Supply"),
            "supply.water_volume": _l("Volume of one vessel"),
            "supply.count": _l("Cylinders"),
            "supply.pressure": _l("Pressure of the supply"),
            "supply.stop_pressure": _l("Left in the cylinder"),
            "supply.fill": _l("Share of the vessel that is liquid, 0 to 1"),
            "supply.residual": _l("Share of the liquid that cannot be drawn, 0 to 1"),
            "supply.daily_loss": _l("Boils off in a day"),
            "supply.largest_draw": _l("Largest draw of regulator or vaporiser"),
            "supply.joints_wanted": _l("Joints to be done"),
            "supply.joint_every": _l("From one joint to the next"),
            "prices.gas_per_m3": _l("Price of a cubic metre of gas"),
            "prices.labour_per_h": _l("Price of an hour of waiting"),
            "prices.lost_joint": _l("Price of a root that is cut out"),
        },
    ),
    Group(
        key="arc",
        title=_l("Arc and heat"),
        labels={
            "arc.current": _l("Arc current"),
            "arc.voltage": _l("Arc voltage"),
            "arc.efficiency": _l("Share of the arc's heat that enters the metal, 0 to 1"),
            "arc.travel_speed": _l("Travel speed"),
            "arc.passes": _l("Passes"),
            "arc.between_passes": _l("From the start of one pass to the next"),
        },
        lists=(
            RowList(
                path="near_heat",
                row=_l("Thing near the weld, %(number)s"),
                add=_l("Add a thing near the weld"),
                labels={
                    "what": _l("What lies there"),
                    "material": _l("Its material"),
                    "distance": _l("Distance"),
                },
                starts_with={"what": "rope", "material": "natural fibre", "distance": "200 mm"},
                most=6,
            ),
        ),
    ),
    Group(
        key="around",
        title=_l("Surroundings and people"),
        labels={
            "surroundings.kind": _l("Space around the joint"),
            "surroundings.volume": _l("Volume of the space"),
            "surroundings.floor_area": _l("Floor of the space"),
            "surroundings.fan": _l("Fan"),
            "surroundings.fan_flow": _l("Flow of the fan"),
            "surroundings.air_changes_per_h": _l("Air changes an hour by draught"),
            "surroundings.after": _l("Gas has gone into the space for"),
            "surroundings.release": _l("Gas that goes into the space, where not the purge's own"),
            "surroundings.fresh_oxygen": _l("Oxygen in fresh air"),
            "surroundings.gas_temperature": _l("Temperature of the escaping gas"),
            "surroundings.supply_inside": _l("The supply stands in this space"),
            "surroundings.blower": _l("Rescue blower"),
            "scene.vent_leads_to": _l("The vent hose leads to"),
            "scene.analyser_at": _l("The analyser draws at"),
            "scene.cylinder_chained": _l("Cylinder held against falling"),
            "scene.cap_on": _l("Cap on a cylinder not in use"),
            "analyser.uncertainty": _l("The analyser may be off by"),
        },
        lists=(
            RowList(
                path="scene.people",
                row=_l("Person %(number)s"),
                add=_l("Add a person"),
                labels={"where": _l("Where"), "face_height": _l("Face above the floor")},
                starts_with={"where": "room", "face_height": "1.6 m"},
                most=6,
            ),
        ),
    ),
)
