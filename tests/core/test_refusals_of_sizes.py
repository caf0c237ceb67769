"""What the core says of sizes, openings and fittings that cannot be, to the letter."""

import pytest

from trainer.core.breathing import Space
from trainer.core.dam_heat import dam_limit_k, material_effect_k
from trainer.core.entrainment import foam_edge_gap_m, leak_air_inflow_m3_s
from trainer.core.face_height import Place
from trainer.core.fittings import (
    branch_stub_volume_m3,
    elbow_volume_m3,
    length_between_dams_m,
    long_radius_m,
    tee_volume_m3,
)
from trainer.core.gas import gas
from trainer.core.hose import friction_factor
from trainer.core.in_leaks import mixed_floor_frac, outflow_through_m3_s
from trainer.core.nozzle import Nozzle, nozzle_flow_m3_s
from trainer.core.pipe import sanitary_tube, segment_area_m2
from trainer.core.tilted_cylinder import TiltedCylinder, tilted_pocket_frac
from trainer.core.vent import pressure_build_up_s

ARGON = gas("I1")
# 0.2 m cos 30 deg + 1 m sin 30 deg = 0.673205 m high
CYLINDER = TiltedCylinder(bore_m=0.2, length_m=1.0, tilt_deg=30.0)


def _place(*, floor_area_m2=10.0, face_height_m=1.5):
    return Place(
        space=Space(volume_m3=25.0, release_m3_s=1e-3),
        gas=ARGON,
        floor_area_m2=floor_area_m2,
        face_height_m=face_height_m,
    )


def _leak(where):
    return leak_air_inflow_m3_s(1e-4, where=where, area_m2=1e-6, hose_bore_m=0.006, gas=ARGON)


