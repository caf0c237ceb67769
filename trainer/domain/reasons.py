"""Why something is refused: a stable code with the facts behind it; the words belong to the screens."""

from dataclasses import dataclass

from trainer.domain.errors import Refused


@dataclass(frozen=True)
class Reason:
    """One reason: its code, and the facts that a reader needs to act on it."""

    code: str
    facts: tuple[tuple[str, str | int | float], ...] = ()

    def __str__(self) -> str:
        return " ".join([self.code, *(f"{name}={value}" for name, value in self.facts)])


def reason(code: str, **facts: str | int | float) -> Reason:
    """A reason with its facts by name."""
    return Reason(code, tuple(facts.items()))


class RefusedFor(Refused):
    """Refused by rules; `because` holds every reason with its facts, so that a screen can word them."""

    def __init__(self, because: tuple[Reason, ...]) -> None:
        super().__init__(tuple(str(each) for each in because))
        self.because = because


def refuse_for(reasons: tuple[Reason, ...]) -> None:
    """Raise `RefusedFor` when there is any reason."""
    if reasons:
        raise RefusedFor(reasons)
