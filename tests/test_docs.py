"""What README and DEVELOPERS promise is there: commands, settings, paths."""

import re
from pathlib import Path

import click

from trainer import config
from trainer.cli import main

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
RUN = "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/trainer demo"
TEST = "python3 -m venv .venv && .venv/bin/pip install -e '.[test]' && .venv/bin/python -m pytest"


def test_the_readme_opens_with_the_job_and_holds_the_two_commands() -> None:
    assert README.startswith("# Brightroot\n\nBefore a stainless")
    lines = README.splitlines()
    assert lines.count(RUN) == 1
    assert lines.count(TEST) == 1


def test_every_command_of_the_tool_is_in_the_readme() -> None:
    with click.Context(main) as context:
        commands = main.list_commands(context)
    assert [each for each in commands if f"`trainer {each}" not in README] == []


def test_every_setting_is_in_the_readme() -> None:
    settings = [config.DATA, config.SECRET_KEY, *(f"BRIGHTROOT_{each.upper()}" for each in config.IN_FILE)]
    assert [each for each in settings if f"`{each}`" not in README] == []


def test_paths_that_the_developers_guide_names_exist() -> None:
    named = re.findall(r"`((?:trainer|tests|scenarios|static|instance|\.ci)/[\w./-]*)`", DEVELOPERS)
    assert len(named) > 10
    assert [each for each in named if not (ROOT / each).exists()] == []
