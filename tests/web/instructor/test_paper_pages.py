"""A module on paper by its pages: printed, keyed in by its code, marked as an attempt; and its documents."""

from io import BytesIO
from uuid import uuid4

import pytest
import training_steps as steps
from pypdf import PdfReader

from trainer.domain.people import UnitSystem
from trainer.domain.scenario import ItemKind
from trainer.services import paper, teaching
from trainer.services.paper import Printing
from trainer.services.teaching import Giving
from trainer.storage import paper as stored_paper
from trainer.storage import paper_answers

# One family of each kind of item: quantity, placement, choice, hazards, order, reading, explanation.
ALL_KINDS = (steps.row(6, "dairy-line", difficulty=0.6),)
UNFOLDING = steps.row(10, "came-back", difficulty=0.6)


@pytest.fixture
def instructor(visit_as):
    return visit_as("instructor")


@pytest.fixture
def place(world):
    acting = world.instructor.acting
    class_id = teaching.make_class(world.site, acting, name="Morning class")
    teaching.add_to_class(world.site, acting, class_id=class_id, person_id=world.apprentice.person_id)
    return steps.School(
        world.founder.acting, acting, world.second_instructor.acting, world.apprentice.acting, class_id
    )


def first_given(world, place):
    return teaching.class_page(world.site, place.instructor, class_id=place.class_id).assignments[0]


def drawn(world, code):
    """The scenarios of a sheet with their answers, which no page of an open sheet shows."""
    organisation_id = world.instructor.acting.organisation_id
    with world.site.database.reading() as work:
        sheet = stored_paper.get_sheet(work, code=code, organisation_id=organisation_id)
        found = stored_paper.list_scenarios(work, sheet_id=sheet.sheet_id)
    return [steps.scenario_from_document(each.drawn) for each in found]


def document(instructor, address):
    answer = instructor.client.get(address)
    assert answer.mimetype == "application/pdf"
    return PdfReader(BytesIO(answer.data))


def words(pdf):
    return " ".join(" ".join(page.extract_text() for page in pdf.pages).split())


def spaceless(text):
    return "".join(text.split())


def test_an_instructor_prints_a_module_keys_it_in_and_the_result_stands(instructor, world, place):
    steps.assigned(world.site, place)
    page = instructor.open_page(f"/instructor/classes/{place.class_id}")
    title = first_given(world, place).module_title
    printing = page.follow(f"print {title} on paper")
    assert world.apprentice.name in printing.text
    made = printing.submit("Draw the sheets")
    code = made.rows("Sheets of this set")[0][1]

    asked = instructor.open_page("/instructor/keying").submit(
        "Open the sheet", **{"Code on the sheet": code.lower().replace("-", " ")}
    )
    assert code in asked.heading
    steps.key_in_right(world.site, place.instructor, code)
    before = instructor.open_page(f"/instructor/keying/{code}")
    assert "Every item is answered" in before.text
    done = before.submit("Hand in for them", **{"Day on which it was sat": "2026-03-02"})

    assert f"Answered on paper, sheet {code}" in done.text
    assert f"keyed in by {world.instructor.name}" in done.text
    again = instructor.open_page(f"/instructor/keying/{code}")
    assert "keyed in already" in again.text
    assert instructor.post(f"/instructor/keying/{code}/hand-in").status == 409


def test_a_sheet_that_is_begun_says_so_and_what_is_open_stands_by_scenario(instructor, world, place):
    assignment_id = steps.assigned(world.site, place)
    set_id = steps.printed(world.site, place, assignment_id, blank_count=1)
    begun, untouched = steps.sheet_codes(world.site, place, set_id)
    first, *others = drawn(world, begun)[0].items
    steps.key_in_right(world.site, place.instructor, begun, but=[each.id for each in others])

    sheets = instructor.open_page(f"/instructor/paper/{set_id}").rows("Sheets of this set")
    assert [(code, state.partition(" (")[0]) for _, code, _, state in sheets] == [
        (begun, "Go on keying it in"),
        (untouched, "Key it in"),
    ]
    left_open = ", ".join(str(place) for place in range(2, 2 + len(others)))
    assert (
        f"scenario 1, items {left_open}" in instructor.open_page(f"/instructor/keying/{begun}/hand-in").text
    )


