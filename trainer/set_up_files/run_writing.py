"""PurgeRun → the JSON answer: numbers in keys that end in their unit, null for what never happens."""

import math
from collections.abc import Callable
from enum import StrEnum
from typing import Any

from trainer.domain.purge_run import PPM, Expected, PurgeRun, written_as
from trainer.domain.quantities import NEVER
from trainer.wording.cautions import cause_words, caution_words

_PARTS = (
    "pipe", "section", "gas", "inlet", "purge", "readings", "vent", "hose", "supply", "gas_used", "cost",
    "root", "flow", "breathing",
)  # fmt: skip


# A column is written where it is known of every dam.
DAM_COLUMNS = {
    "temperature_c": "temperature_c",
    "limit_c": "limit_c",
    "steady_c": "steady_c",
    "safe_distance_m": "safe_distance_m",
    "rope_long_enough": "rope_long_enough",
    "surely_holds_pa": "surely_holds_pa",
    "surely_slips_pa": "surely_slips_pa",
}


def write_run(run: PurgeRun, translate: Callable[[str], str] = str) -> dict[str, Any]:
    """The answer for one set-up; a key is there when its inputs are."""
    parts = {name: _part(getattr(run, name)) for name in _PARTS if getattr(run, name) is not None}
    if run.purge is not None:
        if run.purge.never_because:
            parts["purge"]["never_because"] = cause_words(run.purge.never_because, translate)
        if run.purge.trace:
            parts["purge"]["trace"] = [
                [time_s, root * PPM, mean * PPM, vent * PPM] for time_s, root, mean, vent in run.purge.trace
            ]
    answer: dict[str, Any] = {name: part for name, part in parts.items() if part}
    if run.dams:
        answer["dams"] = _dams(run)
    if run.near_heat:
        answer["near_heat"] = [_part(each) for each in run.near_heat]
    answer["cautions"] = [
        {"code": each.code, "text": words.text, "because": words.because}
        for each in run.cautions
        for words in (caution_words(each, translate),)
    ]
    return answer


def _dams(run: PurgeRun) -> dict[str, Any]:
    columns = {key: [getattr(each, name) for each in run.dams] for name, key in DAM_COLUMNS.items()}
    return {key: column for key, column in columns.items() if None not in column}


def _part(part: Any) -> dict[str, Any]:
    known = ((written, getattr(part, name)) for name, written in written_as(type(part)).items())
    told = ((written, value) for written, value in known if value is not None and value != ())
    return {written.key: _value(value, written.factor) for written, value in told}


def _value(value: Any, factor: float) -> Any:
    if value is NEVER:
        return None
    if isinstance(value, tuple):
        return [_part(each) for each in value]
    if isinstance(value, Expected):
        return {each: _value(getattr(value, each), factor) for each in ("expected", "lower", "upper")}
    if isinstance(value, bool | int):
        return value
    if isinstance(value, StrEnum | str):
        return str(value)
    return value * factor if math.isfinite(value) else None
