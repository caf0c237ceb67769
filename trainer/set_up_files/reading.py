"""JSON object → SetUp, driven by the declared fields; every fault is found before any is reported."""

import difflib
import math
from collections.abc import Callable, Iterable
from typing import Any

from trainer import units
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import SetUpFault, faults_of
from trainer.set_up_files import faults as said
from trainer.set_up_files.faults import Fault, SetUpFaults, shown
from trainer.wording.faults import fault_words

LONGEST_TEXT = 60
MOST_PARTS = 40


def read_set_up(document: Any) -> SetUp:
    """The set-up that a JSON object describes; raises SetUpFaults with every fault at once."""
    faults: list[Fault] = []
    set_up: SetUp | None = _part(document, SetUp, "", faults)
    if set_up is not None:
        already = [each.path for each in faults]
        faults.extend(
            written_fault(each)
            for each in faults_of(set_up)
            if not _follows_from((each.path, *each.involves), already)
        )
    if faults or set_up is None:
        raise SetUpFaults(faults)
    return set_up


def written_fault(fault: SetUpFault) -> Fault:
    """A fault of the set-up in the words of a file's reader."""
    return Fault(path=fault.path, value=fault.value, message=fault_words(fault, str), cause=fault)


def _follows_from(paths: tuple[str, ...], already: Iterable[str]) -> bool:
    """Whether a fault may only be there because a field that it rests on could not be read."""
    return any(
        f"{path}.".startswith(f"{each}.") or each.startswith(f"{path}.") for path in paths for each in already
    )


def _part(document: Any, part_class: type[Any], path: str, faults: list[Fault]) -> Any:
    if not isinstance(document, dict):
        what = "a set-up" if not path else "this part"
        _add(faults, path, document, said.NOT_AN_OBJECT % {"typed": shown(document), "what": what})
        return None
    specs = specs_of(part_class)
    values = {}
    for key, value in document.items():
        here = f"{path}.{key}" if path else key
        if key in specs:
            values[specs[key].attribute] = _value(value, specs[key], here, faults)
        else:
            place = f"{path}.{shown(key).strip(chr(39))}" if path else shown(key).strip("'")
            _add(faults, place, value, _unknown_key(key, specs))
    return part_class(**values)


def _unknown_key(key: str, specs: dict[str, FieldSpec]) -> str:
    close = difflib.get_close_matches(key, specs, n=1)
    hint = f"; did you mean '{close[0]}'" if close else ""
    return f"unknown key{hint}; accepted here: {', '.join(specs)}"


def _value(document: Any, spec: FieldSpec, path: str, faults: list[Fault]) -> Any:
    if document is None:
        _add(faults, path, None, said.NOTHING_SAID)
        return _nothing(spec)
    if spec.kind is FieldKind.PART and spec.part is not None:
        return _part(document, spec.part, path, faults)
    if spec.kind is FieldKind.PARTS and spec.part is not None:
        return _parts(document, spec.part, path, faults)
    found = _SIMPLE[spec.kind](document, spec)
    if isinstance(found, _Refused):
        message = found.template % found.facts
        faults.append(
            Fault(path=path, value=document, message=message, template=found.template, facts=found.facts)
        )
        return None
    return found


def _nothing(spec: FieldSpec) -> Any:
    return () if spec.kind is FieldKind.PARTS else None


def _parts(document: Any, part_class: type[Any], path: str, faults: list[Fault]) -> tuple[Any, ...]:
    if not isinstance(document, list):
        _add(faults, path, document, said.NOT_A_LIST % {"typed": shown(document)})
        return ()
    if len(document) > MOST_PARTS:
        _add(faults, path, document, said.TOO_MANY % {"count": len(document), "most": MOST_PARTS})
        return ()
    found = (_part(each, part_class, f"{path}.{place}", faults) for place, each in enumerate(document))
    return tuple(part_class() if each is None else each for each in found)


