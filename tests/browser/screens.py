"""Somebody at a real browser: opens pages, fills in and presses what they see, and lets no fault of a page pass."""

import os
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, ConsoleMessage, Locator, Page, Response

AXE = Path(__file__).parent / "vendor" / "axe.min.js"
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
# What colours and widths of lines can break; all else hangs on the page's marks and words.
OF_A_THEME = ("color-contrast", "target-size")
PATIENCE_MS = 30_000
RESULTS = Path(__file__).parents[2] / "test-results" / "screens"  # CI keeps the folder above as an artefact


# Every heading and control that is there to be seen or pressed, by what it is and its words.
_REACHED = """() => [...document.querySelectorAll("h1, h2, h3, a[href], button, input, select, textarea, summary")]
    .filter((each) => each.checkVisibility() && each.getBoundingClientRect().width > 0)
    .map((each) => `${each.localName} ${each.getAttribute("name") || each.textContent.trim()}`)"""


@dataclass(frozen=True)
class Size:
    """A device: how large its window is, and whether fingers work it."""

    name: str
    width: int
    height: int
    touch: bool = False


DESKTOP = Size("desktop", 1280, 800)
PHONE = Size("phone", 360, 740, touch=True)
SIZES = (DESKTOP, PHONE)


class Screen:
    """One browser of one person. Errors of scripts and refused requests are kept until `no_faults` asks."""

    def __init__(self, browser: Browser, address: str, size: Size = DESKTOP, **more: Any) -> None:
        self._address = address
        self.size = size
        self.context = browser.new_context(
            viewport={"width": size.width, "height": size.height},
            has_touch=size.touch,
            is_mobile=size.touch,
            **more,
        )
        self.page: Page = self.context.new_page()
        self.page.set_default_timeout(PATIENCE_MS)
        self.faults: list[str] = []
        self._refusal_wanted = False
        self.page.on("console", self._console)
        self.page.on("pageerror", lambda error: self.faults.append(f"page error: {error}"))
        self.page.on("response", self._response)

    def open_page(self, path: str) -> None:
        """Goes to an address of the site."""
        self.page.goto(f"{self._address}{path}")
        self._came()

    def sign_in(self, email: str, password: str) -> None:
        """Signs in by the form."""
        self.open_page("/account/sign-in")
        self.fill("E-mail", email)
        self.fill("Password", password)
        self.press("Sign in", within=self.page.locator("main"))

    @property
    def heading(self) -> str:
        """The words of the h1."""
        return folded(self.page.locator("h1").inner_text())

    @property
    def text(self) -> str:
        """What main says, blanks folded."""
        return folded(self.page.locator("main").inner_text())

    @property
    def path(self) -> str:
        """Where this browser is, on this site."""
        return self.page.url.removeprefix(self._address)

    def fill(self, label: str, value: str, *, within: Locator | None = None) -> None:
        """Types into the box of that label and leaves it, as a tab key does."""
        box = (within or self.page.locator("main")).get_by_label(label, exact=True)
        box.fill(value)
        box.blur()

    def choose(self, label: str, option: str, *, within: Locator | None = None) -> None:
        """Chooses from the list of that label."""
        (within or self.page.locator("main")).get_by_label(label, exact=True).select_option(option)

    def tick(self, label: str, *, within: Locator | None = None) -> None:
        """Ticks the box or the round of that label."""
        (within or self.page.locator("main")).get_by_label(label, exact=True).check()

    def group(self, legend: str) -> Locator:
        """The controls under one legend."""
        return self.page.get_by_role("group", name=legend, exact=True)

    def press(self, button: str, *, within: Locator | None = None) -> None:
        """Presses a button and waits for the page that it leads to."""
        with self.page.expect_navigation():
            (within or self.page).get_by_role("button", name=button, exact=True).click()
        self._came()

    def follow(self, link: str, *, within: Locator | None = None) -> None:
        """Follows a link."""
        with self.page.expect_navigation():
            (within or self.page.locator("main")).get_by_role("link", name=link, exact=True).first.click()
        self._came()

    def fact(self, term: str) -> str:
        """What a list of terms says beside a term."""
        found = self.page.locator("dt", has_text=re.compile(rf"^\s*{re.escape(term)}\s*$"))
        return folded(found.locator("xpath=following-sibling::dd[1]").first.inner_text())

    def rows(self, caption: str) -> list[list[str]]:
        """The cells of a table, which may be folded away, head left out."""
        table = self.page.locator("table", has=self.page.locator("caption", has_text=caption))
        return [
            [folded(cell.text_content() or "") for cell in row.locator("th, td").all()]
            for row in table.locator("tbody tr").all()
        ]

    @contextmanager
    def refused(self, status: int) -> Iterator[None]:
        """Within, a page of that status is what is wanted; the browser complains of it in its console too."""
        before = len(self.faults)
        self._refusal_wanted = True
        yield
        self._refusal_wanted = False
        new, self.faults = self.faults[before:], self.faults[:before]
        told = [
            each for each in new if not each.startswith(f"{status} ") and f"status of {status}" not in each
        ]
        assert len(told) < len(new), f"no answer {status} came: {new}"
        self.faults += told

    @contextmanager
    def cut_off(self) -> Iterator[None]:
        """Within, the server may be gone: what the browser complains of then is no fault of a page."""
        before = len(self.faults)
        yield
        del self.faults[before:]

    def no_faults(self) -> None:
        """Fails on everything that was wrong with a page so far."""
        assert self.faults == []

    def accessibility_faults(self, rules: Sequence[str] = ()) -> list[str]:
        """What axe-core finds against WCAG 2.2 A and AA on the page as it stands, or against these rules of it."""
        # by the debugger's protocol, so the site's own content security policy stays as strict as ever
        if not self.page.evaluate("'axe' in window"):
            self.page.evaluate(f"{AXE.read_text(encoding='utf-8')};0")
        # told of violations only, axe does not describe every element that is in order
        asked = "runOnly => axe.run(document, {runOnly, resultTypes: ['violations']})"
        of = {"type": "rule", "values": [*rules]} if rules else {"type": "tag", "values": WCAG}
        found = self.page.evaluate(asked, of)
        return [
            f"{each['id']} ({each['help']}): {node['target']} {node['failureSummary']}"
            for each in found["violations"]
            for node in each["nodes"]
        ]

    def paint(self, theme: str) -> None:
        """Puts the open page into another theme, as it would have come in that theme."""
        self.page.evaluate("theme => { document.documentElement.dataset.theme = theme; }", theme)

    def overhang_px(self) -> int:
        """By how much the page is wider than its window: nobody should have to push it sideways."""
        return self.page.evaluate(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth"
        )

    def lost_when_enlarged(self, times: int) -> list[str]:
        """What can no longer be reached with the page that many times as large: a window as many times smaller.

        WCAG 2.2, 1.4.4 (twice) and 1.4.10 (four times, without scrolling in two directions).
        """
        seen = self.page.evaluate(_REACHED)
        self.page.set_viewport_size({"width": self.size.width // times, "height": self.size.height // times})
        lost = [each for each in seen if each not in self.page.evaluate(_REACHED)]
        overhang = self.overhang_px()
        self.page.set_viewport_size({"width": self.size.width, "height": self.size.height})
        return [*lost, *([f"{overhang} px beside the window"] if overhang > 0 else [])]

    def weights_bytes(self) -> dict[str, int]:
        """How much the page and all that it loads weigh as sent, by what it is (a script, a style sheet, ...)."""
        return self.page.evaluate("""() => {
            const weights = {};
            for (const each of [...performance.getEntriesByType("navigation"),
                                ...performance.getEntriesByType("resource")]) {
              if (["fetch", "xmlhttprequest"].includes(each.initiatorType)) continue;
              const is = each.name.split("?")[0].endsWith(".js") ? "script" : each.initiatorType;
              weights[is] = (weights[is] || 0) + each.encodedBodySize;
            }
            return weights;
        }""")

    def layout_shift(self) -> float:
        """How far things moved while the page came in, as browsers score it (CLS)."""
        return self.page.evaluate("""() => new Promise((tell) => {
            let total = 0;
            new PerformanceObserver((list) => {
              for (const each of list.getEntries()) if (!each.hadRecentInput) total += each.value;
            }).observe({ type: "layout-shift", buffered: true });
            requestAnimationFrame(() => setTimeout(() => tell(total), 50));
        })""")

    def keep_picture(self, name: str, *, theme: str = "light") -> None:
        """Keeps how the whole page looks, for people to go through; in CI, or where BRIGHTROOT_SCREENS is set."""
        if not (os.environ.get("CI") or os.environ.get("BRIGHTROOT_SCREENS")):
            return
        file = re.sub(r"[^\w.-]+", "_", name).strip("_")[:120]
        folder = RESULTS / f"{self.size.name}-{theme}"
        self.page.screenshot(path=folder / f"{file}.jpg", full_page=True, type="jpeg", quality=70)

    def close(self) -> None:
        """Closes the browser's window and forgets its cookies."""
        self.context.close()

    def _came(self) -> None:
        """Fails at once on a page that is none, rather than to wait for what it will never show."""
        if not self._refusal_wanted:
            self.no_faults()

    def _console(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"}:
            self.faults.append(f"console {message.type}: {message.text}")

    def _response(self, response: Response) -> None:
        if response.status >= 400:
            self.faults.append(f"{response.status} {response.url}")


def folded(text: str) -> str:
    """Words with single blanks between them, hard ones taken for plain."""
    return " ".join(text.split())
