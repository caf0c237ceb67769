"""The facts that the library has to teach are each asked by items whose key the core decides, as WRITING.md lists them."""

import re

import pytest
from moved_keys import is_moved

from trainer.domain.family import ItemTemplate
from trainer.domain.scenario import ItemKind
from trainer.scenario_files import FOLDER, load_content

CONTENT = load_content()
_ENTRY = re.compile(r"`([a-z-]+):([a-z_-]+)` \(`([a-z0-9_.]+)`\)")
# What an apprentice has to come away with; each word has to stand in the fact of a row.
FACTS = (
    "materials need a purge", "helium the other way round", "vent matters most", "slope", "flatters the root",
    "Diffuser, open tube or rag", "thickness, old or loose, cut over size", "foot from the joint",
    "thin plate with tape", "Two foot instead of twenty-four", "rope longer than the way, rod, blown through",
    "cannot be had back", "size, length and flow", "Full flow from a single cylinder, turned down", "larger or smaller", "arc on a thin plate",
    "Four kinds of supply", "falls out, crumbles, tangles or is stepped on", "where people breathe",
)  # fmt: skip


def rows() -> dict[str, list[tuple[str, str, str]]]:
    """By fact: family, item and what turns its key."""
    table = (FOLDER / "WRITING.md").read_text(encoding="utf-8").partition("## What the library teaches")[2]
    lines = [line.strip("|").split("|") for line in table.splitlines() if line.startswith("| ")]
    return {line[0].strip(): _ENTRY.findall(line[1]) for line in lines if line[0].strip() != "fact"}


ROWS = rows()
ENTRIES = sorted({entry for entries in ROWS.values() for entry in entries})


@pytest.mark.parametrize("fact", FACTS)
def test_each_fact_has_a_row(fact: str) -> None:
    assert any(fact in row for row in ROWS)


@pytest.mark.parametrize("fact", ROWS)
def test_each_row_names_two_items_that_there_are(fact: str) -> None:
    assert len(ROWS[fact]) >= 2
    for family, item, _ in ROWS[fact]:
        assert item_of(family, item).kind is not ItemKind.EXPLANATION


@pytest.mark.parametrize(("family", "item", "path"), ENTRIES, ids=[":".join(each) for each in ENTRIES])
def test_the_key_turns_with_what_the_table_says(family: str, item: str, path: str) -> None:
    assert is_moved(CONTENT, CONTENT.family(family), item, path)


@pytest.mark.parametrize(
    ("family", "item", "path"),
    [("pump-pit", "out_by", "vent.height"), ("which-supply", "which", "vent.height")],
)
def test_what_decides_nothing_turns_no_key(family: str, item: str, path: str) -> None:
    assert not is_moved(CONTENT, CONTENT.family(family), item, path)


def item_of(family: str, item: str) -> ItemTemplate:
    return next(each for each in CONTENT.family(family).items if each.id == item)
