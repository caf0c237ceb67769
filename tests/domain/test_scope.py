"""Scope from evidence, and a job held against it."""

from dataclasses import replace

import pytest
from domain_values import RULES, done
from hypothesis import given
from hypothesis import strategies as st

from trainer.core.terms import MaterialGroup
from trainer.domain.scope import (
    Job,
    JointSituation,
    confined_space_gap,
    joint_situation,
    outside_scope,
    scope_from,
    scope_gaps,
    still_carries,
)
from trainer.domain.set_up import Dam, DamKind, SetUp


def scope(*evidence, seen: bool = False):
    return scope_from(evidence or (done(),), confined_space_seen=seen, rules=RULES)


def job(**changes: object) -> Job:
    values = {
        "material": MaterialGroup.AUSTENITIC_STAINLESS,
        "gas": "I1",
        "outside_diameter_m": 0.1683,
    }
    return Job(**{**values, **changes})


@pytest.mark.parametrize(
    ("kinds", "situation"),
    [
        ((DamKind.FOAM, DamKind.FOAM), JointSituation.LONG_RUN),
        ((DamKind.INFLATABLE,), JointSituation.LONG_RUN),
        ((DamKind.TAPE, DamKind.METAL_PLATE), JointSituation.OPEN_END),
        ((DamKind.FOAM, DamKind.TAPE), JointSituation.LONG_RUN),
        ((DamKind.SOLUBLE_PAPER, DamKind.FOAM), JointSituation.CLOSURE),
        ((None,), None),
        ((), None),
    ],
)
def test_dams_tell_how_the_joint_can_be_reached(kinds: tuple, situation: JointSituation | None) -> None:
    """Common practice, no source: what dissolves is left inside, what is wedged inside has to be pulled out."""
    assert joint_situation(SetUp(dams=tuple(Dam(kind=each) for each in kinds))) is situation


def test_ranges_reach_as_far_beyond_what_was_done_as_the_policy_says() -> None:
    """Done 88.9 and 168.3 mm, 0.6 and 1.5 m: from 44.45 to 336.6 mm, up to 3 m, worked by hand."""
    found = scope(done(outside_diameter_m=0.0889), done(section_length_m=1.5))
    assert found.outside_diameter_from_m == pytest.approx(0.04445)
    assert found.outside_diameter_to_m == pytest.approx(0.3366)
    assert found.section_length_to_m == pytest.approx(3.0)


def test_every_material_gas_and_situation_shown_is_in_scope() -> None:
    found = scope(done(), done(material=MaterialGroup.TITANIUM, gas="I2", situation=JointSituation.CLOSURE))
    assert set(found.materials) == {MaterialGroup.AUSTENITIC_STAINLESS, MaterialGroup.TITANIUM}
    assert set(found.gases) == {"I1", "I2"}
    assert set(found.situations) == {JointSituation.LONG_RUN, JointSituation.CLOSURE}


def test_scenario_in_which_no_purge_was_decided_widens_nothing() -> None:
    aside = done(skills=(11,), material=MaterialGroup.TITANIUM, outside_diameter_m=2.0)
    assert scope(done(), aside) == scope(done())


@pytest.mark.parametrize(
    ("changes", "part"),
    [
        ({"material": None}, "material"),
        ({"gas": None}, "gas"),
        ({"outside_diameter_m": None}, "diameter"),
        ({"section_length_m": None}, "length"),
        ({"situation": None}, "joint situation"),
    ],
)
def test_part_that_nothing_was_shown_for_is_named(changes: dict, part: str) -> None:
    gaps = scope_gaps([done(**changes)], rules=RULES)
    assert [(each.code, dict(each.facts)) for each in gaps] == [("no-evidence-for", {"part": part})]


def test_each_skill_behind_a_purge_has_to_be_shown() -> None:
    gaps = scope_gaps([done(skills=(6,))], rules=RULES)
    assert [str(each) for each in gaps] == ["skill-not-shown skill=3", "skill-not-shown skill=4"]


def test_critical_needs_three_scenarios_that_ask_its_skill() -> None:
    one = done(skills=(3, 4, 6, 11), critical_skills=(11,))
    quiet = done(skills=(3, 4, 6, 11))
    assert [str(each) for each in scope_gaps([one, quiet], rules=RULES)] == [
        "too-few-scenarios-behind-a-critical skill=11 have=2 need=3"
    ]
    assert scope_gaps([one, quiet, quiet], rules=RULES) == ()


def test_endorsement_takes_three_scenarios_in_confined_spaces_and_an_observation_in_one() -> None:
    inside = done(skills=(3, 4, 6, 11), confined_space=True)
    assert scope(inside, inside, inside, seen=True).confined_space
    assert not scope(inside, inside, inside, seen=False).confined_space
    assert not scope(inside, inside, seen=True).confined_space
    assert not scope(done(), seen=True).confined_space


def test_what_the_endorsement_lacks_is_said_only_to_those_who_touched_on_it() -> None:
    inside = done(confined_space=True)
    assert confined_space_gap([done()], seen_in_booth=False, rules=RULES) == ()
    assert [str(each) for each in confined_space_gap([inside], seen_in_booth=False, rules=RULES)] == [
        "confined-space-scenarios-too-few have=1 need=3",
        "confined-space-not-observed",
    ]


def test_ends_of_the_ranges_are_included() -> None:
    found = scope()
    for diameter_m in (found.outside_diameter_from_m, found.outside_diameter_to_m):
        assert outside_scope(found, job=job(outside_diameter_m=diameter_m)) == ()
    assert outside_scope(found, job=job(section_length_m=found.section_length_to_m)) == ()


def test_every_part_that_does_not_fit_gives_its_own_reason() -> None:
    impossible = job(
        material=MaterialGroup.TITANIUM,
        gas="N1",
        outside_diameter_m=1.0,
        section_length_m=99.0,
        situation=JointSituation.CLOSURE,
        confined_space=True,
    )
    assert [each.code for each in outside_scope(scope(), job=impossible)] == [
        "material-outside-scope",
        "gas-outside-scope",
        "diameter-outside-scope",
        "length-outside-scope",
        "joint-situation-outside-scope",
        "no-confined-space-endorsement",
    ]


DIAMETERS = st.lists(st.floats(0.01, 1.0), min_size=1, max_size=5)


@given(DIAMETERS, st.floats(0.01, 1.0))
def test_more_evidence_never_narrows_a_scope(diameters: list[float], another: float) -> None:
    evidence = [done(outside_diameter_m=each) for each in diameters]
    before = scope(*evidence)
    after = scope(*evidence, done(outside_diameter_m=another))
    assert still_carries(after, awarded=before)


@pytest.mark.parametrize(
    "changes",
    [
        {"materials": ()},
        {"gases": ("I2",)},
        {"situations": ()},
        {"outside_diameter_from_m": 0.1},
        {"outside_diameter_to_m": 0.1},
        {"section_length_to_m": 0.1},
    ],
    ids=lambda each: next(iter(each)),
)
def test_scope_that_lost_a_part_no_longer_carries_the_award(changes: dict) -> None:
    awarded = scope()
    assert still_carries(awarded, awarded=awarded)
    assert not still_carries(replace(awarded, **changes), awarded=awarded)


def test_scope_that_lost_the_endorsement_no_longer_carries_it() -> None:
    plain, endorsed = scope(), replace(scope(), confined_space=True)
    assert still_carries(endorsed, awarded=plain)
    assert not still_carries(plain, awarded=endorsed)
