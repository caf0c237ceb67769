"""Documents as tagged PDF: a template of ours, and everything that it says handed over as data.

What people wrote goes in as data and never as markup. The fonts come with the site, so that the same document
is the same bytes on any machine.
"""

import json
from collections.abc import Mapping
from datetime import datetime
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import typst

_TEMPLATES = Path(__file__).parent / "templates"
FONT = "Fira Sans"
_IN_DRAWINGS = 'font-family="system-ui, sans-serif"'


def typeset(template: str, document: Mapping[str, Any], *, made_at: datetime) -> bytes:
    """The PDF of a template's document; drawings in it are SVG texts made by `embedded`."""
    made: bytes = typst.compile(
        str(_TEMPLATES / template),
        root=str(_TEMPLATES),
        font_paths=[_fonts()],
        ignore_system_fonts=True,
        sys_inputs={"document": json.dumps(document)},
        pdf_standards=["ua-1"],
        timestamp=int(made_at.timestamp()),
    )
    return made


def embedded(svg: str) -> str:
    """A drawing with its words in the font that the document brings along: it has none of the reader's."""
    return svg.replace(_IN_DRAWINGS, f'font-family="{FONT}"')


@cache
def _fonts() -> str:
    return str(files("fontpkg_fira_sans") / "files")
