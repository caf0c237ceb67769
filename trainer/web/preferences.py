"""How things are shown: units and language from the person's own record, the theme from a cookie."""

from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum

from flask import Response, current_app, g, request
from flask_babel import force_locale, gettext

from trainer.domain.people import Language, UnitSystem
from trainer.drawing.reader import Reader
from trainer.web import access
from trainer.web.said import said

_A_YEAR_S = 365 * 24 * 3600


class Theme(StrEnum):
    """Light and dark, as the device has it, or at most contrast for outdoors."""

    DEVICE = "device"
    LIGHT = "light"
    DARK = "dark"
    OUTDOOR = "outdoor"


@contextmanager
def reading_in(units: UnitSystem) -> Iterator[None]:
    """Writes what is made inside in these units: what is printed is read by somebody else."""
    before = g.get("units_read")
    g.units_read = units
    try:
        yield
    finally:
        g.units_read = before


@contextmanager
def writing_in(chosen: Language) -> Iterator[None]:
    """Writes what is made inside in this language, whoever asks for it."""
    before = g.get("language_written")
    g.language_written = chosen
    try:
        with force_locale(chosen.value):
            yield
    finally:
        g.language_written = before


def unit_system() -> UnitSystem:
    """The units that this page is read in: those that its address asks for, else one's own."""
    asked: UnitSystem | None = g.get("units_asked")
    return own_unit_system() if asked is None else asked


def own_unit_system() -> UnitSystem:
    """The units of whoever is signed in; metric for everybody else."""
    for_another: UnitSystem | None = g.get("units_read")
    if for_another is not None:
        return for_another
    who = access.person()
    return who.person.units if who is not None else UnitSystem.METRIC


def reads_us_units() -> bool:
    """Whether inches and pounds come first."""
    return unit_system() is UnitSystem.INCH_POUND


def drawing_reader(prefix: str = "set-up") -> Reader:
    """For whom drawings of this page are made; the prefix keeps two drawings on one page apart."""
    units = "us" if reads_us_units() else "metric"
    return Reader(units=units, language=language(), words=said, prefix=prefix)


def language() -> str:
    """The language of whoever is signed in; of others what they chose here, or what the browser asks for."""
    for_another: Language | None = g.get("language_written")
    if for_another is not None:
        return for_another.value
    who = access.person()
    if who is not None:
        return who.person.language.value
    return language_of_browser()


def language_of_browser() -> str:
    """What was chosen in this browser, or what it asks for; needs no person and no database."""
    chosen = request.cookies.get("language", "")
    if chosen in set(Language):
        return chosen
    return request.accept_languages.best_match([each.value for each in Language], Language.ENGLISH.value)


def language_word(chosen: Language) -> str:
    """A language as those call it who read it, whatever the page is written in."""
    return {Language.ENGLISH: "English", Language.SPANISH: "Español"}[chosen]


def other_languages() -> list[tuple[str, str]]:
    """Code and name of every language but the one that this page is written in."""
    return [(each.value, language_word(each)) for each in Language if each.value != language()]


def keep_language(response: Response, chosen: Language) -> Response:
    """Keeps the language in this browser for a year, for pages that are read before signing in."""
    return _kept(response, "language", chosen.value)


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
    return _kept(response, "theme", chosen.value)


def _kept(response: Response, name: str, value: str) -> Response:
    response.set_cookie(
        name,
        value,
        max_age=_A_YEAR_S,
        secure=current_app.config["SESSION_COOKIE_SECURE"],
        httponly=True,
        samesite="Lax",
    )
    return response