def test_sheets_are_printed_in_the_language_that_was_chosen_whoever_opens_them(instructor, world, place):
    assignment_id = steps.assigned(world.site, place)
    page = instructor.open_page(f"/instructor/assignments/{assignment_id}/paper")
    made = page.submit("Draw the sheets", **{"Language of the sheets": "Español"})
    assert "Language of the sheets: Español." in made.text
    code = made.rows("Sheets of this set")[0][1]

    folder = made.path.rstrip("/")
    sheet, key = (
        words(document(instructor, f"{folder}/{name}.pdf")) for name in ("worksheets", "answer-key")
    )
    scenario = drawn(world, code)[0]
    told = scenario.said["es"]
    for item in scenario.items:
        assert spaceless(told[item.text]) in spaceless(sheet)
        assert spaceless(told[item.text]) in spaceless(key)
    assert "Hoja de trabajo" in sheet
    assert (
        "Draw the sheets" in instructor.open_page(page.path).text
    )  # pages stay in the reader's own language

    steps.key_in_right(world.site, place.instructor, code)
    before = instructor.open_page(f"/instructor/keying/{code}")
    done = before.submit("Hand in for them", **{"Day on which it was sat": "2026-03-02"})
    assert f"Answered on paper, sheet {code}" in done.text


def test_sheets_are_offered_in_the_printers_own_language_first(instructor, world, place):
    address = f"/instructor/assignments/{steps.assigned(world.site, place)}/paper"
    assert instructor.open_page(address).field("English")
    instructor.open_page("/account").submit("Keep", Language="Español")
    assert instructor.open_page(address).field("Español")


def test_a_slip_in_a_code_is_told_from_a_code_that_nobody_gave_out(instructor):
    page = instructor.open_page("/instructor/keying")

    slip = page.submit("Open the sheet", **{"Code on the sheet": "132T-MY8N-EP0F"})
    unknown = page.submit("Open the sheet", **{"Code on the sheet": "132T-MY8N-EP0E"})

    assert "wrong or missing" in slip.error_for("Code on the sheet")
    assert slip.field("Code on the sheet") == "132T-MY8N-EP0F"
    assert "No sheet of yours" in unknown.error_for("Code on the sheet")


def test_what_cannot_be_read_is_told_and_kept_in_its_field_while_the_rest_is_stored(instructor, world, place):
    assignment_id = steps.assigned(world.site, place, rows=ALL_KINDS)
    code = steps.sheet_codes(world.site, place, steps.printed(world.site, place, assignment_id))[0]
    scenario = drawn(world, code)[0]
    order = next(each for each in scenario.items if each.kind is ItemKind.ORDER)
    amount = next(each for each in scenario.items if each.kind is ItemKind.QUANTITY)
    choice = next(each for each in scenario.items if each.kind is ItemKind.CHOICE)

    path = f"/instructor/keying/{code}/scenarios/1"
    said = instructor.post(
        path,
        {
            f"item-{order.id}": "B A ?",
            f"item-{amount.id}": "a lot",
            f"item-{choice.id}": choice.options[0].id,
        },
    )

    assert said.status == 422
    assert "'?' is no letter of this item" in said.text
    assert said.soup.find(attrs={"name": f"item-{order.id}"})["value"] == "B A ?"
    assert said.soup.find(attrs={"name": f"item-{amount.id}"})["value"] == "a lot"
    with world.site.database.reading() as work:
        sheet = stored_paper.get_sheet(
            work, code=code, organisation_id=world.instructor.acting.organisation_id
        )
        kept = paper_answers.list_answers(work, sheet_id=sheet.sheet_id)
    assert [(each.item_id, each.raw) for each in kept] == [(choice.id, choice.options[0].id)]

    instructor.post(path, {f"item-{order.id}": "b, a", f"item-{choice.id}": ""})
    with world.site.database.reading() as work:
        kept = paper_answers.list_answers(work, sheet_id=sheet.sheet_id)
    assert [(each.item_id, each.raw) for each in kept] == [(order.id, [order.steps[1].id, order.steps[0].id])]


@pytest.mark.parametrize(("size", "width_pt"), [("a4", 595), ("us-letter", 612)])
def test_the_worksheet_is_a_tagged_document_with_every_item_and_no_key(
    size, width_pt, instructor, world, place
):
    assignment_id = steps.assigned(world.site, place, rows=ALL_KINDS)
    paper_set_id = steps.printed(world.site, place, assignment_id, blank_count=1)
    codes = steps.sheet_codes(world.site, place, paper_set_id)

    pdf = document(instructor, f"/instructor/paper/{paper_set_id}/worksheets.pdf?paper={size}")

    text = spaceless(words(pdf))
    assert pdf.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert round(float(pdf.pages[0].mediabox.width)) == width_pt
    assert spaceless(world.apprentice.name) in text
    for code in codes:
        assert spaceless(code) in text
        for scenario in drawn(world, code):
            assert spaceless(scenario.title) in text
            told = [option.text for item in scenario.items for option in item.options]
            told += [step.text for item in scenario.items for step in item.steps]
            for line in told:
                if not any(sign.isdigit() for sign in line):  # amounts stand in the reader's units
                    assert spaceless(line) in text
            secrets = [step.what for answer in scenario.answers.values() for step in answer.solution]
            secrets += [
                belief
                for answer in scenario.answers.values()
                for belief in (answer.misconceptions or {}).values()
            ]
            secrets += [each.why for answer in scenario.answers.values() for each in answer.precedences]
            assert secrets
            assert [each for each in secrets if spaceless(each) in text] == []
            assert str(scenario.seed) not in code
    assert "ANSWERKEY" not in text


