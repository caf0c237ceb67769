"""Without a browser the browser tests are left out in the open: a line says so, and in CI the run fails."""

import os
import subprocess
import sys
from pathlib import Path

import browsers
import pytest

ROOT = Path(__file__).resolve().parents[1]


def run_without_a_browser(tmp_path: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """One file of browser tests together with one other test, on a path that holds no browser."""
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-n", "0", "-q", "tests/browser/test_axe_source.py", "tests/browser/test_practising_by_hand.py"],
        cwd=ROOT,
        env={**os.environ, "PATH": str(tmp_path), "CI": "", **environment},
        capture_output=True,
        text=True,
        check=False,
    )  # fmt: skip


def test_a_run_without_a_browser_says_so_in_one_line(tmp_path):
    done = run_without_a_browser(tmp_path)

    assert done.returncode == 0, done.stdout
    assert done.stdout.splitlines().count(browsers.NO_BROWSER) == 1
    assert "passed" in done.stdout
    assert "skipped" not in done.stdout


def test_in_ci_it_fails(tmp_path):
    done = run_without_a_browser(tmp_path, CI="true")

    assert done.returncode == 1
    assert f"FAILED: {browsers.NO_BROWSER}" in done.stdout.splitlines()


@pytest.mark.parametrize("name", browsers.NAMES)
def test_every_browser_of_the_family_is_found_by_its_name(name, tmp_path, monkeypatch):
    program = tmp_path / name
    program.write_text("#!/bin/sh\n", encoding="ascii")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))

    assert browsers.installed_browser() == str(program)
