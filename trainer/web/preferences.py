"""How things are shown: units from the person's own record, the theme from a cookie of this browser."""

from enum import StrEnum

from flask import Response, current_app, g, request
from flask_babel import gettext

from trainer.domain.people import UnitSystem
from trainer.drawing.reader import Reader
from trainer.web import access

_A_YEAR_S = 365 * 24 * 3600


class Theme(StrEnum):
    """Light and dark, as the device has it, or at most contrast for outdoors."""

    DEVICE = "device"
    LIGHT = "light"
    DARK = "dark"
    OUTDOOR = "outdoor"


def unit_system() -> UnitSystem:
    """The units that this page is read in: those that its address asks for, else one's own."""
    asked: UnitSystem | None = g.get("units_asked")
    return own_unit_system() if asked is None else asked


def own_unit_system() -> UnitSystem:
    """The units of whoever is signed in; metric for everybody else."""
    who = access.person()
    return who.person.units if who is not None else UnitSystem.METRIC


def reads_us_units() -> bool:
    """Whether inches and pounds come first."""
    return unit_system() is UnitSystem.INCH_POUND


def drawing_reader(prefix: str = "set-up") -> Reader:
    """For whom drawings of this page are made; the prefix keeps two drawings on one page apart."""
    return Reader(units="us" if reads_us_units() else "metric", words=gettext, prefix=prefix)


def language() -> str:
    """The language that pages are written in; English is the one there is."""
    return "en"


def chosen_theme() -> Theme:
    """The theme of this browser; the device decides until one is chosen."""
    chosen = request.cookies.get("theme", "")
    return Theme(chosen) if chosen in set(Theme) else Theme.DEVICE


def theme() -> str:
    """The theme as the page's root element names it; empty leaves it to the device."""
    chosen = chosen_theme()
    return "" if chosen is Theme.DEVICE else chosen.value


def units_word(system: UnitSystem) -> str:
    """A unit system in words."""
    return {UnitSystem.METRIC: gettext("metric"), UnitSystem.INCH_POUND: gettext("US (inch, pound)")}[system]


def theme_word(chosen: Theme) -> str:
    """A theme in words."""
    return {
        Theme.DEVICE: gettext("As the device has it"),
        Theme.LIGHT: gettext("Light"),
        Theme.DARK: gettext("Dark"),
        Theme.OUTDOOR: gettext("Outdoors, at most contrast"),
    }[chosen]


def keep_theme(response: Response, chosen: Theme) -> Response:
    """Keeps the theme in this browser for a year."""
    response.set_cookie(
        "theme",
        chosen.value,
        max_age=_A_YEAR_S,
        secure=current_app.config["SESSION_COOKIE_SECURE"],
        httponly=True,
        samesite="Lax",
    )
    return response
