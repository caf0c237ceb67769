"""The air of a space while what escapes into it, and what ventilates it, changes from stretch to stretch.

Mixed, and where somebody lies: without a fan the gas is taken to gather unmixed, which is the larger danger,
and a face in it has no oxygen at all. A fan stirs up what has gathered. No figure of it lets anybody go in.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.core.breathing import Space, oxygen_mixed_frac
from trainer.core.pool import PoolSide
from trainer.domain.air_space import may_gather, pool_side_of, shape_of, space_of
from trainer.domain.errors import DomainError
from trainer.domain.escaping_gas import release_of
from trainer.domain.run_people_air import face_to_layer_m, people_here
from trainer.domain.set_up import SetUp
from trainer.domain.stretches import Stretch


class NoSpace(DomainError):
    """The set-up says too little of the space that gas escapes into."""


@dataclass(frozen=True, kw_only=True)
class _Link:
    """One stretch: how it began, and the gas that had gathered by then."""

    set_up: SetUp
    space: Space
    starts_s: float
    lasts_s: float
    start_o2_frac: float
    gathered_m3: float

    @property
    def ends_s(self) -> float:
        return self.starts_s + self.lasts_s

    def mixed_frac(self, after_s: float) -> float:
        found = oxygen_mixed_frac(self.space, time_s=after_s, start_o2_frac=self.start_o2_frac)
        return min(found, self.space.fresh_o2_frac)

    def gathered_after_m3(self, after_s: float) -> float:
        """Gas that lies unmixed; none where a fan stirs it up or it runs off."""
        return self.gathered_m3 + self.space.release_m3_s * after_s if may_gather(self.set_up) else 0.0

    def lies_in_layer(self, after_s: float) -> bool:
        """Whether the layer covers the face of whoever lies there."""
        shape, side = shape_of(self.set_up), pool_side_of(self.set_up)
        gathered_m3 = self.gathered_after_m3(after_s)
        if shape is None or gathered_m3 <= 0.0 or side is None or side is PoolSide.NOWHERE:
            return False
        depth_m = shape.depth_m(gathered_m3, fresh_frac=self.space.fresh_o2_frac)
        here = people_here(self.set_up)
        reaches = (face_to_layer_m(each, self.set_up, shape=shape) for each in here)
        return any(reach_m is not None and depth_m >= reach_m for reach_m in reaches)


@dataclass(frozen=True, kw_only=True)
class AirChain:
    """Oxygen against time, and the gas that has escaped."""

    links: tuple[_Link, ...]

    def oxygen_at(self, time_s: float) -> tuple[float, float]:
        """Oxygen where somebody lies, and that of the air if it mixed."""
        link = next((each for each in reversed(self.links) if each.starts_s <= time_s), self.links[0])
        mixed_frac = link.mixed_frac(time_s - link.starts_s)
        return (0.0 if link.lies_in_layer(time_s - link.starts_s) else mixed_frac), mixed_frac

    def gas_until_m3(self, time_s: float) -> float:
        """Gas that has escaped, at the temperature of the space and one atmosphere."""
        return math.fsum(
            each.space.release_m3_s * (min(each.ends_s, time_s) - each.starts_s)
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
        links.append(
            _Link(
                set_up=each.set_up,
                space=space,
                starts_s=0.0 if last is None else last.ends_s,
                lasts_s=each.lasts_s,
                start_o2_frac=space.fresh_o2_frac if last is None else last.mixed_frac(last.lasts_s),
                gathered_m3=0.0 if last is None else last.gathered_after_m3(last.lasts_s),
            )
        )
    return AirChain(links=tuple(links))
