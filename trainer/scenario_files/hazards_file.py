"""Loads `hazards.toml`: the catalogue of what may stand in a scene."""

import tomllib
from hashlib import sha256
from pathlib import Path

from trainer.domain.hazards import CatalogueEntry, HazardCatalogue
from trainer.domain.scenario import Severity
from trainer.scenario_files.faults import Findings
from trainer.scenario_files.tables import Table

ZONES = ("pipe", "floor", "low")
_SMALLEST, _LARGEST = 54.0, 78.0  # drawing units: a finger on a phone, and the distance between two places
_WEIGHTS = {Severity.LIFE: 3.0, Severity.WELD: 2.0, Severity.COST: 1.0}


def load_hazards(path: Path, *, findings: Findings) -> HazardCatalogue:
    """The catalogue; faults go to the findings, and an entry with faults is still there."""
    written = path.read_bytes()
    try:
        found = tomllib.loads(written.decode())
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        findings.add(path.name, "file", f"is not TOML: {error}")
        found = {}
    top = Table(found, file=path.name, key="", findings=findings)
    signs = top.words("signs")
    entries = {key: _entry(key, table, signs) for key, table in top.named_tables("entry").items()}
    top.close()
    return HazardCatalogue(version=sha256(written).hexdigest()[:16], entries=entries)


def _entry(key: str, table: Table, signs: tuple[str, ...]) -> CatalogueEntry:
    severity = None
    if table.has("severity"):
        severity = Severity(table.one_of("severity", [each.value for each in Severity]))
    entry = CatalogueEntry(
        key=key,
        sign=table.one_of("sign", signs or ("",)),
        text=table.text("text"),
        zone=table.one_of("zone", ZONES),
        width=_side(table, "width"),
        height=_side(table, "height"),
        why=table.text("why"),
        severity=severity,
        critical=table.truth("critical", default=False),
        weight=_WEIGHTS[severity] if severity is not None else 0.0,
        right_action=table.text("right_action", default="" if severity is None else None),
    )
    if entry.critical and severity is not Severity.LIFE:
        table.fault("critical", "only what can cost a life is critical")
    table.close()
    return entry


def _side(table: Table, name: str) -> float:
    side = table.number(name)
    if not _SMALLEST <= side <= _LARGEST:
        table.fault(name, f"{side:g} lies outside {_SMALLEST:g} to {_LARGEST:g} drawing units")
    return side
