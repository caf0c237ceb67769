"""Tables whose rows stand as blocks on a phone: each cell brings the words of its column's head along."""

import re
from collections.abc import Sequence

from markupsafe import Markup, escape

_ROW_OR_CELL = re.compile(r"<(tr|td|th)(?=[\s>])")


def headed(rows: str, heads: Sequence[str]) -> Markup:
    """The rows of a table with each cell's head as data; the style sheet writes it where a page is narrow."""
    column = -1

    def with_head(found: re.Match[str]) -> str:
        nonlocal column
        if found[1] == "tr":
            column = -1
            return found[0]
        column += 1
        return f'{found[0]} data-head="{escape(heads[column].lstrip("#"))}"'

    # rows come out of templates that have escaped what they were given
    return Markup(_ROW_OR_CELL.sub(with_head, rows))
