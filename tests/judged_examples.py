"""What cautions are judged by, each made with the one value that a row of the thresholds looks at."""

from dataclasses import replace

from set_up_examples import POLICY

from trainer.core.terms import Fan, MaterialGroup
from trainer.domain.cautions import cautions_of
from trainer.domain.judged import Judged
from trainer.domain.purge_run import (
    BreathingResult,
    DamResult,
    DeadLegResult,
    Expected,
    GasResult,
    HoseResult,
    HotPartResult,
    PurgeResult,
    PurgeRun,
    ReadingsResult,
    SectionResult,
    SupplyResult,
    VentResult,
)
from trainer.domain.set_up import (
    Analyser,
    AnalyserAt,
    Arc,
    Bystander,
    Dam,
    Flow,
    HotPart,
    Place,
    PurgeGas,
    Reading,
    Scene,
    Section,
    SetUp,
    Side,
    Supply,
    Surroundings,
    Target,
)


def raised(set_up=None, run=None, **more):
    judged = Judged(set_up=set_up or SetUp(), run=run or PurgeRun(), policy=POLICY, **more)
    return [each.code for each in cautions_of(judged)]


STEEL = SetUp(material=MaterialGroup.AUSTENITIC_STAINLESS)
TARGET = SetUp(target=Target(oxygen_frac=0.001))


def breathed(frac):
    return {"run": PurgeRun(breathing=BreathingResult(oxygen_mixed_frac=frac))}


def face_under_ceiling(depth_m):
    """A pit of 2 m with helium under its ceiling and a face 1.5 m above its floor."""
    return {
        "set_up": SetUp(
            gas=PurgeGas(symbol="I2"),
            surroundings=Surroundings(kind=Place.PIT, fan=Fan.NONE, volume_m3=12.0, floor_area_m2=6.0),
            scene=Scene(people=(Bystander(where=Place.PIT, face_height_m=1.5),)),
        ),
        "run": PurgeRun(breathing=BreathingResult(pool_depth_m=depth_m)),
    }


def in_purged_pipe(count):
    people = tuple(Bystander(where=Place.PIPE, face_height_m=0.1) for _ in range(round(count)))
    return {"set_up": SetUp(flow=Flow(purge_m3_s=2.5e-4), scene=Scene(people=people))}


def emptied(frac):
    return {
        "set_up": SetUp(surroundings=Surroundings(kind=Place.VAN), supply=Supply(count=1)),
        "run": PurgeRun(breathing=BreathingResult(supply_emptied_frac=frac)),
    }


def boil_off(frac):
    return {"run": PurgeRun(breathing=BreathingResult(boil_off_steady_frac=frac))}


def fresh(frac):
    return {"set_up": SetUp(surroundings=Surroundings(fresh_oxygen_frac=frac))}


def face_in_pool(depth_m):
    return {
        "set_up": SetUp(
            gas=PurgeGas(symbol="I1"),
            surroundings=Surroundings(kind=Place.TRENCH, fan=Fan.NONE),
            scene=Scene(people=(Bystander(where=Place.TRENCH, face_height_m=0.5),)),
        ),
        "run": PurgeRun(breathing=BreathingResult(pool_depth_m=depth_m)),
    }


def after_wait(set_up, frac):
    after = Expected(expected=frac, lower=frac, upper=frac)
    return {"set_up": set_up, "run": PurgeRun(purge=PurgeResult(oxygen_after_wait_frac=after))}


def floor(frac):
    return {"set_up": TARGET, "run": PurgeRun(purge=PurgeResult(floor_frac=frac))}


def hold_floor(frac):
    return {"set_up": TARGET, "hold_floor_frac": frac}


def purged(**result):
    after = Expected(expected=1e-5, lower=1e-5, upper=1e-5)
    return {"set_up": TARGET, "run": PurgeRun(purge=PurgeResult(oxygen_after_wait_frac=after, **result))}


def dead_leg(frac):
    leg = DeadLegResult(place="cap", time_to_target_s=3600.0, oxygen_after_wait_frac=frac)
    return purged(dead_legs=(leg,))


def leg_time(time_s):
    leg = DeadLegResult(place="cap", time_to_target_s=time_s)
    return purged(dead_legs=(leg,), body_time_to_target_s=Expected(expected=600.0, lower=500.0, upper=700.0))


