"""What a drawing asks of the person: parts to move, things to mark, and where they are now."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from trainer.domain.scenario import Handle, SceneObject


@dataclass(frozen=True, kw_only=True)
class Asked:
    """Handles with the values placed so far (by handle id), scene objects with those marked so far (ids)."""

    handles: tuple[Handle, ...] = ()
    placed: Mapping[str, float] = field(default_factory=dict)
    objects: tuple[SceneObject, ...] = ()
    marked: Collection[str] = ()

    def handle_for(self, path: str) -> Handle | None:
        """The handle that sets a path of the set-up, if that is asked."""
        return next((each for each in self.handles if each.sets == path), None)

    def start(self, handle: Handle) -> float:
        """Where a handle stands: where it was placed, otherwise half-way, on a step."""
        if handle.id in self.placed:
            return self.placed[handle.id]
        half = (handle.high - handle.low) / 2
        return handle.low + round(half / handle.step) * handle.step


NOTHING_ASKED = Asked()
