"""Checks a family by drawing: how many scenarios, how many draws thrown away, whether keys score 1."""

import json
from dataclasses import dataclass

from trainer.domain.families import NothingDrawn, Sources, draw_counted
from trainer.domain.family import ScenarioFamily
from trainer.domain.marking import mark
from trainer.domain.scenario import Scenario
from trainer.scenario_files.content import Content
from trainer.scenario_files.documents import public_document, scenario_document
from trainer.scenario_files.responses import parse_response
from trainer.scenario_files.working_file import faults_of_working

LEAST_ITEMS = 4
LEAST_DISTINCT = 500
MOST_REJECTED_FRAC = 0.9
DIFFICULTIES = (0.0, 0.5, 1.0)
_WRITTEN = "An explanation, which a person would grade."
_MARKED_EVERY = 10  # marking is dearer than drawing, and every seed is drawn alike


@dataclass(frozen=True, kw_only=True)
class FamilyCheck:
    """What drawing from one family showed."""

    family: str
    drawn_count: int
    distinct_count: int
    rejected_frac: float
    marked_count: int
    faults: tuple[str, ...]

    @property
    def line(self) -> str:
        """One line to print."""
        verdict = "ok" if not self.faults else f"{len(self.faults)} faults"
        return (
            f"{self.family}: {self.drawn_count} drawn, {self.distinct_count} distinct, "
            f"{self.rejected_frac:.0%} of draws rejected, {self.marked_count} keys marked: {verdict}"
        )


def checked_family(
    family: ScenarioFamily, content: Content, *, seeds: int, inch: ScenarioFamily | None = None
) -> FamilyCheck:
    """Draws that many seeds, spread over the difficulties, and marks the keys of every tenth.

    With the inch edition beside it, each edition gets half of them.
    """
    faults = _faults_of_shape(family)
    distinct: set[str] = set()
    drawn = rejected = marked = 0
    for seed in range(seeds):
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
        if seed % _MARKED_EVERY == 0:
            marked += 1
            faults += [f"{each}{_of(edition, inch)}" for each in faults_of_key(found.scenario, content)]
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
        marked_count=marked,
        faults=tuple(faults),
    )


def _of(edition: ScenarioFamily, inch: ScenarioFamily | None) -> str:
    return ", in inches" if edition is inch else ""


def distinct_text(scenario: Scenario) -> str:
    """What tells scenarios apart: set-up, facts, cues and items, without seed and keys."""
    document = public_document(scenario)
    del document["difficulty"]
    return json.dumps(document, sort_keys=True)


def faults_of_key(scenario: Scenario, content: Content) -> list[str]:
    """The key as printed, given back, scores 1 on every item and passes.

    An explanation has no key: any text waits for its grade, and the pass with it.
    """
    printed = {each["id"]: each["key"] for each in scenario_document(scenario, with_answers=True)["items"]}
    typed = {each.id: _WRITTEN if each.rubric else printed[each.id] for each in scenario.items}
    responses = {each.id: parse_response(each, typed[each.id]) for each in scenario.items}
    marked = mark(scenario, responses=responses, policy=content.policy)
    where = f"seed {scenario.seed}, difficulty {scenario.difficulty:g}"
    faults = [
        f"{where}: the key of {each.item_id} scores {each.score}"
        for each in marked.outcomes
        if each.score != (None if scenario.item(each.item_id).rubric else 1.0)
    ]
    if marked.run is None:
        faults.append(f"{where}: the right set-up does not run: {', '.join(marked.run_missing)}")
    return faults if marked.passed is not False else [*faults, f"{where}: the keys do not pass"]


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
