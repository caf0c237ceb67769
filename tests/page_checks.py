"""What every page must be, whoever opens it; the test client refuses a page that is not."""

from collections import Counter

from lxml.html import HtmlElement, document_fromstring

NEEDS_NO_LABEL = {"hidden", "submit", "button"}
INLINE = ("onclick", "onchange", "onsubmit", "oninput", "onload", "style")
HEADINGS = ("h1", "h2", "h3", "h4")
OWN_WORDS = ("title", "h1", "h2", "h3", "label", "legend", "caption", "th", "button", "dt")


def faults_of_page(html: str) -> list[str]:
    """Everything wrong with a page, in words."""
    page = document_fromstring(html)
    return [
        *_shape(page),
        *_heading(page),
        *_ids(page),
        *_labels(page),
        *_groups(page),
        *_tables(page),
        *_forms(page),
        *_inline(page),
        *_drawings(page),
    ]


def _shape(page: HtmlElement) -> list[str]:
    faults = [] if page.get("lang") else ["the page does not name its language"]
    mains = _all(page, "main")
    if len(mains) != 1:
        faults.append(f"{len(mains)} main elements, not one")
    own = [_words(each) for each in _all(page, *OWN_WORDS)]
    return faults + [f"a gap was not filled in: {each}" for each in own if "{{" in each or "%(" in each]


def _heading(page: HtmlElement) -> list[str]:
    headings = _all(page, "h1")
    if len(headings) != 1:
        return [f"{len(headings)} h1 elements, not one"]
    said, title = _words(headings[0]), " ".join(_words(each) for each in page.findall("head/title"))
    if not said:
        return ["the h1 is empty"]
    faults = [] if title.startswith(said) else [f"the title '{title}' does not start with the h1 '{said}'"]
    level = 1
    for heading in _all(page, *HEADINGS):
        deeper = int(heading.tag[1])
        if deeper > level + 1:
            faults.append(f"heading '{_words(heading)}' skips a level")
        level = deeper
    return faults


def _ids(page: HtmlElement) -> list[str]:
    ids = Counter(page.xpath("//@id"))
    faults = [f"id '{name}' is used {times} times" for name, times in ids.items() if times > 1]
    for attribute in ("for", "aria-describedby", "aria-labelledby"):
        names = [name for value in page.xpath(f"//@{attribute}") for name in value.split()]
        faults += [f"{attribute} points to no id '{name}'" for name in names if name not in ids]
    faults += [
        f"the link '{_words(each)}' points to no id '{each.get('href')}'"
        for each in page.xpath("//a[starts-with(@href, '#')]")
        if each.get("href")[1:] not in ids
    ]
    return faults


def _labels(page: HtmlElement) -> list[str]:
    targets = set(page.xpath("//label/@for"))
    faults = []
    for control in _all(page, "input", "select", "textarea"):
        if control.get("type") in NEEDS_NO_LABEL:
            continue
        named = control.get("aria-label") or control.get("aria-labelledby")
        if not named and control.get("id") not in targets and not control.xpath("ancestor::label"):
            faults.append(f"no label for {control.tag} '{control.get('name')}'")
    for tag, what in (("label", "a label"), ("a", "a link"), ("button", "a button")):
        faults += [
            f"{what} without words"
            for each in _all(page, tag)
            if not _words(each) and (tag == "label" or not each.get("aria-label"))
        ]
    return faults


def _groups(page: HtmlElement) -> list[str]:
    faults = [
        f"radio '{each.get('name')}' stands outside a fieldset"
        for each in page.xpath("//input[@type='radio'][not(ancestor::fieldset)]")
    ]
    return faults + ["a fieldset without a legend" for _ in page.xpath("//fieldset[not(.//legend)]")]


def _tables(page: HtmlElement) -> list[str]:
    captions = [" ".join(_words(each) for each in table.findall("caption")) for table in _all(page, "table")]
    faults = ["a table without a caption" for each in captions if not each]
    heads = page.xpath("//th[not(@scope)]")
    return faults + [f"table head '{_words(each)}' has no scope" for each in heads]


def _forms(page: HtmlElement) -> list[str]:
    faults = []
    for form in _all(page, "form"):
        if not form.get("action"):
            faults.append("a form without an action")
        posts = form.get("method", "get").lower() == "post"
        if posts and not form.xpath(".//input[@name='csrf_token']"):
            faults.append(f"the form to {form.get('action')} carries no token")
    return faults


def _inline(page: HtmlElement) -> list[str]:
    faults = [f"inline {name} on {each.tag}" for name in INLINE for each in page.xpath(f"//*[@{name}]")]
    faults += ["an inline style sheet" for _ in _all(page, "style")]
    faults += ["an inline script" for _ in page.xpath("//script[not(@src)]")]
    for each in _all(page, "script", "img", "link"):
        source = each.get("src") or each.get("href") or ""
        if source.startswith(("http:", "https:", "//", "data:")):
            faults.append(f"{each.tag} comes from elsewhere: {source[:60]}")
    return faults


def _drawings(page: HtmlElement) -> list[str]:
    shown = page.xpath("//svg[not(ancestor::svg)][not(@aria-hidden='true')]")
    return [
        "a drawing without a title"
        for each in shown
        if not each.get("aria-label") and not each.xpath(".//title")
    ]


def _all(page: HtmlElement, *tags: str) -> list[HtmlElement]:
    return list(page.iter(*tags))


def _words(element: HtmlElement) -> str:
    return " ".join("".join(element.itertext()).split())
