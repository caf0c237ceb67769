"""What the core answers to the rows of flow_checks.csv on hose, supply and heat, each in the row's own unit."""

from trainer.core import arc_heat, compressibility, dam_heat, dewar, hose, nozzle, supply
from trainer.core.dam_heat import Metal
from trainer.core.gas import density_kg_m3, gas
from trainer.core.pass_heat import CooledWall, Passes, peak_with_loss_k
from trainer.core.reference_conditions import ReferenceCondition

ARGON, HELIUM = gas("I1"), gas("I2")
T20 = 293.15
ATM = 101325.0
KELVIN = 273.15
L_MIN = 1.0 / 60000.0
FT3 = 0.028316846592
SCF = ReferenceCondition.AT_21C_1ATM
STEEL = Metal(conductivity_w_m_k=16.3, heat_capacity_j_m3_k=3.95e6)


def density(which, temperature_k):
    return density_kg_m3(which, temperature_k=temperature_k)


def hose_of(length_m, open_frac=1.0):
    return hose.Hose(bore_m=0.00635, length_m=length_m, open_frac=open_frac)


def largest_l_min(gauge_bar, length_ft):
    inlet_pa = gauge_bar * 1e5 + ATM
    return hose.largest_flow_m3_s(inlet_pa, hose=hose_of(length_ft * 0.3048), gas=ARGON) / L_MIN


HOSES = {
    "L-01": lambda: hose.pressure_drop_with_friction_pa(
        60 * L_MIN, hose=hose_of(15.24), gas=ARGON, friction_ratio=0.03
    ),
    "L-02": lambda: hose.pressure_drop_with_friction_pa(
        45 * L_MIN, hose=hose_of(30.48), gas=ARGON, friction_ratio=0.032
    ),
    "L-03": lambda: hose.pressure_drop_pa(30 * L_MIN, hose=hose_of(15.24), gas=ARGON),
    "L-04": lambda: hose.pressure_drop_pa(15 * L_MIN, hose=hose_of(30.48), gas=ARGON),
    "L-05": lambda: hose.pressure_drop_pa(5 * L_MIN, hose=hose_of(15.24), gas=ARGON),
    "L-06": lambda: largest_l_min(2, 25),
    "L-07": lambda: largest_l_min(2, 50),
    "L-08": lambda: largest_l_min(2, 100),
    "L-09": lambda: largest_l_min(1, 100),
    "L-10": lambda: (
        nozzle.nozzle_flow_m3_s(
            nozzle.Nozzle(open_area_m2=0.05 * hose_of(1.0).area_m2, gas=ARGON),
            upstream_pa=3.01325e5,
            downstream_pa=ATM,
        )
        / L_MIN
    ),
    "L-11": lambda: nozzle.critical_pressure_ratio(ARGON),
}


def cylinders(bar, which=ARGON, litres=50.0, celsius=15.0, count=1):
    return supply.Cylinders(
        gas=which,
        water_volume_m3=litres / 1000,
        pressure_pa=bar * 1e5,
        temperature_k=KELVIN + celsius,
        count=count,
    )


def us_scf(litres):
    full = supply.Cylinders(
        gas=ARGON,
        water_volume_m3=litres / 1000,
        pressure_pa=2640 * 6894.757293168 + ATM,
        temperature_k=SCF.state.temperature_k,
    )
    return supply.contents_m3(full, reference=SCF) / FT3


