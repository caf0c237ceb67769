"""Oxygen in a room, pit, vessel or pipe that gas escapes into: perfectly mixed.

For a space without a fan the larger danger of this and of the pooled layer (`pool`) holds. Not in the sums:
wind, heat, doors, the person's breath, a fan that returns the gas. Sums replace no meter, permit or watch.
"""

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import O2_IN_ROOM_AIR_FRAC
from trainer.core.terms import Fan

VOLUME = Limits(quantity="volume of the space", unit="m3", low=1e-3, high=1e9, why="1 L to 1 km3")
RELEASE = Limits(quantity="gas released", unit="m3/s", low=0.0, high=1e4, why="a release is not negative")
_FAN_FLOW = Limits(quantity="fan flow", unit="m3/s", low=0.0, high=1e6, why="a fan flow is not negative")
_DRAUGHT = Limits(
    quantity="draught", unit="m3/s", low=0.0, high=1e6, why="air comes and goes, or stands still"
)
_NO_DRAUGHT = Limits(
    quantity="draught beside a fan", unit="m3/s", low=0.0, high=0.0, why="a fan's own flow is what counts"
)
_TIME = Limits(quantity="time", unit="s", low=0.0, why="count from the start of the release")
FRESH = Limits(
    quantity="oxygen in fresh air",
    unit="",
    low=0.15,
    high=0.4,
    why="air holds about 20.9 %; above 23.5 % it is enriched, and up to 40 % it is still calculated with",
)


def _oxygen_limits(quantity: str, fresh_o2_frac: float) -> Limits:
    why = "oxygen lies between none and that of fresh air"
    return Limits(quantity=quantity, unit="", low=0.0, high=fresh_o2_frac, why=why)


def below_fresh(fresh_o2_frac: float) -> Limits:
    """Limits of a level of oxygen that has to stay below that of fresh air.

    0 <= y < y0

    Args:
        fresh_o2_frac [-]: y0
    Returns:
        [record] the limits
    Raises:
        OutOfRange: when y0 itself is not that of air

    Example:
        >>> below_fresh(0.209).check(0.195)

    Reference: own definition.
    """
    FRESH.check(fresh_o2_frac)
    high = math.nextafter(fresh_o2_frac, 0.0)
    why = "fresh air alone cannot bring more than its own oxygen"
    return Limits(quantity="level of oxygen", unit="", low=0.0, high=high, why=why)


@dataclass(frozen=True, kw_only=True)
class Space:
    """A space with gas escaping into it; flows at the temperature and pressure of the space.

    `draught_m3_s` is what leaves a space without a fan by doors and gaps: air changes times its volume.
    """

    volume_m3: float
    release_m3_s: float
    fan: Fan = Fan.NONE
    fan_flow_m3_s: float = 0.0
    draught_m3_s: float = 0.0
    fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC

    def __post_init__(self) -> None:
        VOLUME.check(self.volume_m3)
        RELEASE.check(self.release_m3_s)
        _FAN_FLOW.check(self.fan_flow_m3_s)
        (_DRAUGHT if self.fan is Fan.NONE else _NO_DRAUGHT).check(self.draught_m3_s)
        FRESH.check(self.fresh_o2_frac)

    @property
    def air_in_m3_s(self) -> float:
        """Fresh air that comes in: all that is blown in, or what fan or draught take out beyond the release.

        Returns:
            [m3/s] fresh air
        """
        if self.fan is Fan.BLOWS_IN:
            return self.fan_flow_m3_s
        taken_out_m3_s = self.fan_flow_m3_s if self.fan is Fan.DRAWS_OUT else self.draught_m3_s
        return max(taken_out_m3_s - self.release_m3_s, 0.0)

    @property
    def mixture_out_m3_s(self) -> float:
        """What leaves the space: as much as comes in.

        Returns:
            [m3/s] mixed air and gas
        """
        return self.air_in_m3_s + self.release_m3_s


def steady_frac(space: Space) -> float:
    """Oxygen that a mixed space comes to in the end.

    blows in: y0 Q / (Q + R);  draws out, or a draught: y0 (1 - R / Q);  none, or Q <= R: 0;  no release: y0

    Args:
        space [record]: volume, release R, fan and its flow Q
    Returns:
        [-] mole fraction of oxygen
    Valid: perfect mixing.

    Example:
        >>> space = Space(volume_m3=15.0, release_m3_s=0.05 / 60, fan=Fan.DRAWS_OUT, fan_flow_m3_s=1.5 / 60)
        >>> round(steady_frac(space), 4)
        0.202

    Reference: Fermilab ES&H Manual, chapter 4240, section 6.1.A, cases A to C.
    """
    if space.release_m3_s == 0.0:
        return space.fresh_o2_frac
    return space.fresh_o2_frac * space.air_in_m3_s / space.mixture_out_m3_s


