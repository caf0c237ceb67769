"""The main pages as a reader of Spanish gets them: no message left in English, every decimal behind a comma.

That Spanish has a comma there is what Unicode's CLDR says; `tests/wording/test_numerals.py` holds it to Babel's copy.
"""

import json
import re
from io import BytesIO

import job_examples
import pytest
import training_steps as steps
from bs4 import BeautifulSoup, Comment
from pypdf import PdfReader
from visitors import Visitor

from trainer.catalogues import interface_file, read_catalogue
from trainer.core.errors import OutOfRange
from trainer.domain.own_job_dangers import dangers_of
from trainer.domain.own_jobs import AskKind
from trainer.domain.people import Language
from trainer.domain.scenario import ItemKind
from trainer.services import own_jobs, practice
from trainer.services.assessment import keep_response
from trainer.services.own_jobs import Draft
from trainer.units import written
from trainer.web.access import public

_TOLD = ("aria-label", "aria-valuetext", "title", "placeholder", "alt", "data-says")
# Clauses of codes, standards, versions and times to the letter keep their point: they are no numbers.
_NAMES = re.compile(
    r"T\d\d:\d\d:\d\d\.\d{6}Z|\b19\d\d\.\d+|\b[A-Z]+-?\d+\.\d+|:\d{4}, \d\.\d|\b\d+\.\d+\.\d+"
)
_DECIMAL_POINT = re.compile(r"\d\.\d")
_PLACES = re.compile(r"%\(\w+\)s|\{[a-z_.]+\}")
# Small words of English sentences that no Spanish one holds.
_SMALL_WORD = re.compile(r"\b(?:the|of|and|is|are|with|from|which|was|for|that|this|not|by|at|it|its|to)\b")
_KEY = re.compile(r"[a-z]+(?:-[a-z]+)+(?: · \d+)?")  # a family as addresses and reports name it
# Said by people in these tests, or the word is the same in Spanish sentences.
_WRITTEN_BY_PEOPLE = {"yes"}
_TOLD_BY_PEOPLE = (steps.EXPLAINED, "asked for by the person", *job_examples.words_typed())


@pytest.fixture(scope="module")
def english():
    """Every message of the pages whose Spanish is another text: whole ones, and forms of those filled in."""
    pairs = [
        (each.id, each.string)
        for each in read_catalogue(interface_file("es"))
        if each.id and isinstance(each.id, str) and each.string != each.id
    ]
    spanish = {said for _, said in pairs}
    whole = {told for told, _ in pairs if not _PLACES.search(told)} - spanish - _WRITTEN_BY_PEOPLE
    filled = [_form(told) for told, _ in pairs if len(_PLACES.sub("", told)) > 12 and _PLACES.search(told)]
    return whole, filled


def _form(told):
    fixed = [re.escape(each.replace("%%", "%")) for each in _PLACES.split(told)]
    return re.compile(".+".join(fixed), re.DOTALL)


def _texts(html):
    """Everything on a page that somebody sees or hears, but for what was typed into it."""
    soup = BeautifulSoup(html, "html.parser")
    for text in soup.find_all(string=True):
        if not isinstance(text, Comment) and text.parent.name not in ("script", "style") and text.strip():
            yield " ".join(text.split())
    for each in soup.find_all(True):
        yield from (" ".join(str(each[name]).split()) for name in _TOLD if each.has_attr(name))
    for frames in soup.find_all("script", type="application/json"):
        yield from (str(each.get("told", "")) for each in json.loads(frames.string))


def _typed(html):
    boxes = BeautifulSoup(html, "html.parser").find_all("input", attrs={"type": ["text", "search"]})
    return [str(each["value"]) for each in boxes if each.get("value")]


def _in_english(html, english):
    whole, filled = english
    for text in _texts(html):
        if text in whole or any(each.fullmatch(text) for each in filled):
            yield f"in English: {text}"


def _with_small_words(html):
    """What no catalogue holds: sentences that were never given to be translated."""
    for text in _texts(html):
        if _SMALL_WORD.search(_but_for_what_people_told(text)) and not _KEY.fullmatch(text):
            yield f"with English words: {text}"


def _but_for_what_people_told(text):
    for told in _TOLD_BY_PEOPLE:
        text = text.replace(told, "")
    return text


