"""What worksheets and answer keys have in common: marks of options, title block, words of every page."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from flask_babel import gettext

from trainer.domain.scenario import Scenario
from trainer.services.paper import SetPage, SheetKey, ShownSheet
from trainer.web.access import person
from trainer.web.page_tools import day
from trainer.web.preferences import language, reads_us_units, units_word

_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class PageSize(StrEnum):
    """The paper in the printer, as the typesetter names it."""

    A4 = "a4"
    LETTER = "us-letter"


@dataclass(frozen=True, kw_only=True)
class Printed:
    """The set that a document is of, and the paper that it is made for."""

    page: SetPage
    size: PageSize


def usual_size() -> PageSize:
    """The paper of whoever prints: inches and pounds are read where letter paper is."""
    return PageSize.LETTER if reads_us_units() else PageSize.A4


def letter(place: int) -> str:
    """The mark of an option or step, from 0: A, B, C and so on."""
    return _LETTERS[place]


def common(printed: Printed, *, title: str) -> dict[str, Any]:
    """The outer part of a document."""
    who = person()
    return {
        "title": title,
        "module": printed.page.paper_set.title,
        "organisation": who.organisation.name if who is not None else "",
        "paper": printed.size.value,
        "lang": language(),
    }


def common_words() -> dict[str, str]:
    """Words of every page."""
    return {
        "page": gettext("Page"),
        # the typesetter knows the pages only when it has set them
        "page-of": gettext("%(page)s of %(count)s", page="%page%", count="%count%"),
        "exercise": gettext(
            "A training exercise. It replaces no WPS, permit, calibrated meter or competent person. Never"
            " enter a purged pipe, pit or vessel on the strength of a calculation."
        ),
        "danger": gettext("Argon gives no warning:"),
        "caution": " ".join(
            (
                gettext(
                    "prove oxygen at the root before the arc, and test the air at the bottom before anyone"
                    " goes in."
                ),
                gettext(
                    "Local codes, the site's permit system and the gas's safety data sheet decide, not this"
                    " exercise."
                ),
            )
        ),
    }


def title_block(
    printed: Printed, of: ShownSheet | SheetKey, *, what: str, first: Scenario
) -> list[dict[str, Any]]:
    """The cells of the title block at the foot of each page, but for the page itself."""
    cells = (
        (gettext("Sheet"), what, False),
        (gettext("For"), whom_words(of), True),
        (gettext("Code"), of.sheet.code, False),
        (gettext("Units"), units_word(of.sheet.units), False),
        (gettext("Core"), first.core_version, False),
        (gettext("Content"), first.content_version[:12], False),
        (gettext("Printed"), day(printed.page.paper_set.made_at), False),
    )
    return [{"label": label, "value": value, "wide": wide} for label, value, wide in cells]


def whom_words(of: ShownSheet | SheetKey) -> str:
    """Whose sheet it is, in words."""
    return of.sheet.person_name or gettext("blank sheet %(number)s", number=of.sheet.sheet_no)


def count_words(number: int, count: int) -> str:
    """Which scenario of how many."""
    return gettext("Scenario %(number)s of %(count)s", number=number, count=count)
