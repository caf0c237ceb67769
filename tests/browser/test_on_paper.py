"""A sheet of paper in a real browser: an instructor prints it, keys it in by its code, and the result stands."""

import pytest
import training_steps as steps
from playwright.sync_api import expect

from trainer.services import teaching
from trainer.storage import paper as stored_paper

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]


def test_a_sheet_is_printed_keyed_in_and_marked(screen, crew, site):
    teacher, apprentice = crew["instructor"], crew["apprentice"]
    class_id = teaching.make_class(site, teacher.acting, name="Morning class")
    teaching.add_to_class(site, teacher.acting, class_id=class_id, person_id=apprentice.acting.person_id)
    place = steps.School(crew["founder"].acting, teacher.acting, teacher.acting, apprentice.acting, class_id)
    assignment_id = steps.assigned(site, place, rows=(steps.row(3, "long-run"),))
    one = screen(teacher)

    one.open_page(f"/instructor/assignments/{assignment_id}/paper")
    one.page.get_by_role("button", name="Draw the sheets").click()
    worksheets = one.page.get_by_role("link", name="Worksheets (PDF, A4)").get_attribute("href")
    made = one.page.request.get(one.page.url.split("/instructor/")[0] + str(worksheets))
    assert made.body().startswith(b"%PDF-")
    code = one.page.get_by_role("table").get_by_role("cell").first.inner_text()

    one.open_page("/instructor/keying")
    one.page.get_by_label("Code on the sheet").fill(code.lower())
    one.page.get_by_role("button", name="Open the sheet").click()
    for item_id, raw in _keys(site, teacher, code).items():
        _key_in(one.page, item_id, raw)
    one.page.get_by_role("button", name="Keep and go on to hand in").click()
    expect(one.page.get_by_text("Every item is answered.")).to_be_visible()
    one.page.get_by_label("Day on which it was sat").fill(site.today().isoformat())
    one.page.get_by_role("button", name="Hand in for them").click()

    expect(one.page.get_by_text(f"Answered on paper, sheet {code}")).to_be_visible()
    reader = screen(apprentice)
    attempt_id = one.page.url.rstrip("/").rsplit("/", 1)[1]
    reader.open_page(f"/apprentice/attempts/{attempt_id}/result")
    expect(reader.page.get_by_text(f"Answered on paper, sheet {code}")).to_be_visible()


def _keys(site, teacher, code):
    with site.database.reading() as work:
        sheet = stored_paper.get_sheet(work, code=code, organisation_id=teacher.acting.organisation_id)
        (drawn,) = stored_paper.list_scenarios(work, sheet_id=sheet.sheet_id)
    return steps.keys(steps.scenario_from_document(drawn.drawn))


def _key_in(page, item_id, raw):
    name = f"item-{item_id}"
    if isinstance(raw, dict):
        for handle, typed in raw.items():
            page.locator(f"[name='{name}-{handle}']").fill(typed)
    elif isinstance(raw, list):
        for each in raw:
            page.locator(f"input[name='{name}'][value='{each}']").check()
    elif page.locator(f"input[type=radio][name='{name}']").count():
        page.locator(f"input[name='{name}'][value='{raw}']").check()
    else:
        page.locator(f"[name='{name}']").first.fill(raw)
