"""`trainer check` on the family file of an own job: passed whole, or refused by line and key."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from job_examples import ASKED_TOGETHER, sheet

from trainer.cli import main
from trainer.scenario_files.own_jobs import job_text, read_sheet


@pytest.fixture(scope="module")
def written() -> str:
    """The file of a job that asks as much as a job may."""
    return job_text(read_sheet(sheet(*ASKED_TOGETHER)))


def checked(folder: Path, text: str) -> Result:
    file = folder / "own-job.toml"
    file.write_text(text, encoding="utf-8")
    return CliRunner().invoke(main, ["check", "--seeds", "6", "--jobs", "1", str(file)])


def line_of(text: str, start: str) -> int:
    return next(number for number, line in enumerate(text.splitlines(), start=1) if line.startswith(start))


def test_the_file_of_an_own_job_passes(written, tmp_path):
    done = checked(tmp_path, written)

    assert done.exit_code == 0, done.output
    assert "own-job: 6 drawn" in done.output
    assert re.search(r"6 keys and \d+ other options marked: ok", done.output)


@pytest.mark.parametrize(
    ("old", "new", "key", "told"),
    [
        ("situation =", "situaton =", "situaton", "is not known here"),
        ('material = "austenitic stainless"', 'material = "tin"', "set_up.material", "austenitic stainless"),
        ('"pipe.nps" = "6"', '"pipe.nps" = "6.3"', "set_up.pipe.nps", "'6.3' is not a size"),
        ("weight = 1.0", 'weight = "heavy"', "item[1].weight", "number"),
    ],
)
def test_each_fault_is_told_with_line_and_key(written, tmp_path, *, old, new, key, told):
    broken = written.replace(old, new, 1)
    done = checked(tmp_path, broken)

    assert done.exit_code == 2
    assert f"line {line_of(broken, new)}: {key}: " in done.output
    assert told in done.output
