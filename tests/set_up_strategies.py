"""Set-ups drawn by Hypothesis: any values at all, straight sections, spools, and whole ones with all that goes on.

Documents rather than set-ups, but for `loose`, so that reading is tried too; each is built so that it is valid.
"""

from hypothesis import strategies as st
from set_up_examples import document
from spool_strategies import spools

from trainer.core.heat_materials import heat_materials
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import DamKind, SetUp

_TEXTS = {
    "nps": ("1/2", "2", "6", "12", "24"), "dn": ("50", "150"), "schedule": ("10S", "40S", "40", "STD"),
    "symbol": ("I1", "I2", "N1", "I3", "R1", "N5"), "composition": ("Ar", "ArHe-30", "Ar + 5 % H2", "NH-5"),
    "calibrated_for": ("I1", "N1", "AIR", "R1-ArH-5"),
    "where": ("hose fitting", "dam edge", "joint tape", "branch"),
    "name": ("riser", "bend"),
    "at": ("riser", "bend"),
    "what": ("draw rope",),
    "material": ("polypropylene", "polyimide tape"),
}  # fmt: skip


def loose(part_class=SetUp):
    """Any values in range, most of them in contradiction with each other."""
    specs = specs_of(part_class).values()
    known = {spec.attribute: st.none() | _values(spec) for spec in specs if spec.kind is not FieldKind.PARTS}
    lists = {spec.attribute: _values(spec) for spec in specs if spec.kind is FieldKind.PARTS}
    return st.builds(part_class, **known, **lists)


def _values(spec: FieldSpec):
    if spec.kind is FieldKind.MEASURED or spec.kind is FieldKind.NUMBER:
        return st.floats(spec.low, spec.high, exclude_min=spec.low_is_open)
    return {
        FieldKind.COUNT: lambda: st.integers(spec.low, spec.high),
        FieldKind.CHOICE: lambda: st.sampled_from(spec.choices),
        FieldKind.TEXT: lambda: st.sampled_from(_TEXTS[spec.key]),
        FieldKind.FLAG: st.booleans,
        FieldKind.PART: lambda: loose(spec.part),
        FieldKind.PARTS: lambda: st.lists(loose(spec.part), max_size=2).map(tuple),
    }[spec.kind]()


def quantities(low, high, unit):
    """Texts of a number with its unit."""
    return st.floats(low, high).map(lambda number: f"{number!r} {unit}")


def _maybe(strategy):
    return st.none() | strategy


_GASES = st.sampled_from(
    [
        {"symbol": "I1", "purity": "99.996 %"}, {"symbol": "I2"}, {"symbol": "N1", "oxygen": "50 ppm"},
        {"symbol": "I3", "composition": "ArHe-30.55"}, {"symbol": "I3", "composition": "Ar + 70 % He"},
        {"symbol": "R1", "composition": "ArH-5", "frost_point": "-40 degC"},
        {"symbol": "N5", "composition": "NH-10"}, {"symbol": "N4", "composition": "ArHN-5/2"},
    ]
)  # fmt: skip

_ENDS = st.sampled_from(
    [
        {"height": 0.3, "end": "diffuser", "face_area": "6 cm^2"},
        {"height": 0.7, "end": "open tube", "bore": "0.25 in"},
        {"height": 0.5, "end": "rag", "bore": "8 mm"},
    ]
)

_HOT_PARTS = st.builds(
    lambda what, material, distance: [{"what": what, "material": material, "distance": distance}],
    st.sampled_from(["draw rope", "tape"]), st.sampled_from(heat_materials()), quantities(1, 2000, "mm"),
)  # fmt: skip

_PRICES = st.builds(
    lambda gas, hour, joint: {"gas_per_m3": gas, "labour_per_h": hour, "lost_joint": joint},
    st.floats(0, 100), st.floats(0, 200), st.floats(0, 10000),
)  # fmt: skip

_READINGS = st.builds(
    lambda early, apart, oxygen: [
        {"after": f"{early!r} s", "oxygen": f"{oxygen[0]!r} %"},
        {"after": f"{early + apart!r} s", "oxygen": f"{oxygen[1]!r} %"},
    ],
    st.floats(0, 7200), st.floats(1, 3600), st.tuples(st.floats(0.3, 20), st.floats(0.3, 20)),
)  # fmt: skip

