"""The drawing of a scenario as its page shows it: what may be moved, what stands about, nothing of a key."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from markupsafe import Markup

from trainer.domain.scenario import Handle, Scenario, SceneObject
from trainer.domain.set_up import SetUp
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.web.preferences import drawing_reader, language
from trainer.web.said import heard, said


def drawing_of(scenario: Scenario, *, placed: Mapping[str, float], marked: Sequence[str]) -> Markup:
    """The drawing of a scenario with its handles where they were put and the things that were marked."""
    return _drawn(
        scenario.set_up,
        tuple(replace(each, label=heard(each.label)) for item in scenario.items for each in item.handles),
        tuple(sorted(placed.items())),
        tuple(replace(each, text=heard(each.text)) for item in scenario.items for each in item.objects),
        frozenset(marked),
        (drawing_reader().units, language()),
    )


@lru_cache(maxsize=256)
def _drawn(  # noqa: PLR0913, PLR0917 - the key of the cache: each part is hashed
    set_up: SetUp,
    handles: tuple[Handle, ...],
    placed: tuple[tuple[str, float], ...],
    objects: tuple[SceneObject, ...],
    marked: frozenset[str],
    read_in: tuple[str, str],
) -> Markup:
    """The drawing, kept for a while: a page is opened again after every answer without scripts."""
    reader = Reader(units=read_in[0], language=read_in[1], words=said)
    asked = Asked(handles=handles, placed=dict(placed), objects=objects, marked=marked)
    return Markup(set_up_drawing(set_up, asked=asked, reader=reader))
