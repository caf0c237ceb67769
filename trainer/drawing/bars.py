"""Bars in neutral ink: how much was reached, between which ends the truth lies, and the mark to reach."""

from trainer.drawing.svg import drawn, tag

SIZE = (200.0, 16.0)
Interval = tuple[float, float]


def skill_bar(share: float | None, *, interval: Interval | None, cut: float, told: str) -> str:
    """The bar of a share between 0 and 1, told in words; without evidence there is an empty rail."""
    width, height = SIZE
    return _bar(
        _shade(interval) if interval else "",
        _filled(share) if share else "",
        drawn("line", "line", x1=width * cut, y1=0, x2=width * cut, y2=height),
        told=told,
    )


def share_bar(share: float, *, told: str) -> str:
    """A plain bar of a share of a whole, told in words."""
    return _bar(_filled(share), told=told)


def _bar(*parts: str, told: str) -> str:
    width, height = SIZE
    return tag(
        "svg",
        tag("rect", x=0.5, y=4.5, width=width - 1, height=7, fill="none", stroke="#727e87", class_="d-rail"),
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:g} {height:g}",
        preserveAspectRatio="none",
        role="img",
        aria_label=told,
        class_="d-bar",
    )


def _filled(share: float) -> str:
    return drawn("rect", "solid", x=0, y=5, width=SIZE[0] * share, height=6)


def _shade(interval: Interval) -> str:
    """A band with both ends drawn, so that it is seen in print and past the bar's end."""
    low, high = (SIZE[0] * each for each in interval)
    return tag(
        "g",
        tag("rect", x=low, y=2, width=high - low, height=12, fill="#b4bdc4", class_="d-shade"),
        *(drawn("line", "thin", x1=x, y1=2, x2=x, y2=14) for x in (low, high)),
        data_part="interval",
    )
