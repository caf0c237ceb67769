"""A set-up in the query of an address: its version, a starting point, and what differs from it.

A value taken out of the starting point stands there empty. What an address holds that no set-up has is
named, not guessed at, and everything else of it is read.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from math import isfinite
from typing import Any
from urllib.parse import quote

from trainer.domain.quantities import FieldKind
from trainer.domain.set_up_paths import spec_at
from trainer.set_up_files.flat import is_path
from trainer.set_up_files.starting_points import STARTING_POINTS
from trainer.units import UnitFault, parse_bare

VERSION = "1"
VERSION_KEY, START_KEY = "v", "start"
_YES, _NO = "yes", "no"
# Signs that a query may hold as they are, so that an address stays readable.
_PLAIN = "/:^,"


@dataclass(frozen=True, kw_only=True)
class ReadAddress:
    """What an address held: values by path, the names that mean nothing here, and what it was made for."""

    values: Mapping[str, Any]
    unknown: tuple[str, ...] = ()
    other_version: str = ""
    unknown_start: str = ""

    @property
    def is_whole(self) -> bool:
        """Whether everything in the address was understood."""
        return not (self.unknown or self.other_version or self.unknown_start)


def address_of(values: Mapping[str, Any]) -> str:
    """The shortest query for a set-up's values."""
    texts = {path: written_in_address(value) for path, value in values.items()}
    told = min((_told(name, known, texts) for name, known in _starts().items()), key=_length)
    return _query({VERSION_KEY: VERSION, **told})


@cache
def _starts() -> dict[str, dict[str, str]]:
    """The texts of each starting point, and of none."""
    written = {
        name: {path: written_in_address(value) for path, value in known.items()}
        for name, known in STARTING_POINTS.items()
    }
    return {"": {}, **written}


def _told(start: str, known: Mapping[str, str], texts: Mapping[str, str]) -> dict[str, str]:
    changed = {path: text for path, text in texts.items() if known.get(path) != text}
    gone = {path: "" for path in known if path not in texts}
    return {**({START_KEY: start} if start else {}), **changed, **gone}


def _length(told: Mapping[str, str]) -> int:
    return sum(len(path) + len(text) + 2 for path, text in told.items())


def _query(pairs: Mapping[str, str]) -> str:
    return "&".join(f"{key}={quote(text, safe=_PLAIN).replace('%20', '+')}" for key, text in pairs.items())


def written_in_address(value: Any) -> str:
    """A value as text: a flag in words, a number as short as it reads back."""
    if isinstance(value, bool):
        return _YES if value else _NO
    if isinstance(value, float):
        short = f"{value:g}"
        return short if float(short) == value else repr(value)
    return str(value)


def read_address(pairs: Iterable[tuple[str, str]]) -> ReadAddress:
    """What a query holds; of a name that stands twice the last one counts."""
    told = dict(pairs)
    version, start = told.pop(VERSION_KEY, VERSION), told.pop(START_KEY, "")
    values: dict[str, Any] = dict(STARTING_POINTS.get(start, {}))
    for path, text in told.items():
        if not is_path(path):
            continue
        if text.strip():
            values[path] = value_in_address(path, text.strip())
        else:
            values.pop(path, None)
    return ReadAddress(
        values=values,
        unknown=tuple(path for path in told if not is_path(path)),
        other_version="" if version == VERSION else version,
        unknown_start=start if start and start not in STARTING_POINTS else "",
    )


def value_in_address(path: str, text: str) -> Any:
    """What a text stands for at a path: a number or a flag where one is taken and meant, else the text."""
    kind = spec_at(path).kind
    if kind is FieldKind.FLAG:
        return {_YES: True, _NO: False}.get(text, text)
    if kind not in (FieldKind.NUMBER, FieldKind.COUNT):
        return text
    return number_in_text(kind, text)


def number_in_text(kind: FieldKind, text: str) -> Any:
    """The number, or the whole one of a count, that a text is; the text where it is none, or two."""
    try:
        value = parse_bare(text)
    except UnitFault:
        return text
    if value is None or not isfinite(value):
        return text
    return int(value) if kind is FieldKind.COUNT and value.is_integer() else value