class _Refused:
    """Why a simple value was not taken."""

    def __init__(self, template: str, **facts: str) -> None:
        self.template, self.facts = template, facts


def _measured(document: Any, spec: FieldSpec) -> Any:
    assert spec.dimension is not None
    if not isinstance(document, str):
        example = units.example(spec.dimension)
        return _Refused(said.NO_UNIT, typed=shown(document), example=example)
    try:
        value = units.parse(document, spec.dimension)
    except units.UnitFault as fault:
        return _Refused(fault.template, **fault.facts)
    return _in_range(units.as_meant(value, spec.dimension), spec, shown(document))


def _number(document: Any, spec: FieldSpec) -> Any:
    if isinstance(document, bool) or not isinstance(document, int | float):
        template = said.NO_OPEN_NUMBER if spec.low_is_open else said.NO_NUMBER
        return _Refused(template, typed=shown(document), **_range(spec))
    if isinstance(document, float) and not math.isfinite(document):
        return _Refused(said.TOO_LARGE)
    return _in_range(document, spec, shown(document))


def _count(document: Any, spec: FieldSpec) -> int | _Refused:
    is_whole = isinstance(document, int) or (isinstance(document, float) and document.is_integer())
    if isinstance(document, bool) or not is_whole:
        return _Refused(said.NO_COUNT, typed=shown(document), **_range(spec))
    found = _in_range(document, spec, shown(document))
    return found if isinstance(found, _Refused) else int(document)


def _choice(document: Any, spec: FieldSpec) -> Any:
    assert spec.choices is not None
    if isinstance(document, str) and document in list(spec.choices):
        return spec.choices(document)
    return _Refused(said.NOT_OF_THESE, typed=shown(document), known=", ".join(spec.choices))


def _text(document: Any, spec: FieldSpec) -> str | _Refused:
    if not isinstance(document, str):
        return _Refused(said.NOT_IN_QUOTES, typed=shown(document), example=TEXT_EXAMPLES[spec.key])
    if not document.strip() or len(document) > LONGEST_TEXT or not document.isprintable():
        return _Refused(said.TEXT_TOO_LONG, typed=shown(document), longest=str(LONGEST_TEXT))
    return document.strip()


def _flag(document: Any, spec: FieldSpec) -> bool | _Refused:  # noqa: ARG001 (one signature for all kinds)
    if isinstance(document, bool):
        return document
    return _Refused(said.NO_FLAG, typed=shown(document))


TEXT_EXAMPLES = {
    "nps": "6", "dn": "150", "schedule": "10S", "symbol": "I1", "composition": "Ar + 2 % N2",
    "where": "hose fitting", "calibrated_for": "I1", "name": "riser", "at": "riser", "what": "draw rope",
    "material": "natural fibre",
}  # fmt: skip

_SIMPLE: dict[FieldKind, Callable[[Any, FieldSpec], Any]] = {
    FieldKind.MEASURED: _measured,
    FieldKind.NUMBER: _number,
    FieldKind.COUNT: _count,
    FieldKind.CHOICE: _choice,
    FieldKind.TEXT: _text,
    FieldKind.FLAG: _flag,
}


def _in_range(value: float, spec: FieldSpec, typed: str) -> Any:
    if spec.accepts(value):
        return value
    template = said.OUT_OF_OPEN_RANGE if spec.low_is_open else said.OUT_OF_RANGE
    return _Refused(template, typed=typed, why=spec.why, **_range(spec))


def _range(spec: FieldSpec) -> dict[str, str]:
    return {"low": _limit(spec.low, spec), "high": _limit(spec.high, spec)}


def _limit(value: float | None, spec: FieldSpec) -> str:
    if spec.dimension is None:
        return f"{value:g}"
    return units.written(value or 0.0, spec.dimension)


def _add(faults: list[Fault], path: str, value: Any, message: str) -> None:
    faults.append(Fault(path=path, value=value, message=message))
