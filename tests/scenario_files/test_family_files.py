"""A content file that cannot be used: every fault at once, each with file, key and what is accepted."""

import re
import shutil
from pathlib import Path

import pytest

from trainer.scenario_files import FOLDER, ContentFault, load_content


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """One sound family, the catalogue and the policy, to be damaged."""
    (tmp_path / "families").mkdir()
    shutil.copy(FOLDER / "families" / "pump-pit.toml", tmp_path / "families")
    shutil.copy(FOLDER / "hazards.toml", tmp_path)
    shutil.copy(FOLDER / "policy.toml", tmp_path)
    return tmp_path


def damaged(folder: Path, *changes: tuple[str, str], file: str = "families/pump-pit.toml") -> tuple[str, ...]:
    text = (folder / file).read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    (folder / file).write_text(text, encoding="utf-8")
    with pytest.raises(ContentFault) as fault:
        load_content(folder)
    return fault.value.lines


def test_the_shipped_files_load(folder: Path) -> None:
    assert list(load_content(folder).families) == ["pump-pit"]


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ('[figure.pool]\nof = "as_found"\nresult = "pool depth"', '[figure.pool]\nof = "as_found"\nresult = "pool deepness"', "pump-pit.toml: line \\d+: figure.pool.result: .*is not known; near it are pool depth"),
        ('kind = "choice"', 'kind = "essay"', r"item\[2\].kind: 'essay' is not one of quantity, placement"),
        ("skill = 11", "skill = 13", r"item\[1\].skill: 13 is not a skill from 1 to 12"),
        ('hazard = "filter-mask"', 'hazard = "borescope"', "'borescope' is not a hazard of the catalogue"),
        ("{pit.size}", "{hole.size}", r"nothing is drawn under \{hole.size\}; drawn are place, pit"),
        ('floor = "3 m^2"', 'floor = "3 m"', "surroundings.floor_area: 3 m is no area"),
        ('fan = "none"', 'fan = "some"', "surroundings.fan: some is not one of none, blows in, draws out"),
        ("text = \"Before the gas goes on", "txt = \"Before the gas goes on", r"item\[4\].txt: is not known here; known are"),
        ('nearest = "1 min"', "", r"item\[1\].nearest: is missing"),
        ("height = 0.12", "hight = 0.12", "inlet.hight: a set-up has no such field"),
        ('unit = "m³"', 'unit = "kg"', "figure.free.unit: .*kg"),
        ('path = "surroundings.fresh_oxygen"', 'path = "surroundings.after"', "is what an item asks for"),
        ('id = "before-entry"', 'id = "before entry"', r"criterion\[3\].id: 'before entry' is not made of small letters"),
        ('id = "unnoticed"', 'id = "gathers"', r"item\[7\].criterion: two criteria have one id"),
        ('    "Cannot be followed.",\n', "", r"criterion\[4\].levels: has a sentence for each level from 0 to 3"),
        ('weight = 2.0\ncritical', 'weight = 0.0\ncritical', r"criterion\[3\].weight: 0 is not above zero"),
        ('weight = 2.0\ncritical', 'wait = 2.0\ncritical', r"criterion\[3\].wait: is not known here"),
        ('id = "say-why"', 'id = "say-why"\nsets = ["wait"]', r"item\[7\].sets: an explanation sets nothing"),
        ('id = "say-why"', 'id = "say-why"\ncritical = true', r"item\[7\].critical: an explanation is critical through"),
        ('text = "Why nobody notices in time"', 'text = "Why at {pool}"', r"item say-why.options: nothing is drawn under \{pool\}"),
        ("skills = [11]", "skills = []", "skills: names at least one skill"),
    ],
)  # fmt: skip
def test_each_fault_names_file_key_and_what_is_accepted(
    folder: Path, old: str, new: str, expected: str
) -> None:
    lines = damaged(folder, (old, new))
    assert any(re.search(expected, each) for each in lines), lines
    assert all(each.startswith("pump-pit.toml: ") for each in lines)


def test_all_faults_are_found_at_once(folder: Path) -> None:
    lines = damaged(folder, ("skill = 11", "skill = 13"), ('kind = "choice"', 'kind = "essay"'))
    assert len([each for each in lines if "13" in each or "essay" in each]) == 2


def test_a_result_of_the_core_may_not_stand_in_what_is_shown(folder: Path) -> None:
    lines = damaged(
        folder, ("After {work}, what is at the face", "After {work}, with {pool}, what is at the face")
    )
    assert any("figures of the core stand only in solutions" in each for each in lines)


def test_a_file_that_is_not_toml_says_where(folder: Path) -> None:
    (folder / "families" / "pump-pit.toml").write_text("title = ", encoding="utf-8")
    with pytest.raises(ContentFault, match="pump-pit.toml: file: is not TOML"):
        load_content(folder)


def test_only_what_can_cost_a_life_is_critical(folder: Path) -> None:
    lines = damaged(folder, ('severity = "cost"', 'severity = "cost"\ncritical = true'), file="hazards.toml")
    assert lines == ("hazards.toml: entry.rope-short.critical: only what can cost a life is critical",)


def test_a_box_too_small_for_a_finger_is_refused(folder: Path) -> None:
    lines = damaged(folder, ("width = 76", "width = 20"), file="hazards.toml")
    assert "outside 54 to 78 drawing units" in lines[0]


def test_a_change_of_the_catalogue_changes_every_family_version(folder: Path) -> None:
    before = load_content(FOLDER).families["pump-pit"].content_version
    with (folder / "hazards.toml").open("a", encoding="utf-8") as file:
        file.write("# another line\n")
    assert load_content(folder).families["pump-pit"].content_version != before


def test_a_rubric_has_three_to_five_criteria(folder: Path) -> None:
    path = folder / "families" / "pump-pit.toml"
    head, *criteria = path.read_text(encoding="utf-8").split("[[item.criterion]]")
    path.write_text("[[item.criterion]]".join((head, criteria[0], criteria[-1])), encoding="utf-8")
    with pytest.raises(ContentFault) as fault:
        load_content(folder)
    assert any("criterion: a rubric has 3 to 5 criteria" in each for each in fault.value.lines)
