"""Every figure of a run can be asked for by the key that it is written under, and says the same."""

import pytest
from set_up_examples import POLICY, run_of, set_up

from trainer import units
from trainer.domain.core_results import CoreResults, NotKnown
from trainer.domain.quantities import Dimension
from trainer.domain.run_results import RUN_RESULTS
from trainer.set_up_files import write_run

BASE = set_up()
# the unit that a key's ending stands for, as `parse` spells it
UNITS = {
    "mm": "mm", "l": "L", "l_min": "L/min", "s": "s", "min": "min", "pa": "Pa", "bar": "bar", "ppm": "ppm",
    "percent": "%", "m": "m", "m_s": "m/s", "m3_h": "m^3/h", "h": "h",
}  # fmt: skip


def known():
    core = CoreResults(POLICY)
    for name in RUN_RESULTS:
        try:
            yield name, core.result(BASE, name)
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
