"""An instructor's evening with the explanations: most are graded by their rubric, a few still wait."""

from random import Random
from uuid import UUID

from trainer.cli.demo_site.beliefs import in_a_sentence
from trainer.domain.grades import Grade
from trainer.domain.items.explanation import HIGHEST_LEVEL
from trainer.domain.people import Acting
from trainer.services import explanations, results
from trainer.services.explanations import GradingPage
from trainer.services.site import Site

_ONE_LEFT_OF = 4  # every fourth is left for whoever opens the site
_COMMENTS = (
    "Say next time where you would put the probe.",
    "Clear, and in the right order.",
    "Right, but your helper would have stopped listening after the first line.",
    "",
)


def grade_most(site: Site, instructor: Acting, *, dice: Random) -> frozenset[UUID]:
    """Grades three of four; returns the attempts that have passed by it."""
    passed = set()
    for number, each in enumerate(explanations.to_grade(site, instructor)):
        if number % _ONE_LEFT_OF == _ONE_LEFT_OF - 1:
            continue
        page = explanations.grading_page(
            site,
            instructor,
            attempt_id=each.attempt_id,
            scenario_no=each.scenario_no,
            item_id=each.item_id,
        )
        explanations.grade_explanation(
            site, instructor, attempt_id=each.attempt_id, grade=_grade(page, dice=dice)
        )
        if results.result_page(site, instructor, attempt_id=each.attempt_id).verdict.passed:
            passed.add(each.attempt_id)
    return frozenset(passed)


def _grade(page: GradingPage, *, dice: Random) -> Grade:
    """Levels by how much of the working the text holds, with a reader's leeway of one level down."""
    working = page.scenario.answers[page.item.id].solution
    share = sum(in_a_sentence(each) in page.written for each in working) / len(working)
    best = round(HIGHEST_LEVEL * share)
    return Grade(
        scenario_no=page.scenario_no,
        item_id=page.item.id,
        levels={each.id: max(min(best, 1), best - dice.randrange(4) // 3) for each in page.item.rubric},
        comment=dice.choice(_COMMENTS),
    )
