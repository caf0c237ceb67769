"""The form of a set-up on the bench, made of what it holds: each part of a list has its own rows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext
from flask_babel import lazy_gettext as _l
from werkzeug.datastructures import MultiDict
from wtforms import Field, SelectField
from wtforms.form import BaseForm

from trainer.domain.quantities import FieldKind
from trainer.domain.set_up_paths import spec_at
from trainer.domain.set_up_terms import PathPartKind
from trainer.domain.spool_path import MAY_HAVE, NEEDED
from trainer.set_up_files import Fault
from trainer.set_up_files.addresses import written_in_address
from trainer.web.bench.set_up_labels import BRANCH_LIST, GROUPS, PATH_LIST, Group, RowList
from trainer.web.forms.fields import OFFERED, is_bare_number, offered
from trainer.web.forms.set_up_fields import NUMBERS, field_at, set_up_fault_words
from trainer.web.forms.typed import as_typed
from trainer.web.gases import GAS_CHOICES

DO = "do"
UNIT = "-unit"
_FLAGS = [("", _l("not told")), ("yes", _l("yes")), ("no", _l("no"))]


@dataclass(frozen=True, kw_only=True)
class Row:
    """One part of a list: its legend, its controls, where it is, and the lists within it."""

    path: str
    legend: str
    fields: tuple[Field, ...]
    may_go_before: bool
    lists: tuple["Rows", ...]


@dataclass(frozen=True, kw_only=True)
class Rows:
    """A list: its rows, and the words of the button that adds one where one more may be."""

    path: str
    rows: tuple[Row, ...]
    add: str


@dataclass(frozen=True, kw_only=True)
class Fold:
    """One group of the form; open where there is something in it to see at once."""

    key: str
    title: str
    fields: tuple[Field, ...]
    lists: tuple[Rows, ...]
    is_open: bool


_OPEN = {"pipe", "section", "flow"}


class SetUpForm:
    """The controls for a set-up's values, what was typed in them, and the faults at them."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self.values = values
        self.form_faults: list[str] = []
        controls: dict[str, Any] = {}
        for group in GROUPS:
            controls |= {path: _control(path, label) for path, label in group.labels.items()}
            for rows in group.lists:
                controls |= self._row_controls(rows, rows.path)
        self._form = BaseForm(controls)
        self._form.process(_form_data(values))

    def _row_controls(self, rows: RowList, path: str) -> dict[str, Any]:
        controls: dict[str, Any] = {}
        for number in self._numbers(path):
            row = f"{path}.{number}"
            for key in self._keys(rows, row):
                controls[f"{row}.{key}"] = _control(f"{row}.{key}", rows.labels[key])
            if rows is PATH_LIST:
                controls |= self._row_controls(BRANCH_LIST, f"{row}.branch")
        return controls

    def _numbers(self, path: str) -> list[int]:
        keys = (each[len(path) + 1 :].split(".")[0] for each in self.values if each.startswith(f"{path}."))
        return sorted({int(each) for each in keys})

    def _keys(self, rows: RowList, row: str) -> list[str]:
        """The keys that a row shows: of a part, those that its kind takes and those that are filled."""
        if rows is not PATH_LIST and rows is not BRANCH_LIST:
            return list(rows.labels)
        kind = str(self.values.get(f"{row}.part", ""))
        known = kind in list(PathPartKind)
        takes = (*NEEDED[PathPartKind(kind)], *MAY_HAVE[PathPartKind(kind)]) if known else ()
        return [
            key
            for key in rows.labels
            if key in ("name", "part") or key in takes or f"{row}.{key}" in self.values
        ]

    def folds(self) -> Iterator[Fold]:
        """The groups, in order."""
        for group in GROUPS:
            fields = tuple(self._form[path] for path in group.labels)
            lists = tuple(self._rows(each, each.path) for each in group.lists)
            yield Fold(
                key=group.key,
                title=str(group.title),
                fields=fields,
                lists=lists,
                is_open=group.key in _OPEN or self._is_touched(group, fields, lists),
            )

    def _is_touched(self, group: Group, fields: Sequence[Field], lists: Sequence[Rows]) -> bool:
        inner = [field for rows in lists for row in rows.rows for field in row.fields]
        has_spool = group.key == "spool" and any(rows.rows for rows in lists)
        return has_spool or any(each.errors for each in (*fields, *inner))

    def _rows(self, rows: RowList, path: str) -> Rows:
        numbers = self._numbers(path)
        made = tuple(self._row(rows, path, number, place) for place, number in enumerate(numbers, start=1))
        return Rows(path=path, rows=made, add=str(rows.add) if len(made) < rows.most else "")

    def _row(self, rows: RowList, path: str, number: int, place: int) -> Row:
        row = f"{path}.{number}"
        is_tee = rows is PATH_LIST and self.values.get(f"{row}.part") == PathPartKind.TEE
        has_branch = rows is PATH_LIST and bool(self._numbers(f"{row}.branch"))
        return Row(
            path=row,
            legend=str(rows.row) % {"number": place},
            fields=tuple(self._form[f"{row}.{key}"] for key in self._keys(rows, row)),
            may_go_before=rows is PATH_LIST,
            lists=(self._rows(BRANCH_LIST, f"{row}.branch"),) if is_tee or has_branch else (),
        )

    def tell(self, faults: Sequence[Fault]) -> None:
        """Each fault at its control, or at the first one of its part; what belongs to none above the form."""
        for fault in faults:
            control = self.control_of(fault.path)
            if control is None:
                words = gettext("%(path)s: %(fault)s", path=fault.path, fault=set_up_fault_words(fault))
                self.form_faults.append(words if fault.path else set_up_fault_words(fault))
            else:
                control.errors = [*control.errors, set_up_fault_words(fault)]

    def control_of(self, path: str) -> Field | None:
        """The control that a fault is shown at."""
        if path in self._form:
            return self._form[path]
        return next((each for each in self._form if f"{each.name}.".startswith(f"{path}.")), None)

    @property
    def faults(self) -> list[tuple[str | None, str]]:
        """All faults for the summary above the form."""
        listed: list[tuple[str | None, str]] = [(None, each) for each in self.form_faults]
        return listed + [(field.id, message) for field in self._form for message in field.errors]

    @property
    def part_names(self) -> list[str]:
        """What the parts of the spool are called."""
        return [str(value) for path, value in self.values.items() if path.endswith(".name")]


def _control(path: str, label: Any) -> Any:
    kind = spec_at(path).kind
    if path == "gas.symbol":
        return SelectField(label, choices=offered([("", _l("not told")), *GAS_CHOICES]))
    if kind is FieldKind.FLAG:
        return SelectField(label, choices=offered(_FLAGS))
    return field_at(path, label)


def _typed(path: str, value: Any) -> str:
    """A value as the reader types it; names, sizes and marks stay as they are."""
    text = written_in_address(value)
    return as_typed(text) if spec_at(path).kind in NUMBERS else text


def _form_data(values: Mapping[str, Any]) -> MultiDict[str, str]:
    """The values as a browser sends them: an amount apart from its unit where that is one to choose."""
    data: MultiDict[str, str] = MultiDict()
    for path, value in values.items():
        text = _typed(path, value)
        dimension = spec_at(path).dimension
        amount, _, unit = text.rpartition(" ")
        if dimension is not None and unit in OFFERED[dimension] and is_bare_number(amount) and amount:
            data[path], data[f"{path}{UNIT}"] = amount, unit
        else:
            data[path] = text
    return data
