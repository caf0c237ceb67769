"""Finds the line of a TOML file that a key stands on: the reader of the standard library does not tell it."""

import re
from collections.abc import Iterator

_HEADER = re.compile(r"^\s*(\[\[?)\s*([\w.\-\"' ]+?)\s*\]\]?")
_ASSIGNMENT = re.compile(r"^\s*([\w.\-\"']+)\s*=")


def line_of(text: str, key: str) -> int | None:
    """The line of a key such as `item[3].option[2].text`, from 1; the nearest table above it where the key
    itself is missing, and None where nothing like it is found.
    """
    wanted = key.replace('"', "")
    best: tuple[int, int] | None = None
    for number, here in _keys(text):
        if wanted == here:
            return number
        if wanted.startswith((f"{here}.", f"{here}[")) and (best is None or len(here) > best[0]):
            best = (len(here), number)
    return best[1] if best else None


def _keys(text: str) -> Iterator[tuple[int, str]]:
    """Every header and assignment with its full key; entries of lists of tables carry their place."""
    counts: dict[str, int] = {}
    table = ""
    for number, line in enumerate(text.splitlines(), start=1):
        header = _HEADER.match(line)
        if header:
            table = _placed(header[2].replace('"', ""), header[1] == "[[", counts)
            yield number, table
        elif assignment := _ASSIGNMENT.match(line):
            name = assignment[1].replace('"', "")
            yield number, f"{table}.{name}" if table else name


def _placed(name: str, is_listed: bool, counts: dict[str, int]) -> str:
    """The name with the place of each list that it lies in; a new entry starts its inner lists anew."""
    parts = name.split(".")
    whole = ""
    for depth, part in enumerate(parts):
        whole = f"{whole}.{part}" if whole else part
        is_last = depth == len(parts) - 1
        if is_last and is_listed:
            counts[whole] = counts.get(whole, 0) + 1
            for other in [each for each in counts if each.startswith(f"{whole}[{counts[whole]}].")]:
                del counts[other]
        if whole in counts:
            whole = f"{whole}[{counts[whole]}]"
    return whole
