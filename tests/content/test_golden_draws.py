"""The same family, seed and difficulty give the same scenario: here, in another process, under any hash seed."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from golden_draws import FOLDER, drawn

from trainer.scenario_files import load_content

FAMILIES = tuple(load_content().families)


# A key is kept as it would be typed, to the last digit, in whichever unit gives the same float back: another machine's
# floats differ in that digit, and then the unit may differ too ('6.52699506616125 min', '391.61970396968144 s').
_TYPED = re.compile(r"(?P<figure>-?\d+\.\d{10,}(?:e-?\d+)?) (?P<unit>\S+)")

_SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0}


def _amount(typed: re.Match[str]) -> dict[str, float]:
    unit = typed["unit"]
    return {"s" if unit in _SECONDS else unit: float(typed["figure"]) * _SECONDS.get(unit, 1.0)}


def assert_same(found: Any, kept: Any, where: str = "") -> None:
    """Equal, numbers of the core to 1e-9."""
    if isinstance(kept, float) and isinstance(found, float):
        assert found == pytest.approx(kept, rel=1e-9), where
    elif isinstance(kept, str) and (key := _TYPED.fullmatch(kept)):
        assert (again := _TYPED.fullmatch(found)), where
        assert _amount(again) == pytest.approx(_amount(key), rel=1e-9), where
    elif isinstance(kept, dict):
        assert found.keys() == kept.keys(), where
        for key in kept:
            assert_same(found[key], kept[key], f"{where}.{key}")
    elif isinstance(kept, list):
        assert len(found) == len(kept), where
        for place, each in enumerate(kept):
            assert_same(found[place], each, f"{where}[{place}]")
    else:
        assert found == kept, where


@pytest.mark.parametrize("family", FAMILIES)
def test_a_draw_is_the_one_that_is_kept(family: str) -> None:
    kept = json.loads((FOLDER / f"{family}.json").read_text(encoding="utf-8"))
    assert_same(json.loads(json.dumps(drawn(family))), kept)


def test_no_golden_file_is_left_over() -> None:
    assert {each.stem for each in FOLDER.glob("*.json")} == set(FAMILIES)


@pytest.mark.parametrize("hash_seed", ["1", "4242"])
def test_another_process_with_another_hash_seed_draws_the_same(hash_seed: str) -> None:
    script = Path(__file__).parent / "golden_draws.py"
    printed = subprocess.run(
        [sys.executable, str(script), "--print"],
        capture_output=True,
        check=True,
        text=True,
        env={**os.environ, "PYTHONHASHSEED": hash_seed},
    ).stdout
    assert json.loads(printed) == json.loads(json.dumps({each: drawn(each) for each in FAMILIES}))
