"""Nothing unsafe is ever right, and where people or fire come in the caution stands with the decision.

As far as words can be held to it: what is unsafe is stated as patterns of acts that regulators' reports name (29 CFR
1910.146 and 1910.252, NIOSH 86-110 and FACE reports), and what defers as the words for those who decide.
"""

import re
from collections.abc import Iterator

import pytest
from few_draws import few_draws

from trainer.domain.family import ItemTemplate
from trainer.domain.scenario import Item, ItemKind, Scenario, Severity
from trainer.scenario_files import load_content

CONTENT = load_content()
DRAWS = ((0, 0.0), (1, 0.5), (2, 1.0), (3, 0.75))
BREATHING, PRESSURE_AND_FIRE = 11, 12  # skills
FORBIDS = re.compile(r"\b(nobody|no one|never|not|no|who never|out of)\b", re.IGNORECASE)
UNSAFE = re.compile(
    r"hold\w* (your|his|the|their) breath|(filter|dust) mask|oxygen (in|into|down|to freshen)|go(es)? in (to|and) (fetch|pull|get)"
    r"|jump in|crawl|(put|hold|bend) (your|his|the) head|reach(es)? in(to)?\b|without (a |the |any )?(meter|permit|watch|test)"
    r"|skip|by the clock|wedge (it|the (relief|valve))|tap(ping)? (the|it)|tie (it|the relief)|plug the relief|lay(ing)? it (down|on its side)|roll(ing)? it",
    re.IGNORECASE,
)  # fmt: skip
# Who or what decides, or what is not done whatever the sum says.
DEFERS = re.compile(
    r"permit|rescue|watch|local|rules?\b|supplier|data sheet|maker's sheet|procedure|\bCFR\b|\bISO\b|\bNFPA\b|nobody|meter",
    re.IGNORECASE,
)
ENTERS = re.compile(r"\b(goes|go|climbs|climb|gets|lets?|sends?)\b.{0,20}\b(down|in|into)\b", re.IGNORECASE)
# Those who go in to help are looked after by a set and a line; everybody else by a test.
LOOKED_AFTER = re.compile(r"\b(test|probe|meter|read|alarm)", re.IGNORECASE)
A_PERSON = re.compile(r"\b(welder|somebody|rescuers?|helper|mate|man|fitter|you)\b", re.IGNORECASE)


def drawn(family: str) -> Iterator[tuple[Scenario, Item]]:
    for scenario in few_draws(CONTENT, family, at=DRAWS):
        yield from ((scenario, each) for each in scenario.items)


def right_texts(scenario: Scenario, item: Item) -> list[str]:
    """What the key says in words: the right option, the steps in their order, the things that are marked, the plan."""
    key = scenario.answers[item.id].key
    if item.options:
        return [next(each.text for each in item.options if each.id == key)]
    if item.steps:
        return [next(each.text for each in item.steps if each.id == step) for step in key]
    if item.diagnosis is not None:
        moves = {each.id: each.text for each in item.diagnosis.moves}
        return [moves[each] for each in key if each in moves]
    return []


@pytest.mark.parametrize("family", CONTENT.families)
def test_an_unsafe_act_is_never_part_of_a_right_answer(family: str) -> None:
    for scenario, item in drawn(family):
        for text in right_texts(scenario, item):
            assert not UNSAFE.search(text) or FORBIDS.search(text), (item.id, text)


@pytest.mark.parametrize("family", CONTENT.families)
def test_steps_and_actions_that_are_critical_to_leave_out_are_in_no_key(family: str) -> None:
    for scenario, item in drawn(family):
        answer = scenario.answers[item.id]
        assert not {each.step_id for each in answer.left_out} & set(answer.key if item.steps else ())
        if answer.diagnosis is not None:
            critical = {each.id for each in answer.diagnosis.moves if each.critical}
            assert not critical & set(answer.key)


