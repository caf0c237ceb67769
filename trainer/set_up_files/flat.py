"""A set-up's document as one list of paths and back: how a form and an address hold it, row by row."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import SetUp

MOST_ROWS = 40  # of one list, as many as a file may hold


@dataclass(frozen=True, kw_only=True)
class Nested:
    """A document made of paths, without rows left blank; `typed` says which row each of its rows was."""

    document: dict[str, Any]
    typed: Mapping[str, str]

    def typed_path(self, path: str) -> str:
        """The path as it was typed, of one in the document."""
        keys = path.split(".")
        for length in range(len(keys), 0, -1):
            row = ".".join(keys[:length])
            if row in self.typed:
                return ".".join([self.typed[row], *keys[length:]])
        return path


def is_path(path: str) -> bool:
    """Whether a set-up has such a field, holding one value and no part of its own."""
    spec = _leaf(path)
    return spec is not None and spec.kind not in (FieldKind.PART, FieldKind.PARTS)


def _leaf(path: str) -> FieldSpec | None:
    """The declaration at a path, where each list on the way is followed by a row's number."""
    part: type[Any] | None = SetUp
    spec: FieldSpec | None = None
    wants_row = False
    for key in path.split("."):
        if wants_row:
            if not (key.isdecimal() and key.isascii() and str(int(key)) == key and int(key) < MOST_ROWS):
                return None
            wants_row = False
            continue
        spec = specs_of(part).get(key) if part is not None else None
        if spec is None:
            return None
        part, wants_row = spec.part, spec.kind is FieldKind.PARTS
    return None if wants_row else spec


def flat(document: Mapping[str, Any]) -> dict[str, Any]:
    """Every value of a document by its path, in the document's order."""
    return dict(_flat(document, ""))


def _flat(value: Any, path: str) -> Iterator[tuple[str, Any]]:
    if isinstance(value, Mapping):
        inner: Iterator[tuple[Any, Any]] = iter(value.items())
    elif isinstance(value, list | tuple):
        inner = iter(enumerate(value))
    else:
        yield path, value
        return
    for key, each in inner:
        yield from _flat(each, f"{path}.{key}" if path else str(key))


def nested(values: Mapping[str, Any]) -> Nested:
    """The document that paths stand for; each path is one that `is_path` knows."""
    tree: dict[str, Any] = {}
    for path, value in values.items():
        here = tree
        *way, last = path.split(".")
        for key in way:
            here = here.setdefault(key, {})
        here[last] = value
    typed: dict[str, str] = {}
    document = _with_lists(tree, SetUp, "", "", typed)
    return Nested(document=document, typed=typed)


def _with_lists(
    tree: Mapping[str, Any], part_class: type[Any], path: str, typed_path: str, typed: dict[str, str]
) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for key, spec in specs_of(part_class).items():
        if key not in tree:
            continue
        here, typed_here = (f"{each}.{key}" if each else key for each in (path, typed_path))
        if spec.part is None:
            made[key] = tree[key]
        elif spec.kind is FieldKind.PARTS:
            made[key] = []
            for place, row in enumerate(sorted(tree[key], key=int)):
                typed[f"{here}.{place}"] = f"{typed_here}.{row}"
                made[key].append(
                    _with_lists(tree[key][row], spec.part, f"{here}.{place}", f"{typed_here}.{row}", typed)
                )
        else:
            made[key] = _with_lists(tree[key], spec.part, here, typed_here, typed)
    return made
