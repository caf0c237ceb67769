"""How items behaved: everything marked in the organisation, and nothing of any other."""

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.errors import NotAllowed
from trainer.domain.people import Role
from trainer.services import assessment, practice
from trainer.services.item_results import items_here
from trainer.services.site import Site


def practised(site: Site, place: School, *, wrong: bool) -> tuple[str, object]:
    attempt_id = practice.start_practice(site, place.apprentice, family="long-run", difficulty=0.0)
    steps.answer_right(site, place.apprentice, attempt_id)
    item_id, answer = steps.wrong_answer(steps.drawn(site, attempt_id)[1])
    if wrong:
        assessment.keep_response(
            site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=answer
        )
    steps.handed_in(site, place.apprentice, attempt_id)
    return item_id, answer


def test_every_marked_answer_counts_with_what_it_showed(teaching_site: Site, place: School) -> None:
    assert items_here(teaching_site, place.instructor) == ()
    item_id, _ = practised(teaching_site, place, wrong=False)
    practised(teaching_site, place, wrong=True)
    found = {each.item_id: each for each in items_here(teaching_site, place.instructor)}
    assert {each.family for each in found.values()} == {"long-run"}
    assert {each.answers_count for each in found.values()} == {2}
    assert found[item_id].right_count == 1
    assert sum(count for _, count in found[item_id].beliefs) == 1


def test_another_provider_sees_nothing_of_it_and_apprentices_none_at_all(
    teaching_site: Site, place: School
) -> None:
    practised(teaching_site, place, wrong=True)
    stranger = factories.provider(teaching_site, name="Elsewhere")
    teacher = factories.member(teaching_site, stranger, role=Role.INSTRUCTOR)
    assert items_here(teaching_site, teacher) == ()
    with pytest.raises(NotAllowed):
        items_here(teaching_site, place.apprentice)
