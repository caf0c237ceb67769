"""A whole supply let go into a space, leaks that last, and what the oxygen left does to people."""

import math
from enum import StrEnum

from trainer.core.breathing import FRESH, VOLUME
from trainer.core.errors import Limits
from trainer.core.gas import ATMOSPHERE_PA, O2_IN_ROOM_AIR_FRAC

_MM_HG_PA = 133.322387415
_GAS_VOLUME = Limits(quantity="gas released", unit="m3", low=0.0, why="a volume is not negative")
_FLOW = Limits(quantity="gas released", unit="m3/s", low=0.0, why="a flow is not negative")
_CHANGES = Limits(
    quantity="air changes", unit="1/s", low=1e-12, why="without them the oxygen falls to nothing"
)
_OXYGEN = Limits(quantity="oxygen", unit="", low=0.0, high=1.0, why="a share is from 0 to 1")
_PARTIAL = Limits(quantity="partial pressure of oxygen", unit="Pa", low=0.0, why="it is not negative")
_AMBIENT = Limits(quantity="ambient pressure", unit="Pa", low=3e4, high=12e4, why="the open air up to 9000 m")


def whole_release_frac(
    gas_volume_m3: float, *, volume_m3: float, fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC
) -> float:
    """Oxygen left when a whole supply empties at once and pushes out fresh air first: the worst case.

    y = y0 (1 - V_gas / V), none from V_gas = V on

    Args:
        gas_volume_m3 [m3]: gas at the space's temperature and pressure
        volume_m3 [m3]: of the space, less its contents
        fresh_o2_frac [-]: y0
    Returns:
        [-] mole fraction of oxygen; 0 when there is more gas than room, which is then full of it
    Raises:
        OutOfRange: for a negative volume
    Valid: mixed afterwards.

    Example:
        >>> round(whole_release_frac(4.0, volume_m3=57.096, fresh_o2_frac=0.21), 4)
        0.1953

    Reference: University of Oxford policy statement S4/03, appendix 1; BCGA GN11 section 3.2.
    """
    _GAS_VOLUME.check(gas_volume_m3)
    VOLUME.check(volume_m3)
    FRESH.check(fresh_o2_frac)
    return fresh_o2_frac * max(1.0 - gas_volume_m3 / volume_m3, 0.0)


def slow_release_frac(
    gas_volume_m3: float, *, volume_m3: float, fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC
) -> float:
    """Oxygen left when a supply leaks away slowly and mixed air leaves.

    y = y0 exp(-V_gas / V)

    Args:
        gas_volume_m3 [m3]: gas at the space's temperature and pressure
        volume_m3 [m3]: of the space
        fresh_o2_frac [-]: y0
    Returns:
        [-] mole fraction of oxygen
    Raises:
        OutOfRange: for a negative volume
    Valid: perfect mixing, no ventilation.

    Example:
        >>> round(slow_release_frac(10.0, volume_m3=15.0), 4)
        0.1073

    Reference: case C of the Fermilab ES&H Manual, chapter 4240, at R t = V_gas.
    """
    _GAS_VOLUME.check(gas_volume_m3)
    VOLUME.check(volume_m3)
    FRESH.check(fresh_o2_frac)
    return fresh_o2_frac * math.exp(-gas_volume_m3 / volume_m3)


def gas_added_frac(o2_frac: float, *, fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC) -> float:
    """Share of a space that is gas when a meter shows a level of oxygen.

    x = 1 - y / y0

    Args:
        o2_frac [-]: y
        fresh_o2_frac [-]: y0
    Returns:
        [-] share of the space; times its volume, the release that brings it there at once
    Raises:
        OutOfRange: for more oxygen than in fresh air
    Valid: a gas without oxygen.

    Example:
        >>> round(gas_added_frac(0.195), 3)
        0.067

    Reference: mass balance; the inverse of `whole_release_frac`.
    """
    FRESH.check(fresh_o2_frac)
    why = "gas without oxygen cannot raise it"
    Limits(quantity="oxygen", unit="", low=0.0, high=fresh_o2_frac, why=why).check(o2_frac)
    return 1.0 - o2_frac / fresh_o2_frac


def long_term_fall_frac(
    release_m3_s: float,
    *,
    volume_m3: float,
    air_changes_per_s: float,
    fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC,
) -> float:
    """Fall of oxygen that a small lasting leak brings a ventilated room to.

    fall = y0 R / (V N)

    Args:
        release_m3_s [m3/s]: R
        volume_m3 [m3]: V
        air_changes_per_s [1/s]: N
        fresh_o2_frac [-]: y0
    Returns:
        [-] oxygen below that of fresh air
    Raises:
        OutOfRange: when the release is more than the air that leaves, V N
    Valid: extract ventilation.

    Example:
        >>> round(100 * long_term_fall_frac(
        ...     0.04375 / 3600, volume_m3=36.0, air_changes_per_s=0.4 / 3600, fresh_o2_frac=0.21), 3)
        0.064

    Reference: University of Oxford policy statement S4/03, appendix 1(a).
    """
    _FLOW.check(release_m3_s)
    VOLUME.check(volume_m3)
    _CHANGES.check(air_changes_per_s)
    FRESH.check(fresh_o2_frac)
    air_m3_s = volume_m3 * air_changes_per_s
    why = "more gas than the ventilation takes away fills the room: use the mixed space"
    Limits(quantity="gas released", unit="m3/s", low=0.0, high=air_m3_s, why=why).check(release_m3_s)
    return fresh_o2_frac * release_m3_s / air_m3_s


