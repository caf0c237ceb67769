"""The shape of the project: layers, top-level card, module sizes."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {
    "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml",
    "trainer", "scenarios", "tests", "static", "instance",
}  # fmt: skip


def _tracked(*patterns: str) -> list[str]:
    listed = subprocess.run(
        ["git", "ls-files", *patterns], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return listed.stdout.split("\n")[:-1]


def test_imports_point_inward_only() -> None:
    command = Path(sys.executable).with_name("lint-imports")
    proof = subprocess.run([command], cwd=ROOT, capture_output=True, text=True, check=False)
    assert proof.returncode == 0, proof.stdout


def test_nothing_but_the_known_entries_stands_at_the_top() -> None:
    entries = {name.split("/")[0] for name in _tracked()}
    assert {each for each in entries if not each.startswith(".")} == TOP_LEVEL


def test_modules_have_few_enough_lines_to_have_one_reason_to_change() -> None:
    long = {
        name: count
        for name in _tracked("trainer/*.py")
        if (count := len((ROOT / name).read_text(encoding="utf-8").splitlines())) > 300
    }
    assert long == {}


def test_no_module_is_named_for_having_no_subject() -> None:
    homeless = {"utils.py", "helpers.py", "common.py", "misc.py", "manager.py"}
    assert [name for name in _tracked("*.py") if Path(name).name in homeless] == []


def test_only_its_gitignore_is_kept_of_the_instance_folder() -> None:
    assert _tracked("instance") == ["instance/.gitignore"]


def test_no_two_test_files_share_a_name() -> None:
    # pytest imports them by their bare names, so the second one of a name is not collected
    names = [Path(name).name for name in _tracked("tests/*.py") if Path(name).name.startswith("test_")]
    assert sorted(names) == sorted(set(names))
