"""What the core answers to the rows of flow_checks.csv, each in the row's own unit."""

import math

from trainer.core import (
    fittings,
    gas_mix,
    gas_purity,
    meter,
    pipe,
    vent,
)
from trainer.core.back_diffusion import back_diffusion_ratio, velocity_for_back_diffusion_m_s
from trainer.core.dam_heat import Metal
from trainer.core.gas import (
    AIR,
    density_kg_m3,
    diffusivity_in_air_m2_s,
    fuller_diffusivity_m2_s,
    gas,
    outflow_reduced_gravity_m_s2,
    reduced_gravity_m_s2,
    viscosity_pa_s,
)
from trainer.core.gas_pairs import pair_diffusivity_m2_s
from trainer.core.joint_gap import JointGap, gap_open_area_m2
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3

ARGON, HELIUM, NITROGEN = gas("I1"), gas("I2"), gas("N1")
T20 = 293.15
ATM = 101325.0
L_MIN = 1.0 / 60000.0
BORE = 0.1615
FT3 = 0.028316846592
IN = 0.0254
KELVIN = 273.15
SCF = ReferenceCondition.AT_21C_1ATM
PER_15C = ReferenceCondition.AT_15C_1BAR
STEEL = Metal(conductivity_w_m_k=16.3, heat_capacity_j_m3_k=3.95e6)
AR_H2 = gas_mix.mixture({"Ar": 0.95, "H2": 0.05}, symbol="R1")
N2_H2 = gas_mix.mixture({"N2": 0.90, "H2": 0.10}, symbol="N5")


def size_mm(nps, schedule, which):
    return 1000 * getattr(pipe.pipe_size(nps=nps, schedule=schedule), f"{which}_m")


def density(which, temperature_k=T20):
    return density_kg_m3(which, temperature_k=temperature_k)


def volume_l(was, becomes, volume_m3):
    return 1000 * converted_volume_m3(volume_m3, stated_at=was.state, wanted_at=becomes.state)


PIPES = {
    "P-01": lambda: size_mm("0.5", "10S", "bore"),
    "P-02": lambda: size_mm("2", "10S", "bore"),
    "P-03": lambda: size_mm("4", "10S", "bore"),
    "P-04": lambda: size_mm("6", "10S", "bore"),
    "P-05": lambda: size_mm("6", "10S", "wall"),
    "P-06": lambda: size_mm("8", "40S", "bore"),
    "P-07": lambda: size_mm("10", "80S", "wall"),
    "P-08": lambda: size_mm("12", "40S", "wall"),
    "P-09": lambda: size_mm("14", "10S", "wall"),
    "P-10": lambda: size_mm("24", "10S", "bore"),
    "P-11": lambda: size_mm("12", "5S", "bore"),
    "P-12": lambda: size_mm("14", "10", "wall"),
    "P-13": lambda: size_mm("12", "40", "bore"),
    "P-14": lambda: 1000 * pipe.sanitary_tube("1/2").bore_m,
    "P-15": lambda: 1000 * pipe.sanitary_tube("2").bore_m,
    "P-16": lambda: 1000 * pipe.sanitary_tube("4").bore_m,
    "P-17": lambda: 1000 * pipe.pipe_from_wall(outside_diameter_m=0.1683, wall_m=0.002).bore_m,
    "P-18": lambda: 1000 * pipe.section_volume_m3(0.1614678, length_m=1.0),
}