def crossed(time_s):
    high = DeadLegResult(place="top", crossed=True, time_to_target_s=900.0, time_with_vent_there_s=600.0)
    return purged(
        dead_legs=(high,), time_to_target_s=Expected(expected=time_s, lower=time_s / 2.0, upper=time_s * 2.0)
    )


def highest_in_hold(frac):
    return purged(highest_in_hold_frac=frac)


def highest_after_wait(frac):
    return purged(highest_after_wait_frac=frac)


def read(earlier_frac, later_frac, *, floor_reached):
    both = (Reading(after_s=60.0, oxygen_frac=earlier_frac), Reading(after_s=90.0, oxygen_frac=later_frac))
    return {
        "set_up": replace(TARGET, readings=both, analyser=Analyser(uncertainty_frac=0.05)),
        "run": PurgeRun(readings=ReadingsResult(floor_reached=floor_reached)),
    }


def reading_rise(ratio):
    return read(0.01, 0.01 * ratio, floor_reached=True)


def stopped(frac):
    return read(0.001, frac, floor_reached=True)


def usable(m3):
    return {"run": PurgeRun(supply=SupplyResult(usable_m3=m3)), "gas_needed_m3": 0.25}


def left_for_next(m3):
    return {"run": PurgeRun(supply=SupplyResult(usable_m3=0.25 + m3)), "gas_needed_m3": 0.25}


def deliverable(m3_s):
    return {"run": PurgeRun(supply=SupplyResult(deliverable_m3_s=m3_s)), "largest_draw_m3_s": 2.5e-4}


def boils_off(m3):
    return {
        "set_up": SetUp(supply=Supply(joint_every_s=3600.0)),
        "run": PurgeRun(supply=SupplyResult(evaporates_between_joints_m3=m3)),
        "gas_needed_m3": 0.25,
    }


def moist(frac):
    return {"run": PurgeRun(gas=GasResult(moisture_frac=frac))}


def hose(m3_s):
    return {
        "set_up": SetUp(flow=Flow(purge_m3_s=2.5e-4)),
        "run": PurgeRun(hose=HoseResult(largest_flow_m3_s=m3_s)),
    }


def hot(temperature_c):
    return {
        "set_up": SetUp(dams=(Dam(), Dam())),
        "run": PurgeRun(dams=(DamResult(temperature_c=20.0), DamResult(temperature_c=temperature_c, limit_c=100.0))),
    }  # fmt: skip


def pocket(frac):
    return {"run": PurgeRun(section=SectionResult(pocket_beyond_vent_frac=frac))}


def rise(pa):
    return {"run": PurgeRun(vent=VentResult(pressure_rise_pa=pa))}


def welding(pa):
    return {"run": PurgeRun(vent=VentResult(pressure_while_welding_pa=pa))}


def last(pa):
    return {"run": PurgeRun(vent=VentResult(pressure_at_last_of_joint_pa=pa, pool_head_pa=200.0))}


def heats_up(steady_c):
    return {
        "set_up": SetUp(dams=(Dam(),), arc=Arc(passes=2)),
        "run": PurgeRun(dams=(DamResult(steady_c=steady_c, limit_c=100.0),)),
    }


def rope(rope_m):
    return {
        "set_up": SetUp(
            section=Section(left_dam_m=0.5, left_end_m=2.5), dams=(Dam(side=Side.LEFT, rope_m=rope_m),)
        )
    }


def near(temperature_c):
    return {
        "set_up": SetUp(near_heat=(HotPart(what="rope"),)),
        "run": PurgeRun(near_heat=(HotPartResult(temperature_c=temperature_c, limit_c=170.0),)),
    }


def vent_out(m3_s):
    return {"run": PurgeRun(vent=VentResult(flow_that_holds_air_out_m3_s=1e-5)), "vent_outflow_m3_s": m3_s}


def reading(ratio):
    return {
        "set_up": SetUp(wait_s=60.0, scene=Scene(analyser_at=AnalyserAt.VENT)),
        "run": PurgeRun(purge=PurgeResult(trace=((0.0, 0.2, 0.2, 0.2), (60.0, ratio * 0.01, 0.01, 0.01)))),
    }  # fmt: skip


def target(frac):
    return {"set_up": SetUp(target=Target(oxygen_frac=frac))}
