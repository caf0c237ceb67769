"""Own jobs: our sentences are told in Spanish, what was typed stays, and the family file is what it always was."""

import re
import shutil
from dataclasses import replace
from pathlib import Path

import job_examples
import pytest
from babel.messages.catalog import Catalog
from job_examples import QUESTIONS, sheet, wrong

from trainer.catalogues import catalogue_bytes
from trainer.domain.families import Sources, draw_counted
from trainer.domain.own_jobs import LABELS, AskKind
from trainer.domain.people import UnitSystem
from trainer.domain.sentences import said_again
from trainer.scenario_files import FOLDER, load_content
from trainer.scenario_files.human_texts import is_words
from trainer.scenario_files.own_jobs import job_text, read_sheet, usual_words
from trainer.scenario_files.own_jobs.told import OWN_JOBS, usual_in
from trainer.scenario_files.said import catalogue_of
from trainer.wording.filled_in import fillings

# What a job with every question was given out as: jobs are published in these very words.
PUBLISHED = Path(__file__).with_name("own_job_as_published.toml")
_PLACE = re.compile(r"%\(\w+\)s")


def _told(content, job, edition=UnitSystem.METRIC):
    """A job drawn, all its sentences in English, and those told in Spanish."""
    family = content.own_family("own-words", text=job_text(read_sheet(job)), edition=edition)
    sources = Sources(policy=content.policy, hazards=content.hazards)
    drawn = draw_counted(family, seed=7, difficulty=0.5, sources=sources).scenario
    told = content.in_other_languages(drawn, edition=edition)
    return set(said_again(drawn, str)), told.said.get("es", {})


def _asking(*kinds, note=""):
    fan = "draws out" if AskKind.FAN in kinds else "none"
    job = sheet(*kinds, set_up={"joint.taped": 0.5, "surroundings.fan": fan})
    return replace(job, asked=tuple(replace(each, note=note) for each in job.asked))


def test_the_family_file_is_written_in_the_words_that_it_always_had():
    noted = sheet(*AskKind, set_up={"joint.taped": 0.145, "supply.fill": 0.8})
    noted = replace(noted, asked=tuple(replace(each, note="As on the day.") for each in noted.asked))
    assert job_text(noted) == PUBLISHED.read_text(encoding="utf-8")


@pytest.mark.parametrize("edition", UnitSystem)
@pytest.mark.parametrize("kind", AskKind)
def test_every_sentence_of_ours_is_told_and_none_that_was_typed(kind, edition):
    sentences, said = _told(load_content(), _asking(kind, note="As on the day."), edition)
    typed = {
        *job_examples.words_typed(),
        "Feed line, at the north wall of the boiler house",
        "As on the day.",
    }
    # labels of facts are words of the pages, and a gas is called alike in both
    elsewhere = {*LABELS.values(), *(each for each in sentences if each.startswith("ISO 14175 - "))}
    words = {each for each in sentences if is_words(each)}
    assert words - typed - elsewhere == {each for each in said if is_words(each)} - elsewhere
    assert not [each for each in said.values() if "%(" in each or "{" in each]


def test_amounts_that_were_typed_stand_in_the_spanish_sentence():
    _, said = _told(load_content(), sheet(AskKind.COLOUR, set_up={"wait": "12.5 min"}))
    assert said["The arc is struck 12.5 min after the gas goes on. How does the root come out?"] == (
        "El arco se ceba 12,5 min después de abrir el gas. ¿Cómo sale la raíz?"
    )


def test_a_figure_and_the_word_of_a_result_stand_in_it_too():
    _, said = _told(load_content(), sheet(AskKind.COLOUR, AskKind.LASTS))
    beliefs = [said[each] for each in said if each.startswith("It comes out ")]
    spanish = {"paja", "dorado", "marrón", "violeta", "azul", "gris", "negro", "brillante", "con rosetas"}
    assert len(beliefs) >= 3
    assert all(each.removeprefix("Sale con este aspecto: ").partition(";")[0] in spanish for each in beliefs)
    (before,) = (said[each] for each in said if each.endswith(" before the arc"))
    assert re.fullmatch(r"0,\d+ m³, de los cuales 0,\d+ m³ antes del arco", before)


def test_a_sentence_that_was_typed_and_only_looks_like_ours_stays():
    typed = ("The tank was 80% full", "Oxygen at the root after lunch with Sam")
    own = replace(QUESTIONS[AskKind.OWN], right=typed[0], wrong=wrong((typed[1], "No."), ("None", "No.")))
    _, said = _told(load_content(), replace(sheet(AskKind.OWN), asked=(own,)))
    assert said
    assert not {*typed, "No."} & set(said)


def test_what_is_typed_in_the_place_of_the_usual_question_stays():
    asked = replace(QUESTIONS[AskKind.WAIT], text="¿Cuánto purgas?")
    _, said = _told(load_content(), replace(sheet(AskKind.WAIT), asked=(asked,)))
    assert usual_words.ASK_WAIT not in said
    assert said[usual_words.VOLUME_CHANGE] == "Una renovación de volumen"


def test_questions_that_pages_list_are_told_without_a_draw():
    family = load_content().own_family("own-words", text=job_text(_asking(AskKind.FLOW, AskKind.OWN)))
    asked = [each.text for each in family.items]
    told = load_content().told("es", of_own_jobs=asked)
    assert told[asked[0]] == (
        "¿Cuál de estos caudales es el mínimo con el que la raíz ha bajado a 0,1 % después de 12 min?"
    )
    assert asked[1] not in told
    assert usual_in("en", asked, folder=FOLDER) == {}


def test_all_holds_every_sentence_once():
    names = {name: each for name, each in vars(usual_words).items() if name.isupper()}
    sentences = [each for each in names.values() if isinstance(each, str)]
    assert set(sentences) <= set(usual_words.ALL)
    assert len(usual_words.ALL) == len(set(usual_words.ALL))


def test_no_sentence_can_be_taken_for_another():
    for template in usual_words.ALL:
        filled = _PLACE.sub("12 min", template)
        if filled != template:  # one without places is looked up whole, before all that have some
            assert [each for each in usual_words.ALL if list(fillings(each, filled))] == [template]


def test_jobs_are_told_in_english_where_their_catalogue_lacks_a_sentence(tmp_path):
    folder = tmp_path / "scenarios"
    (folder / "families").mkdir(parents=True)
    (folder / "es").mkdir()
    for each in ("hazards.toml", "policy.toml", "families/test-plate.toml", "es/hazards.po"):
        shutil.copy(FOLDER / each, folder / each)
    catalogue = Catalog(locale="es")
    for each in usual_words.ALL:
        catalogue.add(each, "" if each == usual_words.VENT else f"«{each}»")
    catalogue_of(OWN_JOBS, language="es", folder=folder).write_bytes(catalogue_bytes(catalogue))
    _, said = _told(load_content(folder), sheet(AskKind.WAIT))
    assert said == {}
