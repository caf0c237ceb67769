"""A set of sheets as a worksheet: made of what is shown before any answer is known, and of nothing else."""

from collections.abc import Callable, Sequence
from io import BytesIO
from typing import Any

import segno
from flask_babel import gettext

from trainer.domain.scenario import Fact, Scenario
from trainer.paper.typesetting import typeset
from trainer.services.paper import ShownSheet
from trainer.web.figures import fact_text, hear_scenario, sentence
from trainer.web.paper.item_forms import drawing, item_form
from trainer.web.paper.sheet_parts import Printed, common, common_words, count_words, title_block
from trainer.web.preferences import reading_in
from trainer.web.said import said
from trainer.web.scenario_drawing import drawing_of


def worksheet_pdf(
    printed: Printed, sheets: Sequence[ShownSheet], *, address_of: Callable[[str], str]
) -> bytes:
    """The PDF; `address_of` gives the page on which a sheet is keyed in, by its code."""
    document = {
        **common(printed, title=gettext("%(module)s: worksheet", module=printed.page.paper_set.title)),
        "words": {**common_words(), **_words()},
        "sheets": [_sheet(printed, each, address_of(each.sheet.code)) for each in sheets],
    }
    return typeset("worksheet.typ", document, made_at=printed.page.paper_set.made_at)


def _sheet(printed: Printed, shown_sheet: ShownSheet, address: str) -> dict[str, Any]:
    sheet, scenarios = shown_sheet.sheet, shown_sheet.scenarios
    with reading_in(sheet.units):
        return {
            "code": sheet.code,
            "qr": _qr_code(address),
            "person": sheet.person_name,
            "block": title_block(printed, shown_sheet, what=gettext("Worksheet"), first=scenarios[0]),
            "scenarios": [
                _scenario(each, count_words(number, len(scenarios)))
                for number, each in enumerate(scenarios, start=1)
            ],
        }


def _qr_code(address: str) -> str:
    written = BytesIO()
    segno.make(address, error="m").save(written, kind="svg", border=1, xmldecl=False)
    return written.getvalue().decode()


def _scenario(scenario: Scenario, count: str) -> dict[str, Any]:
    hear_scenario(scenario)
    return {
        "count-words": count,
        "title": sentence(scenario.title),
        "situation": sentence(scenario.situation),
        "drawing": drawing(str(drawing_of(scenario, placed={}, marked=()))),
        "facts": _facts(scenario.facts),
        "given": _facts(scenario.given),
        "cues": [sentence(each.text) for each in scenario.cues],
        "items": [item_form(item, number) for number, item in enumerate(scenario.items, start=1)],
    }


def _facts(facts: Sequence[Fact]) -> list[list[str]]:
    return [[said(each.label), fact_text(each)] for each in facts]


def _words() -> dict[str, str]:
    return {
        "worksheet": gettext("Worksheet"),
        "name": gettext("Name"),
        "sat-on": gettext("Date"),
        "supervised": gettext("Supervised by"),
        "qr-told": gettext("Leads the instructor to the page on which this sheet is keyed in"),
        "qr-hint": gettext("For the instructor: key this sheet in"),
        "how-to": gettext(
            "Answer every item: one left open is not answered, and a sheet with one does not pass. Write"
            " each number with its unit. Strike out what you change; nobody guesses what you meant. Work"
            " things out on the backs."
        ),
        "known": gettext("What you know"),
        "given": gettext("Taken as given"),
        "noticed": gettext("What you notice"),
        "answer": gettext("Answer"),
        "place-hint": gettext("Mark the place on the scale and write it on the line; the line counts."),
        "hazards-hint": gettext(
            "The numbers stand in the drawing. Tick what is a hazard here, and only that."
        ),
        "no-hazard": gettext("I see no hazard here"),
        "order-hint": gettext("A step that does not belong is left out: boxes at the end may stay empty."),
        "order-of-letters": gettext("Letters in order"),
        "graded-by": gettext("How it is graded, 0 to 3 for each:"),
        "critical-zero": gettext("critical: 0 here fails"),
    }
