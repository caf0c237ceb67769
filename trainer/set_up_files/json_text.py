"""JSON text to plain objects, refusing what JSON allows but a set-up never needs."""

import json
from typing import Any, NoReturn

from trainer.set_up_files.faults import Fault, SetUpFaults, shown

LARGEST_BYTES = 1_000_000


def read_json(data: bytes) -> Any:
    """The object that the text stands for; raises SetUpFaults with one plain line where there is none."""
    if len(data) > LARGEST_BYTES:
        _refuse(f"the input has {len(data)} bytes; accepted up to {LARGEST_BYTES}")
    try:
        return json.loads(
            data.decode("utf-8-sig"), object_pairs_hook=_without_doubles, parse_constant=_no_constant
        )
    except UnicodeDecodeError as error:
        _refuse(f"the input is not UTF-8: byte {error.start} cannot be read; save the file as UTF-8")
    except json.JSONDecodeError as error:
        _refuse(f"line {error.lineno}, column {error.colno}: this is not JSON ({error.msg})")
    except RecursionError:
        _refuse("the input is nested too deeply; a set-up has at most three levels")
    except SetUpFaults:
        raise
    except ValueError:
        _refuse("the input holds a whole number with thousands of digits")


def _without_doubles(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        doubled = next(key for key in keys if keys.count(key) > 1)
        _refuse(f"the key {shown(doubled)} stands twice in one object; keep one of them")
    return found


def _no_constant(name: str) -> NoReturn:
    _refuse(f"{name} is not a number that a set-up can hold")


def _refuse(message: str) -> NoReturn:
    raise SetUpFaults([Fault(path="", value=None, message=message)])