def oxygen_partial_pressure_pa(o2_frac: float, *, ambient_pa: float = ATMOSPHERE_PA) -> float:
    """Partial pressure of oxygen in dry air, which the body needs; a meter shows the share.

    p = y p_ambient

    Args:
        o2_frac [-]: y
        ambient_pa [Pa]: ambient pressure
    Returns:
        [Pa] partial pressure
    Raises:
        OutOfRange: for a share outside 0 to 1 or a pressure outside 30 to 120 kPa
    Valid: dry air.

    Example:
        >>> round(oxygen_partial_pressure_pa(0.195) / 1000, 2)
        19.76

    Reference: Dalton's law.
    """
    _OXYGEN.check(o2_frac)
    _AMBIENT.check(ambient_pa)
    return o2_frac * ambient_pa


def same_oxygen_frac(o2_frac: float, *, ambient_pa: float) -> float:
    """Share of oxygen that at another pressure gives the body what a share gives it at sea level.

    y2 = y 101325 Pa / p_ambient

    Args:
        o2_frac [-]: y at sea level
        ambient_pa [Pa]: pressure at the place
    Returns:
        [-] share with the same partial pressure
    Raises:
        OutOfRange: for a share outside 0 to 1 or a pressure outside 30 to 120 kPa
    Valid: dry air; the law's limits stay in per cent whatever the altitude.

    Example:
        >>> round(same_oxygen_frac(0.195, ambient_pa=84500.0), 3)
        0.234

    Reference: Dalton's law.
    """
    return oxygen_partial_pressure_pa(o2_frac) / oxygen_partial_pressure_pa(1.0, ambient_pa=ambient_pa)


def fatality_ratio(partial_pressure_pa: float) -> float:
    """How deadly an atmosphere is, to weigh the severity of a mistake; never to be shown to people.

    f = 10^((65 - p) / 10), p in mmHg; 0 above 135 mmHg, 1 up to 65 mmHg

    Args:
        partial_pressure_pa [Pa]: partial pressure of oxygen
    Returns:
        [-] 0 to 1
    Raises:
        OutOfRange: for a negative pressure
    Valid: healthy people at rest; a scale between two ends that its source sets.

    Example:
        >>> f"{fatality_ratio(135 * 133.322):.0e}"
        '1e-07'

    Reference: Berkeley Lab, oxygen deficiency hazard assessment, formula read second-hand.
    """
    _PARTIAL.check(partial_pressure_pa)
    pressure_mm_hg = partial_pressure_pa / _MM_HG_PA
    if pressure_mm_hg > 135.0 + 1e-9:
        return 0.0
    return 1.0 if pressure_mm_hg <= 65.0 else math.pow(10.0, (65.0 - pressure_mm_hg) / 10.0)


class OxygenEffect(StrEnum):
    """What an atmosphere does to people, by the strictest reading of the published tables."""

    NORMAL = "normal"
    IMPAIRED_UNAWARE = "impaired without knowing"
    JUDGEMENT_LOST = "judgement lost"
    COLLAPSE_LIKELY = "collapse likely"
    UNCONSCIOUS = "unconscious"


def oxygen_effect(o2_frac: float) -> OxygenEffect:
    """What a level of oxygen does to people, in five bands.

    19.5 %, 16 %, 12 %, 10 %; a level on a limit belongs to the band above it

    Args:
        o2_frac [-]: share of oxygen at sea level
    Returns:
        [text] the band
    Raises:
        OutOfRange: for a share outside 0 to 1
    Valid: oxygen too low; more than 23.5 % is a fire hazard instead. Never a promise of minutes left.

    Example:
        >>> oxygen_effect(0.195).value, oxygen_effect(0.09).value
        ('normal', 'unconscious')

    Reference: 29 CFR 1910.146(b) for 19.5 %; CSB bulletin 2003-10-B and EIGA Doc 44 for the bands below it.
    """
    _OXYGEN.check(o2_frac)
    bands = (
        (0.195, OxygenEffect.NORMAL),
        (0.16, OxygenEffect.IMPAIRED_UNAWARE),
        (0.12, OxygenEffect.JUDGEMENT_LOST),
        (0.10, OxygenEffect.COLLAPSE_LIKELY),
    )
    return next((effect for least_frac, effect in bands if o2_frac >= least_frac), OxygenEffect.UNCONSCIOUS)


def oxygen_effect_source(effect: OxygenEffect) -> str:
    """The published table that a band of `oxygen_effect` is read from.

    Args:
        effect [text]: the band
    Returns:
        [text] document and clause
    Valid: bands by the strictest reading; healthy people at rest, and exertion moves them up.

    Example:
        >>> oxygen_effect_source(OxygenEffect.NORMAL)
        '29 CFR 1910.146(b)'

    Reference: 29 CFR 1910.146(b); CSB bulletin 2003-10-B, page 4; EIGA Doc 44 (from memory).
    """
    return "29 CFR 1910.146(b)" if effect is OxygenEffect.NORMAL else "CSB bulletin 2003-10-B, EIGA Doc 44"
