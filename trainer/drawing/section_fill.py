"""Gas inside the dammed section, in level bands with the colour that their oxygen would give the root."""

from collections.abc import Sequence

from trainer.core.terms import RootGrade
from trainer.drawing.layout import SHEET, Layout
from trainer.drawing.oxygen_scale import FILM, film_class
from trainer.drawing.section_ends import SectionEnd
from trainer.drawing.svg import group, tag

OVERLAP = 0.4  # neighbouring bands cover each other by this much, so that no paper shows between them


def section_fill(
    bands: Sequence[RootGrade], ends: tuple[SectionEnd, SectionEnd], *, layout: Layout, prefix: str
) -> str:
    """The bands, lowest first, cut to the bore between both dams however the pipe lies."""
    if not bands:
        return ""
    left, right = ends
    half = layout.bore / 2
    clip = tag(
        "clipPath",
        tag("rect", x=left.u, y=-half, width=right.u - left.u, height=layout.bore, transform=layout.turned),
        id=f"{prefix}-inside",
    )
    corners = [layout.sheet(u, v)[1] for u in (left.u, right.u) for v in (-half, half)]
    top, bottom = min(corners), max(corners)
    thick = (bottom - top) / len(bands)
    layers = [
        tag(
            "rect",
            x=0,
            y=bottom - (number + 1) * thick,
            width=SHEET[0],
            height=thick + OVERLAP,
            fill=FILM[grade],
            class_=f"d-film {film_class(grade)}",
            data_band=number,
        )
        for number, grade in enumerate(bands)
    ]
    inside = group(*layers, clip_path=f"url(#{prefix}-inside)", data_part="gas")
    return group(tag("defs", clip), inside)