def _pointed(html, keeps_typing=False):
    for text in (*_texts(html), *(() if keeps_typing else _typed(html))):
        if _DECIMAL_POINT.search(_NAMES.sub(" ", text)):
            yield f"with a decimal point: {text}"


def _in_spanish(visitor: Visitor) -> Visitor:
    page = visitor.open_page("/account").submit("Keep", Language="Español")
    assert page.soup.html["lang"] == "es"
    return visitor


def _check(visitor, english, *addresses, keeps_typing=False):
    """Nothing in English on these pages; boxes that keep what was typed show it with the sign of its typing."""
    found = []
    for each in addresses:
        page = visitor.open_page(each, settles=True)
        assert page.soup.html["lang"] == "es", each
        faults = (
            *_in_english(page.html, english),
            *_with_small_words(page.html),
            *_pointed(page.html, keeps_typing),
        )
        found += [f"{each}: {fault}" for fault in faults]
    assert found == []


def test_the_bench_and_open_pages(visitor, things, english):
    visitor.post("/language", {"language": "es", "next": "/bench"})
    _check(
        visitor, english, "/bench", "/bench/set-up?v=1&start=shop", "/bench/set-up?v=1&start=trench",
        "/bench/set-up?v=1&start=spool-branch", "/bench/set-up/card?v=1&start=shop", "/bench/one-foot", "/how-sure",
        "/bench/set-up?v=1&start=shop&units=inch-pound", "/verify", f"/verify/{things.code}", "/account/sign-in",
    )  # fmt: skip


def test_faults_on_the_bench(visitor, english):
    visitor.post("/language", {"language": "es", "next": "/bench"})
    address = (
        "/bench/set-up?v=1&start=shop&inlet.height=0.5.5&flow.purge=900+L/min&section.left_dam=5+kg"
        "&joint.gap=12&gas.symbol=I1&wait=-1+min&vent.count=1.5&joint.taped=2&flow.hold=30+L/min"
    )
    page = visitor.open_page(address)
    assert page.status == 422
    assert len(page.faults) >= 7
    assert list(_in_english(page.html, english)) == []


def test_practice_and_its_result(world, visit_as, english):
    site, acting = world.site, world.apprentice.acting
    attempts = []
    for family in (
        "dairy-line",
        "trench-crossing",
        "brewery-tube",
        "came-back",
        "many-elbows",
        "rope-and-rod",
    ):
        attempt_id = practice.start_practice(site, acting, family=family, difficulty=0.6)
        scenario = steps.drawn(site, attempt_id)[1]
        wrong = {each.id: _wrong(each, scenario.answers[each.id].key) for each in scenario.items}
        steps.answer_right(site, acting, attempt_id, but=[item_id for item_id, raw in wrong.items() if raw])
        for item_id, raw in wrong.items():
            if raw:
                keep_response(site, acting, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=raw)
        attempts.append(attempt_id)
    visitor = _in_spanish(visit_as("apprentice"))
    _check(visitor, english, *(f"/apprentice/attempts/{each}/scenarios/1" for each in attempts))
    _check(visitor, english, *(f"/apprentice/attempts/{each}/hand-in" for each in attempts))
    for each in attempts:
        steps.handed_in(site, acting, each)
    _check(visitor, english, *(f"/apprentice/attempts/{each}/result" for each in attempts))
    _check(
        visitor, english, "/apprentice/", "/apprentice/practice", "/apprentice/assignments", "/account/record"
    )


def test_faults_of_a_response(world, visit_as, english):
    site, acting = world.site, world.apprentice.acting
    attempt_id = practice.start_practice(site, acting, family="long-run", difficulty=0.5)
    items = steps.drawn(site, attempt_id)[1].items
    visitor = _in_spanish(visit_as("apprentice"))
    page = visitor.open_page(f"/apprentice/attempts/{attempt_id}/scenarios/1")
    typed = {f"item-{each.id}": "5 kg" for each in items if each.dimension is not None}
    typed |= {f"item-{each.id}-{handle.id}": "1.500" for each in items for handle in each.handles}
    answer = visitor.post(page.path, typed)
    assert answer.status == 422
    assert len(answer.faults) == sum(each.dimension is not None or bool(each.handles) for each in items) > 1
    assert list(_in_english(answer.html, english)) == []


