"""Reads what parts of a family file share: set-up paths, core results and conditions on them."""

from collections.abc import Mapping
from typing import Any

from trainer.domain.errors import Missing
from trainer.domain.family import RIGHT, Condition, ResultOf, Variant
from trainer.domain.result_kinds import RESULTS
from trainer.domain.set_up_paths import spec_at
from trainer.scenario_files.tables import Table, value_of


def flat_set_up(written: Mapping[str, Any], table: Table) -> dict[str, Any]:
    """A set-up as nested tables or dotted keys, by path; unknown paths become faults."""
    flat: dict[str, Any] = {}
    _flatten(written, "", flat)
    for path in flat:
        try:
            spec_at(path)
        except Missing:
            table.fault(path, "a set-up has no such field")
    return flat


def _flatten(written: Any, path: str, flat: dict[str, Any]) -> None:
    if isinstance(written, Mapping):
        inner = [(f"{path}.{key}" if path else key, each) for key, each in written.items()]
    elif isinstance(written, list):
        inner = [(f"{path}.{place}", each) for place, each in enumerate(written)]
    else:
        flat[path] = value_of(written)
        return
    for key, each in inner:
        _flatten(each, key, flat)


def read_result(table: Table, known: tuple[str, ...]) -> ResultOf:
    """`of` (a set-up, the right one when left out), `result` and `times`."""
    return ResultOf(
        of=table.one_of("of", known, default=RIGHT),
        result=table.one_of("result", tuple(RESULTS)),
        times=_times(table),
        others=tuple(_known(table, each, known) for each in table.words("others")),
    )


def _times(table: Table) -> float | str:
    """A number, or the name in braces of a drawn one."""
    written = table.written.get("times")
    return table.text("times") if isinstance(written, str) else table.number("times", default=1.0)


def _known(table: Table, name: str, known: tuple[str, ...]) -> str:
    if name not in known:
        table.fault("others", f"{name!r} is not one of {', '.join(known)}")
    return name


def read_value(table: Table, name: str, known: tuple[str, ...], *, required: bool = True) -> Any:
    """A value, or a core result where a table with `result` stands."""
    written = table.value(name, required=required)
    if not isinstance(written, Mapping):
        return written
    inner = table.inner(name)
    found = read_result(inner, known)
    inner.close()
    return found


def read_variant(table: Table, known: tuple[str, ...]) -> Variant:
    """Set-up values; under `derived` core results by path, under `copied` other paths by path."""
    derived = {path: read_result(each, known) for path, each in table.named_tables("derived").items()}
    copied = {path: str(source) for path, source in table.mapping("copied").items()}
    flat_set_up(dict.fromkeys((*derived, *copied, *copied.values()), 0), table)
    values = {name: each for name, each in table.written.items() if name not in ("derived", "copied")}
    return Variant(set_up=flat_set_up(values, table), derived=derived, copied=copied)


def read_condition(table: Table, known: tuple[str, ...]) -> Condition:
    """A result with one of `above`, `below`, `is`, `never`; what stands there is an amount or a result."""
    left = read_result(table, known)
    relations = [each for each in ("above", "below", "is", "never") if table.has(each)]
    if len(relations) != 1:
        table.fault("", "needs exactly one of above, below, is, never")
        relations = relations[:1] or ["is"]
    relation = relations[0]
    right = read_value(table, relation, known)
    condition = Condition(
        left=left,
        relation="is never" if relation == "never" else relation,
        right=right,
        clear_ratio=table.number("clear", default=1.01),
        span=table.span(),
    )
    table.close()
    return condition
