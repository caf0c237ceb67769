"""Every figure of a run can be asked for by the key that it is written under, and says the same."""

import pytest
from set_up_examples import POLICY, run_of, set_up
from spool_examples import arch
from time_line_examples import stage

from trainer import units
from trainer.domain.core_results import CoreResults, NotKnown
from trainer.domain.purge_run import DeadLegResult, Expected, PurgeResult, StageResult, written_as
from trainer.domain.quantities import Dimension
from trainer.domain.run_results import RUN_RESULTS
from trainer.set_up_files import write_run

BASE = set_up()
# the unit that a key's ending stands for, as `parse` spells it
UNITS = {
    "mm": "mm", "l": "L", "l_min": "L/min", "s": "s", "min": "min", "pa": "Pa", "bar": "bar", "ppm": "ppm",
    "percent": "%", "m": "m", "m_s": "m/s", "m3_h": "m^3/h", "h": "h",
}  # fmt: skip


def known(asked=BASE):
    core = CoreResults(POLICY)
    for name in RUN_RESULTS:
        try:
            yield name, core.result(asked, name)
        except NotKnown:
            continue


def written(document, name):
    here = document
    for key in name.split("."):
        here = here[int(key)] if isinstance(here, list) else here[key]
    return here["expected"] if isinstance(here, dict) else here


def ending(name):
    last = name.split(".")[-1]
    return next((unit for end, unit in sorted(UNITS.items(), key=lambda e: -len(e[0])) if last.endswith(f"_{end}")), None)  # fmt: skip


def test_numbers_are_those_of_the_written_run_in_si():
    document = write_run(run_of())
    compared = 0
    for name, value in known():
        unit, dimension = ending(name), RUN_RESULTS[name].dimension
        if not isinstance(value, float) or unit is None or name.startswith("dams.") or dimension is None:
            continue
        expected = units.parse(f"{written(document, name)!r} {unit}", dimension)
        assert value == pytest.approx(expected, rel=1e-9), name
        compared += 1
    assert compared > 25


@pytest.mark.parametrize(
    "changes",
    [
        {
            "flow__stages": [stage("purge", 4.0), stage("hold", 5.0), stage("recovery")],
            "flow__hold_for": None,
        },
        {"flow__hold_for": "15 min", "flow__hold": "5 L/min"},
        arch(wait="20 min"),
    ],
    ids=["stages", "hold", "spool"],
)
def test_a_figure_of_the_purge_asked_alone_is_that_of_the_whole_run(changes):
    purge = run_of(**changes).purge
    asked = {name: value for name, value in known(set_up(**changes)) if name.startswith("purge.")}
    written_of = {key.key: name for name, key in written_as(PurgeResult).items()}
    told = {f"purge.{key}": getattr(purge, name) for key, name in written_of.items()}
    for key, result in (("stages", StageResult), ("dead_legs", DeadLegResult)):
        for place, each in enumerate(getattr(purge, key)):
            told |= {
                f"purge.{key}.{place}.{one.key}": getattr(each, name)
                for name, one in written_as(result).items()
            }
    compared = 0
    for name, value in asked.items():
        whole = told[name].expected if isinstance(told[name], Expected) else told[name]
        assert value == ({True: "yes", False: "no"}[whole] if isinstance(whole, bool) else whole), name
        compared += 1
    assert compared >= 4


def test_set_ups_that_differ_around_the_purge_share_it_and_others_do_not():
    core, other = CoreResults(POLICY), {"surroundings": {"volume": "30 m^3"}, "wait": "9 min", "arc": None}
    course = core.course(BASE)
    assert course is not None
    assert core.course(set_up(**other)) is course
    assert core.course(set_up(flow__purge="11 L/min")) is not course


def test_a_dam_s_temperature_is_asked_in_kelvin_and_written_in_celsius():
    written_c = write_run(run_of())["dams"]["temperature_c"][0]
    assert CoreResults(POLICY).result(BASE, "dams.0.temperature_c") == pytest.approx(written_c + 273.15)


def test_a_flag_answers_yes_or_no_and_a_grade_its_word():
    core = CoreResults(POLICY)
    assert core.result(BASE, "hose.choked") in RUN_RESULTS["hose.choked"].words == ("yes", "no")
    assert core.result(BASE, "root.grade") in RUN_RESULTS["root.grade"].words


def test_what_the_set_up_does_not_tell_is_not_known_rather_than_nothing():
    with pytest.raises(NotKnown):
        CoreResults(POLICY).result(BASE, "near_heat.0.temperature_c")
    with pytest.raises(NotKnown):
        CoreResults(POLICY).result(set_up(hose=None), "hose.pressure_drop_bar")


def test_every_result_has_the_dimension_of_its_key():
    lengths = {name for name, kind in RUN_RESULTS.items() if kind.dimension is Dimension.LENGTH}
    assert {"section.length_mm", "breathing.pool_depth_m", "dams.0.safe_distance_m"} <= lengths
    assert RUN_RESULTS["gas.density_over_air"].dimension is None
    assert RUN_RESULTS["breathing.air_changes_needed_per_h"].dimension is None
