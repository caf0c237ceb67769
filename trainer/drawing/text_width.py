"""How wide words come out, so that they are laid out without a browser: an upper estimate for usual fonts.

Advance widths are those of DejaVu Sans in thousandths of the type size, measured in a browser; it is among
the widest fonts that `system-ui` stands for, so what fits by these figures fits elsewhere.
"""

LARGEST_TYPE = 27.0  # drawing units: the style sheet's largest, used on a phone
# Of letters over and under the baseline, in type sizes; accents lie a little higher.
ASCENT, DESCENT = 0.76, 0.22
USUAL = 640  # of a letter that is not in the table

_WIDTHS = (
    (278, "'ijlíI"), (318, ",. ·\u00a0"), (337, "/:;\\|"), (355, "f-"), (401, "()[]t!¡₂²³r"),
    (500, '"*_`°–'), (525, "sz"), (560, "?¿cLFk"), (603, "vxyPTY"), (615, "oóaáeéEÉ"),
    (695, "KAVÁXZBRC"), (770, "UÚNÑHDG&"), (787, "OQÓØ"), (838, "w#+<=>~×→≈−±^"),
    (863, "M"), (975, "%½¼¾m"), (1000, "W@…"),
)  # fmt: skip
_THOUSANDTHS = {letter: width for width, letters in _WIDTHS for letter in letters}


def text_width(words: str, size: float = LARGEST_TYPE) -> float:
    """Width of one line of words at a type size, in drawing units."""
    return sum(_THOUSANDTHS.get(letter, USUAL) for letter in words) * size / 1000.0


def text_box(words: str, x: float, y: float, *, anchor: str) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a label with its baseline at y, at the largest type."""
    width = text_width(words)
    left = {"start": x, "middle": x - width / 2.0, "end": x - width}[anchor]
    return left, y - ASCENT * LARGEST_TYPE, left + width, y + DESCENT * LARGEST_TYPE


def rows_of(words: str, *, width: float, indent: str = "    ") -> list[str]:
    """Words in as many rows as they need; further rows are set in."""
    rows: list[str] = []
    row = ""
    for word in words.split(" "):
        longer = f"{row} {word}" if row.strip() else f"{row}{word}"
        if row.strip() and text_width(longer) > width:
            rows.append(row)
            longer = indent + word
        row = longer
    return [*rows, row]
