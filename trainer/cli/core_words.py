"""What the core says of a quantity outside a formula: its name, and why the range ends where it does.

Both stand where the range is declared. They are read there, so that no second list of them can fall behind.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import trainer

_ROOT = Path(trainer.__file__).resolve().parent
_FILES = (*sorted((_ROOT / "core").glob("*.py")), _ROOT / "domain" / "streams.py")
_RANGES = ("Limits", "OutOfRange")


def range_messages() -> Iterator[tuple[str, str]]:
    """Each message with the file that it stands in; what is put together at run time is left out."""
    for file in _FILES:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            for part in _said(node):
                if isinstance(part, ast.Constant) and isinstance(part.value, str) and part.value:
                    yield f"trainer/{file.relative_to(_ROOT).as_posix()}", part.value


def _said(node: ast.AST) -> Iterator[ast.expr | None]:
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _RANGES:
        given = {each.arg: each.value for each in node.keywords}
        yield from (given.get("quantity", node.args[0] if node.args else None), given.get("why"))
    elif isinstance(node, ast.Assign) and any(_is_why(each) for each in node.targets):
        yield node.value


def _is_why(target: ast.expr) -> bool:
    return isinstance(target, ast.Name) and target.id == "why"
