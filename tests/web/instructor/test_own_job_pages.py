"""Own jobs on their pages: written, refused at the field, looked at, given out, practised, changed, withdrawn."""

import pytest
from pages import words

from trainer.cli.demo_site.school_jobs import CR_MO_SPOOL, WASH_LINE, typed
from trainer.web.instructor.own_job_form import form_of

FIELDS = {
    "Title": "Feed line",
    "Where: the second half of the title": "at the north wall",
    "What the apprentice finds, in two or three sentences": "The line is dammed. Argon stands by.",
    "Material": "austenitic stainless",
    "Nominal pipe size (NPS)": "6",
    "Schedule": "10S",
    "Joint to the dam on the inlet's side": "12 in",
    "Joint to the dam on the vent's side": "300",
    "Height of the inlet (0 lowest, 1 highest)": "0,12",
    "End of the inlet": "diffuser",
    "Inside of the inlet tube": "6 mm",
    "Face that the gas comes out of": "20 cm^2",
    "Height of the vent (0 lowest, 1 highest)": "0.88",
    "Diameter of a vent hole": "6 mm",
    "Number of vent holes": "1",
    "Gas by ISO 14175": "I1",
    "Purge flow": "15 L/min",
    "Oxygen at arc strike, at most": "0.1 %",
}
PLACE = "Feed line, at the north wall"


@pytest.fixture
def instructor(visit_as):
    return visit_as("instructor")


@pytest.fixture
def form(instructor):
    """The form with one question."""
    page = instructor.open_page("/instructor/own-jobs").follow("Write a job")
    return page.submit("Add this question", **{"Question to add": "purge time"})


@pytest.fixture
def job(form):
    return saved(form)


def saved(form, **changes):
    return form.submit("Save as a draft", **{**FIELDS, **changes})


def test_before_the_first_job_the_list_says_so(instructor):
    assert "No job has been written here yet." in instructor.open_page("/instructor/own-jobs").text


def test_a_job_is_saved_as_a_draft_and_shown_as_an_apprentice_meets_it(job, instructor):
    assert job.heading == "Feed line"
    assert "A draft: apprentices do not see it yet." in job.text
    assert PLACE in job.text
    assert "How long after the gas goes on may you strike the arc?" in job.text
    assert job.fact("Purge flow") == "15 L/min"
    assert instructor.open_page("/instructor/own-jobs").row("Feed line")[1] == "draft"


def test_key_working_run_and_cautions_stand_beside_it(job):
    assert "The answer:" in job.text
    assert "One volume change" in job.text
    assert "Oxygen at strike" in job.text
    assert "Argon gives no warning:" in job.text


def test_every_fault_stands_at_its_field_and_what_was_typed_is_kept(form):
    refused = saved(
        form,
        **{
            "Title": "",
            "Nominal pipe size (NPS)": "6.3",
            "Joint to the dam on the inlet's side": "a foot or so",
            "Diameter of a vent hole": "9 m",
            "Height of the inlet (0 lowest, 1 highest)": "top",
            "Purge flow": "",
        },
    )

    assert refused.status == 422
    assert "Write a few words here." in refused.error_for("Title")
    assert "'6.3' is not a size in the tables" in refused.error_for("Nominal pipe size (NPS)")
    assert "a foot or so" in refused.error_for("Joint to the dam on the inlet's side")
    assert "out of range" in refused.error_for("Diameter of a vent hole")
    assert "bare number" in refused.error_for("Height of the inlet (0 lowest, 1 highest)")
    assert "needs it" in refused.error_for("Purge flow")
    assert refused.field("Joint to the dam on the inlet's side") == "a foot or so"
    assert refused.field("Gas by ISO 14175") == "I1"
    assert len(refused.faults) == 6


def test_a_question_that_the_core_cannot_mark_says_so_at_the_question(form):
    refused = saved(form, **{"Wrong answer": "4 min", "The belief behind it": "About as long as last time."})

    assert refused.status == 422
    assert "the key lies within two bands of the trap" in " ".join(refused.faults)


def test_a_wrong_amount_in_spanish_is_read_by_the_reader_of_all_numbers(form, instructor):
    instructor.open_page("/account").submit("Keep", Language="Español")
    sent = {name: box for name, box in _boxes(form.soup) if name}
    wrong = next(name for name in sent if name.endswith("answer"))
    belief = wrong.replace("answer", "belief")

    refused = instructor.post(form.path, {**sent, wrong: "1.500 min", belief: "Mucho."})
    read = instructor.post(form.path, {**sent, wrong: "1,500 min", belief: "Mucho."})

    assert refused.status == 422
    assert "Escribe 1,500 o 1500." in " ".join(refused.faults)
    assert refused.soup.find("input", attrs={"name": wrong})["value"] == "1.500 min"
    assert "1500" not in " ".join(read.faults)


def _boxes(soup):
    for each in soup.find("main").find_all("input"):
        yield each.get("name"), each.get("value", "")


def test_braces_are_refused_since_nothing_fills_them(form):
    refused = saved(form, Title="Feed {line}")

    assert "stands in braces" in refused.error_for("Title")


