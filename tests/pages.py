"""A page as a person sees it: headings, labelled fields, rows, links, and forms to fill in and send."""

import copy
import re
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from bs4 import BeautifulSoup, Tag


class NotOnPage(AssertionError):
    """What was looked for is not there; the message says what is."""


@dataclass
class Sending:
    """Where a filled-in form goes, and what it carries."""

    action: str
    method: str
    data: dict[str, list[str]]


class Page:
    """One answer of the site."""

    def __init__(self, response: Any, client: Any = None) -> None:
        self.status = response.status_code
        self.location = response.headers.get("Location", "")
        self.headers = response.headers
        self.path = response.request.path
        self.html = response.get_data().decode(errors="replace")
        self._client = client

    @cached_property
    def soup(self) -> BeautifulSoup:
        """The elements of the page, read when first asked for: what is no page is never read as one."""
        return BeautifulSoup(self.html, "lxml")

    @property
    def heading(self) -> str:
        """The words of the h1."""
        return words(self.soup.h1) if self.soup.h1 else ""

    @property
    def text(self) -> str:
        """Everything that main says, blanks folded."""
        main = self.soup.find("main")
        return words(main) if isinstance(main, Tag) else words(self.soup)

    @property
    def said(self) -> list[str]:
        """What the page says has just happened."""
        return [
            words(line) for box in self.soup.find_all(attrs={"role": "status"}) for line in box.find_all("p")
        ]

    @property
    def faults(self) -> list[str]:
        """The lines of the summary above a refused form."""
        return [
            words(line) for box in self.soup.find_all(attrs={"role": "alert"}) for line in box.find_all("li")
        ]

    @property
    def headings(self) -> list[str]:
        """All headings below the h1."""
        return [words(each) for each in self.soup.find_all(["h2", "h3"])]

    def field(self, label: str) -> str | list[str] | bool:
        """What a labelled control holds: text, chosen words, or whether it is ticked."""
        control = self.control(label)
        if control.name == "select":
            return _chosen(control)
        if control.get("type") in {"checkbox", "radio"}:
            return control.has_attr("checked")
        if control.name == "textarea":
            return _text_of(control)
        return str(control.get("value") or "")

    def options(self, label: str) -> list[str]:
        """The words that a select or a group of radios offers."""
        for legend in self.soup.find_all("legend"):
            if words(legend) == label and isinstance(legend.parent, Tag):
                return [words(each) for each in legend.parent.find_all("label")]
        return [words(each) for each in self.control(label).find_all("option")]

    def error_for(self, label: str) -> str:
        """The fault shown at a field; empty without one."""
        control = self.control(label)
        fault = self.soup.find(id=f"{control.get('id')}-fault")
        return words(fault) if isinstance(fault, Tag) else ""

    def row(self, first_cell: str) -> list[str]:
        """The words of the cells of the row that starts so."""
        rows = [[words(cell) for cell in row.find_all(["th", "td"])] for row in self.soup.find_all("tr")]
        found = [each for each in rows if each and each[0] == first_cell]
        if len(found) != 1:
            raise NotOnPage(f"{len(found)} rows start with '{first_cell}', not one: {[r[:1] for r in rows]}")
        return found[0]

    def rows(self, caption: str) -> list[list[str]]:
        """All rows of the table with that caption, heads left out."""
        for table in self.soup.find_all("table"):
            if table.caption is not None and words(table.caption) == caption:
                return [
                    [words(cell) for cell in row.find_all(["th", "td"])] for row in table.tbody.find_all("tr")
                ]
        raise NotOnPage(f"no table '{caption}' among {[words(c) for c in self.soup.find_all('caption')]}")

    def fact(self, name: str) -> str:
        """What a list of terms says beside a term."""
        found = [each.find_next_sibling("dd") for each in self.soup.find_all("dt") if words(each) == name]
        if not found or not isinstance(found[0], Tag):
            raise NotOnPage(f"no term '{name}' among {[words(t) for t in self.soup.find_all('dt')]}")
        return words(found[0])

    def has_link(self, text: str) -> bool:
        """Whether there is a link of these words."""
        return any(words(each) == text for each in self.soup.find_all("a"))

    def link(self, text: str) -> str:
        """Where the link of these words leads."""
        found = [each["href"] for each in self.soup.find_all("a") if words(each) == text]
        if not found:
            raise NotOnPage(f"no link '{text}' among {[words(each) for each in self.soup.find_all('a')]}")
        return str(found[0])

    def has_button(self, text: str) -> bool:
        """Whether there is a button of these words."""
        return any(words(each) == text for each in self.soup.find_all("button"))

    def follow(self, text: str) -> "Page":
        """The page behind a link."""
        return self._client.open_page(self.link(text))

    def control(self, label: str) -> Tag:
        """The input, select or textarea with that label."""
        return self._control_in(self.soup, label)

    def sending(self, button: str, **filled: Any) -> Sending:
        """The form of a button, filled in by label: text, True or False for a tick, a list of ticked labels."""
        filled_in = copy.copy(self)
        filled_in.soup = copy.copy(self.soup)  # the page itself stays as it was
        _gather(filled_in.soup)
        return filled_in._sending(button, filled)

    def _sending(self, button: str, filled: dict[str, Any]) -> Sending:
        pressed = self._button(button)
        form = pressed.find_parent("form")
        if form is None:
            raise NotOnPage(f"the button '{button}' stands in no form")
        for label, value in filled.items():
            self._fill(form, label, value)
        data = _carried(form)
        if pressed.get("name"):
            data.setdefault(str(pressed["name"]), []).append(str(pressed.get("value") or ""))
        action = str(pressed.get("formaction") or form["action"])
        return Sending(action=action, method=str(form.get("method", "get")).lower(), data=data)

    def submit(self, button: str, /, **filled: Any) -> "Page":
        """Fills in the form of a button and sends it, without following where it leads."""
        return self._client.send(self.sending(button, **filled))

    def _button(self, text: str) -> Tag:
        found = [each for each in self.soup.find_all("button") if words(each) == text]
        if not found:
            raise NotOnPage(
                f"no button '{text}' among {[words(each) for each in self.soup.find_all('button')]}"
            )
        return found[0]

    def _control_in(self, scope: Tag, label: str) -> Tag:
        for each in scope.find_all("label"):
            if words(each) != label and _own_words(each) != label:
                continue
            inner = each.find(["input", "select", "textarea"])
            found = inner if isinstance(inner, Tag) else scope.find(id=each.get("for"))
            if isinstance(found, Tag) and found.name in {"input", "select", "textarea"}:
                return found
        for each in scope.find_all(["input", "select", "textarea"], attrs={"aria-label": label}):
            return each
        raise NotOnPage(f"no field '{label}' among {[words(each) for each in scope.find_all('label')]}")

    def _fill(self, form: Tag, label: str, value: Any) -> None:
        group = next((g.parent for g in form.find_all("legend") if words(g) == label), None)
        if isinstance(group, Tag):
            _tick_group(group, value if isinstance(value, list) else [value], label)
            return
        control = self._control_in(form, label)
        if control.name == "select":
            _choose(control, value, label)
        elif control.get("type") in {"checkbox", "radio"}:
            _tick(control, bool(value))
        elif control.name == "textarea":
            control.string = str(value)
        else:
            control["value"] = str(value)


