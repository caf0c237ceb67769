"""The line that a fault of a content file is told with."""

import pytest

from trainer.scenario_files.content import FOLDER
from trainer.scenario_files.families_file import load_family
from trainer.scenario_files.faults import Findings
from trainer.scenario_files.hazards_file import load_hazards
from trainer.scenario_files.key_lines import line_of

TEXT = """\
title = "Night shift"

[[draw]]
name = "place"
of = ["here"]

[[item]]
id = "first"

[[item.option]]
text = "a"

[[item.option]]
text = "b"

[[item]]
id = "second"

[[item.option]]
text = "c"

[figure.volume]
result = "section volume"
"""


@pytest.mark.parametrize(
    ("key", "line"),
    [
        ("title", 1), ("draw[1].of", 5), ("item[1].option[2].text", 14), ("item[2].id", 17),
        ("item[2].option[1].text", 20), ("figure.volume.result", 23),
        ("item[2].option[1].belief", 19),  # missing: the table that it is missing from
        ("nothing", None),
    ],
)  # fmt: skip
def test_a_key_is_found_on_its_line(key, line):
    assert line_of(TEXT, key) == line


def test_a_fault_of_a_family_names_file_line_and_key(tmp_path):
    written = (FOLDER / "families" / "pump-pit.toml").read_text()
    spoilt = written.replace('kind = "quantity"', 'kind = "quantty"', 1)
    path = tmp_path / "pump-pit.toml"
    path.write_text(spoilt)
    findings = Findings()
    hazards = load_hazards(FOLDER / "hazards.toml", findings=findings)
    assert load_family(path, hazards=hazards, findings=findings) is None
    number = spoilt.splitlines().index('kind = "quantty"') + 1
    assert any(
        each.startswith(f"pump-pit.toml: line {number}: item[1].kind: 'quantty' is not one of")
        for each in findings.lines
    ), findings.lines
