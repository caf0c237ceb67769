"""Two set-ups side by side: what differs in them, and in what the core says of each."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext
from markupsafe import Markup

from trainer import units
from trainer.domain.quantities import FieldKind
from trainer.domain.set_up_paths import spec_at
from trainer.drawing.two_traces import two_traces
from trainer.services.bench_set_up import WorkedOut
from trainer.set_up_files.addresses import written_in_address
from trainer.web.bench.set_up_labels import BRANCH_LIST, GROUPS, PATH_LIST, RowList
from trainer.web.bench.set_up_view import BenchView
from trainer.web.figures import shown
from trainer.web.forms.set_up_fields import NUMBERS
from trainer.web.forms.typed import as_typed
from trainer.web.preferences import drawing_reader
from trainer.web.run_pictures import trace_marks

A, B = "A", "B"


@dataclass(frozen=True, kw_only=True)
class Difference:
    """One line: what it is, as it is in A and in B."""

    label: str
    a: str
    b: str


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """A beside B."""

    a: BenchView
    in_set_up: tuple[Difference, ...]
    in_results: tuple[Difference, ...]
    plot: Markup | None


def compared(a: WorkedOut, b: WorkedOut, *, a_view: BenchView, b_view: BenchView) -> Comparison:
    """What differs between two set-ups that were worked out."""
    return Comparison(
        a=a_view,
        in_set_up=tuple(_set_up_differences(a, b)),
        in_results=tuple(
            Difference(
                label=one.label, a=_figure(one.words, one.beside), b=_figure(other.words, other.beside)
            )
            for one, other in zip(a_view.figures, b_view.figures, strict=True)
        )
        + _cautions(a_view, b_view),
        plot=_plot(a, b),
    )


def _figure(words: str, beside: str) -> str:
    return f"{words} ({beside})" if beside else words


def _cautions(a: BenchView, b: BenchView) -> tuple[Difference, ...]:
    told = [" ".join(each.text for each in view.cautions) or gettext("none") for view in (a, b)]
    return (Difference(label=gettext("Cautions"), a=told[0], b=told[1]),)


def _set_up_differences(a: WorkedOut, b: WorkedOut) -> list[Difference]:
    paths = [*a.values, *(path for path in b.values if path not in a.values)]
    return [
        Difference(label=label_of(path), a=value_words(path, a.values), b=value_words(path, b.values))
        for path in paths
        if _meant(path, a.values) != _meant(path, b.values)
    ]


def _meant(path: str, values: Mapping[str, Any]) -> Any:
    """The value itself, so that 12 in is no change of 304.8 mm."""
    dimension, value = spec_at(path).dimension, values.get(path)
    if value is None or dimension is None:
        return value
    return units.as_meant(units.parse(str(value), dimension), dimension)


def value_words(path: str, values: Mapping[str, Any]) -> str:
    """A value in the reader's units; a dash where there is none."""
    spec, value = spec_at(path), values.get(path)
    if value is None:
        return "–"
    if spec.kind is FieldKind.MEASURED and spec.dimension is not None:
        return shown(units.parse(str(value), spec.dimension), spec.dimension)
    if spec.kind is FieldKind.FLAG:
        return gettext("yes") if value else gettext("no")
    text = written_in_address(value)
    if spec.kind in NUMBERS:
        return as_typed(text)
    return gettext(text) if spec.kind is FieldKind.CHOICE else text


def label_of(path: str) -> str:
    """What the bench calls a field; a row of a list by its place."""
    for group in GROUPS:
        if path in group.labels:
            return str(group.labels[path])
        for rows in group.lists:
            if path.startswith(f"{rows.path}."):
                return _row_label(rows, path[len(rows.path) + 1 :].split("."))
    return path


def _row_label(rows: RowList, way: list[str]) -> str:
    row = str(rows.row) % {"number": int(way[0]) + 1}
    if rows is PATH_LIST and way[1] == BRANCH_LIST.path and len(way) > 2:
        inner = _row_label(BRANCH_LIST, way[2:])
        return gettext("%(row)s: %(field)s", row=row, field=inner)
    return gettext("%(row)s: %(field)s", row=row, field=str(rows.labels.get(way[1], way[1])))


def _plot(a: WorkedOut, b: WorkedOut) -> Markup | None:
    traces = []
    for letter, worked in ((A, a), (B, b)):
        marks, purge = trace_marks(worked.set_up, worked.run), worked.run.purge
        if marks is not None and purge is not None:
            traces.append((letter, purge.trace, marks))
    return Markup(two_traces(traces, reader=drawing_reader("two-traces"))) if len(traces) == 2 else None
