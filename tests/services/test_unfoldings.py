"""Diagnoses of assessed attempts: steps are kept as they are taken, stand, and count when time runs out."""

from dataclasses import dataclass
from typing import Any
from uuid import UUID

import pytest
import training_steps as steps

from trainer.domain.attempts import AttemptState
from trainer.scenario_files import ResponseFault
from trainer.services import assessment, results


@dataclass(frozen=True)
class Diagnosing:
    """An open assessed attempt with a diagnosis, of one apprentice."""

    site: Any
    who: Any
    attempt_id: UUID

    @property
    def scenario(self):
        return steps.drawn(self.site, self.attempt_id)[1]

    @property
    def item(self):
        return next(each for each in self.scenario.items if each.diagnosis is not None)

    @property
    def plan(self):
        return list(self.scenario.answers[self.item.id].key)

    @property
    def taken(self):
        page = assessment.attempt_page(self.site, self.who, attempt_id=self.attempt_id)
        return [each.move_id for each in page.unfoldings[1, self.item.id].steps[1:]]

    def keep(self, raw):
        return assessment.keep_response(
            self.site, self.who, attempt_id=self.attempt_id, scenario_no=1, item_id=self.item.id, raw=raw
        )


@pytest.fixture
def diagnosing(teaching_site, place):
    rows = (steps.row(10, "came-back", difficulty=0.5),)
    assignment_id = steps.assigned(teaching_site, place, rows=rows, time_limit_s=1200)
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    return Diagnosing(teaching_site, place.apprentice, attempt_id)


def test_what_was_seen_grows_with_the_steps_kept(diagnosing):
    assert diagnosing.taken == []
    for count in range(1, 4):
        assert diagnosing.keep(diagnosing.plan[:count]).version == count
        assert diagnosing.taken == diagnosing.plan[:count]


@pytest.mark.parametrize("changed", ["shorter", "another"])
def test_steps_that_were_taken_stand(diagnosing, changed):
    first, second = diagnosing.plan[:2]
    diagnosing.keep([first, second])

    with pytest.raises(ResponseFault, match="cannot be taken back"):
        diagnosing.keep([first] if changed == "shorter" else [second, first])
    assert diagnosing.taken == [first, second]


def test_no_step_follows_the_end(diagnosing):
    diagnosing.keep(diagnosing.plan)

    with pytest.raises(ResponseFault, match="no further one is taken"):
        diagnosing.keep([*diagnosing.plan, diagnosing.plan[0]])


def test_steps_kept_until_the_time_was_up_are_what_is_marked(diagnosing, clock):
    diagnosing.keep(diagnosing.plan[:1])
    clock.go_on(minutes=21)
    page = assessment.attempt_page(diagnosing.site, diagnosing.who, attempt_id=diagnosing.attempt_id)
    assert page.state is not AttemptState.OPEN

    result = results.result_page(diagnosing.site, diagnosing.who, attempt_id=diagnosing.attempt_id)
    mark = result.scenarios[0].mark(diagnosing.item.id)
    assert (mark.answered, mark.score) == (True, 0.0)
    assert mark.why[0].startswith("It was handed in before it came to an end.")


def test_the_whole_plan_passes(diagnosing):
    steps.answer_right(diagnosing.site, diagnosing.who, diagnosing.attempt_id)

    assert steps.handed_in(diagnosing.site, diagnosing.who, diagnosing.attempt_id).passed is True
