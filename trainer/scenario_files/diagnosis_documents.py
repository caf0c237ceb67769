"""The answer of a diagnosis as JSON: causes and moves with the set-up values that belong to them."""

from collections.abc import Mapping
from typing import Any

from trainer.domain.diagnosis_parts import CauseKey, DiagnosisKey, Ending, MoveKey, Shows
from trainer.domain.set_up_paths import spec_at
from trainer.scenario_files.records import to_json
from trainer.set_up_files import value_from_document, written_value

_Values = tuple[tuple[str, Any], ...]


def diagnosis_key_document(key: DiagnosisKey) -> dict[str, Any]:
    """What `diagnosis_key_from_document` reads back to the same key."""
    return {
        "cause": key.cause,
        "causes": [_cause_out(each) for each in key.causes],
        "moves": [_move_out(each) for each in key.moves],
        "sound": _values_out(key.sound),
        "target_frac": key.target_frac,
        "faulty_s": key.faulty_s,
        "sound_s": key.sound_s,
    }


def diagnosis_key_from_document(written: Mapping[str, Any]) -> DiagnosisKey:
    """The key that such a document holds."""
    return DiagnosisKey(
        cause=written["cause"],
        causes=tuple(_cause_in(each) for each in written["causes"]),
        moves=tuple(_move_in(each) for each in written["moves"]),
        sound=_values_in(written["sound"]),
        target_frac=float(written["target_frac"]),
        faulty_s=float(written["faulty_s"]),
        sound_s=float(written["sound_s"]),
    )


def _cause_out(cause: CauseKey) -> dict[str, Any]:
    return {
        "id": cause.id,
        "words": cause.words,
        "values": _values_out(cause.values),
        "sample_air_frac": cause.sample_air_frac,
    }


def _cause_in(written: Mapping[str, Any]) -> CauseKey:
    return CauseKey(
        id=written["id"],
        words=written["words"],
        values=_values_in(written["values"]),
        sample_air_frac=float(written["sample_air_frac"]),
    )


def _move_out(move: MoveKey) -> dict[str, Any]:
    return {**to_json(move), "seen": dict(move.seen), "sets": _values_out(move.sets)}


def _move_in(written: Mapping[str, Any]) -> MoveKey:
    plain = {name: each for name, each in written.items() if name in _PLAIN}
    ending = written.get("ending")
    return MoveKey(
        **plain,
        seen=dict(written["seen"]),
        shows=tuple(Shows(each) for each in written.get("shows", ())),
        cures=tuple(written.get("cures", ())),
        sets=_values_in(written["sets"]),
        ending=None if ending is None else Ending(ending),
    )


_PLAIN = ("id", "opens", "belief", "critical", "needed", "first")


def _values_out(values: _Values) -> dict[str, Any]:
    return {path: written_value(value, spec_at(path)) for path, value in values}


def _values_in(written: Mapping[str, Any]) -> _Values:
    return tuple((path, value_from_document(path, value)) for path, value in written.items())
