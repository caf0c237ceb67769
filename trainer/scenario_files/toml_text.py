"""Writes a document of plain tables, lists and values as TOML, in the shape that family files have."""

import json
from collections.abc import Iterator, Mapping
from typing import Any


def toml_text(document: Mapping[str, Any]) -> str:
    """The document as TOML: values first, then tables, then lists of tables."""
    return "\n".join(_lines(document, "")).strip() + "\n"


def _lines(table: Mapping[str, Any], name: str) -> Iterator[str]:
    inner = {key: each for key, each in table.items() if _is_table(each) or _is_list_of_tables(each)}
    for key, each in table.items():
        if key not in inner:
            yield f"{_key(key)} = {_value(each)}"
    for key, each in inner.items():
        whole = f"{name}.{_key(key)}" if name else _key(key)
        if _is_table(each):
            yield from ("", f"[{whole}]", *_lines(each, whole))
            continue
        for one in each:
            yield from ("", f"[[{whole}]]", *_lines(one, whole))


def _is_table(value: Any) -> bool:
    return isinstance(value, Mapping)


def _is_list_of_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(_is_table(each) for each in value)


def _key(key: str) -> str:
    return key if key.replace("_", "").replace("-", "").isalnum() and key.isascii() else _text(key)


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, list | tuple):
        return f"[{', '.join(_value(each) for each in value)}]"
    return repr(value)


def _text(text: str) -> str:
    """A basic string: what JSON escapes, TOML reads alike, save DEL, which JSON leaves as it is."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
