"""What README and DEVELOPERS promise is there: commands, settings, paths."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
from click.testing import CliRunner

from trainer import config
from trainer.cli import main
from trainer.core.gas_designation import gas_of_designation
from trainer.core.gas_shares import composition_of
from trainer.set_up_files.schema_making import answer_schema, set_up_schema

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


SOLVING = README[README.index("## What `trainer solve` takes") : README.index("## A site of your own")]


def test_the_set_up_in_the_readme_is_solved_as_it_stands() -> None:
    (example,) = re.findall(r"```json\n(.*?)```", README, re.DOTALL)
    result = CliRunner().invoke(main, ["solve", "-"], input=example)
    assert (result.exit_code, result.stderr) == (0, "")
    answer = json.loads(result.stdout)
    assert answer["purge"]["oxygen_after_wait_ppm"]["expected"] < 1000.0
    assert answer["cautions"] == []


def _said(schema: Any, path: str = "") -> Iterator[str]:
    """Every key of a schema by its path and by its name, and every word of a choice."""
    for key, field in schema.get("properties", {}).items():
        here = f"{path}{key}"
        yield from (here, key, *field.get("enum", ()))
        yield from _said(field.get("items", field), f"{here}.")


def test_every_key_and_word_that_the_readme_names_for_solving_exists() -> None:
    known = {
        *_said(set_up_schema()["$defs"]["set_up"]),
        *_said(answer_schema()["$defs"]["answer"]),
    }
    named = {each.replace("[]", "") for each in re.findall(r"`([^`\n]+)`", SOLVING.partition("```\n")[2])}
    rest = sorted(each for each in named - known if not each.startswith(("trainer", '"')))
    assert rest == ["Ar + 5 % H2", "ArHe-30", "NH-5", "R1-ArH-5", "answer.json"]
    assert all(composition_of(each) for each in ("Ar + 5 % H2", "ArHe-30", "NH-5"))
    assert gas_of_designation("R1-ArH-5").symbol == "R1"
