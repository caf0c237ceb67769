"""What an address of the bench asks: the set-up in it, in which units, and what is shown beside."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any
from urllib.parse import parse_qsl, quote

from flask import g, request, url_for

from trainer.domain.people import UnitSystem
from trainer.domain.set_up_paths import spec_at
from trainer.set_up_files.addresses import ReadAddress, address_of, read_address
from trainer.set_up_files.flat import is_path
from trainer.set_up_files.starting_points import OPENS_WITH, STARTING_POINTS, US_EDITION
from trainer.web.bench.set_up_form import DO, UNIT
from trainer.web.forms.fields import with_chosen_unit
from trainer.web.forms.set_up_fields import NUMBERS
from trainer.web.forms.typed import kept
from trainer.web.preferences import own_unit_system, unit_system

UNITS, AGAINST, HELP, FLOW = "units", "against", "help", "flow"
_LONGEST_VALUE, _LONGEST_AGAINST, _MOST_VALUES = 80, 8000, 400
_YES = "yes"


@dataclass(frozen=True, kw_only=True)
class Asked:
    """One question to the bench; `against` is the query of the set-up that this one is held against."""

    read: ReadAddress
    against: str = ""
    wants_help: bool = False
    wants_flow: bool = False
    was_typed: bool = False  # by the form, not by an address of ours
    do: str = ""

    @property
    def values(self) -> Mapping[str, Any]:
        """The set-up's values by path."""
        return self.read.values

    @cached_property
    def query(self) -> str:
        """The set-up alone, as an address holds it."""
        return address_of(self.values)

    def with_values(self, values: Mapping[str, Any]) -> "Asked":
        """The same question about other values."""
        return replace(self, read=ReadAddress(values=values))

    def address(self, endpoint: str = ".set_up", **shown: str) -> str:
        """The address of a page about this set-up, with what is shown beside it now."""
        beside = {
            UNITS: unit_system().value if unit_system() is not own_unit_system() else "",
            AGAINST: self.against,
            HELP: _YES if self.wants_help else "",
            FLOW: _YES if self.wants_flow else "",
            **shown,
        }
        told = "".join(f"&{key}={quote(value)}" for key, value in beside.items() if value)
        return f"{url_for(endpoint)}?{self.query}{told}"


def asked() -> Asked:
    """What this request asks; an address that says nothing opens the worked set-up."""
    pairs = list(request.args.items(multi=True))[-_MOST_VALUES:]
    told = {key: text for key, text in pairs if key not in (UNITS, AGAINST, HELP, FLOW, DO)}
    ask_for_units(request.args.get(UNITS, ""))
    is_us = unit_system() is UnitSystem.INCH_POUND
    is_form = any(key.endswith(UNIT) for key in told)  # an address of its own names each unit with its number
    read = _read(_kept(told) if is_form else told.items()) if told else _opening(is_us)
    return Asked(
        read=read,
        against=request.args.get(AGAINST, "")[:_LONGEST_AGAINST],
        wants_help=request.args.get(HELP) == _YES,
        wants_flow=request.args.get(FLOW) == _YES,
        was_typed=DO in request.args or is_form,
        do=request.args.get(DO, ""),
    )


def _kept(told: Mapping[str, str]) -> Iterable[tuple[str, str]]:
    """What a form sent, its numbers as an address has them."""
    for key, text in told.items():
        yield key, kept(text) if is_path(key) and spec_at(key).kind in NUMBERS else text


def values_in(query: str) -> ReadAddress:
    """What the query of another set-up holds."""
    return _read(parse_qsl(query, keep_blank_values=True)[:_MOST_VALUES])


def ask_for_units(word: str) -> None:
    """Reads this page in the units that its address asks for."""
    if word in {each.value for each in UnitSystem}:
        g.units_asked = UnitSystem(word)


def _opening(is_us: bool) -> ReadAddress:
    return ReadAddress(values=STARTING_POINTS[f"{OPENS_WITH}{US_EDITION if is_us else ''}"])


def _read(pairs: Iterable[tuple[str, str]]) -> ReadAddress:
    told = dict(pairs)
    units = {key.removesuffix(UNIT): text for key, text in told.items() if key.endswith(UNIT)}
    return read_address(
        (key, _with_unit(key, text[:_LONGEST_VALUE], units.get(key, "")))
        for key, text in told.items()
        if not (key.endswith(UNIT) and is_path(key.removesuffix(UNIT)))
    )


def _with_unit(path: str, text: str, unit: str) -> str:
    dimension = spec_at(path).dimension if is_path(path) else None
    return text if dimension is None else with_chosen_unit(text, unit, dimension)
