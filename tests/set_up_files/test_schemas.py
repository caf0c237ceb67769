"""The schemas that ship are those of the declared fields, and what the tool takes and prints is valid by them."""

import json

import pytest
from jsonschema import Draft202012Validator
from set_up_examples import document, run_of

from trainer.set_up_files import write_run
from trainer.set_up_files.schema_making import FOLDER, schema_texts, set_up_schema


def _validator(name):
    return Draft202012Validator(json.loads((FOLDER / name).read_text(encoding="utf-8")))


@pytest.mark.parametrize("name", ["set_up.json", "answer.json"])
def test_the_shipped_schema_is_current_and_sound(name):
    assert (FOLDER / name).read_text(encoding="utf-8") == schema_texts()[name]
    Draft202012Validator.check_schema(json.loads(schema_texts()[name]))


def test_a_set_up_and_a_list_of_them_are_valid():
    _validator("set_up.json").validate(document())
    _validator("set_up.json").validate([document(), {}])


@pytest.mark.parametrize(
    "changes", [{"wiat": "6 min"}, {"flow__purge": 15}, {"vent__height": 2}, {"dams": {}}]
)
def test_what_is_refused_by_its_form_is_invalid_too(changes):
    assert not _validator("set_up.json").is_valid(document(**changes))


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"target__oxygen": "1 ppm"},
        {"gas": None},
        {"pipe": None, "dams": None},
        {"gas__symbol": "I2"},
        {"section__slope": "-90 deg"},
        {"section__slope": "-12.5 deg", "section__left_end": "2 m", "joint__left_open": "1 cm"},
        {"vent__blocked": True, "joint__left_open": "0 mm", "joint__pool_depth": "2 mm"},
        {"near_heat": [{"what": "hose end", "material": "rubber", "distance": "5 cm"}, {"what": "tape"}]},
        {"surroundings__fan": "draws out", "surroundings__fan_flow": "10 m^3/h"},
        {"model": "displacement"},
    ],
)
def test_answers_are_valid(changes):
    answer = write_run(run_of(**changes))
    _validator("answer.json").validate(answer)
    _validator("answer.json").validate([answer, {"errors": [{"path": "", "message": "no"}]}])


def _undescribed(schema, path=""):
    """Fields of which the schema says nothing; a list is described by its entries."""
    for key, field in schema.get("properties", {}).items():
        here, entry = f"{path}.{key}", field.get("items", field)
        if not entry.get("description"):
            yield here
        yield from _undescribed(entry, here)


def test_the_schema_says_something_of_every_field_of_a_set_up():
    assert list(_undescribed(set_up_schema()["$defs"]["set_up"])) == []
