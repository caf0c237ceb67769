"""Templates hold no leftovers: what is imported is used, and each component is imported somewhere."""

import re
from pathlib import Path

import pytest

import trainer.web

FOLDER = Path(trainer.web.__file__).parent / "templates"
TEMPLATES = sorted(FOLDER.rglob("*.html"))
IMPORT = re.compile(r'{% from "([^"]+)" import ([\w, ]+?)(?: with context)? %}')


def imports(template: Path) -> list[tuple[str, str]]:
    text = template.read_text(encoding="utf-8")
    return [(source, name.strip()) for source, names in IMPORT.findall(text) for name in names.split(",")]


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda each: str(each.relative_to(FOLDER)))
def test_every_macro_that_is_imported_is_called(template):
    text = IMPORT.sub("", template.read_text(encoding="utf-8"))

    assert [name for _, name in imports(template) if not re.search(rf"\b{name}\(", text)] == []


def test_every_component_is_used_by_some_page():
    imported = {source for each in TEMPLATES for source, _ in imports(each)} | {"components/page_head.html"}
    used = {each for each in imported if each.startswith("components/")}
    there = {str(each.relative_to(FOLDER)) for each in TEMPLATES if "components" in each.parts}

    assert there == used


def test_no_template_compares_roles():
    for each in TEMPLATES:
        assert not re.search(r"roles?\s*(==|in)\s", each.read_text(encoding="utf-8")), each
