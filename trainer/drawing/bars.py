"""A bar in neutral ink for one skill: how much of it was shown, and the mark to reach."""

from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, tag

SIZE = (200.0, 12.0)


def skill_bar(share: float | None, *, cut: float | None, count: int, reader: Reader) -> str:
    """The bar of a share between 0 and 1; without evidence there is an empty rail and the words say so."""
    width, height = SIZE
    words = reader.words("not tried yet") if share is None else f"{share * 100:.0f} %"
    behind = reader.words("from {count} items").format(count=count)
    return tag(
        "svg",
        tag("rect", x=0.5, y=3.5, width=width - 1, height=5, fill="none", stroke="#727e87", class_="d-rail"),
        drawn("rect", "solid", x=0, y=3, width=width * share, height=6) if share else "",
        drawn("line", "line", x1=width * cut, y1=0, x2=width * cut, y2=height) if cut is not None else "",
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:g} {height:g}",
        preserveAspectRatio="none",
        role="img",
        aria_label=f"{words}, {behind}",
        class_="d-bar",
    )
