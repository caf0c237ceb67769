"""Every page at both sizes: nothing that axe-core finds against WCAG 2.2 A and AA, no sideways pushing, no faults.

Every page in both languages and all themes. It is opened light in English and dark in Spanish and held to every
rule; then it is painted in the other themes where it stands, and held to what a theme can change: colours, the size
of what is pressed, the width. On the desktop each page is also enlarged to twice and four times its size.

axe-core finds by machine about half of what can be wrong; the rest is for people to try.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

import pytest
from crew import PASSWORD, Member, crew_of
from every_page import (
    BY_A_FORM,
    NO_PAGE,
    OF_EVERY_KIND,
    OF_NO_FAMILY,
    PAGES,
    STRANGER,
    ids_of,
    of_another_family,
)
from playwright.sync_api import Browser
from screens import DESKTOP, OF_A_THEME, PHONE, SIZES, Screen
from serving import served
from two_databases import SqliteFiles
from werkzeug.routing import Map

from trainer.app import create_app
from trainer.config import Settings
from trainer.domain.people import Language, UnitSystem
from trainer.domain.scenario import ItemKind
from trainer.scenario_files import load_content
from trainer.services import accounts
from trainer.services.site import Site

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("pages")]

# A phone in a shop with a poor line: everything that a page needs, as it is sent.
LARGEST_PAGE_BYTES, LARGEST_SCRIPT_BYTES, LARGEST_SHIFT = 100_000, 60_000, 0.05

# In which themes else a page is looked at without opening it anew, by the theme that it came in.
PAINTED = {"light": ("dark", "outdoor"), "dark": ("light",), "outdoor": ()}
OTHER_THEMES = pytest.mark.parametrize(
    ("scheme", "language"), [("dark", Language.SPANISH), ("outdoor", Language.ENGLISH)]
)
by_size = pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)


@dataclass
class Furnished:
    """The site with one of everything, and a browser for each role and size."""

    address: str
    site: Site
    crew: dict[str, Member]
    ids: dict[str, object]
    browser: Browser
    open_screens: dict[tuple, Screen] = field(default_factory=dict)

    def screen(self, key: str, **more: object) -> Screen:
        """A browser of that person, signed in once and used by all tests."""
        name = (key, *more.values())
        if name not in self.open_screens:
            one = self.open_screens[name] = Screen(self.browser, self.address, **more)
            if key != STRANGER:
                one.sign_in(self.crew[key].email, PASSWORD)
        self.open_screens[name].faults.clear()
        return self.open_screens[name]

    def path(self, template: str) -> str:
        """An address with ids that are there."""
        return template.format_map(self.ids)

    @contextmanager
    def in_theme(self, key: str, scheme: str, language: Language) -> Iterator[Screen]:
        """A phone of somebody who chose that theme and, as long as this lasts, reads that language."""
        screen = self.screen(key, size=PHONE, color_scheme="dark" if scheme == "dark" else "light")
        chosen = {"theme": scheme, "language": language.value}
        screen.context.add_cookies(
            [{"name": name, "value": value, "url": self.address} for name, value in chosen.items()]
        )
        if key != STRANGER:
            self._reads(key, language)
        yield screen
        if key != STRANGER:
            self._reads(key, Language.ENGLISH)

    def _reads(self, key: str, language: Language) -> None:
        accounts.change_preferences(
            self.site, self.crew[key].acting, units=UnitSystem.METRIC, language=language
        )


@pytest.fixture(scope="module")
def furnished(
    browser: Browser, sqlite_files: SqliteFiles, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Furnished]:
    folder = tmp_path_factory.mktemp("every-page")
    with sqlite_files.empty(folder) as url, served(url, folder) as (address, site):
        crew = crew_of(site)
        found = Furnished(address, site, crew, ids_of(site, crew), browser)
        yield found
        for each in found.open_screens.values():
            each.close()


def look(
    screen: Screen, path: str, *, name: str, theme: str = "light", language: Language = Language.ENGLISH
) -> None:
    screen.open_page(path)
    html = screen.page.locator("html")
    assert html.get_attribute("lang") == language.value
    assert (html.get_attribute("data-theme") or "light") == theme
    screen.keep_picture(name, theme=theme)
    assert screen.accessibility_faults() == []
    assert screen.overhang_px() <= 0, "the page is wider than its window"
    if screen.size is DESKTOP:
        for times in (2, 4):
            assert screen.lost_when_enlarged(times) == []
    weights = screen.weights_bytes()
    assert sum(weights.values()) <= LARGEST_PAGE_BYTES, weights
    assert weights.get("script", 0) <= LARGEST_SCRIPT_BYTES, weights
    assert screen.layout_shift() <= LARGEST_SHIFT
    for other in PAINTED[theme]:
        screen.paint(other)
        assert screen.accessibility_faults(OF_A_THEME) == [], other
        assert screen.overhang_px() <= 0, f"the page is wider than its window, {other}"
    screen.no_faults()


# Scenarios of every kind of item at both sizes; of the other families what is worked on, on a phone, and what is
# read, on the desktop: the pages are the same.
LOOKED_AT = [
    *((who, path, size) for who, path in PAGES if not of_another_family(path) for size in SIZES),
    *((who, path, PHONE if "{open " in path else DESKTOP) for who, path in PAGES if of_another_family(path)),
]


@pytest.mark.parametrize(
    ("key", "template", "size"),
    LOOKED_AT,
    ids=[f"{who} {path.split('?')[0]}-{size.name}" for who, path, size in LOOKED_AT],
)
def test_a_page_is_accessible_fits_its_window_and_loads_without_a_fault(furnished, key, template, size):
    look(furnished.screen(key, size=size), furnished.path(template), name=f"{key} {template}")


@OTHER_THEMES
@pytest.mark.parametrize("family", OF_EVERY_KIND)
def test_open_and_marked_scenarios_can_be_read_in_the_other_themes(furnished, family, scheme, language):
    with furnished.in_theme("apprentice", scheme, language) as screen:
        for template in (
            f"/apprentice/attempts/{{open {family}}}/scenarios/1",
            f"/apprentice/attempts/{{done {family}}}/result",
        ):
            name = f"apprentice {template}"
            look(screen, furnished.path(template), name=name, theme=scheme, language=language)


@pytest.mark.parametrize(
    ("key", "template"), OF_NO_FAMILY, ids=[f"{who} {path.split('?')[0]}" for who, path in OF_NO_FAMILY]
)
def test_every_page_can_be_read_dark_in_spanish(furnished, key, template):
    spanish = Language.SPANISH
    with furnished.in_theme(key, "dark", spanish) as screen:
        look(screen, furnished.path(template), name=f"{key} {template}", theme="dark", language=spanish)


def test_the_checker_finds_what_is_wrong_with_a_page(furnished):
    page = furnished.screen(STRANGER, size=PHONE)
    page.open_page("/verify")
    page.page.evaluate("""() => {
        document.querySelector("label").remove();
        document.querySelector(".muted").className = "";
        document.querySelector("h1").setAttribute("role", "nonsense");
        document.querySelector("main").insertAdjacentHTML("beforeend", "<button></button>");
        document.querySelector("main").firstElementChild.className = "";
        document.querySelector("main").insertAdjacentHTML("beforeend", "<pre>" + "wide ".repeat(200) + "</pre>");
    }""")

    found = {each.split(" ")[0] for each in page.accessibility_faults()}

    assert {"label", "aria-roles", "button-name"} <= found
    assert page.overhang_px() > 0


def test_the_checker_finds_what_is_wrong_with_a_theme_alone(furnished):
    page = furnished.screen(STRANGER, size=PHONE)
    page.open_page("/verify")
    page.page.evaluate("""() => {
        const main = document.querySelector("main");
        main.insertAdjacentHTML("beforeend", "<p>Only to be read on white.</p>");
        main.lastElementChild.style.color = "#595959";
    }""")

    found = {}
    for theme in ("light", "dark", "outdoor"):
        page.paint(theme)
        found[theme] = {each.split(" ")[0] for each in page.accessibility_faults(OF_A_THEME)}

    assert found == {"light": set(), "dark": {"color-contrast"}, "outdoor": set()}


@by_size
def test_refused_forms_and_missing_pages_are_accessible_too(furnished, size):
    teacher = furnished.screen("instructor", size=size)
    for template, button, status in (
        ("/instructor/modules/new", "Make the module", 422),
        ("/instructor/apprentices/{person_id}/observations/new", "Record the observation", 422),
        ("/instructor/classes", "Make the class", 422),
    ):
        teacher.open_page(furnished.path(template))
        with teacher.refused(status):
            teacher.press(button)
        assert teacher.accessibility_faults() == []
    stranger = furnished.screen(STRANGER, size=size)
    for path, status in (("/verify/0000-0000-0001", 404), ("/no-such-page", 404)):
        with stranger.refused(status):
            stranger.open_page(path)
        assert stranger.accessibility_faults() == []
        assert stranger.overhang_px() <= 0


@by_size
def test_the_link_for_somebody_new_is_shown_on_a_page_in_order(furnished, size):
    admin = furnished.screen("admin", size=size)
    admin.open_page("/admin/people")
    admin.fill("Name", f"New Person {size.name}")
    admin.fill("E-mail", f"new.{size.name}@brightroot.example")
    admin.press("Add the person")

    assert "/account/invitation/" in admin.text
    assert admin.accessibility_faults() == []
    assert admin.overhang_px() <= 0
    admin.no_faults()


def test_every_page_of_the_site_is_looked_at(tmp_path):
    app = create_app(Settings(data=tmp_path, database_url="sqlite://", secret_key="x" * 40))
    looked_at = {_endpoint(app.url_map, path) for _, path in PAGES} | BY_A_FORM | NO_PAGE
    pages = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in rule.methods}

    assert pages - looked_at == set()


def test_the_families_that_the_themes_are_looked_at_on_ask_every_kind_of_item():
    families = load_content().families
    assert {kind for each in OF_EVERY_KIND for kind in families[each].item_kinds} == set(ItemKind)


def _endpoint(urls: Map, template: str) -> str:
    some_id = "00000000-0000-4000-8000-000000000000"
    path = template.split("?")[0]
    while "{" in path:
        head, _, rest = path.partition("{")
        path = head + some_id + rest.partition("}")[2]
    return urls.bind("localhost").match(path)[0]
