"""One scenario of an open attempt as its page shows it, and how what is sent from there is kept."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from flask import abort
from flask_babel import gettext
from markupsafe import Markup
from werkzeug.datastructures import MultiDict

from trainer.domain.scenario import Item, ItemKind, Response, Scenario
from trainer.scenario_files import ResponseFault, parse_response
from trainer.services import assessment
from trainer.services.assessment import AttemptPage
from trainer.web import responses
from trainer.web.access import acting, site
from trainer.web.figures import hear_scenario
from trainer.web.page_tools import clock
from trainer.web.preferences import language, reads_us_units
from trainer.web.responses import Contradiction, ItemFields, fault_words
from trainer.web.said import hear
from trainer.web.scenario_drawing import drawing_of
from trainer.web.unfoldings import unfolding_view


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """What the page of one scenario holds."""

    attempt: AttemptPage
    number: int
    scenario: Scenario
    drawing: Markup
    items: tuple[ItemFields, ...]

    @property
    def strikes_within(self) -> bool:
        """Whether striking is a step of one of its items, so that the page itself is only handed in."""
        return any(each.unfolding is not None for each in self.items)

    @property
    def is_last(self) -> bool:
        """Whether no scenario follows."""
        return self.number == len(self.attempt.scenarios)


def sheet_of(
    attempt: AttemptPage,
    number: int,
    *,
    sent: MultiDict[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
) -> Sheet:
    """The page of a scenario; with what was sent and could not be kept, where there is any."""
    scenario = hear_scenario(scenario_of(attempt, number))
    hear(attempt.said.get(language(), {}))
    faults = faults or {}
    items = tuple(
        responses.fields_as_sent(item, place, sent=sent, fault=faults[item.id])
        if sent is not None and item.id in faults
        else _fields(attempt, number, item, place)
        for place, item in enumerate(scenario.items, start=1)
    )
    return Sheet(
        attempt=attempt,
        number=number,
        scenario=scenario,
        drawing=_drawing(attempt, number, scenario),
        items=tuple(_unfolded(attempt, number, each) for each in items),
    )


def scenario_of(attempt: AttemptPage, number: int) -> Scenario:
    """The scenario of that number; answers 404 where there is none."""
    found = next((each.scenario for each in attempt.scenarios if each.scenario_no == number), None)
    return found if found is not None else abort(404)


def keep_sent(attempt: AttemptPage, number: int, sent: MultiDict[str, str]) -> dict[str, str]:
    """Keeps every answer that was sent and differs from the one kept; returns the faults of the others."""
    faults = {}
    for item in hear_scenario(scenario_of(attempt, number)).items:
        try:
            raw = responses.read(item, sent)
            if raw is not None and raw != _kept_raw(attempt, number, item):
                keep(attempt, number, item, raw)
        except (ResponseFault, Contradiction) as fault:
            faults[item.id] = fault_words(fault, item)
    return faults


def keep(attempt: AttemptPage, number: int, item: Item, raw: Any) -> assessment.Kept:
    """Keeps one response."""
    return assessment.keep_response(
        site(), acting(), attempt_id=attempt.attempt_id, scenario_no=number, item_id=item.id, raw=raw
    )


def kept_words(kept: assessment.Kept) -> str:
    """The acknowledgement beside an item."""
    return gettext("saved %(time)s", time=clock(kept.at))


def _fields(attempt: AttemptPage, number: int, item: Item, place: int) -> ItemFields:
    kept = attempt.responses.get((number, item.id))
    return responses.fields_of(
        item,
        place,
        response=kept.raw if kept else None,
        us_units=reads_us_units(),
        kept=gettext("saved %(time)s", time=clock(kept.kept_at)) if kept else "",
    )


def _unfolded(attempt: AttemptPage, number: int, fields: ItemFields) -> ItemFields:
    """A diagnosis with what its steps have led to so far."""
    unfolding = attempt.unfoldings.get((number, fields.item.id))
    return fields if unfolding is None else replace(fields, unfolding=unfolding_view(fields.item, unfolding))


def _kept_raw(attempt: AttemptPage, number: int, item: Item) -> Any:
    kept = attempt.responses.get((number, item.id))
    return kept.raw if kept else None


def _places(response: Response) -> Mapping[str, float]:
    return response if isinstance(response, Mapping) else {}


def _drawing(attempt: AttemptPage, number: int, scenario: Scenario) -> Markup:
    placed: dict[str, float] = {}
    marked: list[str] = []
    for item in scenario.items:
        raw = _kept_raw(attempt, number, item)
        if raw is None:
            continue
        if item.kind is ItemKind.PLACEMENT:
            placed |= _places(parse_response(item, raw))
        if item.kind is ItemKind.HAZARDS:
            marked += raw
    return drawing_of(scenario, placed=placed, marked=marked)
