"""Somebody with a browser: opens pages, sends forms, and refuses pages that are not in order."""

from contextlib import contextmanager
from typing import Any
from urllib.parse import urlsplit

from flask import Flask
from page_checks import faults_of_page
from pages import Page, Sending
from sqlalchemy import Engine, event

WRITES = ("INSERT", "UPDATE", "DELETE", "CREATE", "DROP", "ALTER")


class Visitor:
    """One browser. Every answer is a Page; a GET that writes and a page that is not in order fail the test."""

    def __init__(self, app: Flask) -> None:
        self.client = app.test_client()

    def open_page(self, path: str, *, settles: bool = False, follow: bool = True) -> Page:
        """GETs an address. `settles` allows the one kind of writing that a GET may cause: expiry."""
        with _writes_seen() as written:
            response = self.client.get(path)
        if written and not settles:
            raise AssertionError(f"GET {path} writes: {written[0]}")
        page = self._page(response)
        if follow and page.status in {301, 302, 303}:
            return self.open_page(_path(page.location), settles=settles)
        return page

    def send(self, sending: Sending, *, follow: bool = True) -> Page:
        """Sends a filled-in form and goes where it leads."""
        if sending.method == "get":
            page = self._page(self.client.get(sending.action, query_string=sending.data))
        else:
            page = self._page(self.client.post(sending.action, data=sending.data))
        if follow and page.status in {301, 302, 303}:
            return self.open_page(_path(page.location))
        return page

    def post(self, path: str, data: dict[str, Any] | None = None, **more: Any) -> Page:
        """POSTs as it comes, with this browser's token."""
        return self._page(self.client.post(path, data={"csrf_token": self.token(), **(data or {})}, **more))

    def token(self) -> str:
        """The form token of this browser, from a page that anybody may open."""
        signed_in = self.open_page("/how-sure").soup.find("input", attrs={"name": "csrf_token"})
        found = signed_in or self.open_page("/account/sign-in").soup.find(
            "input", attrs={"name": "csrf_token"}
        )
        return str(found["value"]) if found is not None else ""

    def sign_in(self, email: str, password: str) -> Page:
        """Signs in by the form."""
        return self.open_page("/account/sign-in").submit("Sign in", **{"E-mail": email, "Password": password})

    def _page(self, response: Any) -> Page:
        page = Page(response, self)
        is_page = response.mimetype == "text/html" and page.status not in {301, 302, 303}
        faults = faults_of_page(page.html) if is_page else []
        if faults:
            raise AssertionError(
                f"{response.request.path} ({page.status}) is not in order: {'; '.join(faults)}"
            )
        _check_headers(response)
        return page


def _check_headers(response: Any) -> None:
    policy = response.headers.get("Content-Security-Policy", "")
    assert policy.startswith("default-src 'none'; script-src 'self'; style-src 'self'"), policy
    assert "unsafe" not in policy
    assert response.headers.get("X-Content-Type-Options") == "nosniff"


def _path(location: str) -> str:
    parts = urlsplit(location)
    assert not parts.netloc or parts.netloc == "localhost", f"sent elsewhere: {location}"
    return f"{parts.path}?{parts.query}" if parts.query else parts.path


@contextmanager
def _writes_seen() -> Any:
    seen: list[str] = []

    def look(*told: Any) -> None:
        statement: str = told[2]
        if statement.lstrip().upper().startswith(WRITES):
            seen.append(statement)

    event.listen(Engine, "before_cursor_execute", look)
    try:
        yield seen
    finally:
        event.remove(Engine, "before_cursor_execute", look)
