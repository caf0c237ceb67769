"""Which single change helps most: through the core, ranked, and never at anybody's cost."""

import pytest
from hypothesis import given, settings
from set_up_examples import A_RISER_WITHOUT_VENT, POLICY, set_up
from set_up_strategies import straight_set_ups

from trainer.domain.change_effects import figures_of, severities_of
from trainer.domain.change_kinds import ChangeKind
from trainer.domain.kept_courses import KeptCourses
from trainer.domain.run_set_up import run
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.domain.set_up_paths import spec_at, with_values
from trainer.domain.single_changes import single_changes
from trainer.domain.what_helps import FRESH_ENOUGH_FRAC, what_helps
from trainer.set_up_files import read_set_up

TRENCH = {
    "surroundings": {"kind": "trench", "volume": "14 m^3", "floor_area": "8 m^2", "fan": "none", "after": "45 min"},
    "scene": {"people": [{"where": "trench", "face_height": "0.5 m"}], "vent_leads_to": "trench"},
}  # fmt: skip


def helped(**changes):
    return what_helps(set_up(**changes), policy=POLICY)


def kinds(found):
    return [each.change.kind for each in found.changes]


@pytest.mark.parametrize(
    ("wrong", "cure"),
    [
        ({"vent__height": 0.1, "wait": "5 min"}, ChangeKind.VENT_TO_POOL_END),
        ({"section": {"left_dam": "6 m", "right_dam": "6 m"}, "wait": "20 min"}, ChangeKind.DAMS_NEARER),
        ({"joint__taped": 0.2, "flow__purge": "6 L/min"}, ChangeKind.TAPE_JOINT),
        ({"leaks": [{"where": "hose fitting", "area": "2 mm^2"}]}, ChangeKind.CLOSE_LEAKS),
        ({"gas__oxygen": "5000 ppm"}, ChangeKind.PURER_GAS),
        ({"wait": "1 min"}, ChangeKind.WAIT_LONGER),
        ({"vent__diameter": "3 mm", "flow__hold": "10 L/min"}, ChangeKind.LARGER_VENT),
        ({"vent__blocked": True}, ChangeKind.CLEAR_VENT),
        ({"supply__pressure": "8 bar", "surroundings": None}, ChangeKind.MORE_CYLINDERS),
        ({"hose__open_fraction": 0.001}, ChangeKind.SOUND_HOSE),
        ({"arc__passes": 3, "arc__between_passes": "5 min", "section__left_dam": "60 mm"}, ChangeKind.DAMS_FARTHER),
        (A_RISER_WITHOUT_VENT, ChangeKind.VENT_AT_HIGH_POINT),
        (TRENCH, ChangeKind.VENT_OUTSIDE),
        ({"dams": [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "old"}], "wait": "30 min"}, ChangeKind.NEW_FOAM),
    ],
    ids=lambda each: each.value if isinstance(each, ChangeKind) else "",
)  # fmt: skip
def test_what_cures_a_fault_is_among_the_changes_that_help(wrong, cure):
    assert cure in kinds(helped(**wrong))


def test_the_best_comes_first_and_each_kind_once():
    found = helped(section={"left_dam": "6 m", "right_dam": "6 m"}, wait="20 min")
    gains = [each.gain for each in found.changes]
    assert gains == sorted(gains, reverse=True)
    assert len(set(kinds(found))) == len(kinds(found)) <= 5
    assert not found.is_nothing_wrong


def test_where_nothing_is_wrong_it_says_so_and_changes_save_time():
    found = helped()
    assert found.is_nothing_wrong
    assert all(
        each.after.time_to_target_s.upper < found.before.time_to_target_s.upper for each in found.changes
    )


def test_the_figures_after_a_change_are_those_of_the_core():
    for each in helped(wait="1 min").changes:
        assert each.after == figures_of(run(each.set_up, policy=POLICY))


def test_waiting_longer_lets_gas_escape_for_as_much_longer():
    changed = next(
        each
        for each in single_changes(set_up(wait="1 min"), run=run(set_up(wait="1 min"), policy=POLICY))
        if each.kind is ChangeKind.WAIT_LONGER
    )
    assert changed.values["surroundings.after"] - 1800.0 == pytest.approx(changed.values["wait"] - 60.0)


def test_more_flow_into_air_that_is_no_longer_fresh_is_not_offered():
    poor = {**TRENCH, "scene": {"people": [{"where": "trench", "face_height": "1.6 m"}]}, "wait": "1 min"}
    assert helped(**poor).before.lowest_oxygen_frac < FRESH_ENOUGH_FRAC
    assert not {ChangeKind.MORE_FLOW, ChangeKind.WAIT_LONGER} & set(kinds(helped(**poor)))


@settings(max_examples=15, deadline=None)  # each asks the core some thirty times
@given(straight_set_ups)
def test_no_change_harms_anybody_or_puts_anything_else_past_a_limit(made):
    meant = read_set_up(made)
    now = run(meant, policy=POLICY)
    before = severities_of(now, set_up=meant, policy=POLICY)
    for each in what_helps(meant, policy=POLICY, most=99).changes:
        then = run(each.set_up, policy=POLICY)
        after = severities_of(then, set_up=each.set_up, policy=POLICY)
        assert {one.code for one in then.cautions} <= {one.code for one in now.cautions}
        assert after.whole < before.whole
        assert after.pressure <= before.pressure + 1e-9
        assert after.oxygen <= before.oxygen + 1e-9
        earlier, later = (figures_of(one).lowest_oxygen_frac for one in (now, then))
        if earlier is not None:
            assert later >= min(earlier, FRESH_ENOUGH_FRAC) - 1e-9


@pytest.mark.parametrize("changes", [{}, A_RISER_WITHOUT_VENT, TRENCH], ids=["shop", "riser", "trench"])
def test_every_change_sets_fields_that_a_set_up_has_and_does_change_it(changes):
    meant = set_up(**changes)
    for each in single_changes(meant, run=run(meant, policy=POLICY)):
        for path in each.values:
            spec_at(path)
        assert with_values(meant, dict(each.values)) != meant


def test_a_set_up_that_contradicts_itself_is_refused():
    broken = with_values(set_up(), {"vent.height": 1.0})
    with pytest.raises(UnusableSetUp):
        what_helps(broken, policy=POLICY)


def test_a_purge_is_solved_once_for_what_it_does_not_rest_on():
    courses = KeptCourses()
    base = set_up()
    assert courses.of(base) is courses.of(with_values(base, {"wait": 99.0, "surroundings.kind": None}))
    assert courses.of(base) is not courses.of(with_values(base, {"vent.height": 0.5}))
