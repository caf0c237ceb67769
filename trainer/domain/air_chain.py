"""The air of a space while what escapes into it, and what ventilates it, changes from stretch to stretch.

Mixed air only: nearer to where the gas gathers there is less oxygen than this, so that no figure of it says
that somebody may go in.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.core.breathing import Space, oxygen_mixed_frac
from trainer.domain.air_space import space_of
from trainer.domain.errors import DomainError
from trainer.domain.escaping_gas import release_of
from trainer.domain.stretches import Stretch


class NoSpace(DomainError):
    """The set-up says too little of the space that gas escapes into."""


@dataclass(frozen=True, kw_only=True)
class _Link:
    space: Space
    starts_s: float
    lasts_s: float
    start_o2_frac: float

    def oxygen_after(self, time_s: float) -> float:
        return oxygen_mixed_frac(self.space, time_s=time_s, start_o2_frac=self.start_o2_frac)


@dataclass(frozen=True, kw_only=True)
class AirChain:
    """Oxygen of the mixed air against time, and the gas that has escaped."""

    links: tuple[_Link, ...]

    def oxygen_at(self, time_s: float) -> tuple[float]:
        """Oxygen of the mixed air."""
        link = next((each for each in reversed(self.links) if each.starts_s <= time_s), self.links[0])
        return (link.oxygen_after(time_s - link.starts_s),)

    def gas_until_m3(self, time_s: float) -> float:
        """Gas that has escaped, at the temperature of the space and one atmosphere."""
        return math.fsum(
            each.space.release_m3_s * (min(each.starts_s + each.lasts_s, time_s) - each.starts_s)
            for each in self.links
            if each.starts_s < time_s
        )


def air_chain(stretches: Sequence[Stretch]) -> AirChain:
    """The air through its stretches, from fresh air on. Raises NoSpace where the space is not known."""
    links: list[_Link] = []
    for each in stretches:
        space = space_of(each.set_up, release_m3_s=release_of(each.set_up) or 0.0)
        if space is None:
            raise NoSpace("volume and ventilation of the space are not known")
        last = links[-1] if links else None
        start = (
            space.fresh_o2_frac if last is None else min(last.oxygen_after(last.lasts_s), space.fresh_o2_frac)
        )
        starts_s = 0.0 if last is None else last.starts_s + last.lasts_s
        links.append(_Link(space=space, starts_s=starts_s, lasts_s=each.lasts_s, start_o2_frac=start))
    return AirChain(links=tuple(links))
