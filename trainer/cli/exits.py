"""How commands end: 0 done, 2 for input that cannot be used (one line per fault), 1 when the tool failed."""

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import NoReturn

import click

UNUSABLE = 2


def refuse(lines: Iterable[str]) -> NoReturn:
    """End with exit code 2 after one line per fault on standard error."""
    for line in lines:
        click.echo(line, err=True)
    raise click.exceptions.Exit(UNUSABLE)


def read_input(source: str, *, most_bytes: int) -> bytes:
    """The bytes of a file, or of standard input for `-`; one more than allowed at the most is read."""
    try:
        if source == "-":
            data: bytes = sys.stdin.buffer.read(most_bytes + 1)
            return data
        with Path(source).open("rb") as file:
            return file.read(most_bytes + 1)
    except OSError as error:
        refuse([f"{source}: {error.strerror or error}"])