def _wrong(item, key):
    """A wrong answer that can be read; None for an item that is answered right."""
    if item.dimension is not None:
        return written(key * 0.4, item.dimension)
    if item.kind is ItemKind.HAZARDS:
        return [each.id for each in item.objects if each.id not in key][:1]
    if item.kind is ItemKind.ORDER:
        return [each.id for each in reversed(item.steps)]
    if item.options:
        return next(each.id for each in item.options if each.id != key)
    return [item.diagnosis.moves[0].id, item.diagnosis.moves[-1].id] if item.diagnosis else None


def test_what_an_instructor_and_an_employer_read(things, visit_as, english):
    _check(
        _in_spanish(visit_as("instructor")), english, "/instructor/", f"/instructor/classes/{things.class_id}",
        f"/instructor/apprentices/{things.person_id}", f"/instructor/attempts/{things.passed_attempt_id}",
        "/instructor/questions", "/instructor/to-grade", "/instructor/modules/new",
        f"/instructor/qualifications/{things.qualification_id}",
        f"/instructor/modules/{things.module_id}", "/instructor/own-jobs", "/instructor/classes", "/instructor/keying",
        f"/instructor/apprentices/{things.person_id}/award?award_token={things.share_id}&look=yes"
        f"&attempts={things.passed_attempt_id}&observations={things.observation_id}",
        f"/instructor/keying/{things.sheet_code}/scenarios/1", f"/instructor/keying/{things.sheet_code}/hand-in",
        f"/instructor/attempts/{things.passed_attempt_id}/scenarios/1/items/{things.passed_item_id}/score",
    )  # fmt: skip
    _check(
        _in_spanish(visit_as("employer")), english, "/employer/people", f"/employer/people/{things.person_id}",
        "/employer/who-can", f"/employer/attempts/{things.passed_attempt_id}",
        "/employer/who-can?on=2030-01-01&material=titanium&gas=I1&outside_diameter=168.3&outside_diameter-unit=mm"
        "&section_length=&situation=",
    )  # fmt: skip


def test_why_somebody_cannot_do_a_job_is_told_with_the_state_of_the_qualification(things, visit_as):
    employer = _in_spanish(visit_as("employer"))
    page = employer.open_page(
        "/employer/who-can?on=2030-01-01&material=titanium&gas=I1&outside_diameter=168.3"
        "&outside_diameter-unit=mm&section_length=&situation="
    )
    assert "La habilitación está ese día: caducada;" in page.text
    assert page.soup.select_one("span.wrong").text == "no"


def test_what_an_administrator_reads(things, visit_as, english):
    admin = _in_spanish(visit_as("admin"))
    form = admin.open_page("/admin/policy")
    refused = form.submit("Poner en vigor", **{"Nota de corte": "7", "Motivo": "más estricto"})
    assert refused.status == 422
    assert [*_in_english(refused.html, english), *_pointed(refused.html)] == []
    changed = {"Nota de corte": "92,5 %", "Límite para dúplex": "0,0005"}
    assert form.submit("Poner en vigor", **changed, Motivo="más estricto").status == 200
    _check(admin, english, "/admin/policy", "/admin/ledger", "/admin/people", "/admin/employers")


def test_an_own_job_on_its_instructor_s_pages(things, visit_as, english):
    job = f"/instructor/own-jobs/{things.job_id}"
    visitor = _in_spanish(visit_as("instructor"))
    _check(visitor, english, "/instructor/own-jobs", "/instructor/own-jobs/new", job, f"{job}/versions/1")
    _check(visitor, english, f"{job}/edit", keeps_typing=True)


# Every kind of question, in jobs that can ask them together.
_JOBS = (
    job_examples.ASKED_TOGETHER,
    (AskKind.FLOW, AskKind.TRACE, AskKind.LASTS, AskKind.GAUGE, AskKind.LEAVE),
    (AskKind.FAN,),
)


def test_the_jobs_of_these_tests_ask_everything():
    assert {kind for kinds in _JOBS for kind in kinds} == set(AskKind)


