"""What a set-up does not tell is not guessed: the answers that rest on it are missing, and no others."""

import pytest
from set_up_examples import run_of


@pytest.mark.parametrize("missing", ["pipe", "section", "inlet", "vent", "gas", "flow"])
def test_what_decides_the_purge_is_not_guessed(missing):
    assert run_of(**{missing: None}).purge is None


@pytest.mark.parametrize(
    ("missing", "part", "unanswered"),
    [
        ("target", "purge", "time_to_target_s"),
        ("wait", "purge", "oxygen_after_wait_frac"),
        ("hose__inlet_pressure", "hose", "largest_flow_m3_s"),
        ("flow__hold_for", "gas_used", "total_m3"),
        ("flow__hold_for", "supply", "joints"),
        ("surroundings__volume", "breathing", "oxygen_mixed_frac"),
        ("surroundings__fan", "breathing", "time_to_18_s"),
        ("surroundings__fan", "breathing", "ventilation_needed_m3_s"),
        ("surroundings__floor_area", "breathing", "pool_depth_m"),
    ],
)
def test_only_what_rests_on_a_missing_key_is_left_out(missing, part, unanswered):
    assert getattr(getattr(run_of(), part), unanswered) is not None
    assert getattr(getattr(run_of(**{missing: None}), part), unanswered) is None


def test_a_fan_of_which_the_flow_is_not_known_leaves_the_oxygen_unanswered():
    air = run_of(surroundings__fan="blows in").breathing
    assert (air.oxygen_mixed_frac, air.steady_frac, air.time_to_18_s) == (None, None, None)
    assert air.ventilation_needed_m3_s > 0


@pytest.mark.parametrize("part", ["hose", "supply", "surroundings", "dams", "material", "arc"])
def test_parts_that_stand_alone_leave_the_rest_answered(part):
    assert run_of(**{part: None}).purge == run_of().purge


def test_gas_left_out_has_the_oxygen_of_its_usual_grade():
    # Site policy: gas of 99.99 % is taken to carry 10 ppm.
    assert run_of(gas__oxygen=None).purge.floor_frac == pytest.approx(10e-6, rel=1e-6)


@pytest.mark.parametrize("kind", ["liquid dewar", "bulk tank"])
def test_liquid_of_which_the_level_is_not_known_is_not_answered_as_if_it_were_gas(kind):
    assert run_of(supply={"kind": kind, "water_volume": "180 L", "pressure": "10 bar"}).supply is None


@pytest.mark.parametrize(
    "changes",
    [
        {"inlet__end": None},
        {"inlet": {"end": "diffuser", "face_area": "15 cm^2"}},
        {"vent__height": None},
        {"vent__diameter": None},
        {"section__right_dam": None},
        {"pipe__schedule": None},
        {"joint": {"taped": 0.5}},
        {"leaks": [{"where": "branch"}]},
        {"leaks": [{"where": "hose", "area": "1 mm^2"}], "hose": None, "inlet__bore": None},
        {"dams": [{"side": "left", "kind": "foam", "age": "old"}]},
        {"meter": {"reads": "15 L/min"}},
    ],
    ids=str,
)
def test_half_a_part_is_not_made_whole_by_guessing(changes):
    assert run_of(**changes).purge is None


def test_a_leak_into_the_section_is_known_without_the_hose():
    leak = [{"where": "branch", "area": "1 cm^2"}]
    assert run_of(leaks=leak, hose=None, inlet__bore=None).purge == run_of(leaks=leak).purge


def test_a_joint_fully_taped_needs_no_gap():
    assert run_of(joint={"taped": 1.0}).purge == run_of(joint=None).purge == run_of().purge


@pytest.mark.parametrize("missing", ["arc__voltage", "arc__travel_speed", "section__left_dam", "material"])
def test_a_dam_of_which_the_heat_is_not_known_still_has_its_limit(missing):
    (dam,) = run_of(**{missing: None}).dams
    assert dam.temperature_c is None
    assert dam.limit_c == pytest.approx(100)


def test_a_vent_without_a_pipe_still_presses():
    alone = run_of(pipe=None, joint=None, dams=None).vent
    assert alone.pressure_rise_pa == pytest.approx(run_of().vent.pressure_rise_pa)
    assert run_of(pipe=None, joint={"gap": "3 mm", "taped": 0.5}).vent.pressure_rise_pa is None