VOLUMES = {
    "V-01": lambda: 1000 * pipe.section_volume_m3(BORE, length_m=0.6),
    "V-02": lambda: 1000 * pipe.section_volume_m3(BORE, length_m=7.3152),
    "V-03": lambda: (
        1000
        * pipe.section_volume_m3(
            BORE,
            length_m=fittings.length_between_dams_m(
                0.3, right_centre_m=0.3, left_thickness_m=0.09, right_thickness_m=0.09
            ),
        )
    ),
    "V-04": lambda: (
        1000
        * fittings.elbow_volume_m3(BORE, bend_radius_m=fittings.long_radius_m("6"), angle_rad=math.pi / 2)
    ),
    "V-05": lambda: 1000 * fittings.elbow_volume_m3(BORE, bend_radius_m=0.1524, angle_rad=math.pi / 2),
    "V-06": lambda: (
        1000
        * fittings.elbow_volume_m3(0.1082, bend_radius_m=fittings.long_radius_m("4"), angle_rad=math.pi / 4)
    ),
    "V-07": lambda: 1000 * fittings.tee_volume_m3(0.1541, run_length_m=0.286, outlet_m=0.143),
    "V-08": lambda: 1000 * fittings.branch_stub_volume_m3(0.0525, run_bore_m=0.1541, end_m=0.15),
    "V-09": lambda: 1000 * fittings.reducer_volume_m3(BORE, other_bore_m=0.1082, length_m=0.14),
    "V-10": lambda: 1000 * fittings.cap_volume_m3(BORE),
    "V-11": lambda: 1000 * fittings.cap_volume_m3(BORE, straight_flange_m=0.045),
    "V-12": lambda: 1e6 * pipe.segment_area_m2(BORE, height_m=0.015),
    "V-13": lambda: pipe.pocket_frac(BORE, vent_height_frac=1 - 0.015 / BORE, gas_sinks=True),
    "V-14": lambda: pipe.pocket_frac(0.3, vent_height_frac=0.80, gas_sinks=True),
    "V-15": lambda: pipe.pocket_frac(0.3, vent_height_frac=0.95, gas_sinks=True),
    "V-16": lambda: 1000 * 7.3 * pipe.segment_area_m2(0.3147, height_m=0.1),
    "V-17": lambda: 1000 * fittings.foam_air_m3(BORE, thickness_m=0.09, void_frac=1 - 30 / 1200),
}

GASES = {
    "G-01": lambda: density(AIR),
    "G-02": lambda: density(ARGON),
    "G-03": lambda: density(HELIUM),
    "G-04": lambda: density(NITROGEN),
    "G-05": lambda: density(AR_H2),
    "G-06": lambda: density(N2_H2),
    "G-07": lambda: density(ARGON) / density(AIR),
    "G-08": lambda: density(HELIUM) / density(AIR),
    "G-09": lambda: 1e6 * viscosity_pa_s(ARGON, temperature_k=T20),
    "G-10": lambda: 1e6 * viscosity_pa_s(AIR, temperature_k=T20),
    "G-11": lambda: 1e6 * viscosity_pa_s(HELIUM, temperature_k=T20),
    "G-12": lambda: 1e6 * viscosity_pa_s(AR_H2, temperature_k=T20),
    "G-13": lambda: reduced_gravity_m_s2(ARGON, temperature_k=T20),
    "G-14": lambda: density(ARGON, SCF.state.temperature_k),
    "D-01": lambda: 1e4 * diffusivity_in_air_m2_s(ARGON, temperature_k=T20),
    "D-02": lambda: 1e4 * pair_diffusivity_m2_s("I1", "N1", temperature_k=T20),
    "D-03": lambda: 1e4 * pair_diffusivity_m2_s("I1", "O2", temperature_k=T20),
    "D-04": lambda: 1e4 * diffusivity_in_air_m2_s(HELIUM, temperature_k=T20),
    "D-05": lambda: 1e4 * diffusivity_in_air_m2_s(ARGON, temperature_k=273.15),
    "D-06": lambda: 1e4 * pair_diffusivity_m2_s("I1", "H2", temperature_k=T20),
    "D-07": lambda: 1e4 * fuller_diffusivity_m2_s("I1", "AIR"),
    "D-08": lambda: 1e4 * fuller_diffusivity_m2_s("I2", "AIR"),
    "D-09": lambda: 1e4 * pair_diffusivity_m2_s("I1", "N1", temperature_k=T20),
    "S-01": lambda: volume_l(SCF, PER_15C, FT3),
    "S-02": lambda: volume_l(ReferenceCondition.AT_60F_1ATM, PER_15C, FT3),
    "S-03": lambda: volume_l(ReferenceCondition.AT_0C_1ATM, PER_15C, 1.0),
    "S-04": lambda: volume_l(ReferenceCondition.AT_0C_1ATM, SCF, 1.0) / 1000 / FT3,
    "S-06": lambda: (
        converted_volume_m3(
            35 * FT3 / 3600, stated_at=SCF.state, wanted_at=GasState(temperature_k=T20, pressure_pa=ATM)
        )
        / L_MIN
    ),
    "S-08": lambda: 1e6 * gas_purity.moisture_frac(KELVIN - 50.0),
}