def test_the_same_worksheet_is_the_same_bytes_and_the_key_is_another_document(instructor, world, place):
    assignment_id = steps.assigned(world.site, place, rows=ALL_KINDS)
    paper_set_id = steps.printed(world.site, place, assignment_id)
    address = f"/instructor/paper/{paper_set_id}"

    first, second = (instructor.client.get(f"{address}/worksheets.pdf").data for _ in range(2))
    key = instructor.client.get(f"{address}/answer-key.pdf")

    assert first == second
    assert "ANSWER-KEY" in key.headers["Content-Disposition"]
    pdf = PdfReader(BytesIO(key.data))
    assert "ANSWER KEY" in pdf.metadata.title
    assert all("ANSWERKEY" in spaceless(page.extract_text()) for page in pdf.pages)
    text = spaceless(words(pdf))
    scenario = drawn(world, steps.sheet_codes(world.site, place, paper_set_id)[0])[0]
    for item in scenario.items:
        for step in scenario.answers[item.id].solution:
            assert spaceless(step.what) in text


def test_the_key_says_of_each_step_what_its_page_says(instructor, world, place):
    """Words of the formula, the other units, the rule of thumb and the caution are on the page of a result too."""
    assignment_id = steps.assigned(world.site, place, rows=(steps.row(3, "long-run"),))
    paper_set_id = steps.printed(world.site, place, assignment_id)

    text = spaceless(words(document(instructor, f"/instructor/paper/{paper_set_id}/answer-key.pdf")))

    scenario = drawn(world, steps.sheet_codes(world.site, place, paper_set_id)[0])[0]
    solution = [step for answer in scenario.answers.values() for step in answer.solution]
    told = [each for step in solution for each in (step.words, step.formula, step.rule, step.caution) if each]
    told += [f"Rule of thumb: {step.thumb.says}" for step in solution if step.thumb is not None]
    assert any(step.caution for step in solution)
    assert any(step.thumb for step in solution)
    assert [each for each in told if spaceless(each) not in text] == []
    assert spaceless("In inches and pounds:") in text


def test_a_cylinder_is_called_by_its_litres_on_paper_too(instructor, world, place):
    assignment_id = steps.assigned(world.site, place)
    printing = Printing(paper_set_id=uuid4(), person_ids=(), blank_count=1, blank_units=UnitSystem.INCH_POUND)
    paper.print_sheets(world.site, place.instructor, assignment_id=assignment_id, printing=printing)

    sheet = words(document(instructor, f"/instructor/paper/{printing.paper_set_id}/worksheets.pdf"))

    assert "Volume of one cylinder 50 L" in sheet


def test_an_apprentice_reaches_neither_sheets_nor_key(visit_as, world, place):
    assignment_id = steps.assigned(world.site, place)
    paper_set_id = steps.printed(world.site, place, assignment_id)
    apprentice = visit_as("apprentice")

    for name in ("worksheets.pdf", "answer-key.pdf"):
        assert apprentice.client.get(f"/instructor/paper/{paper_set_id}/{name}").status_code == 403


def test_what_unfolds_is_left_out_and_the_page_says_so(instructor, world, place):
    assignment_id = steps.assigned(world.site, place, rows=(*ALL_KINDS, UNFOLDING))

    page = instructor.open_page(f"/instructor/assignments/{assignment_id}/paper")

    assert "unfolds step by step" in page.text
    assert "Skill 10 (Diagnosis) is not asked on these sheets at all" in page.text


def test_a_module_of_nothing_else_is_not_printed(instructor, world, place):
    assignment_id = steps.assigned(world.site, place, rows=(UNFOLDING,))

    page = instructor.open_page(f"/instructor/assignments/{assignment_id}/paper")

    assert "Nothing of this module can be printed" in page.text


def test_what_was_given_to_one_person_is_printed_for_them_alone(instructor, world, place):
    steps.assigned(world.site, place)
    given = first_given(world, place)
    giving = Giving(module_id=given.module_id, due_on=given.due_on, attempts_allowed=1)
    own = teaching.assign_to_person(
        world.site, place.instructor, giving=giving, person_id=world.second_apprentice.person_id
    )

    page = instructor.open_page(f"/instructor/assignments/{own}/paper")

    assert page.options("A sheet by name for") == [world.second_apprentice.name]