@pytest.mark.parametrize("kinds", _JOBS)
def test_an_own_job_practised_and_its_result(world, visit_as, english, kinds):
    site, acting = world.site, world.apprentice.acting
    family = _published(site, world.instructor.acting, kinds)
    right, wrong = (practice.start_practice(site, acting, family=family, difficulty=0.5) for _ in range(2))
    scenario = steps.drawn(site, wrong)[1]
    steps.answer_right(site, acting, right)
    for each in scenario.items:
        raw = _wrong(each, scenario.answers[each.id].key)
        if raw:
            keep_response(site, acting, attempt_id=wrong, scenario_no=1, item_id=each.id, raw=raw)
    visitor = _in_spanish(visit_as("apprentice"))
    _check(visitor, english, *(f"/apprentice/attempts/{each}/scenarios/1" for each in (right, wrong)))
    for each in (right, wrong):
        steps.handed_in(site, acting, each)
    _check(visitor, english, *(f"/apprentice/attempts/{each}/result" for each in (right, wrong)))


def _published(site, instructor, kinds):
    """The family of a job that asks these."""
    fan = "draws out" if AskKind.FAN in kinds else "none"
    job = job_examples.sheet(*kinds, set_up={"surroundings.fan": fan, "joint.taped": 0.5})
    job_id = own_jobs.make_job(site, instructor, draft=Draft(sheet=job, typed=job_examples.typed(job)))
    page = own_jobs.job_page(site, instructor, job_id=job_id)
    meant = frozenset(each.code for each in dangers_of(page.preview.keyed.run))
    own_jobs.publish_job(site, instructor, job_id=job_id, version=1, meant=meant)
    return page.summary.family


def test_an_own_job_on_paper_and_keyed_in(world, things, visit_as, english):
    site, people = world.site, world.people
    staff = (people[each].acting for each in ("founder", "instructor", "second_instructor", "apprentice"))
    place = steps.School(*staff, things.class_id)
    visitor = _in_spanish(visit_as("instructor"))
    for kinds, skill in zip(_JOBS, (4, 7, 11), strict=True):
        family = _published(site, world.instructor.acting, kinds)
        assignment_id = steps.assigned(site, place, rows=(steps.row(skill, family),))
        set_id = steps.printed(site, place, assignment_id, language=Language.SPANISH)
        (code,) = steps.sheet_codes(site, place, set_id)
        _check(visitor, english, f"/instructor/keying/{code}/scenarios/1")
        for name in ("worksheets.pdf", "answer-key.pdf"):
            answer = visitor.client.get(f"/instructor/paper/{set_id}/{name}")
            assert answer.mimetype == "application/pdf", answer.status
            pages = PdfReader(BytesIO(answer.data)).pages
            text = " ".join(" ".join(each.extract_text() for each in pages).split())
            assert _SMALL_WORD.findall(_but_for_what_people_told(text)) == []


def test_an_own_job_that_lacks_everything(visit_as, english):
    page = _in_spanish(visit_as("instructor")).post("/instructor/own-jobs/new", {"title": "{x}"})
    assert page.status == 422
    assert list(_in_english(page.html, english)) == []


def test_sheets_on_paper(things, visit_as, english):
    visitor = _in_spanish(visit_as("instructor"))
    printing = visitor.open_page(f"/instructor/assignments/{things.assignment_id}/paper")
    made = printing.submit("Sortear las hojas")
    for name in ("worksheets.pdf", "answer-key.pdf"):
        answer = visitor.client.get(f"{made.path}/{name}")
        assert answer.mimetype == "application/pdf", answer.status
        pages = PdfReader(BytesIO(answer.data)).pages
        lines = [" ".join(each.split()) for page in pages for each in page.extract_text().splitlines()]
        whole, _ = english
        assert [each for each in lines if each in whole] == []
        assert [each for each in lines if _DECIMAL_POINT.search(_NAMES.sub("", each))] == []


@pytest.mark.parametrize(
    "refused",
    [
        OutOfRange("hose bore", 0.9, low=0.001, high=0.2, unit="m", why="hoses from 1 to 200 mm bore"),
        OutOfRange("arc efficiency", -0.5, low=0.0, high=None, unit="", why="share that enters the metal"),
    ],
)
def test_what_the_core_refuses_is_said_with_quantity_value_and_limits(visitor, app, english, refused):
    def refuse():
        raise refused

    app.add_url_rule("/core-refuses", view_func=public(refuse))
    visitor.post("/language", {"language": "es", "next": "/bench"})
    page = visitor.open_page("/core-refuses")
    assert page.status == 422
    assert str(refused.value).replace(".", ",") in page.text
    for words in (refused.quantity, refused.why):
        assert words not in page.text
    assert [*_in_english(page.html, english), *_pointed(page.html)] == []
