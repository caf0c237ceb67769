"""Set-ups that are asked about many times over, each told from the others once."""

from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import with_value


class SetUpsMet:
    """Gives alike set-ups one number. To compare two costs more than many an answer of the core.

    Every set-up met is kept, so that none of another content can ever come to lie at its place in memory.
    """

    def __init__(self) -> None:
        self._numbers: dict[SetUp, int] = {}
        self._met: dict[int, tuple[SetUp, int]] = {}
        self._before_wait: dict[int, SetUp] = {}

    def number(self, set_up: SetUp) -> int:
        """The number that it shares with those alike."""
        met = self._met.get(id(set_up))
        if met is None:
            met = set_up, self._numbers.setdefault(set_up, len(self._numbers))
            self._met[id(set_up)] = met
        return met[1]

    def before_wait(self, set_up: SetUp) -> SetUp:
        """The same set-up before it is said how long is waited."""
        if set_up.wait_s is None:
            return set_up
        number = self.number(set_up)
        if number not in self._before_wait:
            self._before_wait[number] = with_value(set_up, "wait", None)
        return self._before_wait[number]
