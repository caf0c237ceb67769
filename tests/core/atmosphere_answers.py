"""What the core answers to the rows of atmosphere_checks.csv, each in the row's own unit."""

from trainer.core import breathing, dewar, pool, release, supply
from trainer.core.gas import AIR, density_kg_m3, gas
from trainer.core.pipe import section_volume_m3
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3
from trainer.core.terms import Fan

ARGON = gas("I1")
ATM = 101325.0
L_MIN = 1.0 / 60000.0
M3_MIN = 1.0 / 60.0
FRESH = 0.209
AT_20C = GasState(temperature_k=293.15, pressure_pa=ATM)
PER_15C = ReferenceCondition.AT_15C_1BAR
TRENCH_M3, VESSEL_M3, ROOM_M3 = 3.24, 3.0, 15.0
PIPE_M3 = section_volume_m3(0.762, length_m=12.192)
TANK_M3 = section_volume_m3(1.2, length_m=22.0)


def still(volume_m3, argon_l_min):
    return breathing.Space(volume_m3=volume_m3, release_m3_s=argon_l_min * L_MIN)


def fanned(volume_m3, argon_l_min, fan, fan_m3_min):
    return breathing.Space(
        volume_m3=volume_m3, release_m3_s=argon_l_min * L_MIN, fan=fan, fan_flow_m3_s=fan_m3_min * M3_MIN
    )


def percent_after(space, minutes, start=None):
    return 100 * breathing.oxygen_mixed_frac(space, time_s=60 * minutes, start_o2_frac=start)


def minutes_to(space, percent, start=None):
    return breathing.time_to_frac_s(space, o2_frac=percent / 100, start_o2_frac=start) / 60


def extract_m3_min(argon_l_min):
    needed = breathing.ventilation_needed_m3_s(argon_l_min * L_MIN, o2_frac=0.195, fan=Fan.DRAWS_OUT)
    return needed / M3_MIN


def depth_m(layer_o2_frac):
    return pool.pool_depth_m(20 * L_MIN * 1800, gas=ARGON, floor_area_m2=2.7, layer_o2_frac=layer_o2_frac)


STILL = {
    "A-01": lambda: percent_after(still(TRENCH_M3, 20), 30),
    "A-02": lambda: percent_after(still(TRENCH_M3, 100), 30),
    "A-03": lambda: percent_after(still(VESSEL_M3, 20), 30),
    "A-04": lambda: percent_after(still(VESSEL_M3, 10), 60),
    "A-05": lambda: percent_after(still(ROOM_M3, 30), 120),
    "A-06": lambda: percent_after(still(PIPE_M3, 20), 60),
    "A-07": lambda: minutes_to(still(TRENCH_M3, 20), 19.5),
    "A-08": lambda: minutes_to(still(TRENCH_M3, 20), 18),
    "A-09": lambda: minutes_to(still(TRENCH_M3, 20), 16),
    "A-10": lambda: minutes_to(still(TRENCH_M3, 20), 10),
    "A-11": lambda: minutes_to(still(VESSEL_M3, 20), 19.5),
    "A-12": lambda: minutes_to(still(VESSEL_M3, 20), 18),
    "A-13": lambda: minutes_to(still(VESSEL_M3, 20), 16),
    "A-14": lambda: minutes_to(still(VESSEL_M3, 20), 10),
    "A-15": lambda: minutes_to(still(ROOM_M3, 100), 19.5),
    "A-16": lambda: minutes_to(still(ROOM_M3, 100), 18),
    "A-17": lambda: minutes_to(still(ROOM_M3, 100), 16),
    "A-18": lambda: minutes_to(still(ROOM_M3, 100), 10),
    "A-45": lambda: percent_after(still(TANK_M3, 30), 60),
}