SUPPLIES = {
    "C-01": lambda: supply.contents_m3(cylinders(200)),
    "C-02": lambda: supply.contents_m3(cylinders(201.01325)),
    "C-03": lambda: supply.contents_m3(cylinders(300)),
    "C-04": lambda: compressibility.compressibility_ratio(ARGON, pressure_pa=200e5, temperature_k=288.15),
    "C-05": lambda: 50e-3 * 200 / supply.contents_m3(cylinders(200)) - 1,
    "C-06": lambda: us_scf(49.8),
    "C-07": lambda: us_scf(49.0),
    "C-08": lambda: supply.usable_m3(cylinders(200), stop_pressure_pa=5e5),
    "C-09": lambda: supply.joints_count(
        supply.usable_m3(cylinders(200), stop_pressure_pa=5e5), gas_per_joint_m3=(15 * 8 + 5 * 25) / 1000
    ),
    "C-10": lambda: supply.pressure_at_temperature_pa(cylinders(200), temperature_k=323.15) / 1e5,
    "C-11": lambda: supply.contents_m3(cylinders(200, which=HELIUM)),
    "C-12": lambda: supply.contents_m3(cylinders(200, count=12)),
    "C-13": lambda: dewar.liquid_density_kg_m3(ARGON, pressure_pa=ATM),
    "C-14": lambda: dewar.gas_per_liquid_ratio(ARGON, pressure_pa=ATM, reference=SCF),
    "C-15": lambda: dewar.gas_per_liquid_ratio(ARGON, pressure_pa=10e5),
    "C-16": lambda: dewar.dewar_contents_m3(
        dewar.Dewar(gas=ARGON, volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
    ),
    "C-17": lambda: dewar.evaporation_m3_s(4500 * FT3, daily_loss_frac=0.03) * 86400 / FT3,
    "C-18": lambda: (
        dewar.heat_to_gas_w(
            350 * FT3 / 3600 * density(ARGON, SCF.state.temperature_k), gas=ARGON, pressure_pa=ATM
        )
        / 1000
    ),
    "C-19": lambda: (
        supply.runs_for_s(supply.usable_m3(cylinders(50), stop_pressure_pa=5e5), flow_m3_s=12 * L_MIN) / 60
    ),
}


def ring_peak_c(distance_m):
    peak = dam_heat.peak_temperature_k(
        distance_m, heat_input_j_m=616e3, wall_m=0.0034, metal=STEEL, ambient_k=T20
    )
    return peak - KELVIN


def lossy_peak_c(distance_m, passes, wall_m):
    wall = CooledWall(wall_m=wall_m, metal=STEEL, ambient_k=T20, loss_w_m2_k=10.0)
    return peak_with_loss_k(distance_m, passes=passes, wall=wall) - KELVIN


ONE_PASS = Passes(heat_input_j_m=616e3)
EIGHT_PASSES = Passes(heat_input_j_m=900e3, count=8, interval_s=600.0)
ARC = arc_heat.MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034, metal=STEEL, ambient_k=T20)


def fin_c(power_w, wall_m, conductivity, distance_m):
    fin = arc_heat.SteadyFin(
        power_w=power_w,
        outside_diameter_m=0.1683,
        wall_m=wall_m,
        metal=Metal(conductivity_w_m_k=conductivity, heat_capacity_j_m3_k=3.95e6),
        ambient_k=T20,
        loss_w_m2_k=10.0,
    )
    return arc_heat.steady_fin_temperature_k(fin, distance_m=distance_m) - KELVIN


def effect_c(material, effect):
    return dam_heat.material_effect_k(material, effect=effect) - KELVIN


HEAT = {
    "T-01": lambda: ring_peak_c(0.025),
    "T-02": lambda: ring_peak_c(0.050),
    "T-03": lambda: ring_peak_c(0.100),
    "T-04": lambda: ring_peak_c(0.150),
    "T-05": lambda: ring_peak_c(0.300),
    "T-06": lambda: arc_heat.moving_source_peak_k(ARC, aside_m=0.05) - KELVIN,
    "T-07": lambda: arc_heat.moving_source_peak_k(ARC, aside_m=0.025) - KELVIN,
    "T-08": lambda: arc_heat.moving_source_temperature_k(ARC, ahead_m=-0.1, aside_m=0.02) - KELVIN,
    "T-09": lambda: lossy_peak_c(0.05, ONE_PASS, 0.0034),
    "T-10": lambda: lossy_peak_c(0.10, ONE_PASS, 0.0034),
    "T-11": lambda: lossy_peak_c(0.30, ONE_PASS, 0.0034),
    "T-12": lambda: lossy_peak_c(0.30, EIGHT_PASSES, 0.01097),
    "T-13": lambda: lossy_peak_c(0.15, EIGHT_PASSES, 0.01097),
    "T-14": lambda: fin_c(616, 0.0034, 16, 0.3),
    "T-15": lambda: fin_c(616, 0.0034, 16, 0.1),
    "T-16": lambda: fin_c(900, 0.01097, 40, 0.3),
    "T-17": lambda: (
        1000
        * dam_heat.distance_for_peak_m(
            KELVIN + 100, heat_input_j_m=616e3, wall_m=0.0034, metal=STEEL, ambient_k=T20
        )
    ),
    "T-18": lambda: effect_c("polypropylene", "melting"),
    "T-19": lambda: effect_c("nylon 6-6", "melting"),
    "T-20": lambda: effect_c("polyether polyurethane foam", "flash ignition"),
}

SUPPLY_ANSWERS = {**HOSES, **SUPPLIES, **HEAT}
