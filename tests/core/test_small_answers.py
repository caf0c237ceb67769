"""Small answers that nothing else asks for: sources, refusals of the newer parts, other reference conditions."""

import math

import numpy as np
import pytest

from trainer.core.changeover import change_below_pa
from trainer.core.dam_heat import heat_input_j_m, metal
from trainer.core.gas import gas
from trainer.core.one_foot import peak_curves
from trainer.core.pass_heat import CooledWall, Passes
from trainer.core.pipe import known_schedules
from trainer.core.pipe_pool import PipeInside
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.release import OxygenEffect, oxygen_effect_source
from trainer.core.supply import Cylinders, contents_m3
from trainer.core.terms import MaterialGroup

NORMAL = ReferenceCondition.AT_0C_1ATM
CYLINDERS = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)


def test_each_band_of_oxygen_names_its_document():
    assert oxygen_effect_source(OxygenEffect.NORMAL) == "29 CFR 1910.146(b)"
    for effect in set(OxygenEffect) - {OxygenEffect.NORMAL}:
        assert oxygen_effect_source(effect) == "CSB bulletin 2003-10-B, EIGA Doc 44"


@pytest.mark.parametrize("height_m", [-0.01, 0.21])
def test_a_height_outside_a_pipe_is_refused(height_m):
    with pytest.raises(ValueError, match="height in the pipe is") as refused:
        PipeInside(bore_m=0.2, length_m=1.0).volume_below_m3(height_m)
    words = f"height in the pipe is {height_m:g} m but must be between 0 and 0.2 m: the height is that of a point "
    assert str(refused.value) == words + "inside the pipe"


def test_an_upright_pipe_fills_by_its_bore():
    upright = PipeInside(bore_m=0.2, length_m=2.0, slope_deg=90.0)
    assert upright.volume_below_m3(0.5) == pytest.approx(math.pi / 4.0 * 0.04 * 0.5)
    assert upright.volume_below_m3(2.0) == pytest.approx(upright.volume_m3)


def test_schedules_of_a_size_that_is_not_made_list_the_sizes_that_are():
    with pytest.raises(ValueError, match="NPS 7 is not in the pipe tables; known: 1/8, 1/4, ") as refused:
        known_schedules("7")
    assert refused.value.size == "NPS 7"


def test_power_is_current_times_voltage():
    with pytest.raises(ValueError, match="power is 2e\\+06 W but must be between 0 and 1e\\+06 W"):
        heat_input_j_m(2000.0, voltage_v=1000.0, efficiency_frac=0.7, travel_speed_m_s=1e-3)
    # 0.7 * 11 V * 80 A / 1 mm/s
    assert heat_input_j_m(80.0, voltage_v=11.0, efficiency_frac=0.7, travel_speed_m_s=1e-3) == pytest.approx(
        616e3
    )


def test_curves_keep_the_distances_that_they_were_asked_at():
    wall = CooledWall(wall_m=0.0034, metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
    places = np.array([0.1, 0.3])
    curves = peak_curves(places, passes=Passes(heat_input_j_m=616e3, count=2), wall=wall)
    assert curves.distances_m.tolist() == [0.1, 0.3]
    assert curves.with_loss_k.shape == curves.without_loss_k.shape == (2, 2)


def test_the_pressure_to_change_a_cylinder_at_holds_just_a_joint_at_any_reference_condition():
    for reference in (ReferenceCondition.AT_15C_1BAR, NORMAL):
        change_pa = change_below_pa(
            CYLINDERS, stop_pressure_pa=10e5, gas_per_joint_m3=1.5, reference=reference
        )
        at_change, at_stop = (
            contents_m3(
                Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=pressure_pa), reference=reference
            )
            for pressure_pa in (change_pa, 10e5)
        )
        assert at_change - at_stop == pytest.approx(1.5, rel=1e-6)
