"""Marking a whole scenario: own figures, placements by effect, criticals, and the pass rule."""

from dataclasses import replace

import pytest

from trainer.domain.errors import Missing
from trainer.domain.families import draw
from trainer.domain.marking import mark, own_set_up, right_set_up
from trainer.domain.scenario import Marked, Response, Scenario
from trainer.scenario_files import load_content

CONTENT = load_content()


def scenario(family: str = "long-run", *, seed: int = 1, difficulty: float = 0.0) -> Scenario:
    return draw(
        CONTENT.family(family),
        seed=seed,
        difficulty=difficulty,
        policy=CONTENT.policy,
        hazards=CONTENT.hazards,
    )


def marked(drawn: Scenario, **changed: Response | None) -> Marked:
    """The keys as responses, but for those that the test changes; None leaves one out."""
    keys = {item_id: each.key for item_id, each in drawn.answers.items()}
    written = {each.id: "Argon lies where people kneel." for each in drawn.items if each.rubric}
    responses = keys | written | changed
    given = {item_id: each for item_id, each in responses.items() if each is not None}
    return mark(drawn, responses=given, policy=CONTENT.policy)


def score(result: Marked, item_id: str) -> float:
    return next(each.score for each in result.outcomes if each.item_id == item_id)


def test_the_keys_pass_and_their_set_up_runs() -> None:
    result = marked(scenario())
    assert result.total == 1.0
    assert result.passed
    assert result.own_set_up == right_set_up(scenario())
    assert result.run is not None
    assert result.run_missing == ()


def test_dams_in_the_heat_score_nothing_and_name_the_belief() -> None:
    result = marked(scenario(), dams={"left_dam": 0.05, "right_dam": 0.3})
    assert score(result, "dams") == 0.0
    outcome = next(each for each in result.outcomes if each.item_id == "dams")
    assert any("Closer saves gas" in each for each in outcome.misconceptions)


def test_dams_at_the_pipe_ends_score_nothing() -> None:
    drawn = scenario()
    far = {each.id: each.high for each in drawn.item("dams").handles}
    assert score(marked(drawn, dams=far), "dams") == 0.0


def test_a_longer_section_is_charged_once_and_the_wait_follows_from_it() -> None:
    drawn = scenario()
    longer = {"left_dam": 0.6, "right_dam": 0.6}
    own_wait = drawn.answers["wait"].key * 2.2
    result = marked(drawn, dams=longer, wait=own_wait)
    assert score(result, "wait") == 1.0
    assert "earlier values" in next(each for each in result.outcomes if each.item_id == "wait").why[-1]
    assert score(marked(drawn, wait=own_wait), "wait") < 1.0


def test_a_wait_that_scores_nothing_is_one_whose_replay_fails() -> None:
    drawn = scenario()
    band = drawn.answers["wait"].band
    assert band is not None
    target = right_set_up(drawn).target
    assert target is not None
    assert target.oxygen_frac is not None
    for share, fails in ((1.0005, True), (0.9995, False)):
        result = marked(drawn, wait=band.key / (band.unsafe_zero_ratio * share))
        assert result.run is not None
        assert result.run.purge is not None
        assert result.run.purge.oxygen_after_wait_frac is not None
        assert (result.run.purge.oxygen_after_wait_frac.expected > target.oxygen_frac) is fails
        assert (score(result, "wait") == 0.0) is fails


def test_a_trap_answer_names_its_belief() -> None:
    drawn = scenario()
    rule = drawn.answers["wait"].rule
    assert rule is not None
    belief = next(each for each in rule.traps if each.value is None).misconception
    from trainer.domain.core_results import CoreResults  # noqa: PLC0415 (only this test asks the core itself)

    trap = CoreResults(CONTENT.policy).number(right_set_up(drawn), "one volume change")
    assert isinstance(trap, float)
    outcome = next(each for each in marked(drawn, wait=trap).outcomes if each.item_id == "wait")
    assert outcome.misconceptions == (belief,)


def test_where_own_holes_never_get_there_the_wait_is_judged_on_the_right_ones() -> None:
    drawn = scenario("end-plates", difficulty=0.0)
    tight = replace(
        drawn, set_up=replace(drawn.set_up, target=replace(drawn.set_up.target, oxygen_frac=4e-6))
    )
    result = marked(tight, holes={"inlet": 0.15, "vent": 0.5})
    assert "right set-up" in next(each for each in result.outcomes if each.item_id == "wait").why[-1]
    assert score(result, "wait") == 1.0


def test_the_wrong_vent_scores_less_the_further_it_is_off() -> None:
    drawn = scenario("end-plates", difficulty=0.0)
    scores = [
        score(marked(drawn, holes={"inlet": 0.15, "vent": vent}), "holes") for vent in (0.85, 0.7, 0.5, 0.15)
    ]
    assert scores == sorted(scores, reverse=True)
    assert scores[0] == 1.0
    assert scores[-1] == 0.0


def test_a_critical_hazard_left_unmarked_fails_whatever_the_total() -> None:
    drawn = scenario("pump-pit", seed=5, difficulty=0.5)
    answer = drawn.answers["look"]
    critical = next(each.object_id for each in answer.hazards if each.critical)
    result = marked(drawn, look=tuple(each for each in answer.key if each != critical))
    assert result.critical_missed == ("look",)
    assert not result.passed


def test_a_critical_choice_answered_wrongly_fails() -> None:
    drawn = scenario("pump-pit", seed=5, difficulty=0.5)
    wrong = next(each.id for each in drawn.item("hose").options if each.id != drawn.answers["hose"].key)
    result = marked(drawn, hose=wrong)
    assert "hose" in result.critical_missed
    assert not result.passed


def test_an_item_left_out_keeps_the_attempt_from_passing_and_the_set_up_from_running() -> None:
    result = marked(scenario(), wait=None)
    assert not result.passed
    assert result.run is None
    assert result.run_missing == ("wait",)
    assert next(each for each in result.outcomes if each.item_id == "wait").answered is False


def test_a_placement_with_one_handle_missing_counts_as_unanswered() -> None:
    result = marked(scenario(), dams={"left_dam": 0.3})
    assert score(result, "dams") == 0.0
    assert result.run_missing == ("section.right_dam",)


def test_skills_are_weighted_means_of_their_items() -> None:
    drawn = scenario("plates-already-drilled", seed=2, difficulty=0.5)
    wrong = next(each.id for each in drawn.item("quicker").options if each.id != drawn.answers["quicker"].key)
    result = marked(drawn, quicker=wrong)
    weights = {each.id: each.weight for each in drawn.items if each.skill == 6}
    assert result.by_skill[6] == pytest.approx(1.0 - weights["quicker"] / sum(weights.values()))
    assert result.by_skill[10] == 1.0


def test_what_a_choice_sets_is_part_of_the_own_set_up() -> None:
    drawn = scenario("riser", seed=4)
    other = next(each for each in drawn.item("way").options if each.id != drawn.answers["way"].key)
    own, missing = own_set_up(drawn, responses={"way": other.id})
    assert own.section is not None
    assert own.section.slope_deg == dict(other.values)["section.slope"]
    assert "wait" in missing


def test_a_response_to_an_unknown_item_is_refused() -> None:
    with pytest.raises(Missing):
        mark(scenario(), responses={"nonsense": 1.0}, policy=CONTENT.policy)
