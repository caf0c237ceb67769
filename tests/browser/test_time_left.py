"""The time left of an assessed attempt, on devices that fall asleep."""

import pytest
import training_steps as steps
from playwright.sync_api import expect
from training_steps import School

from trainer.services import assessment, teaching

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

# A device that sleeps: the time of day goes on, the browser's own count stands still.
FELL_ASLEEP = "Object.defineProperty(performance, 'now', { value: () => 1000 })"


def test_the_clock_goes_on_where_the_browsers_own_count_stood_still(screen, crew, site):
    acting = {key: each.acting for key, each in crew.items()}
    class_id = teaching.make_class(site, acting["instructor"], name="Morning class")
    teaching.add_to_class(
        site, acting["instructor"], class_id=class_id, person_id=acting["apprentice"].person_id
    )
    place = School(
        acting["founder"], acting["instructor"], acting["second_instructor"], acting["apprentice"], class_id
    )
    attempt_id = assessment.start_assignment(
        site, place.apprentice, assignment_id=steps.assigned(site, place)
    )
    learner = screen(crew["apprentice"])
    learner.context.add_init_script(FELL_ASLEEP)

    learner.open_page(f"/apprentice/attempts/{attempt_id}/scenarios/1")

    left = learner.page.locator("[data-left]")
    before = left.inner_text()
    assert before.startswith("29:")
    expect(left).not_to_have_text(before)
