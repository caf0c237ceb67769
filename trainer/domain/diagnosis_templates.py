"""A diagnosis as a content file writes it, before a draw fills it in."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.domain.diagnosis_parts import Ending, MoveKind, Shows, Watched
from trainer.domain.family_values import Span, Value


@dataclass(frozen=True, kw_only=True)
class CauseTemplate:
    """One candidate: its id is the word that the draw takes, its values are laid over the sound set-up."""

    id: str
    words: str
    set_up: Mapping[str, Value] = field(default_factory=dict)
    sample_air: Value = None
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class MoveTemplate:
    """One check, action, wait or end; `when` names draws and the words at which it is offered."""

    id: str
    kind: MoveKind
    text: str
    takes: Value
    seen: Mapping[str, str] = field(default_factory=dict)
    shows: tuple[Shows, ...] = ()
    cures: tuple[str, ...] = ()
    sets: Mapping[str, Value] = field(default_factory=dict)
    opens: bool = False
    belief: str = ""
    critical: bool = False
    needed: bool = False
    first: int = 0
    ending: Ending | None = None
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class DiagnosisTemplate:
    """The draw that names the cause, the causes, the moves, how long it has run and how long there is."""

    draw: str
    watches: Watched
    causes: tuple[CauseTemplate, ...]
    moves: tuple[MoveTemplate, ...]
    limit: Value
    faulty_for: Value
    sound_for: Value = None