def test_a_published_job_is_practised_and_its_result_is_the_jobs(job, visit_as):
    published = job.submit("Publish version 1")
    apprentice = visit_as("apprentice")
    choosing = apprentice.open_page("/apprentice/practice")
    (chosen,) = (each for each in choosing.options("What do you want to practise?") if "Feed line" in each)
    attempt = choosing.submit(
        "Draw a scenario",
        **{"What do you want to practise?": chosen, "How hard?": "Some things interact"},
    )

    assert "Published: apprentices draw this version." in published.text
    assert attempt.heading == PLACE


def test_a_draft_is_nobodys_practice(job, visit_as):
    assert "Feed line" not in visit_as("apprentice").open_page("/apprentice/practice").text


def test_a_changed_job_is_a_new_version_that_has_to_be_published(job, instructor):
    job.submit("Publish version 1")
    form = job.follow("Change it")
    assert form.field("Joint to the dam on the inlet's side") == "12 in"
    changed = form.submit("Save as a new version", **{"Purge flow": "30 cfh"})

    assert "Apprentices draw version 1; this is version 2." in changed.text
    assert instructor.open_page("/instructor/own-jobs").row("Feed line")[1] == "version 1 published"
    assert changed.fact("Purge flow") == "14.2 L/min"
    assert changed.follow("1").fact("Purge flow") == "15 L/min"


def test_a_withdrawn_job_is_practised_no_more(job, visit_as):
    withdrawn = job.submit("Publish version 1").submit("Withdraw it")

    assert "Withdrawn: it is no longer practised" in withdrawn.text
    assert "Feed line" not in visit_as("apprentice").open_page("/apprentice/practice").text


def test_a_published_job_can_be_put_into_a_module_here_and_nowhere_else(job, instructor, visit_as):
    job.submit("Publish version 1")

    assert "Feed line (skills 6)" in instructor.open_page("/instructor/modules/new").text
    assert "Feed line" not in visit_as("other_instructor").open_page("/instructor/modules/new").text
    assert "Feed line" not in visit_as("other_instructor").open_page("/instructor/own-jobs").text


def test_the_family_file_comes_as_toml_and_is_taken_back(job, instructor):
    answer = instructor.client.get(job.link("Family file (TOML)"))
    assert answer.mimetype == "application/toml"
    assert "fixed = true" in answer.get_data(as_text=True)
    again = instructor.open_page("/instructor/own-jobs/send").submit(
        "Check and save as a draft", **{"Or its text": answer.get_data(as_text=True)}
    )

    assert again.heading == "Feed line"
    assert "A draft" in again.text


def test_a_file_with_faults_names_line_and_key(instructor):
    refused = instructor.open_page("/instructor/own-jobs/send").submit(
        "Check and save as a draft", **{"Or its text": 'title = "A"\nfixed = true\nsituaton = "B"\n'}
    )

    assert refused.status == 422
    assert "line 3: situaton: is not known here" in " ".join(refused.faults)
    assert "situaton" in refused.field("Or its text")


def test_units_of_the_reader_come_first_in_the_form(instructor):
    page = instructor.open_page("/instructor/own-jobs/new")

    assert page.field("Unit of Joint to the dam on the inlet's side") == "mm"


def test_a_form_sent_without_a_field_is_read_as_nothing_typed(instructor):
    page = instructor.open_page("/instructor/own-jobs/new")
    token = page.soup.find("input", {"name": "csrf_token"})["value"]
    answer = instructor.client.post("/instructor/own-jobs/new", data={"csrf_token": token, "title": "A"})

    assert answer.status_code == 422
    assert "unset" not in answer.get_data(as_text=True)


def test_a_question_that_is_asked_already_is_not_offered_again_and_can_be_taken_out(form):
    assert "Purge time" not in form.options("Question to add")
    without = form.submit("Take question 1 out", Title="Feed line")

    assert "Purge time" in without.options("Question to add")
    assert without.field("Title") == "Feed line"
    assert "No question yet" in without.text


def test_a_field_says_which_question_needs_it(form):
    assert "Needed for: Purge time." in form.text
    assert form.text.count("Needed for: Purge time.") == 9


def test_a_file_that_begins_with_a_byte_order_mark_is_read(job, instructor):
    written = instructor.client.get(job.link("Family file (TOML)")).get_data(as_text=True)
    again = instructor.open_page("/instructor/own-jobs/send").submit(
        "Check and save as a draft", **{"Or its text": f"\ufeff{written}"}
    )

    assert again.heading == "Feed line"


def test_a_danger_that_was_not_ticked_keeps_the_others_ticked(form):
    early = {"Time from gas on to the arc": "1 min"}
    page = form.submit("Add this question", **{"Question to add": "root colour"})
    job = saved(page.submit("Take question 1 out"), **early)
    lost, oxidised = (words(each) for each in job.soup.find(id="dangers").find_all("label"))
    refused = job.submit("Publish version 1", **{lost: True})

    assert refused.status == 422
    assert "Not published: tick each line that is meant so" in refused.text
    assert refused.field(lost) is True
    assert refused.field(oxidised) is False


@pytest.mark.parametrize("job", [WASH_LINE, CR_MO_SPOOL], ids=lambda job: job.title)
def test_a_job_of_the_demo_opens_in_the_form_as_it_was_typed(app, job):
    with app.test_request_context():
        assert form_of(typed(job)).sheet() == job
