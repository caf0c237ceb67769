"""Checks a family by drawing: how many scenarios, how many draws thrown away, whether only keys score 1."""

import json
from collections.abc import Mapping
from dataclasses import dataclass

from trainer.domain.core_results import CoreResults
from trainer.domain.families import NothingDrawn, Sources, draw_counted
from trainer.domain.family import ScenarioFamily
from trainer.domain.marking import mark, outcome_of
from trainer.domain.scenario import Item, Response, Scenario
from trainer.scenario_files.content import Content
from trainer.scenario_files.documents import public_document
from trainer.scenario_files.item_documents import response_document
from trainer.scenario_files.response_faults import ResponseFault
from trainer.scenario_files.responses import parse_response
from trainer.scenario_files.working_file import faults_of_working

LEAST_ITEMS = 4
LEAST_DISTINCT = 500
MOST_REJECTED_FRAC = 0.9
DIFFICULTIES = (0.0, 0.5, 1.0)
_WRITTEN = "An explanation, which a person would grade."
# Every scenario is scored. Going through the right set-up as well, as marking does, decides no score.
_RUN_EVERY = 10


@dataclass(frozen=True, kw_only=True)
class FamilyCheck:
    """What drawing from one family showed."""

    family: str
    drawn_count: int
    distinct_count: int
    rejected_frac: float
    marked_count: int
    others_count: int
    faults: tuple[str, ...]

    @property
    def line(self) -> str:
        """One line to print."""
        verdict = "ok" if not self.faults else f"{len(self.faults)} faults"
        return (
            f"{self.family}: {self.drawn_count} drawn, {self.distinct_count} distinct, "
            f"{self.rejected_frac:.0%} of draws rejected, {self.marked_count} keys and "
            f"{self.others_count} other options marked: {verdict}"
        )


def checked_family(
    family: ScenarioFamily, content: Content, *, seeds: range, inch: ScenarioFamily | None = None
) -> FamilyCheck:
    """Draws those seeds, spread over the difficulties, and marks the key and every other option of each.

    Every tenth is marked as an attempt is, with the right set-up through the core. With the inch edition
    beside it, each edition gets half of them.
    """
    faults = _faults_of_shape(family)
    distinct: set[str] = set()
    drawn = rejected = others = 0
    for seed in seeds:
        turn, place = divmod(seed, len(DIFFICULTIES))
        difficulty = DIFFICULTIES[place]
        edition = family if inch is None or turn % 2 == 0 else inch
        try:
            found = draw_counted(
                edition,
                seed=seed,
                difficulty=difficulty,
                sources=Sources(policy=content.policy, hazards=content.hazards),
            )
        except NothingDrawn as fault:
            if family.fixed:  # another seed would only say the same again
                faults.append(str(fault))
                break
            faults.append(f"seed {seed}, difficulty {difficulty:g}{_of(edition, inch)}: {fault}")
            continue
        drawn += 1
        rejected += len(found.rejections)
        distinct.add(distinct_text(found.scenario))
        others += sum(max(0, len(each.options) - 1) for each in found.scenario.items)
        told = faults_of_scores(found.scenario, found.drawn.core)
        if not told and seed % _RUN_EVERY == 0:
            told = faults_of_run(found.scenario, content)
        faults += [f"{each}{_of(edition, inch)}" for each in told]
    rejected_frac = rejected / max(1, rejected + drawn)
    if rejected_frac > MOST_REJECTED_FRAC:
        faults.append(f"{rejected_frac:.0%} of the draws are thrown away; at most {MOST_REJECTED_FRAC:.0%}")
    if not family.fixed and len(distinct) < min(LEAST_DISTINCT + 1, drawn):
        faults.append(f"{len(distinct)} different scenarios in {drawn}; over {LEAST_DISTINCT} wanted")
    return FamilyCheck(
        family=family.id,
        drawn_count=drawn,
        distinct_count=len(distinct),
        rejected_frac=rejected_frac,
        marked_count=drawn,
        others_count=others,
        faults=tuple(faults),
    )


def _of(edition: ScenarioFamily, inch: ScenarioFamily | None) -> str:
    return ", in inches" if edition is inch else ""


def distinct_text(scenario: Scenario) -> str:
    """What tells scenarios apart: set-up, facts, cues and items, without seed and keys."""
    document = public_document(scenario)
    del document["difficulty"]
    return json.dumps(document, sort_keys=True)


def faults_of_scores(scenario: Scenario, core: CoreResults) -> list[str]:
    """The key as printed, given back, scores 1 on every item, and every other option less.

    An explanation has no key: any text waits for its grade. The core may be the one that drew the scenario.
    """
    try:
        keys = _keys_as_printed(scenario)
    except ResponseFault as refused:
        return [f"{_where(scenario)}: the key of {refused.item_id} is refused: {refused.message}"]
    faults = []
    for item in scenario.items:
        outcome = outcome_of(scenario, item=item, responses=keys, core=core)
        if outcome.score != (None if item.rubric else 1.0):
            faults.append(f"the key of {item.id} scores {outcome.score}")
        for option in item.options:
            others = {**keys, item.id: option.id}
            if option.id != keys[item.id] and not _is_less(scenario, item, others, core):
                faults.append(f"option {option.id} of {item.id} scores as much as its key, {keys[item.id]}")
    return [f"{_where(scenario)}: {each}" for each in faults]


def faults_of_run(scenario: Scenario, content: Content) -> list[str]:
    """The keys, marked as an attempt is, pass or wait for no more than a grade; the right set-up runs."""
    marked = mark(scenario, responses=_keys_as_printed(scenario), policy=content.policy)
    faults = []
    if marked.run is None:
        faults.append(f"the right set-up does not run: {', '.join(marked.run_missing)}")
    if marked.passed is False:
        faults.append("the keys do not pass")
    return [f"{_where(scenario)}: {each}" for each in faults]


def _is_less(scenario: Scenario, item: Item, responses: Mapping[str, Response], core: CoreResults) -> bool:
    score = outcome_of(scenario, item=item, responses=responses, core=core).score
    return score is not None and score < 1.0


def _keys_as_printed(scenario: Scenario) -> dict[str, Response]:
    """The key of each item as it is written out and read back; some text for an explanation."""
    return {
        each.id: parse_response(
            each, _WRITTEN if each.rubric else response_document(each, scenario.answers[each.id].key)
        )
        for each in scenario.items
    }


def _where(scenario: Scenario) -> str:
    return f"seed {scenario.seed}, difficulty {scenario.difficulty:g}"


def _faults_of_shape(family: ScenarioFamily) -> list[str]:
    """What is asked about one real job is its author's affair; a family of the library asks more."""
    faults = []
    for difficulty in () if family.fixed else DIFFICULTIES:
        items = [each for each in family.items if each.span.holds(difficulty)]
        if len(items) < LEAST_ITEMS:
            faults.append(f"difficulty {difficulty:g} has {len(items)} items; at least {LEAST_ITEMS} wanted")
        if not any(each.sets or each.handles for each in items):
            faults.append(f"difficulty {difficulty:g} has no item that sets part of the set-up")
    if not family.fixed:
        faults += faults_of_working(family, DIFFICULTIES)
    asked = {each.skill for each in family.items}
    if asked != set(family.skills):
        faults.append(f"skills are given as {sorted(family.skills)} but the items ask {sorted(asked)}")
    return faults
