"""The air left for people: oxygen where gas escapes to, mixed and layered, and what the supply could do."""

from dataclasses import dataclass, fields
from functools import cached_property

from trainer.core.breathing import (
    Space,
    oxygen_mixed_frac,
    steady_frac,
    time_to_frac_s,
    ventilation_needed_m3_s,
)
from trainer.core.pool import PoolSide
from trainer.core.release import slow_release_frac, whole_release_frac
from trainer.core.terms import Fan
from trainer.domain.air_space import Shape, fan_of, fresh_oxygen_of, pool_side_of, shape_of, space_of
from trainer.domain.escaping_gas import boil_off_of, release_of, supply_contents_of
from trainer.domain.purge_run import BreathingResult, PersonResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.run_people_air import LEAST_TO_BREATHE_FRAC, Air, people_results, ventilated_s
from trainer.domain.set_up import Place, SetUp, Surroundings


def breathing_result(set_up: SetUp) -> BreathingResult | None:
    """Oxygen after the release went on for a while: the purge flow and the wait where nothing else is said.

    `escaping_gas` says what counts as the release where the vent is led away or a liquid supply stands there.
    """
    figures = breathing_figures(set_up)
    result = figures.all() if figures is not None else BreathingResult()
    return None if result == BreathingResult() else result


def breathing_figures(set_up: SetUp) -> "BreathingFigures | None":
    """The same figure by figure; None where nothing is told of the surroundings."""
    return BreathingFigures(set_up=set_up, around=set_up.surroundings) if set_up.surroundings else None


def escaped_for_s(set_up: SetUp, around: Surroundings) -> float | None:
    """How long gas has escaped when the figures hold [s]: as told, or for the wait."""
    return set_up.wait_s if around.after_s is None else around.after_s


