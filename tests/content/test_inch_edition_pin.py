"""Who changes what the inch edition makes raises its version, or stored draws would name content that is no more."""

import json
import re
from pathlib import Path

import inch_edition_pin
import pytest
from inch_edition_pin import PIN, made_of, write_pin

from trainer.domain.people import UnitSystem
from trainer.scenario_files import families_file
from trainer.scenario_files.content import FOLDER, load_one_family
from trainer.scenario_files.inch_edition import INCH_EDITION

KEPT = json.loads(PIN.read_text(encoding="utf-8"))


@pytest.mark.parametrize("family", KEPT["metric"])
def test_the_edition_makes_what_its_version_stands_for(family: str) -> None:
    assert made_of({family: KEPT["metric"][family]})[family] == KEPT["inch"][family], (
        "raise INCH_EDITION, then run tests/content/inch_edition_pin.py"
    )


def test_the_pin_is_of_the_present_version() -> None:
    assert KEPT["version"] == INCH_EDITION


def test_the_pin_holds_every_unit_that_the_edition_writes() -> None:
    made = json.dumps(KEPT["inch"], ensure_ascii=False)
    written = set(re.findall(r"\d (in/min|inH2O|ft\^[23]|in\^2|in|ft|cfh|psi|mph|°F)(?![\w/^])", made))
    assert written == {
        "in/min", "inH2O", "ft^2", "ft^3", "in^2", "in", "ft", "cfh", "psi", "mph", "°F",
    }  # fmt: skip


def test_a_change_is_not_pinned_under_the_old_version(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pin = tmp_path / "pin.json"
    pin.write_text(json.dumps({**KEPT, "inch": {}}), encoding="utf-8")
    with pytest.raises(SystemExit, match="raise INCH_EDITION"):
        write_pin(pin, anew=False)
    monkeypatch.setattr(inch_edition_pin, "INCH_EDITION", "raised")
    write_pin(pin, anew=False)
    assert json.loads(pin.read_text(encoding="utf-8")) == {**KEPT, "version": "raised"}


def test_a_raised_version_gives_the_inch_edition_alone_another_content_version(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def versions() -> dict[UnitSystem, str]:
        path = FOLDER / "families" / "pump-pit.toml"
        return {each: load_one_family(path, edition=each).content_version for each in UnitSystem}

    before = versions()
    monkeypatch.setattr(families_file, "INCH_EDITION", "raised")
    after = versions()
    assert after[UnitSystem.METRIC] == before[UnitSystem.METRIC]
    assert after[UnitSystem.INCH_POUND] != before[UnitSystem.INCH_POUND]
