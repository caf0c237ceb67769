"""Loads a site policy from its file; every fault is named with file, key and what is accepted there."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from trainer import units
from trainer.core.backing_gas import BackingRule, BackingVerdict, GasPart
from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.caution_quantities import QUANTITIES
from trainer.domain.policy import (
    LOST_ROOT_CODE,
    Compare,
    OxygenLimit,
    Policy,
    QualificationRules,
    Threshold,
)
from trainer.domain.quantities import Dimension
from trainer.scenario_files.faults import ContentFault, Findings
from trainer.scenario_files.policy_reading import (
    TableReader,
    flag,
    fraction,
    status_letter,
    whole,
    within,
    words,
)

DEFAULT_POLICY = Path(__file__).resolve().parents[2] / "scenarios" / "policy.toml"
_LONGEST_FILE_BYTES = 1_000_000


def load_policy(path: Path) -> Policy:
    """The policy that a file holds; raises ContentFault with every fault of the file."""
    findings = Findings()
    document = _document(path, findings)
    policy = _policy(TableReader(path.name, findings), document)
    if findings.lines:
        raise ContentFault(tuple(findings.lines))
    assert policy is not None  # no fault, so everything was read
    return policy


def _document(path: Path, findings: Findings) -> dict[str, Any]:
    try:
        data = path.read_bytes()
        if len(data) > _LONGEST_FILE_BYTES:
            raise ValueError(f"the file has {len(data)} bytes; accepted up to {_LONGEST_FILE_BYTES}")
        return tomllib.loads(data.decode())
    except (OSError, ValueError) as error:
        findings.add(path.name, "file", str(error))
        raise ContentFault(tuple(findings.lines)) from error


_KEYS = (
    "version", "pass_mark", "quantity_safe_zero_ratio", "oxygen_limits", "thresholds", "qualification",
)  # fmt: skip
_OPTIONAL_KEYS = ("root_grades", "gas_rules")
_MATERIALS = ", ".join(MaterialGroup)
_GRADES = tuple(each for each in RootGrade if each is not RootGrade.SUGARED)


def _policy(reader: TableReader, document: dict[str, Any]) -> Policy | None:
    top = reader.table(document, "", _KEYS, optional=_OPTIONAL_KEYS)
    thresholds = _thresholds(reader, top.get("thresholds"))
    if all(each.code != LOST_ROOT_CODE for each in thresholds):
        reader.fault("thresholds", f"missing; accepted: a row with the code {LOST_ROOT_CODE!r}")
    qualification = _qualification(reader, top.get("qualification"))
    values = {
        "version": reader.read(words, top.get("version"), "version", "a short text"),
        "oxygen_limits": _oxygen_limits(reader, top.get("oxygen_limits")),
        "thresholds": thresholds,
        "pass_mark_frac": reader.read(within(0.0, 1.0), top.get("pass_mark"), "pass_mark", "above 0 up to 1"),
        "quantity_safe_zero_ratio": reader.read(
            within(1.0, 100.0),
            top.get("quantity_safe_zero_ratio"),
            "quantity_safe_zero_ratio",
            "above 1 up to 100",
        ),
        "gas_rules": _gas_rules(reader, top["gas_rules"]) if "gas_rules" in top else (),
        "root_grades": _root_grades(reader, top.get("root_grades", {})),
    }
    if reader.findings.lines or qualification is None:
        return None
    return Policy(**values, qualification=qualification)


def _oxygen_limits(reader: TableReader, value: Any) -> dict[MaterialGroup, OxygenLimit]:
    table = reader.table(value, "oxygen_limits", tuple(MaterialGroup))
    limits = {}
    for name in (each for each in MaterialGroup if each in table):
        where = f"oxygen_limits.{name}"
        row = reader.table(table[name], where, ("oxygen", "source", "status"))
        frac = reader.read(fraction, row.get("oxygen"), f"{where}.oxygen", "above 0 up to 20 %, as '0.1 %'")
        source, status = _source(reader, row, where)
        if frac is not None:
            limits[name] = OxygenLimit(frac=frac, source=source, status=status)
    return limits


def _root_grades(reader: TableReader, value: Any) -> dict[MaterialGroup, dict[RootGrade, float]]:
    table = reader.table(value, "root_grades", (), optional=tuple(MaterialGroup))
    found = {}
    for name in (each for each in MaterialGroup if each in table):
        row = reader.table(table[name], f"root_grades.{name}", _GRADES)
        uppers = {
            RootGrade(grade): reader.read(
                fraction, row.get(grade), f"root_grades.{name}.{grade}", "above 0 up to 20 %, as '100 ppm'"
            )
            for grade in _GRADES
        }
        if None not in uppers.values():
            found[name] = uppers
            if list(uppers.values()) != sorted(uppers.values()):
                reader.fault(
                    f"root_grades.{name}", "each grade reaches to at least the oxygen of the one before"
                )
    return found


def _gas_rules(reader: TableReader, value: Any) -> tuple[BackingRule, ...]:
    rules = []
    for where, row in _rows(
        reader, value, "gas_rules", ("material", "part", "verdict", "why", "source", "status")
    ):
        source, status = _source(reader, row, where)
        group = reader.read(MaterialGroup, row.get("material"), f"{where}.material", _MATERIALS)
        part = reader.read(GasPart, row.get("part"), f"{where}.part", ", ".join(GasPart))
        verdict = reader.read(
            BackingVerdict, row.get("verdict"), f"{where}.verdict", ", ".join(BackingVerdict)
        )
        why = reader.read(words, row.get("why"), f"{where}.why", "a short text")
        if None not in (group, part, verdict, why):
            rules.append(
                BackingRule(group=group, part=part, verdict=verdict, why=why, source=source, status=status)
            )
    return tuple(rules)


_ROW_KEYS = ("code", "quantity", "compare", "value", "source", "status", "site_may_change")


def _thresholds(reader: TableReader, value: Any) -> tuple[Threshold, ...]:
    found = (_threshold(reader, row, where) for where, row in _rows(reader, value, "thresholds", _ROW_KEYS))
    return tuple(each for each in found if each is not None)


def _threshold(reader: TableReader, row: dict[str, Any], where: str) -> Threshold | None:
    source, status = _source(reader, row, where)
    quantity = reader.read(_known_quantity, row.get("quantity"), f"{where}.quantity", ", ".join(QUANTITIES))
    code = reader.read(words, row.get("code"), f"{where}.code", "a stable word such as vent-too-large")
    compare = reader.read(Compare, row.get("compare"), f"{where}.compare", " ".join(Compare))
    may_change = reader.read(flag, row.get("site_may_change"), f"{where}.site_may_change", "true or false")
    if quantity is None:
        return None
    dimension = QUANTITIES[quantity].dimension
    accepted = f"a text such as {units.example(dimension)!r}" if dimension else "a plain number as text, '1'"
    measured = reader.read(_measured(dimension), row.get("value"), f"{where}.value", accepted)
    if None in (code, compare, may_change, measured):
        return None
    number, unit = measured
    return Threshold(
        code=code, quantity=quantity, compare=compare, value=number, unit=unit,
        source=source, status=status, site_may_change=may_change,
    )  # fmt: skip


_COUNTS = ("validity_months", "confirmation_months", "due_days", "scenarios_behind_a_critical")
_RATIOS = ("diameter_from_ratio", "diameter_to_ratio", "length_to_ratio")


def _qualification(reader: TableReader, value: Any) -> QualificationRules | None:
    row = reader.table(value, "qualification", (*_COUNTS, *_RATIOS, "source"))
    counts = {
        key: reader.read(whole, row.get(key), f"qualification.{key}", "a whole number, 1 to 1000")
        for key in _COUNTS
    }
    ratios = {
        key: reader.read(within(0.0, 100.0), row.get(key), f"qualification.{key}", "above 0 up to 100")
        for key in _RATIOS
    }
    source = reader.read(words, row.get("source"), "qualification.source", "a text")
    values = {**counts, **ratios, "source": source}
    return None if None in values.values() else QualificationRules(**values)


def _rows(
    reader: TableReader, value: Any, name: str, keys: tuple[str, ...]
) -> list[tuple[str, dict[str, Any]]]:
    if not isinstance(value, list) or not value:
        reader.fault(name, f"a list of tables [[{name}]] is accepted here")
        return []
    return [
        (f"{name}[{place}]", reader.table(row, f"{name}[{place}]", keys)) for place, row in enumerate(value)
    ]


def _source(reader: TableReader, row: dict[str, Any], where: str) -> tuple[str, str]:
    source = reader.read(words, row.get("source"), f"{where}.source", "a text that says who recommends it")
    status = reader.read(status_letter, row.get("status"), f"{where}.status", "a, b, c or d")
    return source or "", status or ""


def _known_quantity(value: Any) -> str:
    if value not in QUANTITIES:
        raise ValueError
    return str(value)


def _measured(dimension: Dimension | None) -> Callable[[Any], tuple[float, str]]:
    def read(value: Any) -> tuple[float, str]:
        if dimension is None:
            return float(words(value)), ""
        return units.parse(words(value), dimension), str(value).lstrip("+-0123456789., ")

    return read