def oxygen_mixed_frac(space: Space, *, time_s: float, start_o2_frac: float | None = None) -> float:
    """Oxygen in a mixed space some time after the release began, or after it ended.

    y = y_end + (y_start - y_end) exp(-q t / V),  q the flow that leaves: Q + R, Q, or R without a fan

    Args:
        space [record]: volume V, release R, fan and its flow Q
        time_s [s]: t
        start_o2_frac [-]: oxygen at the start; that of fresh air when left out
    Returns:
        [-] mole fraction of oxygen
    Raises:
        OutOfRange: for a negative time, or more oxygen at the start than in fresh air
    Valid: perfect mixing; case D (air after the release) is a release of 0.

    Example:
        >>> trench = Space(volume_m3=3.24, release_m3_s=20 / 60000)
        >>> round(oxygen_mixed_frac(trench, time_s=1800.0), 4)
        0.1737

    Reference: Fermilab ES&H Manual, chapter 4240, section 6.1.A, cases A to D.
    """
    _TIME.check(time_s)
    start = _start(space, start_o2_frac)
    if space.mixture_out_m3_s == 0.0:
        return start
    end = steady_frac(space)
    return end + (start - end) * math.exp(-space.mixture_out_m3_s * time_s / space.volume_m3)


def _start(space: Space, start_o2_frac: float | None) -> float:
    if start_o2_frac is None:
        return space.fresh_o2_frac
    _oxygen_limits("oxygen at the start", space.fresh_o2_frac).check(start_o2_frac)
    return start_o2_frac


def time_to_frac_s(space: Space, *, o2_frac: float, start_o2_frac: float | None = None) -> float | None:
    """Time until a mixed space comes to a level of oxygen, falling or recovering.

    t = (V / q) ln((y_start - y_end) / (y - y_end))

    Args:
        space [record]: volume V, release, fan
        o2_frac [-]: y, the level asked for
        start_o2_frac [-]: oxygen at the start; that of fresh air when left out
    Returns:
        [s] time; 0 at the start's own level; None when the space never comes to the level
    Raises:
        OutOfRange: for a level above fresh air
    Valid: perfect mixing.

    Example:
        >>> trench = Space(volume_m3=3.24, release_m3_s=20 / 60000)
        >>> round(time_to_frac_s(trench, o2_frac=0.195) / 60, 1)
        11.2

    Reference: inverse of `oxygen_mixed_frac`.
    """
    _oxygen_limits("level of oxygen", space.fresh_o2_frac).check(o2_frac)
    start, end = _start(space, start_o2_frac), steady_frac(space)
    if o2_frac == start:
        return 0.0
    if space.mixture_out_m3_s == 0.0 or not min(start, end) < o2_frac < max(start, end):
        return None
    return space.volume_m3 / space.mixture_out_m3_s * math.log((start - end) / (o2_frac - end))


def air_changes_to_recover(
    start_o2_frac: float, *, o2_frac: float, fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC
) -> float:
    """Air changes that bring a space back to a level of oxygen, once no more gas comes.

    n = ln((y0 - y_start) / (y0 - y))

    Args:
        start_o2_frac [-]: oxygen now
        o2_frac [-]: y, the level wanted
        fresh_o2_frac [-]: y0
    Returns:
        [-] volumes of fresh air over that of the space
    Raises:
        OutOfRange: for a level at or above fresh air, or below the present one
    Valid: perfect mixing; a dead leg does not mix, so take more and test.

    Example:
        >>> round(air_changes_to_recover(0.0, o2_frac=0.195), 2)
        2.7

    Reference: mass balance; case D of the Fermilab ES&H Manual, chapter 4240.
    """
    below_fresh(fresh_o2_frac).check(o2_frac)
    _oxygen_limits("oxygen now", o2_frac).check(start_o2_frac)
    return math.log((fresh_o2_frac - start_o2_frac) / (fresh_o2_frac - o2_frac))


def ventilation_needed_m3_s(
    release_m3_s: float, *, o2_frac: float, fan: Fan, fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC
) -> float | None:
    """Fan flow that holds a level of oxygen for as long as the gas escapes.

    draws out: Q = R y0 / (y0 - y);  blows in: Q = R y / (y0 - y)

    Args:
        release_m3_s [m3/s]: R
        o2_frac [-]: y, the level to hold
        fan [text]: which way it works
        fresh_o2_frac [-]: y0
    Returns:
        [m3/s] fan flow; None without a fan
    Raises:
        OutOfRange: for a level at or above fresh air
    Valid: perfect mixing, fresh air at the fan's intake; put a margin on it.

    Example:
        >>> round(60 * ventilation_needed_m3_s(20 / 60000, o2_frac=0.195, fan=Fan.DRAWS_OUT), 3)
        0.299

    Reference: steady states of the Fermilab ES&H Manual, chapter 4240, cases A and B.
    """
    RELEASE.check(release_m3_s)
    below_fresh(fresh_o2_frac).check(o2_frac)
    if fan is Fan.NONE:
        return None
    share = fresh_o2_frac if fan is Fan.DRAWS_OUT else o2_frac
    return release_m3_s * share / (fresh_o2_frac - o2_frac)
