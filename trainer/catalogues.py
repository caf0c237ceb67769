"""Message catalogues: English sentences with what they say in another language, read straight from .po."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from babel.support import Translations

LANGUAGES = ("es",)  # the languages that there are catalogues for; English is what everything is written in
INTERFACE = Path(__file__).resolve().parent / "translations"

_HEAD = """# DEVELOPERS.md tells how to translate; `trainer words` brings this file in step with the code.
msgid ""
msgstr ""
"Language: {language}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"Plural-Forms: {plurals}\\n"

"""


@dataclass(frozen=True, kw_only=True, eq=False)  # one is made for each state of a file, and known by itself
class Words:
    """What a catalogue says: each English sentence with its counterpart, and those that have none yet."""

    by_english: Mapping[str, str]
    missing: tuple[str, ...]

    @property
    def is_complete(self) -> bool:
        """Whether every sentence has its counterpart, and somebody stands behind each."""
        return not self.missing


def interface_file(language: str) -> Path:
    """Where the sentences of the pages stand."""
    return INTERFACE / language / "LC_MESSAGES" / "messages.po"


class _Translations(Translations):
    """gettext answers an empty message with the head of the catalogue; nothing said is nothing said here."""

    def gettext(self, message: str) -> str:
        said: str = super().gettext(message) if message else ""
        return said

    ugettext = gettext


def interface_translations(language: str) -> Translations:
    """The sentences of the pages as gettext takes them; English ones where there is no such catalogue."""
    path = interface_file(language)
    return _translations(path, path.stat().st_mtime_ns) if path.exists() else Translations()


@lru_cache
def _translations(path: Path, changed_ns: int) -> Translations:  # noqa: ARG001 - a changed file is read anew
    compiled = BytesIO()
    write_mo(compiled, read_catalogue(path))
    compiled.seek(0)
    return _Translations(compiled)


def read_catalogue(path: Path) -> Catalog:
    """A catalogue as it stands in its file; the folder above names its language."""
    with path.open("rb") as file:
        return read_po(file, locale=next(each for each in path.parts[::-1] if each in LANGUAGES))


def words_of(path: Path) -> Words:
    """What a catalogue without plural forms says; nothing, and nothing missing, where there is no file."""
    return _words(path, path.stat().st_mtime_ns) if path.exists() else Words(by_english={}, missing=())


@lru_cache(maxsize=256)
def _words(path: Path, changed_ns: int) -> Words:  # noqa: ARG001 - a changed file is read anew
    messages = [each for each in read_catalogue(path) if each.id]
    return Words(
        by_english={str(each.id): str(each.string) for each in messages if is_translated(each)},
        missing=tuple(str(each.id) for each in messages if not is_translated(each)),
    )


def is_translated(message: Message) -> bool:
    """Whether all forms of a message are there and nobody has to look at it again."""
    forms = forms_of(message)
    return not message.fuzzy and bool(forms) and all(forms)


def forms_of(message: Message) -> tuple[str, ...]:
    """What a message says: one text, or one for each plural form; empty where nothing is said yet."""
    said = message.string if isinstance(message.string, list | tuple) else (message.string,)
    return tuple(each or "" for each in said)


def catalogue_bytes(catalogue: Catalog) -> bytes:
    """A catalogue as its file holds it: no dates and no line numbers, so that only messages change it."""
    written = BytesIO()
    write_po(written, catalogue, width=100, omit_header=True, include_lineno=False)
    head = _HEAD.format(language=catalogue.locale, plurals=catalogue.plural_forms)
    return head.encode() + written.getvalue()
