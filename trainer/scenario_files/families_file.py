"""Loads one family file; each part's reader and the family types say what may stand there."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from trainer import units
from trainer.domain.families import fixed_set_up
from trainer.domain.family import (
    RIGHT,
    Choice,
    FactTemplate,
    Figure,
    NamedDraw,
    ScenarioFamily,
)
from trainer.domain.hazards import HazardCatalogue
from trainer.domain.people import UnitSystem
from trainer.domain.quantities import Dimension
from trainer.domain.result_kinds import RESULTS
from trainer.domain.set_up_faults import faults_of
from trainer.domain.skills import SKILLS
from trainer.scenario_files.family_checks import check_names
from trainer.scenario_files.faults import Findings
from trainer.scenario_files.inch_edition import INCH_EDITION, in_inches, with_inch_figures
from trainer.scenario_files.items_file import read_item
from trainer.scenario_files.parts_file import flat_set_up, read_condition, read_result, read_variant
from trainer.scenario_files.tables import Table, value_of
from trainer.wording.faults import fault_words
from trainer.wording.quantities import unit_sign


def load_family(
    path: Path, *, hazards: HazardCatalogue, findings: Findings, edition: UnitSystem = UnitSystem.METRIC
) -> ScenarioFamily | None:
    """The family in one of its editions; None, with the faults among the findings, for an unusable file."""
    source = FamilySource(id=path.stem, file=path.name, written=path.read_bytes())
    return read_family(source, hazards=hazards, findings=findings, edition=edition)


@dataclass(frozen=True, kw_only=True)
class FamilySource:
    """What a family is read from: its id, the name that faults say, and the bytes of the file."""

    id: str
    file: str
    written: bytes


def read_family(
    source: FamilySource, *, hazards: HazardCatalogue, findings: Findings, edition: UnitSystem
) -> ScenarioFamily | None:
    """The same from bytes that lie anywhere."""
    before = len(findings.lines)
    findings.texts[source.file] = source.written.decode(errors="replace")
    try:
        found = tomllib.loads(source.written.decode())
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        findings.add(source.file, "file", f"is not TOML: {error}")
        return None
    is_inch = edition is UnitSystem.INCH_POUND
    if is_inch:
        # The numbers of a real job stay what they are; only what the core works out is said in inches.
        found = with_inch_figures(found) if found.get("fixed") is True else in_inches(found)
    top = Table(found, file=source.file, key="", findings=findings)
    told = source.written + hazards.version.encode()
    if is_inch:
        told += f"{edition} {INCH_EDITION}".encode()
    family = _family(source.id, top, sha256(told).hexdigest()[:16], hazards)
    top.close()
    if len(findings.lines) == before:
        check_names(family, top)
    if family.fixed and len(findings.lines) == before:
        _check_fixed(family, top)
    return family if len(findings.lines) == before else None


def _check_fixed(family: ScenarioFamily, top: Table) -> None:
    """What contradicts in a set-up that no draw can mend, each fault at its own key."""
    for fault in faults_of(fixed_set_up(family)):
        top.fault(f"set_up.{fault.path}", fault_words(fault, str))


def _family(family_id: str, top: Table, version: str, hazards: HazardCatalogue) -> ScenarioFamily:
    tables = top.named_tables("variant")
    known = (RIGHT, *tables)
    variants = {name: read_variant(each, known) for name, each in tables.items()}
    family = ScenarioFamily(
        id=family_id,
        fixed=top.truth("fixed", default=False),
        title=top.text("title"),
        subtitle=top.text("subtitle"),
        skills=_skills(top),
        situation=top.text("situation"),
        draws=tuple(_draw(each) for each in top.tables("draw", required=True)),
        set_up=flat_set_up(top.mapping("set_up"), top),
        variants=variants,
        constraints=tuple(read_condition(each, known) for each in top.tables("constraint")),
        facts=tuple(_fact(each) for each in top.tables("fact", required=True)),
        figures={name: _figure(each, known) for name, each in top.named_tables("figure").items()},
        items=tuple(read_item(each, known, hazards) for each in top.tables("item", required=True)),
        content_version=version,
    )
    if family.fixed and any(len(each.choices) > 1 for each in family.draws):
        top.fault("fixed", "numbers that are fixed leave nothing to draw: one choice in each draw")
    return family


def _skills(top: Table) -> tuple[int, ...]:
    numbers = tuple(int(each) for each in top.numbers("skills"))
    known = {each.number for each in SKILLS}
    if not numbers or not known.issuperset(numbers):
        top.fault("skills", f"names at least one skill from 1 to {len(SKILLS)}")
    return numbers


def _draw(table: Table) -> NamedDraw:
    """`name`, and `of`: the stock list, each a value or a table with `is` and what comes with it."""
    name = table.text("name")
    listed = table.written.get("of")
    table.value("of")
    if not isinstance(listed, list) or not listed:
        table.fault("of", "is not a list of choices")
        listed = []
    table.close()
    choices = tuple(_choice(each, place, table) for place, each in enumerate(listed, start=1))
    return NamedDraw(name=name, choices=choices)


def _choice(written: Any, place: int, draw: Table) -> Choice:
    if not isinstance(written, Mapping) or "is" not in written:
        return Choice(value=value_of(written))
    table = Table(written, file=draw.file, key=f"{draw.key}.of[{place}]", findings=draw.findings)
    choice = Choice(
        value=table.value("is"),
        span=table.span(),
        cue=table.text("cue", default=""),
        set_up=flat_set_up(table.mapping("set_up"), table),
    )
    table.close()
    return choice


def _fact(table: Table) -> FactTemplate:
    fact = FactTemplate(
        label=table.text("label"),
        path=table.text("path", default=""),
        text=table.text("text", default=""),
        span=table.span(),
    )
    if not fact.path and not fact.text:
        table.fault("", "needs a path or a text")
    if fact.path:
        flat_set_up({fact.path: 0}, table)
    table.close()
    return fact


def _figure(table: Table, known: tuple[str, ...]) -> Figure:
    source = read_result(table, known)
    dimension = RESULTS[source.result].dimension
    unit = table.text("unit", default="")
    per_unit, offset = _unit(table, unit, dimension)
    figure = Figure(
        source=source,
        unit=unit_sign(unit),
        si_per_unit=per_unit,
        si_offset=offset,
        digits=table.whole("digits", default=2),
        end=table.one_of("end", ("expected", "lower", "upper"), default="expected"),
    )
    table.close()
    return figure


def _unit(table: Table, unit: str, dimension: Dimension | None) -> tuple[float, float]:
    """What one unit is in SI, and its zero."""
    if dimension is None:
        if unit:
            table.fault("unit", "this result has none")
        return 1.0, 0.0
    try:
        zero = units.parse(f"0 {unit}", dimension)
        return units.parse(f"1 {unit}", dimension) - zero, zero
    except units.UnitFault as fault:
        table.fault("unit", str(fault))
        return 1.0, 0.0