@dataclass(kw_only=True)
class BreathingFigures:
    """What BreathingResult holds, under its names, each computed when it is first asked for."""

    set_up: SetUp
    around: Surroundings

    def all(self) -> BreathingResult:
        """Every figure."""
        return BreathingResult(**{each.name: getattr(self, each.name) for each in fields(BreathingResult)})

    @cached_property
    def release_m3_s(self) -> float | None:
        """Gas that escapes into the surroundings."""
        return release_of(self.set_up)

    @cached_property
    def oxygen_mixed_frac(self) -> float | None:
        """Oxygen in the mixed air by then."""
        air = self._air
        if air is None or air.space is None or air.after_s is None:
            return None
        return oxygen_mixed_frac(air.space, time_s=air.after_s)

    @cached_property
    def steady_frac(self) -> float | None:
        """What the mixed air ends at."""
        space = self._space
        return None if space is None else steady_frac(space)

    @cached_property
    def time_to_19_5_s(self) -> float | Never | None:
        """When the mixed air is down to 19.5 %."""
        return self._time_to(LEAST_TO_BREATHE_FRAC)

    @cached_property
    def time_to_18_s(self) -> float | Never | None:
        """When it is down to 18 %."""
        return self._time_to(0.18)

    @cached_property
    def time_to_16_s(self) -> float | Never | None:
        """When it is down to 16 %."""
        return self._time_to(0.16)

    @cached_property
    def time_to_10_s(self) -> float | Never | None:
        """When it is down to 10 %."""
        return self._time_to(0.10)

    @cached_property
    def time_to_6_s(self) -> float | Never | None:
        """When it is down to 6 %."""
        return self._time_to(0.06)

    @cached_property
    def pool_depth_m(self) -> float | None:
        """Depth of the layer that lies there when nothing stirs it."""
        return self._air.layer_depth_m if self._air is not None else None

    @cached_property
    def pipe_pool_depth_m(self) -> float | None:
        """The same where the surroundings are a pipe."""
        return self.pool_depth_m if self.around.kind is Place.PIPE else None

    @cached_property
    def ventilation_needed_m3_s(self) -> float | Never | None:
        """Fresh air that holds 19.5 % with the fan that stands there."""
        fan, release_m3_s = fan_of(self.around), self.release_m3_s
        return None if fan is None or release_m3_s is None else self._needed(fan, release_m3_s)

    @cached_property
    def air_changes_needed_per_h(self) -> float | Never | None:
        """Air changes an hour that hold 19.5 %, whatever makes them."""
        if self.around.volume_m3 is None or self.release_m3_s is None:
            return None
        needed_m3_s = self._needed(Fan.DRAWS_OUT, self.release_m3_s)
        return needed_m3_s if isinstance(needed_m3_s, Never) else 3600.0 * needed_m3_s / self.around.volume_m3

    @cached_property
    def pool_side(self) -> str | None:
        """Where the gas gathers."""
        side = pool_side_of(self.set_up)
        return None if side is None else str(side)

    @cached_property
    def boil_off_m3_s(self) -> float | None:
        """What a liquid supply inside gives off by itself."""
        return boil_off_of(self.set_up)

    @cached_property
    def boil_off_steady_frac(self) -> float | None:
        """What the mixed air ends at by that alone."""
        if self.boil_off_m3_s is None:
            return None
        alone = space_of(self.set_up, release_m3_s=self.boil_off_m3_s)
        return None if alone is None else steady_frac(alone)

    @cached_property
    def supply_emptied_frac(self) -> float | None:
        """Oxygen left when all that the supply holds gets out at once."""
        held_m3, volume_m3 = self._held_here_m3, self.around.volume_m3
        if held_m3 is None or volume_m3 is None:
            return None
        return whole_release_frac(held_m3, volume_m3=volume_m3, fresh_o2_frac=self._fresh_frac)

    @cached_property
    def supply_leaked_frac(self) -> float | None:
        """Oxygen left when it leaks away slowly."""
        held_m3, volume_m3 = self._held_here_m3, self.around.volume_m3
        if held_m3 is None or volume_m3 is None:
            return None
        return slow_release_frac(held_m3, volume_m3=volume_m3, fresh_o2_frac=self._fresh_frac)

    @cached_property
    def ventilated_s(self) -> float | Never | None:
        """How long the blower takes to bring the place back to 19.5 %."""
        return None if self._air is None else ventilated_s(self.set_up, air=self._air)

    @cached_property
    def people(self) -> tuple[PersonResult, ...]:
        """What each person breathes."""
        return () if self._air is None else people_results(self.set_up, air=self._air)

    @cached_property
    def _fresh_frac(self) -> float:
        return fresh_oxygen_of(self.around)

    @cached_property
    def _space(self) -> Space | None:
        release_m3_s = self.release_m3_s
        return None if release_m3_s is None else space_of(self.set_up, release_m3_s=release_m3_s)

    @cached_property
    def _air(self) -> Air | None:
        """The air as far as it is known; None where it is not known what escapes."""
        if self.release_m3_s is None:
            return None
        after_s, shape = escaped_for_s(self.set_up, self.around), shape_of(self.set_up)
        depth_m = None if after_s is None else self._depth_m(shape, self.release_m3_s * after_s)
        return Air(
            fresh_frac=self._fresh_frac,
            space=self._space,
            shape=shape,
            after_s=after_s,
            layer_depth_m=depth_m,
        )

    @cached_property
    def _held_here_m3(self) -> float | None:
        """What the supply holds, where it could fill the surroundings."""
        if self.around.volume_m3 is None or self.around.kind is Place.OPEN_AIR:
            return None
        return supply_contents_of(self.set_up)

    def _time_to(self, level_frac: float) -> float | Never | None:
        if self._space is None:
            return None
        if level_frac >= self._space.fresh_o2_frac:
            return 0.0  # the air that comes in has no more to start with
        time_s = time_to_frac_s(self._space, o2_frac=level_frac)
        return NEVER if time_s is None else time_s

    def _depth_m(self, shape: Shape | None, gas_m3: float) -> float | None:
        side = pool_side_of(self.set_up)
        if shape is None or side is None or side is PoolSide.NOWHERE:
            return None
        return shape.depth_m(gas_m3, fresh_frac=self._fresh_frac)

    def _needed(self, fan: Fan, release_m3_s: float) -> float | Never:
        if self._fresh_frac <= LEAST_TO_BREATHE_FRAC:
            return NEVER
        needed_m3_s = ventilation_needed_m3_s(
            release_m3_s, o2_frac=LEAST_TO_BREATHE_FRAC, fan=fan, fresh_o2_frac=self._fresh_frac
        )
        return NEVER if needed_m3_s is None else needed_m3_s