@pytest.mark.parametrize("family", CONTENT.families)
def test_nobody_goes_in_before_a_test_or_an_alarm_and_who_does_fails(family: str) -> None:
    for scenario, item in drawn(family):
        texts = {each.id: each.text for each in item.steps}
        answer = scenario.answers[item.id]
        for step in answer.key if item.steps else ():
            if not (ENTERS.search(texts[step]) and A_PERSON.search(texts[step])) or FORBIDS.search(
                texts[step]
            ):
                continue
            before = [
                texts[each.before] for each in answer.precedences if each.after == step and each.critical
            ]
            assert any(LOOKED_AFTER.search(each) for each in before), (item.id, texts[step], before)


def decisions(family: str, skills: tuple[int, ...]) -> list[ItemTemplate]:
    """What is decided about people and fire; a scene says so object by object, an explanation in its rubric."""
    told = (ItemKind.HAZARDS, ItemKind.EXPLANATION)
    return [each for each in CONTENT.family(family).items if each.skill in skills and each.kind not in told]


@pytest.mark.parametrize("family", CONTENT.families)
def test_each_decision_about_air_pressure_cold_and_fire_says_who_decides(family: str) -> None:
    for item in decisions(family, (BREATHING, PRESSURE_AND_FIRE)):
        texts = [f"{each.what} {each.rule} {each.caution}" for each in item.solution]
        if item.order is not None:
            texts += [f"{each.first} {each.why}" for each in item.order.precedences]
        assert any(DEFERS.search(each) for each in texts), item.id


@pytest.mark.parametrize("family", CONTENT.families)
def test_a_figure_about_peoples_air_never_stands_without_its_caution(family: str) -> None:
    for item in decisions(family, (BREATHING,)):
        if item.kind is ItemKind.QUANTITY:
            assert any(DEFERS.search(each.caution) for each in item.solution), item.id


LIFE = [key for key, each in CONTENT.hazards.entries.items() if each.severity is Severity.LIFE]
OF_AIR = (
    "vent-hose-in-pit", "vent-hose-by-face", "helper-in-pit", "helper-in-vessel", "head-in-pipe", "cylinder-in-vessel",
    "meter-at-hatch", "meter-off", "no-attendant", "filter-mask", "blower-in-pit", "oxygen-hose",
)  # fmt: skip


# Hazards to life that fail nobody alone, each with what keeps it from killing by itself. From memory, as practice has
# it: arc eyes and cold burns are injuries; an extinguisher that is not there starts no fire (29 CFR 1910.252(a)(2)(ii)
# asks for it, the fire watch of (a)(2)(iii) calls out all the same).
HURTS_AND_DOES_NOT_KILL = {
    "screen-missing": "the arc burns eyes, which hurts for a day or two and heals",
    "gloves-in-sleeves": "liquid burns the hand that it runs into, and is felt at once",
    "extinguisher-gone": "nothing burns because of it; a fire is seen by the fire watch, and people get out",
}


def test_who_overlooks_what_can_kill_by_itself_fails() -> None:
    not_critical = {key for key in LIFE if not CONTENT.hazards.entries[key].critical}
    assert not_critical == set(HURTS_AND_DOES_NOT_KILL)


@pytest.mark.parametrize("hazard", LIFE)
def test_a_hazard_to_life_says_why_and_what_to_do_and_that_is_safe(hazard: str) -> None:
    entry = CONTENT.hazards.entries[hazard]
    assert entry.why
    assert entry.right_action
    assert not UNSAFE.search(entry.right_action) or FORBIDS.search(entry.right_action)


@pytest.mark.parametrize("hazard", OF_AIR)
def test_who_overlooks_a_hazard_to_what_people_breathe_fails(hazard: str) -> None:
    assert CONTENT.hazards.entries[hazard].critical


@pytest.mark.parametrize(
    "act",
    [
        "Hold your breath and go in",
        "He goes in to fetch him",
        "Skip the reading",
        "A filter mask does for that",
    ],
)
def test_unsafe_acts_are_known_when_they_are_met(act: str) -> None:
    assert UNSAFE.search(act)
