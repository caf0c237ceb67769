"""A diagnosis that cannot be used is refused with its key and what is accepted there."""

import re
import shutil
from pathlib import Path

import pytest

from trainer.scenario_files import FOLDER, ContentFault, load_content

FAMILY = Path("families/came-back.toml")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """One sound family with a diagnosis, the catalogue and the policy, to be damaged."""
    (tmp_path / "families").mkdir()
    for each in (FAMILY, Path("hazards.toml"), Path("policy.toml")):
        shutil.copy(FOLDER / each, tmp_path / each)
    return tmp_path


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ('draw = "cause"', 'draw = "reason"', r"item find.draw: 'reason' is not one of place, pipe"),
        ('    "kink",\n', '    "kinked",\n', r"item find.cause: kinked is drawn but is none of kink, tape"),
        ('    { is = "dam", from = 0.4 },', '    "dam",', "dam is drawn where it does not take part"),
        ('cures = ["kink"]', 'cures = ["kinks"]', r"cures: 'kinks' is not one of branch, cylinder"),
        ('cures = ["kink"]', "cures = []", r"item\[2\].action: no action cures kink"),
        ('"hose.open_fraction" = 0.0006', '"hose.opening" = 0.0006', "hose.opening: a set-up has no such field"),
        ('"supply.pressure" = "2.1 bar"', '"supply.pressure" = "2.1 m"', "supply.pressure: 2.1 m is no pressure"),
        ('sample_air = "2 %"', "", r"cause\[7\].set_up: a cause changes the set-up, or lets air into"),
        ("seen = { sound = \"It lies free all the way.\", kink", "seen = { kink", "seen: sound is missing"),
        ("all the way.\", kink = ", "all the way.\", knot = ", r"seen: 'knot' is neither sound nor one of"),
        ('shows = ["gauge"]', 'shows = ["clock"]', "shows: 'clock' is not one of gauge, flow"),
        ('ending = "strike"', 'ending = "bang"', r"finish\[1\].ending: 'bang' is not one of strike, call, out"),
        ('ending = "strike"', 'ending = "call"', r"item\[2\].finish: none of them is what all is for"),
        ('[[item.wait]]\nid = "wait"', '[[item.action]]\nid = "waiting"', r"item\[2\].wait: is missing"),
        ('id = "float"', 'id = "gauge"', r"item\[2\].check: two have one id"),
        (
            'belief = "An arm and a head for a moment is no entry: argon runs out past a loose dam at face height."\n',
            "", "critical: an unsafe action names the belief behind it",
        ),
        ('id = "gauge"', 'id = "gauge"\nwhen = { weather = ["fair"] }', "when: 'weather' is not drawn"),
        ('id = "gauge"', 'id = "gauge"\nopens = true', r"check\[2\].opens: is not known here"),
        ('label = "Dam to dam"\ntext = "{reach} either side of the joint"', 'label = "Hose"\npath = "hose.open_fraction"',
         "hose.open_fraction is what an item asks for"),
    ],
)  # fmt: skip
def test_each_fault_of_a_diagnosis_names_its_key_and_what_is_accepted(
    folder: Path, old: str, new: str, expected: str
) -> None:
    text = (folder / FAMILY).read_text(encoding="utf-8")
    assert old in text
    (folder / FAMILY).write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(ContentFault) as fault:
        load_content(folder)
    assert any(re.search(expected, each) for each in fault.value.lines), fault.value.lines
