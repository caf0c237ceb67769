"""The parts of a diagnosis: what may be done next, as it is shown, and what the core needs to answer it.

What is shown are the moves with the time each takes. The causes, what each check shows for each of them, and
what each action changes belong to the answer and stay on the server.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

SOUND = "sound"  # what a check shows where nothing, or something else, is at fault
MOST_STEPS = 40
SLACK_S = 1e-9  # what sums of minutes in other units may differ by


class MoveKind(StrEnum):
    """What a step does: it looks, it changes something, it lets time pass, or it ends the matter."""

    CHECK = "check"
    ACTION = "action"
    WAIT = "wait"
    FINISH = "finish"


class Watched(StrEnum):
    """Whose oxygen is on show after every step: that of the root, or that of the air where somebody lies."""

    ROOT = "root"
    AIR = "air"


class Shows(StrEnum):
    """A figure of the core that a check adds to its words."""

    GAUGE = "gauge"
    FLOW = "flow"


class Ending(StrEnum):
    """How a last step ends the matter."""

    STRIKE = "strike"
    CALL = "call"
    OUT = "out"

    @property
    def is_aim(self) -> bool:
        """Whether it is what all the other steps are for."""
        return self is not Ending.CALL


@dataclass(frozen=True, kw_only=True)
class Move:
    """One thing that may be done next, and how long it takes."""

    id: str
    kind: MoveKind
    text: str
    takes_s: float


@dataclass(frozen=True, kw_only=True)
class DiagnosisSheet:
    """What is shown of a diagnosis: the moves, how long there is, and what is watched.

    `opening` is the oxygen when it begins: at the crown and at the vent, or where somebody lies and mixed.
    """

    moves: tuple[Move, ...]
    limit_s: float
    watches: Watched
    opening: tuple[float, ...]

    def move(self, move_id: str) -> Move:
        """The move of that id; raises KeyError."""
        for each in self.moves:
            if each.id == move_id:
                return each
        raise KeyError(move_id)

    def is_over(self, steps: Sequence[str]) -> bool:
        """Whether nothing follows these steps: one of them was an end, or the time was up after them."""
        moves = [self.move(each) for each in steps]
        time_s = sum(each.takes_s for each in moves)
        return time_s > self.limit_s + SLACK_S or any(each.kind is MoveKind.FINISH for each in moves)


@dataclass(frozen=True, kw_only=True)
class CauseKey:
    """One candidate: what it is in words, what it makes of the sound set-up, and of what the analyser draws.

    `sample_air_frac` is the share of room air in what the analyser's line carries.
    """

    id: str
    words: str
    values: tuple[tuple[str, Any], ...] = ()
    sample_air_frac: float = 0.0


@dataclass(frozen=True, kw_only=True)
class MoveKey:
    """What a move does. `needed` ones have to be done before the end."""

    id: str
    seen: Mapping[str, str] = field(default_factory=dict)  # cause → what a check shows; SOUND for the others
    shows: tuple[Shows, ...] = ()
    cures: tuple[str, ...] = ()
    sets: tuple[tuple[str, Any], ...] = ()
    opens: bool = False  # the section is opened for it, so that the purge begins anew
    belief: str = ""
    critical: bool = False
    needed: bool = False
    first: int = 0  # 1 before all else, 2 right after that, and so on; 0 in no such place
    ending: Ending | None = None


@dataclass(frozen=True, kw_only=True)
class DiagnosisKey:
    """The causes, the one that was drawn, and all moves; `sound` has the set-up's values without a fault.

    The purge ran soundly for `sound_s` and with the fault for `faulty_s` before the first step.
    """

    cause: str
    causes: tuple[CauseKey, ...]
    moves: tuple[MoveKey, ...]
    sound: tuple[tuple[str, Any], ...]
    target_frac: float
    faulty_s: float
    sound_s: float = 0.0

    def move(self, move_id: str) -> MoveKey:
        """What the move of that id does; raises KeyError."""
        for each in self.moves:
            if each.id == move_id:
                return each
        raise KeyError(move_id)

    @property
    def drawn(self) -> CauseKey:
        """The cause that was drawn."""
        return next(each for each in self.causes if each.id == self.cause)

    def seen(self, move_id: str, cause: str) -> str:
        """What a check shows with that cause, in words."""
        words = self.move(move_id).seen
        return words.get(cause, words.get(SOUND, ""))