_SCENES = st.builds(
    lambda places, leads_to, analyser_at: {
        "people": [{"where": where, "face_height": f"{height!r} m"} for where, height in places],
        "vent_leads_to": leads_to,
        "analyser_at": analyser_at,
    },
    st.lists(st.tuples(st.sampled_from(["room", "pit", "pipe", "van"]), st.floats(0, 2.5)), max_size=3),
    st.sampled_from(["open air", "room", "pit"]),
    st.sampled_from(["vent", "crown", "inlet"]),
)

_LEAKS = st.lists(
    st.builds(
        lambda where, area: {"where": where, "area": area},
        st.sampled_from(_TEXTS["where"]),
        st.just("0 mm^2") | quantities(0.001, 20, "mm^2"),
    ),
    max_size=2,
)

# What both a straight section and a spool may have: what people would really set up, and well beyond it.
_AROUND = {
    "joint__left_open": _maybe(st.just("0 mm") | quantities(0.1, 90, "mm")),
    "joint__pool_depth": _maybe(quantities(0.5, 2, "mm")),
    "near_heat": _maybe(_HOT_PARTS),
    "gas": _GASES,
    "flow__purge": quantities(0.5, 60, "L/min"),
    "flow__hold": st.just("0 L/min") | quantities(0.1, 30, "L/min"),
    "flow__after_for": _maybe(st.just("10 min")),
    "target__oxygen": st.sampled_from(["20 ppm", "0.1 %", "1 %", "10 %"]),
    "wait": st.just("0 s") | quantities(1, 7200, "s"),
    "supply__pressure": quantities(0, 300, "bar"),
    "supply__stop_pressure": _maybe(st.just("0 bar")),
    "supply__joints_wanted": _maybe(st.integers(1, 500)),
    "supply__largest_draw": _maybe(quantities(1, 300, "L/min")),
    "prices": _maybe(_PRICES),
    "hose__open_fraction": st.floats(0, 1),
    "arc__passes": st.integers(1, 3),
    "temperature": quantities(-30, 50, "degC"),
    "leaks": _LEAKS,
    "model": st.sampled_from(["layered", "unstirred layers", "perfect mixing", "displacement"]),
    "readings": _maybe(_READINGS),
    "analyser": quantities(0, 50, "%").map(lambda percent: {"uncertainty": percent}),
    "surroundings__fan": st.just("none"),
    "surroundings__kind": st.sampled_from(["room", "pit", "vessel", "van", "open air"]),
    "surroundings__air_changes_per_h": _maybe(st.floats(0, 100)),
    "surroundings__gas_temperature": _maybe(quantities(-190, 100, "degC")),
    "surroundings__fresh_oxygen": _maybe(quantities(15, 40, "%")),
    "surroundings__blower": _maybe(quantities(0.1, 5000, "m^3/h")),
    "surroundings__supply_inside": _maybe(st.booleans()),
    "scene": _SCENES,
}

straight_set_ups = st.builds(
    document,
    material=st.sampled_from(
        [
            "carbon steel", "austenitic stainless", "duplex", "super duplex", "nickel alloy",
            "chromium-molybdenum", "titanium",
        ]
    ),
    pipe=st.sampled_from(
        [{"nps": nps, "schedule": "10S"} for nps in ("2", "3", "6", "8", "12")]
        + [
            {"dn": "150", "schedule": "40S"}, {"outside_diameter": "33.7 mm", "wall": "2 mm"},
            {"outside_diameter": "1 m", "wall": "10 mm"},
        ]
    ),
    section__left_dam=quantities(20, 6000, "mm"),
    section__right_dam=quantities(20, 6000, "mm"),
    section__slope=st.sampled_from(["0 deg", "90 deg", "-90 deg"]) | quantities(-90, 90, "deg"),
    section__left_end=_maybe(quantities(6000, 50_000, "mm")),
    inlet=_ENDS,
    vent__height=st.floats(0.25, 0.75),
    vent__diameter=quantities(4, 8, "mm"),
    vent__count=st.integers(1, 2),
    joint__taped=st.floats(0, 1),
    dams=st.sampled_from(
        [
            None, [{"side": "right", "kind": "tape"}],
            [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "old", "rope": "3 m"}],
            [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new", "density": "30 kg/m^3", "oversize": "10 mm"}],
            [{"side": side, "kind": kind} for side, kind in zip(("left", "right"), DamKind, strict=False)],
            [{"side": side, "kind": kind} for side, kind in zip(("right", "left"), [*DamKind][2:], strict=False)],
        ]
    ),
    **_AROUND,
)  # fmt: skip

