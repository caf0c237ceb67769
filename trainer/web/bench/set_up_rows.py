"""Adds, inserts and takes out rows of a set-up's lists, as the buttons of the form ask for."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from trainer.set_up_files.flat import flat, nested
from trainer.web.bench.set_up_labels import BRANCH_LIST, GROUPS, PATH_LIST, RowList

ADD, BEFORE, OUT = "add", "before", "out"
_BRANCH = re.compile(rf"{re.escape(PATH_LIST.path)}\.(\d{{1,2}})\.{BRANCH_LIST.path}")


def with_row_changed(values: Mapping[str, Any], do: str) -> dict[str, Any]:
    """The values after one button; the same where it names nothing that is there."""
    act, _, path = do.partition(":")
    owner, _, last = path.rpartition(".")
    rows = list_at(path if act == ADD else owner)
    if rows is None:
        return dict(values)
    document = nested(values).document
    held = _list_in(document, path if act == ADD else owner)
    place = int(last) if last.isdecimal() and len(last) < 3 else len(held)
    if act == ADD and len(held) < rows.most:
        held.append(_new(rows, held))
    elif act == BEFORE and rows is PATH_LIST and place < len(held) < rows.most:
        held.insert(place, _new(rows, held))
    elif act == OUT and place < len(held):
        del held[place]
    return flat(document)


def list_at(path: str) -> RowList | None:
    """The list at a path of the form."""
    if _BRANCH.fullmatch(path):
        return BRANCH_LIST
    return next((each for group in GROUPS for each in group.lists if each.path == path), None)


def _list_in(document: dict[str, Any], path: str) -> list[dict[str, Any]]:
    """The list, made where it is missing; a branch only where its tee is there."""
    here: Any = document
    *way, last = path.split(".")
    for key in way:
        if isinstance(here, list):
            if int(key) >= len(here):
                return []
            here = here[int(key)]
        else:
            here = here.setdefault(key, {})
    found: list[dict[str, Any]] = here.setdefault(last, [])
    return found


def _new(rows: RowList, held: list[dict[str, Any]]) -> dict[str, Any]:
    made = dict(rows.starts_with)
    if rows in (PATH_LIST, BRANCH_LIST):
        made = {"name": next(_names(held, "b" if rows is BRANCH_LIST else "p")), **made}
    return made


def _names(held: list[dict[str, Any]], first: str) -> Iterator[str]:
    """Names that no part of the list has yet."""
    taken = {str(each.get("name", "")) for each in held}
    return (name for number in range(1, 100) if (name := f"{first}{number}") not in taken)