VENTILATED = {
    "A-19": lambda: percent_after(fanned(ROOM_M3, 50, Fan.BLOWS_IN, 1.5), 60),
    "A-20": lambda: 100 * breathing.steady_frac(fanned(ROOM_M3, 50, Fan.BLOWS_IN, 1.5)),
    "A-21": lambda: percent_after(fanned(ROOM_M3, 50, Fan.DRAWS_OUT, 1.5), 60),
    "A-22": lambda: 100 * breathing.steady_frac(fanned(ROOM_M3, 50, Fan.DRAWS_OUT, 1.5)),
    "A-23": lambda: minutes_to(fanned(VESSEL_M3, 100, Fan.BLOWS_IN, 0.5), 19.5),
    "A-24": lambda: percent_after(fanned(VESSEL_M3, 100, Fan.DRAWS_OUT, 0.05), 30),
    "A-25": lambda: extract_m3_min(20),
    "A-26": lambda: extract_m3_min(100),
    "A-27": lambda: extract_m3_min(20) * 60 / ROOM_M3,
    # Case B from fresh air is the growth of a contaminant from zero: its share is what the oxygen lost.
    "A-34": lambda: (
        1e6 * (1 - breathing.oxygen_mixed_frac(CONTAMINATED, time_s=660.0) / CONTAMINATED.fresh_o2_frac)
    ),
    "A-40": lambda: breathing.air_changes_to_recover(0.0, o2_frac=0.195),
    "A-41": lambda: minutes_to(fanned(VESSEL_M3, 0, Fan.BLOWS_IN, 1.0), 19.5, start=0.12),
    "A-47": lambda: 100 * breathing.steady_frac(fanned(ROOM_M3, 100, Fan.DRAWS_OUT, 57.0)),
}
CUBIC_FOOT_M3 = 0.3048**3
CONTAMINATED = breathing.Space(
    volume_m3=75000 * CUBIC_FOOT_M3,
    release_m3_s=1.4 * CUBIC_FOOT_M3 / 60,
    fan=Fan.DRAWS_OUT,
    fan_flow_m3_s=2500 * CUBIC_FOOT_M3 / 60,
)


def nitrogen_dewars_m3_s():
    contents_m3 = 5 * 10e-3 * 700
    return dewar.evaporation_m3_s(contents_m3, daily_loss_frac=2 * 0.15 / 10)


def argon_at_20c_m3():
    full = supply.Cylinders(gas=ARGON, water_volume_m3=0.05, pressure_pa=200e5 + ATM)
    return converted_volume_m3(supply.contents_m3(full), stated_at=PER_15C.state, wanted_at=AT_20C)


def liquid_argon_ratio_at_20c():
    at_15c = dewar.gas_per_liquid_ratio(ARGON, pressure_pa=ATM)
    return converted_volume_m3(at_15c, stated_at=PER_15C.state, wanted_at=AT_20C)


RELEASES = {
    "A-28": lambda: 100 * release.whole_release_frac(4.0, volume_m3=57.096, fresh_o2_frac=0.21),
    "A-29": lambda: 100 * release.whole_release_frac(0.68, volume_m3=1.0),
    "A-30": lambda: release.gas_added_frac(0.18) / 0.68,
    "A-31": lambda: 100 * release.whole_release_frac(0.160 * 700, volume_m3=70 * 70 * 10 * CUBIC_FOOT_M3),
    "A-32": lambda: nitrogen_dewars_m3_s() * 3600,
    "A-33": lambda: (
        100
        * release.long_term_fall_frac(
            0.04375 / 3600, volume_m3=36.0, air_changes_per_s=0.4 / 3600, fresh_o2_frac=0.21
        )
    ),
    "A-35": argon_at_20c_m3,
    "A-36": liquid_argon_ratio_at_20c,
    "A-37": lambda: density_kg_m3(ARGON, temperature_k=293.15) / density_kg_m3(AIR, temperature_k=293.15),
    "A-38": lambda: 100 * release.slow_release_frac(10.0, volume_m3=ROOM_M3),
    "A-39": lambda: 100 * release.whole_release_frac(0.18 * 840, volume_m3=60.0),
    "A-42": lambda: depth_m(0.0),
    "A-43": lambda: pool.pool_time_s(0.5, release_m3_s=20 * L_MIN, floor_area_m2=2.7) / 60,
    "A-44": lambda: depth_m(0.10),
    "A-46": lambda: 100 * release.gas_added_frac(0.195),
    "A-48": lambda: release.fatality_ratio(135 * 133.322387415),
    "A-49": lambda: release.oxygen_partial_pressure_pa(0.195) / 133.322387415,
    "A-50": lambda: 100 * release.same_oxygen_frac(0.195, ambient_pa=84500.0),
    "A-51": lambda: section_volume_m3(0.762, length_m=1.524),
}

ATMOSPHERE_ANSWERS = {**STILL, **VENTILATED, **RELEASES}
