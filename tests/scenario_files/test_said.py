"""A scenario told in another language: the same draw, each of its sentences beside the English one."""

import re
import shutil

import pytest
from babel.messages.catalog import Catalog

from trainer.catalogues import catalogue_bytes
from trainer.domain.families import Sources, draw_counted
from trainer.domain.people import UnitSystem
from trainer.scenario_files import FOLDER, load_content, public_document, scenario_document
from trainer.scenario_files.human_texts import is_words, texts_of_family, texts_of_hazards
from trainer.scenario_files.said import HAZARDS, catalogue_of

FAMILIES = ("test-plate", "will-not-come-down", "trench-crossing", "cylinder-store")
_READ = ("title", "situation", "text", "label", "what", "rule", "belief", "words")


def _write(folder, name, texts, *, but=()):
    catalogue = Catalog(locale="es")
    for each in texts:
        catalogue.add(each, "" if each in but else f"«{each}»")
    path = catalogue_of(name, language="es", folder=folder)
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(catalogue_bytes(catalogue))


@pytest.fixture
def content(tmp_path):
    folder = tmp_path / "scenarios"
    (folder / "families").mkdir(parents=True)
    for each in ("hazards.toml", "policy.toml", *(f"families/{each}.toml" for each in FAMILIES)):
        shutil.copy(FOLDER / each, folder / each)
    found = load_content(folder)
    _write(folder, HAZARDS, texts_of_hazards(found.hazards))
    for family in found.families.values():
        _write(folder, family.id, texts_of_family(family))
    return found


def _drawn(content, family, edition=UnitSystem.METRIC, seed=7):
    sources = Sources(policy=content.policy, hazards=content.hazards)
    found = content.family(family, edition=edition)
    return draw_counted(found, seed=seed, difficulty=0.8, sources=sources).scenario


def _texts(document):
    if isinstance(document, dict):
        for name, each in document.items():
            if name in _READ and isinstance(each, str):
                yield each
            elif name not in ("said", "given", "set_up"):
                yield from _texts(each)
    elif isinstance(document, list):
        for each in document:
            yield from _texts(each)


@pytest.mark.parametrize("edition", list(UnitSystem))
@pytest.mark.parametrize("family", FAMILIES)
def test_every_sentence_of_a_scenario_is_told(content, family, edition):
    scenario = content.in_other_languages(_drawn(content, family, edition), edition=edition)
    said = scenario.said["es"]
    texts = [each for each in _texts(scenario_document(scenario, with_answers=True)) if is_words(each)]
    assert len(texts) > 20
    told = [each for each in texts if "«" in said.get(each, "")]
    # a fact read off the set-up is a word of the pages
    words = {each.text for each in scenario.facts if each.path and not each.value}
    assert set(texts) - set(told) - words == set()
    assert not [each for each in said.values() if re.search(r"\{[a-z_.]+\}", each)]


def test_the_draw_is_the_same_whoever_reads_it(content):
    drawn = _drawn(content, "test-plate")
    told = scenario_document(content.in_other_languages(drawn, edition=UnitSystem.METRIC), with_answers=True)
    assert told.pop("said")["es"]
    assert told == scenario_document(drawn, with_answers=True)


def test_what_is_shown_first_tells_no_sentence_of_the_answers(content):
    scenario = content.in_other_languages(_drawn(content, "test-plate"), edition=UnitSystem.METRIC)
    beliefs = [
        each for answer in scenario.answers.values() for each in (answer.misconceptions or {}).values()
    ]
    shown = public_document(scenario)["said"]["es"]
    assert beliefs
    assert scenario.situation in shown
    assert not set(beliefs) & set(shown)


def test_a_family_with_a_sentence_missing_is_told_in_english(content):
    texts = list(texts_of_family(content.families["test-plate"]))
    _write(content.folder, "test-plate", texts, but=texts[5:6])
    scenario = content.in_other_languages(_drawn(content, "test-plate"), edition=UnitSystem.METRIC)
    assert scenario.said == {}


def test_a_title_that_was_kept_in_english_is_told_in_spanish():
    content = load_content()  # the real catalogues
    # Title and place as `scenarios/es/brewery-tube.po` has them.
    assert (
        content.title("es", "Brewery tube, beside the wort cooler")
        == "Tubo de cervecería, junto al enfriador de mosto"
    )
    assert content.title("es", "Brewery tube, by the sea") is None  # no family draws that place
    assert content.title("en", "Brewery tube, beside the wort cooler") is None


def test_what_nothing_is_drawn_into_is_told_for_all_families():
    told = load_content().told("es")
    assert told["More than 1.25 %"] == "Más de 1,25 %"
    assert load_content().told("en") == {}