REFUSALS = [
    (
        lambda: length_between_dams_m(
            0.04, right_centre_m=0.3, left_thickness_m=0.09, right_thickness_m=0.09
        ),
        "distance to the dam's centre is 0.04 m but must be at least 0.045 m: the dam must not reach over the joint",
    ),
    (
        lambda: length_between_dams_m(0.3, right_centre_m=0.3, left_thickness_m=-0.1, right_thickness_m=0.09),
        "length is -0.1 m but must be between 0 and 100000 m: a length is not negative",
    ),
    (
        lambda: long_radius_m("7"),
        "long-radius elbow NPS 7 is not in the pipe tables; known: 1/2, 3/4, 1, 2, 3, 4, 6, 8, 10, 12, 24",
    ),
    (
        lambda: elbow_volume_m3(0.2, bend_radius_m=0.09, angle_rad=1.0),
        "bend radius is 0.09 m but must be at least 0.1 m: a bend sharper than half its bore crosses itself",
    ),
    (
        lambda: tee_volume_m3(0.2, run_length_m=0.19, outlet_m=0.2),
        "run of the tee is 0.19 m but must be at least 0.2 m: it has to reach out of the crossing",
    ),
    (
        lambda: tee_volume_m3(0.2, run_length_m=0.3, outlet_m=0.09),
        "outlet of the tee is 0.09 m but must be at least 0.1 m: it has to reach out of the crossing",
    ),
    (
        lambda: branch_stub_volume_m3(0.3, run_bore_m=0.2, end_m=0.2),
        "bore of the branch is 0.3 m but must be between 0.0001 and 0.2 m: a branch is not wider than its run",
    ),
    (
        lambda: branch_stub_volume_m3(0.1, run_bore_m=0.2, end_m=0.09),
        "end of the branch is 0.09 m but must be at least 0.1 m: the branch has to end outside the run",
    ),
    (
        lambda: segment_area_m2(0.2, height_m=0.21),
        "height in the bore is 0.21 m but must be between 0 and 0.2 m: the height is that of a point inside the bore",
    ),
    (
        lambda: tilted_pocket_frac(CYLINDER, vent_above_m=1.1),
        "height of the vent is 1.1 m but must be between 0 and 0.673205 m: it lies in the section",
    ),
    (
        lambda: tilted_pocket_frac(CYLINDER, vent_above_m=-0.1),
        "height of the vent is -0.1 m but must be between 0 and 0.673205 m: it lies in the section",
    ),
    (
        lambda: sanitary_tube("5"),
        "sanitary tube 5 in is not in the pipe tables; known: 1/4, 3/8, 1/2, 3/4, 1, 1-1/2, 2, 2-1/2, 3, 4, 6",
    ),
    (
        lambda: outflow_through_m3_s(1e-4, area_m2=0.0, all_open_area_m2=0.0),
        "area of all openings is 0 m2 but must be at least 1e-12 m2: gas needs a way out",
    ),
    (
        lambda: outflow_through_m3_s(1e-4, area_m2=2e-4, all_open_area_m2=1e-4),
        "area of one opening is 0.0002 m2 but must be between 0 and 0.0001 m2: it is one of the openings",
    ),
    (
        lambda: mixed_floor_frac(0.0, flow_m3_s=0.0, source_o2_frac=0.0),
        "flow and air together is 0 m3/s but must be at least 1e-15 m3/s: nothing flows",
    ),
    (
        lambda: pressure_build_up_s(1000.0, volume_m3=0.01, flow_m3_s=0.0),
        "flow is 0 m3/s but must be at least 1e-12 m3/s: without flow no pressure builds up",
    ),
    (
        lambda: friction_factor(0.0),
        "Reynolds number is 0 but must be between 1e-300 and 1e+09: without flow there is no friction",
    ),
    (
        lambda: nozzle_flow_m3_s(Nozzle(open_area_m2=1e-6, gas=ARGON), upstream_pa=2e5, downstream_pa=3e5),
        "downstream pressure is 300000 Pa but must be between 0 and 200000 Pa: gas flows from the higher pressure to "
        "the lower",
    ),
    (
        lambda: _place(face_height_m=2.6),
        "height of the face is 2.6 m but must be between 0 and 2.5 m: the face is inside the space, between floor "
        "and ceiling",
    ),
    (
        lambda: _place(face_height_m=-0.1),
        "height of the face is -0.1 m but must be between 0 and 2.5 m: the face is inside the space, between floor "
        "and ceiling",
    ),
    (
        lambda: _place(floor_area_m2=0.0),
        "floor area is 0 m2 but must be between 0.0001 and 1e+09 m2: a pool needs a floor",
    ),
    (
        lambda: dam_limit_k("cork"),
        "'cork' is not a known kind of dam; accepted: foam, metal plate, soluble paper, inflatable, tape",
    ),
    (
        lambda: foam_edge_gap_m("worn"),
        "'worn' is not a known age of a foam dam; accepted: new, old",
    ),
    (
        lambda: _leak("cylinder"),
        "'cylinder' is not a known place of a leak; accepted: hose fitting, hose, regulator, dam edge, joint tape, "
        "branch",
    ),
]


@pytest.mark.parametrize(("wrong", "words"), REFUSALS, ids=range(len(REFUSALS)))
def test_refusal_of_a_size_names_quantity_value_limits_and_reason(wrong, words):
    with pytest.raises(ValueError) as refused:  # noqa: PT011 (which error it is says less than its words)
        wrong()
    assert str(refused.value) == words


def test_refusal_of_an_effect_lists_each_material_with_its_effects():
    with pytest.raises(
        ValueError, match="'cork: melting' is not a known effect on a material; accepted: "
    ) as refused:
        material_effect_k("cork", effect="melting")
    assert (refused.value.kind, refused.value.name) == ("effect on a material", "cork: melting")
    assert "nylon 6-6: flash ignition" in refused.value.known


def test_the_ends_of_a_range_are_inside_it():
    assert outflow_through_m3_s(1e-4, area_m2=1e-12, all_open_area_m2=1e-12) == 1e-4
    assert pressure_build_up_s(1000.0, volume_m3=1e-6, flow_m3_s=1e-12, ambient_pa=1e5) == pytest.approx(1e4)
    assert tilted_pocket_frac(CYLINDER, vent_above_m=CYLINDER.height_m) == pytest.approx(0.0, abs=1e-12)
    assert tilted_pocket_frac(CYLINDER, vent_above_m=0.0) == pytest.approx(1.0)
    assert mixed_floor_frac(1e-15, flow_m3_s=0.0, source_o2_frac=0.0) == pytest.approx(0.209, rel=0.01)
    assert _place(face_height_m=2.5).height_m == 2.5