def float_state(density_kg_m3, gauge_pa, celsius=20.0):
    return meter.FloatState(
        standard_density_kg_m3=density_kg_m3, pressure_pa=gauge_pa + ATM, temperature_k=KELVIN + celsius
    )


METERS = {
    "M-01": lambda: meter.true_flow_m3_s(1.0, scale_gas=ARGON, used_gas=HELIUM),
    "M-02": lambda: meter.true_flow_m3_s(1.0, scale_gas=ARGON, used_gas=NITROGEN),
    "M-03": lambda: meter.true_flow_m3_s(1.0, scale_gas=AIR, used_gas=ARGON),
    "M-04": lambda: meter.true_flow_ratio(float_state(1.293, 0.2e6), used=float_state(1.977, 0.4e6, 50.0)),
    "M-05": lambda: 15 * meter.true_flow_ratio(float_state(1.66, 3.5e5), used=float_state(1.66, 2.0e5)),
    "M-06": lambda: meter.reading_to_set_m3_s(20.0, scale_gas=ARGON, used_gas=HELIUM),
}


def vent_pressure(flow_l_min, diameter_mm, count=1):
    return vent.vent_pressure_pa(
        flow_l_min * L_MIN, gas_density_kg_m3=density(ARGON), diameter_m=diameter_mm / 1000, count=count
    )


def hold_l_min(function, diameter_m):
    gravity = outflow_reduced_gravity_m_s2(ARGON, temperature_k=T20)
    return function(diameter_m, reduced_gravity_m_s2=gravity) / L_MIN


def joint_area_mm2(taped_frac):
    return 1e6 * gap_open_area_m2(JointGap(bore_m=BORE, gap_m=0.003, taped_frac=taped_frac))


OPENINGS = {
    "O-01": lambda: vent_pressure(15, 6),
    "O-02": lambda: vent_pressure(15, 3),
    "O-03": lambda: vent_pressure(20, 5, count=2),
    "O-04": lambda: vent.vent_velocity_m_s(15 * L_MIN, diameter_m=0.006),
    "O-05": lambda: (
        1000
        * vent.vent_diameter_for_pressure_m(20 * L_MIN, gas_density_kg_m3=density(ARGON), pressure_pa=100.0)
    ),
    "O-06": lambda: vent.pool_head_pa(0.003, density_kg_m3=6900.0),
    "O-07": lambda: vent.capillary_pa(0.003, surface_tension_n_m=1.6),
    "O-08": lambda: joint_area_mm2(0.0),
    "O-09": lambda: joint_area_mm2(0.9),
    "O-10": lambda: back_diffusion_ratio(
        vent.vent_velocity_m_s(0.5 * L_MIN, diameter_m=0.025),
        diameter_m=0.025,
        thickness_m=0.003,
        diffusivity_m2_s=1.89e-5,
    ),
    "O-12": lambda: velocity_for_back_diffusion_m_s(
        1e-4, diameter_m=0.003, thickness_m=0.0002, diffusivity_m2_s=1.89e-5
    ),
    "O-13": lambda: hold_l_min(vent.flow_that_holds_air_out_of_circle_m3_s, 0.025),
    "O-14": lambda: hold_l_min(vent.flow_that_holds_air_out_m3_s, 0.025),
    "O-15": lambda: hold_l_min(vent.flow_that_holds_air_out_m3_s, 0.050),
}

FLOW_ANSWERS = {**PIPES, **VOLUMES, **GASES, **METERS, **OPENINGS}
