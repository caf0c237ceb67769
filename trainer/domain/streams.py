"""Random streams that are the same on every machine: one per purpose, from a digest of what is drawn."""

from collections.abc import MutableSequence, Sequence
from hashlib import sha256
from random import Random
from typing import TypeVar

from trainer.core.errors import OutOfRange

LAST_SEED = 2**53 - 1
_STEPS = 100  # steps of difficulty between 0 and 1

T = TypeVar("T")


def checked_seed(seed: int) -> int:
    """The seed itself; raises OutOfRange outside 0 to 2^53 - 1, what a JSON number carries exactly."""
    if not 0 <= seed <= LAST_SEED:
        raise OutOfRange("seed", seed, low=0, high=LAST_SEED, unit="", why="a JSON number carries it exactly")
    return seed


def checked_difficulty(difficulty: float) -> float:
    """The step of 0.01 that a difficulty stands for; OutOfRange between steps and outside 0 to 1."""
    step = round(difficulty * _STEPS) if 0.0 <= difficulty <= 1.0 else -1
    if step < 0 or abs(difficulty * _STEPS - step) > 1e-6:
        raise OutOfRange(
            "difficulty",
            difficulty,
            low=0.0,
            high=1.0,
            unit="",
            why="difficulty goes from 0 to 1 in steps of 0.01",
        )
    return step / _STEPS


def stream(*, family: str, content_version: str, seed: int, difficulty: float, purpose: str) -> Random:
    """The stream of one purpose; only its `random()` is used, whose bits Python keeps between versions."""
    step = round(difficulty * _STEPS)
    named = f"{family}\x00{content_version}\x00{seed}\x00{step}\x00{purpose}"
    return Random(int.from_bytes(sha256(named.encode()).digest(), "big"))


def one_of(choices: Sequence[T], source: Random) -> T:
    """One of a sequence, each as likely."""
    return choices[int(source.random() * len(choices))]


def shuffle(items: MutableSequence[T], source: Random) -> None:
    """Fisher-Yates on `random()` alone: the library's own shuffle has changed between Python versions."""
    for last in range(len(items) - 1, 0, -1):
        other = int(source.random() * (last + 1))
        items[last], items[other] = items[other], items[last]
