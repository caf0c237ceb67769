"""What the inch edition makes of amounts as families tell them, kept with the version that made it so.

Run it after a meant change, with the version raised; it writes nothing where the output differs and the version does
not. What goes in is kept as well, so that an edit of the library moves nothing here; `--anew` takes it from there.
It pins our own output, so that drift shows.
"""

import json
import sys
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from babel.messages.pofile import read_po

from trainer.scenario_files.content import FOLDER
from trainer.scenario_files.inch_edition import (
    INCH_EDITION,
    WORKED,
    in_inches,
    text_in_inches,
    told_amounts,
    with_inch_figures,
)

PIN = Path(__file__).parent / "pinned" / "inch_edition.json"
# Between them they tell every kind of amount: gauges, tubes, walls, cards, cold, ranges, Spanish decimals.
FAMILIES = ("closure-weld", "cold-delivery", "foam-store", "hot-work", "last-inch", "pump-pit", "windy-deck")
_NAMES = ("instrument", "unit_hint", "unit")  # what an instrument's scale and a figure's unit go by


def made_of(documents: Mapping[str, Any]) -> dict[str, Any]:
    """What the edition makes of pinned documents: of families, own jobs' figures and Spanish sentences."""
    return {name: _made(each["family"], each["spanish"]) for name, each in documents.items()}


def _made(family: Mapping[str, Any], spanish: list[str]) -> dict[str, Any]:
    told = told_amounts(family)
    return {
        "family": in_inches(family),
        "figure": with_inch_figures(family).get("figure"),
        "said": [text_in_inches(each, told=told) for each in spanish],
        "worked": [text_in_inches(each, key=WORKED[0], told=told) for each in spanish],
    }


def _from_the_library() -> dict[str, Any]:
    return {
        name: {
            "family": _with_amounts(tomllib.loads((FOLDER / "families" / f"{name}.toml").read_text())),
            "spanish": _spanish(name),
        }
        for name in FAMILIES
    }


def _with_amounts(written: Any) -> Any:
    """A document without the sentences that hold no number, which the edition leaves as they are."""
    if isinstance(written, dict):
        kept = {name: _with_amounts(each) for name, each in written.items() if _may_change(name, each)}
        return {name: each for name, each in kept.items() if each not in ({}, [])}
    if isinstance(written, list):
        kept_items = [_with_amounts(each) for each in written if _may_change("", each)]
        return [each for each in kept_items if each not in ({}, [])]
    return written


def _may_change(name: str, written: Any) -> bool:
    return not isinstance(written, str) or name in _NAMES or any(each.isdigit() for each in written)


def _spanish(name: str) -> list[str]:
    with (FOLDER / "es" / f"{name}.po").open("rb") as file:
        said = sorted({str(each.string) for each in read_po(file) if each.id})
    return [each for each in said if _may_change("", each)]


def write_pin(pin: Path, *, anew: bool) -> None:
    """The pin as the edition makes it now; SystemExit where it would hide a change."""
    kept = json.loads(pin.read_text(encoding="utf-8")) if pin.exists() else None
    if kept and kept["version"] == INCH_EDITION and made_of(kept["metric"]) != kept["inch"]:
        raise SystemExit(f"what version {INCH_EDITION} makes has changed: raise INCH_EDITION first")
    metric = _from_the_library() if anew or not kept else kept["metric"]
    pinned = {"version": INCH_EDITION, "metric": metric, "inch": made_of(metric)}
    pin.write_text(json.dumps(pinned, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write_pin(PIN, anew="--anew" in sys.argv[1:])
