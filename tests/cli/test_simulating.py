"""`trainer check --simulate` as a person runs it."""

import re
from pathlib import Path

from click.testing import CliRunner, Result

from trainer.cli import main
from trainer.scenario_files import FOLDER

SPAN = re.compile(r"^(?:from|to) = [\d.]+\n|, (?:from|to) = [\d.]+", re.MULTILINE)


def trainer(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


def test_a_family_is_told_with_slopes_errors_counts_and_a_table() -> None:
    result = trainer(
        "check", "--simulate", "--seeds", "50", "--jobs", "1", str(FOLDER / "families/end-plates.toml")
    )
    assert result.exit_code == 0, result.stderr
    verdict, slopes, counted, head, *rows = result.stdout.splitlines()
    assert verdict == "end-plates: ok"
    assert re.search(r"0 to 1: -0\.\d{3} \(standard error 0\.\d{3}\); a logit of ability: \+0\.\d{3}", slopes)
    assert "Chao1" in counted
    assert "0 repeats" in counted
    assert [float(each) for each in head.split()[1:6]] == [0.0, 0.25, 0.5, 0.75, 1.0]
    assert [float(each.split()[0]) for each in rows if each] == [-2.0, -1.0, 0.0, 1.0, 2.0]


def test_a_family_whose_difficulty_changes_nothing_is_told_and_ends_with_2(tmp_path: Path) -> None:
    flat = tmp_path / "end-plates.toml"
    flat.write_text(SPAN.sub("", (FOLDER / "families/end-plates.toml").read_text()))
    result = trainer("check", "--simulate", "--seeds", "50", "--jobs", "1", str(flat))
    assert result.exit_code == 2
    assert "difficulty is not felt" in result.stderr


def test_too_few_seeds_are_refused() -> None:
    result = trainer("check", "--simulate", "--seeds", "10", str(FOLDER / "families/end-plates.toml"))
    assert result.exit_code == 2
    assert "at least 25" in result.stderr


def test_other_seeds_are_another_sample_of_the_same_family() -> None:
    family = str(FOLDER / "families/end-plates.toml")
    asked = ("check", "--simulate", "--seeds", "25", "--jobs", "1", family)
    first, again = (trainer(*asked, "--first-seed", "5000").stdout for _ in range(2))
    assert first == again
    assert first != trainer(*asked).stdout


def test_seeds_that_habits_come_from_are_never_in_the_trials() -> None:
    result = trainer(
        "check", "--simulate", "--first-seed", "1000000", str(FOLDER / "families/end-plates.toml")
    )
    assert result.exit_code == 2
    assert "--first-seed" in result.stderr
