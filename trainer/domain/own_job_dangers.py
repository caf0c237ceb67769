"""What a job does to people and to the root although every answer is right: its author has to mean it."""

from trainer.domain.errors import DomainError
from trainer.domain.purge_run import Caution, PurgeRun

_HURTS_PEOPLE = (
    "asphyxiation", "collects-at-ceiling", "inside-purged-pipe", "boil-off-collects", "enriched-air",
)  # fmt: skip
_LOSES_THE_ROOT = (
    "gas-not-for-material", "floor-above-target", "root-lost", "oxygen-above-target", "oxygen-comes-back",
    "hold-lets-air-in", "blows-the-bead",
)  # fmt: skip
_DANGERS = (*_HURTS_PEOPLE, *_LOSES_THE_ROOT)


class DangersNotMeant(DomainError):
    """A job that hurts somebody or loses the root with every key given, and nobody meant it so."""


def dangers_of(run: PurgeRun | None) -> tuple[Caution, ...]:
    """The cautions of the right set-up that no apprentice could have prevented, in the policy's order."""
    return tuple(each for each in run.cautions if each.code in _DANGERS) if run is not None else ()


def require_meant(run: PurgeRun | None, *, meant: frozenset[str]) -> None:
    """Raises DangersNotMeant unless every danger is among the codes that the author means."""
    missing = [each.code for each in dangers_of(run) if each.code not in meant]
    if missing:
        raise DangersNotMeant(", ".join(missing))
