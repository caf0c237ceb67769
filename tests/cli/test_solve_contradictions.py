"""`trainer solve` on set-ups that contradict themselves: every fault at once, each with its field and what is accepted."""

import json

import pytest
from click.testing import CliRunner
from set_up_examples import document

from trainer.cli import main

# No bore is known here, so nothing that rests on it is said beside the schedule.
_NO_SUCH_SIZE = {
    "pipe": {"nps": "6", "schedule": "11S"},
    "section__left_end": "200 mm",
    "vent__height": 1.2,
    "gas": {"symbol": "I3", "composition": "argon and a bit of helium"},
    "flow__purge": "-15 L/min",
    "target__oxygen": "30 %",
    "hose__open_fraction": 1.5,
    "dams": [{"side": "left", "kind": "foam"}, {"side": "left", "kind": "tape"}],
    "surroundings__fan_flow": "10 m^3/h",
    "arc__between_passes": "5 min",
    "leaks": [{"where": "the roof", "area": "1 mm^2"}],
    "wait": "6",
    "wiat": "6 min",
}  # fmt: skip

_NOTHING_FITS = {
    "pipe": {"outside_diameter": "168.3 mm", "wall": "3.4 mm"},
    "section__right_end": "200 mm",
    "inlet": {"height": 0.02, "end": "rag", "bore": "20 mm"},
    "vent__height": 0.99,
    "vent__diameter": "12 mm",
    "joint__left_open": "600 mm",
    "joint__pool_depth": "5 mm",
    "gas": {"symbol": "I3", "composition": "60 % Ar + 60 % He", "oxygen": "900 ppm", "purity": "99.999 %"},
    "meter": {"reads": "12 L/min", "calibrated_for": "Z9"},
    "flow__hold": None,
    "supply__fill": 0.5,
    "supply__stop_pressure": "210 bar",
    "near_heat": [{"what": "rope", "material": "wool", "distance": "1 m"}],
    "readings": [{"after": "1 min", "oxygen": "1 %"}],
    "scene": {"people": [{"where": "room", "face_height": "2.9 m"}]},
}  # fmt: skip

_STAGES_AND_LIQUID = {
    "pipe": {"nps": "6", "schedule": "10S", "wall": "3.4 mm"},
    "gas": {"symbol": "I2"},
    "supply": {"kind": "liquid dewar", "water_volume": "180 L", "fill": 0.99, "stop_pressure": "2 bar"},
    "flow": {"purge": "15 L/min", "hold_for": "25 min", "stages": [
        {"kind": "line out", "for": "1 min"}, {"kind": "hold"}, {"kind": "pinched hose", "for": "1 min"},
    ]},
    "vents": [{"height": 0.9, "diameter": "6 mm"}],
    "joint__at": "riser",
    "surroundings": {"kind": "room", "volume": "100 m^3", "fan": "blows in", "fan_flow": "10 m^3/h",
                     "air_changes_per_h": 3, "gas_temperature": "-100 degC"},
}  # fmt: skip

# Field by field, in the order of the answer: what the line must tell of what is accepted.
_TOLD = [
    (
        _NO_SUCH_SIZE,
        [
            ("vent.height", "from 0 up to 1"),
            ("flow.purge", "above 0 L/min"),
            ("target.oxygen", "up to 20 %"),
            ("wait", "has no unit"),
            ("hose.open_fraction", "from 0 up to 1"),
            ("wiat", "did you mean 'wait'"),
            ("pipe.schedule", "5S, 10S, 40S, 80S"),
            ("section.left_end", "300 mm"),
            ("gas.composition", "'95 % Ar + 5 % H2'"),
            ("dams.1.side", "dams.0"),
            ("arc.between_passes", "arc.passes"),
            ("leaks.0.where", "hose fitting"),
            ("surroundings.fan_flow", "'blows in'"),
        ],
    ),
    (
        _NOTHING_FITS,
        [
            ("section.right_end", "300 mm"),
            ("inlet.height", "from 0.0619"),
            ("vent.height", "to 0.9628"),
            ("gas.composition", "adds up to 120 %; shares make 100 %"),
            ("gas.oxygen", "10 ppm"),
            ("meter.calibrated_for", "I1, I2, N1, AIR"),
            ("flow.purge", "12 L/min"),
            ("flow.hold_for", "flow.hold"),
            ("supply.fill", "leave it out"),
            ("supply.stop_pressure", "200 bar"),
            ("joint.left_open", "507.367 mm"),
            ("joint.pool_depth", "3.4 mm"),
            ("near_heat.0.material", "polypropylene"),
            ("scene.people.0.face_height", "2500 mm"),
            ("readings", "give two"),
            ("analyser.uncertainty", "such as 5 %"),
        ],
    ),
    (
        _STAGES_AND_LIQUID,
        [
            ("pipe", "keep one"),
            ("vents", "keep one of them"),
            ("vents", "give the one vent as 'vent'"),
            ("joint.at", "leave it out"),
            ("flow.hold_for", "flow.hold"),
            ("supply.kind", "accepted: I1, N1"),
            ("supply.stop_pressure", "supply.residual"),
            ("supply.pressure", "such as 10 bar"),
            ("supply.fill", "up to 0.98"),
            ("surroundings.air_changes_per_h", "leave the fan out"),
            ("surroundings.gas_temperature", "surroundings.floor_area"),
            ("flow.stages.0.opening", "such as 8 mm"),
            ("flow.stages.1.for", "such as 5 min"),
            ("flow.stages.2.open_fraction", "such as 0.02"),
            ("flow.stages.0", "needs a flow"),
            ("flow.hold_for", "leave it out"),
        ],
    ),
]


@pytest.mark.parametrize(
    ("changes", "told"), _TOLD, ids=["no such size", "nothing fits", "stages and liquid"]
)
def test_every_contradiction_is_told_at_once_with_its_field_and_what_is_accepted(changes, told):
    result = CliRunner().invoke(main, ["solve", "-"], input=json.dumps(document(**changes)))
    assert result.exit_code == 2
    assert result.stdout == ""
    lines = [line.partition(": ") for line in result.stderr.splitlines()]
    assert [field for field, _, _ in lines] == [field for field, _ in told]
    for (field, _, line), (_, accepted) in zip(lines, told, strict=True):
        assert accepted in line, field