def _gather(soup: Tag) -> None:
    """Moves what stands elsewhere on the page, with its label, into the form that it says it belongs to."""
    for control in soup.find_all(attrs={"form": True}):
        form = soup.find("form", id=control["form"])
        assert isinstance(form, Tag), f"no form {control['form']}"
        labels = soup.find_all("label", attrs={"for": control["id"]}) if control.has_attr("id") else []
        for each in (*labels, control):
            form.append(each.extract())


def words(tag: Tag) -> str:
    """The words of an element, blanks folded, none before a stop."""
    return re.sub(r" ([.,:;?)])", r"\1", " ".join(tag.get_text(" ").split()))


def _text_of(area: Tag) -> str:
    """What a text area holds; the first line break after its tag is not part of it."""
    return area.get_text().removeprefix("\r").removeprefix("\n")


def _own_words(label: Tag) -> str:
    return " ".join(
        " ".join(text for text in label.find_all(string=True) if text.find_parent("select") is None).split()
    )


def _chosen(select: Tag) -> str:
    options = select.find_all("option")
    chosen = [each for each in options if each.has_attr("selected")] or options[:1]
    return words(chosen[0]) if chosen else ""


def _choose(select: Tag, value: Any, label: str) -> None:
    options = select.find_all("option")
    wanted = value if isinstance(value, list) else [value]
    known = [each for each in options if words(each) in wanted or each.get("value") in wanted]
    if len(known) != len(wanted):
        raise NotOnPage(f"'{value}' is not offered by '{label}': {[words(each) for each in options]}")
    for each in options:
        if each.has_attr("selected"):
            del each["selected"]
    for each in known:
        each["selected"] = ""


def _tick_group(group: Tag, wanted: list[Any], label: str) -> None:
    labels = {words(each): each for each in group.find_all("label")}
    missing = [each for each in wanted if each not in labels]
    if missing:
        raise NotOnPage(f"'{label}' does not offer {missing}: {list(labels)}")
    for text, each in labels.items():
        inner = each.find("input") or group.find(id=each.get("for"))
        if isinstance(inner, Tag):
            _tick(inner, text in wanted)


def _tick(control: Tag, on: bool) -> None:
    if on:
        control["checked"] = ""
    elif control.has_attr("checked"):
        del control["checked"]


def _carried(form: Tag) -> dict[str, list[str]]:
    data: dict[str, list[str]] = {}
    for control in form.find_all(["input", "select", "textarea"]):
        name = control.get("name")
        if not name or control.has_attr("disabled"):
            continue
        for value in _values(control):
            data.setdefault(str(name), []).append(value)
    return data


def _values(control: Tag) -> list[str]:
    if control.name == "textarea":
        return [_text_of(control)]
    if control.name == "select":
        options = control.find_all("option")
        chosen = [each for each in options if each.has_attr("selected")]
        if not chosen and not control.has_attr("multiple"):
            chosen = options[:1]
        return [str(each.get("value", words(each))) for each in chosen]
    if control.get("type") in {"checkbox", "radio"}:
        return [str(control.get("value", "on"))] if control.has_attr("checked") else []
    if control.get("type") in {"submit", "button", "file"}:
        return []
    return [str(control.get("value") or "")]
