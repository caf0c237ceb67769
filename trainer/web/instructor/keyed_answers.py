"""A scenario of a sheet as its keying page shows it, and what is typed there as responses.

The fields are those of the scenario's own page, but for an order, typed in letters as it was written.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext, ngettext
from werkzeug.datastructures import MultiDict

from trainer.domain.people import UnitSystem
from trainer.domain.scenario import Item, ItemKind, Scenario
from trainer.services.keying import KeyingPage
from trainer.web import responses
from trainer.web.paper.sheet_parts import letter
from trainer.web.preferences import reading_in
from trainer.web.responses import Contradiction, ItemFields


@dataclass(frozen=True, kw_only=True)
class KeyedItem:
    """An item with its controls; `letters` are those of an order as they were typed."""

    fields: ItemFields
    letters: str = ""


def keyed_items(
    page: KeyingPage,
    number: int,
    *,
    sent: MultiDict[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
) -> tuple[KeyedItem, ...]:
    """The items of a scenario, with what was sent and could not be kept where there is any."""
    scenario = page.scenarios[number]
    with reading_in(page.sheet.units):
        return tuple(
            _as_sent(item, place, sent, (faults or {})[item.id])
            if sent is not None and item.id in (faults or {})
            else _as_kept(item, place, page.answers.get((number, item.id)), page)
            for place, item in enumerate(scenario.items, start=1)
        )


def _as_kept(item: Item, place: int, raw: Any, page: KeyingPage) -> KeyedItem:
    us_units = page.sheet.units is UnitSystem.INCH_POUND
    fields = responses.fields_of(item, place, response=raw, us_units=us_units)
    if item.kind is not ItemKind.ORDER:
        return KeyedItem(fields=fields)
    letters = {each.id: letter(number) for number, each in enumerate(item.steps)}
    return KeyedItem(fields=fields, letters=" ".join(letters[each] for each in raw or ()))


def _as_sent(item: Item, place: int, sent: MultiDict[str, str], fault: str) -> KeyedItem:
    fields = responses.fields_as_sent(item, place, sent=sent, fault=fault)
    return KeyedItem(fields=fields, letters=sent.get(responses.field_name(item), "")[:200])


def read_keyed(item: Item, sent: MultiDict[str, str]) -> Any:
    """The response to an item as it was keyed in; None where the paper is blank."""
    if item.kind is ItemKind.ORDER:
        return _read_letters(item, sent.get(responses.field_name(item), ""))
    return responses.read(item, sent)


def _read_letters(item: Item, typed: str) -> list[str] | None:
    """The steps by their letters, in the order written; blanks and commas do not matter."""
    steps = {letter(number): each.id for number, each in enumerate(item.steps)}
    letters = [each for each in typed.upper() if each not in " ,;.-\t"]
    for each in letters:
        if each not in steps:
            raise Contradiction(
                gettext(
                    "'%(typed)s' is no letter of this item. Type those written, %(first)s to %(last)s,"
                    " such as B A C.",
                    typed=each,
                    first=letter(0),
                    last=letter(len(steps) - 1),
                )
            )
    twice = next((each for each in letters if letters.count(each) > 1), None)
    if twice is not None:
        raise Contradiction(gettext("The letter %(letter)s stands there twice.", letter=twice))
    return [steps[each] for each in letters] or None


def open_words(scenarios: Mapping[int, Scenario], unanswered: Iterable[tuple[int, str]]) -> list[str]:
    """Where the items stand that are not answered, in words, a line for each scenario."""
    places: dict[int, list[str]] = {}
    for number, item_id in unanswered:
        ids = [each.id for each in scenarios[number].items]
        places.setdefault(number, []).append(str(ids.index(item_id) + 1))
    return [
        ngettext(
            "scenario %(scenario)s, item %(items)s",
            "scenario %(scenario)s, items %(items)s",
            len(items),
            scenario=number,
            items=", ".join(items),
        )
        for number, items in places.items()
    ]