spool_set_ups = st.builds(
    lambda spool, around: document(**{**around, **spool}), spools, st.fixed_dictionaries(_AROUND)
)


@st.composite
def whole_set_ups(draw):
    """A straight section or a spool, with what else may go on: stages, a meter, liquid, fans, blockages."""
    made = draw(straight_set_ups | spool_set_ups)
    _arc(draw, made)
    if draw(st.booleans()):
        _space(draw, made)
    if draw(st.booleans()):
        _liquid(draw, made)
    is_metered = draw(st.booleans())
    if is_metered:
        made["meter"] = {"reads": made["flow"].pop("purge"), "calibrated_for": draw(_SCALES)}
    if draw(st.booleans()):
        _stages(draw, made, is_metered=is_metered)
    if draw(st.sampled_from([False] * 9 + [True])):
        (made.get("vents") or [made["vent"]])[0]["blocked"] = True
    return made


_SCALES = st.sampled_from(_TEXTS["calibrated_for"])


def _arc(draw, made):
    made["arc"] |= {
        "current": draw(quantities(20, 200, "A")),
        "travel_speed": draw(quantities(20, 300, "mm/min")),
    }
    if made["arc"]["passes"] > 1 and draw(st.booleans()):
        made["arc"]["between_passes"] = draw(quantities(30, 7200, "s"))


def _space(draw, made):
    """Another space: with a fan, or the inside of a pipe, where people lie."""
    around = made["surroundings"]
    if draw(st.booleans()):
        around.pop("air_changes_per_h", None)
        around |= {"fan": draw(st.sampled_from(["blows in", "draws out"])),
                   "fan_flow": draw(quantities(0, 2000, "m^3/h"))}  # fmt: skip
    elif draw(st.booleans()):
        around["release"] = draw(quantities(0, 500, "L/min"))
    else:
        around |= {"kind": "pipe", "volume": "1 m^3", "floor_area": "2 m^2"}
        for person in made["scene"]["people"]:
            person["face_height"] = draw(quantities(0, 0.5, "m"))


def _liquid(draw, made):
    """A dewar or a tank, of argon or nitrogen, the two that are kept liquid."""
    made["gas"] = draw(st.sampled_from([{"symbol": "I1", "oxygen": "5 ppm"}, {"symbol": "N1"}]))
    wanted = made["supply"].get("joints_wanted")
    made["supply"] = {
        "kind": draw(st.sampled_from(["liquid dewar", "bulk tank"])),
        "water_volume": draw(quantities(50, 20_000, "L")),
        "pressure": draw(quantities(0, 15, "bar")),
        "fill": draw(st.floats(0, 0.98)),
        "count": draw(st.integers(1, 4)),
        "joint_every": draw(quantities(12, 96, "h")),
        **({} if wanted is None else {"joints_wanted": wanted}),
        **draw(st.fixed_dictionaries({}, optional={
            "residual": st.floats(0, 0.5), "daily_loss": quantities(0, 20, "%"),
            "largest_draw": quantities(1, 300, "L/min"),
        })),
    }  # fmt: skip


def _stages(draw, made, *, is_metered):
    """A time line: it begins with gas on, and the wait lies within it."""
    flow = made["flow"]
    for key in ("hold_for", "after_for"):
        flow.pop(key, None)
    made.pop("readings", None)  # which would have to lie on one side of every change
    stages = [{"kind": "purge", "for": draw(quantities(60, 7200, "s"))}]
    for _ in range(draw(st.integers(0, 3))):
        kind = draw(st.sampled_from(["hold", "pinched hose", "line out", "recovery", "purge"]))
        stage = {"kind": kind, "for": draw(quantities(1, 3600, "s"))}
        if kind == "line out":
            stage["opening"] = draw(quantities(3, 25, "mm"))
        elif kind == "pinched hose" and (is_metered or draw(st.booleans())):
            stage["open_fraction"] = draw(st.floats(0, 1))
        elif kind == "pinched hose":
            share, full = draw(st.floats(0, 1)), float(flow["purge"].split()[0])
            stage["flow"] = f"{share * full!r} L/min"
        elif draw(st.booleans()):
            stage["flow"] = draw(quantities(0.5, 60, "L/min"))
        stages.append(stage)
    end_s = sum(float(each["for"].split()[0]) for each in stages)
    made["wait"] = f"{draw(st.floats(0, 1)) * end_s!r} s"
    if draw(st.booleans()):
        del stages[-1]["for"]
    flow["stages"] = stages
