"""The oxygen analyser and the line that it draws its sample through."""

from trainer.domain.set_up import AnalyserAt
from trainer.drawing.layout import Layout
from trainer.drawing.section_ends import SectionEnd
from trainer.drawing.svg import drawn, group, label, path

BOX = (58.0, 32.0)
BOX_X, UPRIGHT_BOX_X = 738.0, 496.0


def analyser_drawing(
    at: AnalyserAt | None,
    *,
    layout: Layout,
    left: SectionEnd | None,
    right: SectionEnd | None,
) -> str:
    """A box with a sampling line to the vent, the crown or the inlet; nothing where that is not drawn."""
    point = _sampled(at, layout, left, right)
    if at is None or point is None:
        return ""
    x, y = layout.sheet(*point)
    box_x, box_y = (BOX_X, 2.0) if layout.is_flat else (UPRIGHT_BOX_X, max(y - BOX[1] / 2, 2.0))
    mouth = box_y + BOX[1] / 2
    width, height = BOX
    layout.free.block(box_x, box_y, box_x + width, box_y + height)
    return group(
        path("thin", "M", box_x, mouth, "L", x, mouth, "L", x, y),
        drawn("circle", "solid", cx=x, cy=y, r=3.5),
        drawn("rect", "shape", x=box_x, y=box_y, width=width, height=height),
        label("O₂", box_x + width / 2, box_y + 25),
        data_part=f"analyser at {at.value}",
    )


def _sampled(
    at: AnalyserAt | None, layout: Layout, left: SectionEnd | None, right: SectionEnd | None
) -> tuple[float, float] | None:
    if at is AnalyserAt.CROWN:
        return 14.0, -layout.bore / 2 + 7
    if at is AnalyserAt.VENT and right is not None and right.v is not None:
        return right.back + 12.0, right.v
    if at is AnalyserAt.INLET and left is not None and left.v is not None:
        return left.u + 46.0, left.v
    return None
