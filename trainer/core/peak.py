"""The highest value of a course within a stretch of time."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from trainer.core.column import Floats

# Changes are fast after a flow has begun and slow later, so the points lie closer at the start.
_SCAN_COUNT = 192
# Each round narrows the place of a maximum tenfold; its value is twice as sure.
_REFINEMENTS_COUNT = 4
_REFINED_COUNT = 21


def highest_between(course: Callable[[Floats], Floats], *, first_s: float, last_s: float) -> float:
    """The highest value that a smooth course takes between two times, both included.

    Args:
        course [-]: function of times in seconds, giving a value for each
        first_s [s]: the earlier time
        last_s [s]: the later time
    Returns:
        [-] the highest value
    Valid: a course with one maximum between two of 192 points, which are closer near the first time; one that
        lies before the second of them is read at the first.

    Example:
        >>> round(highest_between(lambda t: t * np.exp(1.0 - t), first_s=0.0, last_s=50.0), 9)
        1.0

    Reference: own definition.
    """
    points = first_s + (last_s - first_s) * np.linspace(0.0, 1.0, _SCAN_COUNT) ** 2
    values = course(points)
    top = int(values.argmax())
    if top == 0:  # the points are closest there
        return float(values[top])
    around_s = points[top - 1 : top + 2]
    for _ in range(_REFINEMENTS_COUNT):
        points = np.linspace(around_s[0], around_s[-1], _REFINED_COUNT)
        values = course(points)
        top = min(max(int(values.argmax()), 1), points.size - 2)
        around_s = points[top - 1 : top + 2]
    return float(values.max())
