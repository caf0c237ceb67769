"""What every page must be, whoever opens it; the test client refuses a page that is not."""

from collections import Counter

from bs4 import BeautifulSoup, Tag

LABELLED = ("input", "select", "textarea")
NEEDS_NO_LABEL = {"hidden", "submit", "button"}
INLINE = ("onclick", "onchange", "onsubmit", "oninput", "onload", "style")


def faults_of_page(html: str) -> list[str]:
    """Everything wrong with a page, in words."""
    soup = BeautifulSoup(html, "html.parser")
    return [
        *_shape(soup),
        *_heading(soup),
        *_ids(soup),
        *_labels(soup),
        *_groups(soup),
        *_tables(soup),
        *_forms(soup),
        *_inline(soup),
        *_drawings(soup),
    ]


def _shape(soup: BeautifulSoup) -> list[str]:
    faults = []
    if not html_language(soup):
        faults.append("the page does not name its language")
    if len(soup.find_all("main")) != 1:
        faults.append(f"{len(soup.find_all('main'))} main elements, not one")
    own = soup.find_all(["title", "h1", "h2", "h3", "label", "legend", "caption", "th", "button", "dt"])
    faults += [
        f"a gap was not filled in: {_words(each)}" for each in own if "{{" in each.text or "%(" in each.text
    ]
    return faults


def html_language(soup: BeautifulSoup) -> str:
    """The language that the page names."""
    root = soup.find("html")
    return str(root.get("lang") or "") if isinstance(root, Tag) else ""


def _heading(soup: BeautifulSoup) -> list[str]:
    headings = soup.find_all("h1")
    if len(headings) != 1:
        return [f"{len(headings)} h1 elements, not one"]
    said = _words(headings[0])
    title = _words(soup.title) if soup.title else ""
    if not said:
        return ["the h1 is empty"]
    faults = [] if title.startswith(said) else [f"the title '{title}' does not start with the h1 '{said}'"]
    level = 1
    for heading in soup.find_all(["h1", "h2", "h3", "h4"]):
        deeper = int(heading.name[1])
        if deeper > level + 1:
            faults.append(f"heading '{_words(heading)}' skips a level")
        level = deeper
    return faults


def _ids(soup: BeautifulSoup) -> list[str]:
    ids = Counter(each["id"] for each in soup.find_all(id=True))
    faults = [f"id '{name}' is used {times} times" for name, times in ids.items() if times > 1]
    for attribute in ("for", "aria-describedby", "aria-labelledby"):
        for each in soup.find_all(attrs={attribute: True}):
            value = each[attribute]
            names = value if isinstance(value, list) else str(value).split()
            faults += [f"{attribute} points to no id '{name}'" for name in names if name not in ids]
    faults += [
        f"the link '{_words(each)}' points to no id '{each['href']}'"
        for each in soup.find_all("a", href=lambda href: bool(href) and href.startswith("#"))
        if each["href"][1:] not in ids
    ]
    return faults


def _labels(soup: BeautifulSoup) -> list[str]:
    targets = {each.get("for") for each in soup.find_all("label")}
    faults = []
    for control in soup.find_all(LABELLED):
        if control.get("type") in NEEDS_NO_LABEL:
            continue
        named = control.get("aria-label") or control.get("aria-labelledby")
        if not named and control.get("id") not in targets and control.find_parent("label") is None:
            faults.append(f"no label for {control.name} '{control.get('name')}'")
    faults += ["a label without words" for each in soup.find_all("label") if not _words(each)]
    faults += [
        "a link without words"
        for each in soup.find_all("a")
        if not _words(each) and not each.get("aria-label")
    ]
    faults += [
        "a button without words"
        for each in soup.find_all("button")
        if not _words(each) and not each.get("aria-label")
    ]
    return faults


def _groups(soup: BeautifulSoup) -> list[str]:
    faults = [
        f"radio '{each.get('name')}' stands outside a fieldset"
        for each in soup.find_all("input", type="radio")
        if each.find_parent("fieldset") is None
    ]
    faults += [
        "a fieldset without a legend" for each in soup.find_all("fieldset") if each.find("legend") is None
    ]
    return faults


def _tables(soup: BeautifulSoup) -> list[str]:
    faults = [
        "a table without a caption"
        for each in soup.find_all("table")
        if each.caption is None or not _words(each.caption)
    ]
    faults += [
        f"table head '{_words(each)}' has no scope" for each in soup.find_all("th") if not each.get("scope")
    ]
    return faults


def _forms(soup: BeautifulSoup) -> list[str]:
    faults = []
    for form in soup.find_all("form"):
        if not form.get("action"):
            faults.append("a form without an action")
        if (
            str(form.get("method", "get")).lower() == "post"
            and form.find("input", attrs={"name": "csrf_token"}) is None
        ):
            faults.append(f"the form to {form.get('action')} carries no token")
    return faults


def _inline(soup: BeautifulSoup) -> list[str]:
    faults = [
        f"inline {name} on {each.name}" for name in INLINE for each in soup.find_all(attrs={name: True})
    ]
    faults += ["an inline style sheet" for _ in soup.find_all("style")]
    faults += ["an inline script" for each in soup.find_all("script") if not each.get("src")]
    for each in soup.find_all(["script", "img", "link"]):
        source = str(each.get("src") or each.get("href") or "")
        if source.startswith(("http:", "https:", "//", "data:")):
            faults.append(f"{each.name} comes from elsewhere: {source[:60]}")
    return faults


def _drawings(soup: BeautifulSoup) -> list[str]:
    faults = []
    for drawing in soup.find_all("svg"):
        if drawing.find_parent("svg") is not None:
            continue
        hidden = drawing.get("aria-hidden") == "true"
        if not hidden and drawing.find("title") is None and not drawing.get("aria-label"):
            faults.append("a drawing without a title")
    return faults


def _words(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())
