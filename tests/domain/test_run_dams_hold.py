"""What pressure the dams of a set-up hold: 2 mu sigma t / r worked by hand, and what is not known of it."""

import pytest
from set_up_examples import POLICY, set_up

from trainer.domain.core_results import CoreResults, NotKnown

# Bore 160 mm, 100 mm thick, 30 kg/m3: sigma 0.05 * 45 MPa * (30 / 1200)^2 = 1406.25 Pa, and t / r = 1.25.
PIPE = {"outside_diameter": "168 mm", "wall": "4 mm"}
FOAM = {"kind": "foam", "thickness": "100 mm", "age": "new", "density": "30 kg/m^3", "oversize": "20 mm"}
SOFT_PA = 2 * 0.3 * (0.5 * 1406.25) * 1.25
HARD_PA = 2 * 1.0 * (4 * 1406.25) * 1.25


def asked(name, *dams, **around):
    sides = ("left", "right")
    told = [{"side": side, **FOAM, **dam} for side, dam in zip(sides, dams, strict=False)]
    return CoreResults(POLICY).result(set_up(pipe=PIPE, dams=told, **around), name)


def test_the_ends_of_what_a_dam_holds_are_those_of_soft_foam_and_of_hard():
    assert asked("dams.0.surely_holds_pa", {}) == pytest.approx(SOFT_PA)
    assert asked("dams.0.surely_slips_pa", {}) == pytest.approx(HARD_PA)


def test_the_weaker_dam_tells_what_both_hold_and_the_tighter_what_pushes_out_either():
    thicker = {"thickness": "200 mm"}
    assert asked("dams surely hold", {}, thicker) == pytest.approx(SOFT_PA)
    assert asked("dams surely slip", {}, thicker) == pytest.approx(2 * HARD_PA)


@pytest.mark.parametrize(
    "dam", [{"age": "old"}, {"age": None}, {"density": None}, {"oversize": None}, {"kind": "tape"}]
)
def test_of_old_foam_or_foam_half_told_nothing_is_known_not_even_of_both(dam):
    told = {key: value for key, value in dam.items() if value is not None}
    left_out = {key for key, value in dam.items() if value is None}
    dams = [
        {"side": "left", **FOAM},
        {key: each for key, each in {"side": "right", **FOAM, **told}.items() if key not in left_out},
    ]
    with pytest.raises(NotKnown):
        CoreResults(POLICY).result(set_up(pipe=PIPE, dams=dams), "dams surely hold")


@pytest.mark.parametrize(("density", "typed"), [("10 kg/m^3", "10"), ("200 kg/m^3", "200")])
def test_a_density_that_no_flexible_foam_has_is_refused(density, typed):
    with pytest.raises(ValueError, match="density"):
        asked("dams surely hold", {"density": density})
