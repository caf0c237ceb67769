"""A dewar that stands and vents in a van, store or room: what it does to the air there."""

from trainer.core.breathing import Space, ventilation_needed_m3_s
from trainer.core.errors import Limits, UnknownName
from trainer.core.gas import ATMOSPHERE_PA, Gas
from trainer.core.liquid_supply import LiquidSupply, boil_off_m3_s
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3
from trainer.core.terms import Fan

_BOILS_AT_K = {"I1": 87.302, "N1": 77.355}
_CHANGES = Limits(quantity="air changes", unit="1/s", low=0.0, why="a room does not breathe backwards")


def vented_m3_s(supply: LiquidSupply, *, temperature_k: float = 293.15) -> float:
    """What a standing vessel lets into the space around it, at the temperature of that space and 1 atm.

    R = V_full f / 24 h

    Args:
        supply [record]: the vessel in use
        temperature_k [K]: of the space
    Returns:
        [m3/s] gas vented
    Raises:
        UnknownName: for a gas that is not stored as a liquid
    Valid: the relief vents all day; a relief that lifts or a spill is a sudden release instead.

    Example:
        >>> from trainer.core.dewar import Dewar
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(vented_m3_s(LiquidSupply(vessel=vessel)) * 60000, 1)
        2.6

    Reference: Lab Manager, January 2010, 2 to 3 % a day, read.
    """
    reference = ReferenceCondition.AT_15C_1BAR
    return converted_volume_m3(
        boil_off_m3_s(supply, reference=reference),
        stated_at=reference.state,
        wanted_at=GasState(temperature_k=temperature_k, pressure_pa=ATMOSPHERE_PA),
    )


def standing_space(
    supply: LiquidSupply, *, volume_m3: float, air_changes_per_s: float, temperature_k: float = 293.15
) -> Space:
    """The space that a vessel stands in, with its boil-off as the release.

    R = V_full f / 24 h at the space's temperature;  Q = N V leaves by draught, which stirs no layer

    Args:
        supply [record]: the vessel in use
        volume_m3 [m3]: V of the van, store or room, less its contents
        air_changes_per_s [1/s]: N, air changes; 0 for a closed van
        temperature_k [K]: of the space
    Returns:
        [record] the space, to be asked for oxygen and times
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for a volume that is no space or negative air changes
    Valid: the relief vents all day; a relief that lifts or a spill is a sudden release instead.

    Example:
        >>> from trainer.core.breathing import time_to_frac_s
        >>> from trainer.core.dewar import Dewar
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> van = standing_space(LiquidSupply(vessel=vessel), volume_m3=10.0, air_changes_per_s=0.0)
        >>> round(time_to_frac_s(van, o2_frac=0.195) / 3600, 1)
        4.5

    Reference: Fermilab ES&H Manual, chapter 4240, cases B and C; Lab Manager 2010 for the loss.
    """
    _CHANGES.check(air_changes_per_s)
    return Space(
        volume_m3=volume_m3,
        release_m3_s=vented_m3_s(supply, temperature_k=temperature_k),
        draught_m3_s=air_changes_per_s * volume_m3,
    )


def boil_off_temperature_k(gas: Gas) -> float:
    """How cold the gas is that a vessel vents: it has just boiled, and cold gas sinks whatever it is.

    Args:
        gas [record]: argon or nitrogen
    Returns:
        [K] its boiling point at one atmosphere
    Raises:
        UnknownName: for a gas that is not stored as a liquid
    Valid: at the relief; the gas warms as it mixes.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(boil_off_temperature_k(gas("N1")), 1)
        77.4

    Reference: CoolProp 8.0.0, saturation at 101 325 Pa.
    """
    if gas.symbol not in _BOILS_AT_K:
        raise UnknownName("gas stored as a liquid", gas.symbol, known=sorted(_BOILS_AT_K))
    return _BOILS_AT_K[gas.symbol]


def air_changes_needed_per_s(
    supply: LiquidSupply, *, volume_m3: float, o2_frac: float = 0.195, temperature_k: float = 293.15
) -> float:
    """Air changes at which a standing vessel does no harm in a room.

    N = R y0 / ((y0 - y) V)

    Args:
        supply [record]: the vessel in use
        volume_m3 [m3]: V of the room
        o2_frac [-]: y, the level to hold
        temperature_k [K]: of the room
    Returns:
        [1/s] air changes by extract
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for a level at or above fresh air
    Valid: perfect mixing; put a margin on it, and a meter in the room.

    Example:
        >>> from trainer.core.dewar import Dewar
        >>> from trainer.core.gas import gas
        >>> vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(air_changes_needed_per_s(LiquidSupply(vessel=vessel), volume_m3=10.0) * 3600, 2)
        0.23

    Reference: Fermilab ES&H Manual, chapter 4240, case B.
    """
    still = standing_space(supply, volume_m3=volume_m3, air_changes_per_s=0.0, temperature_k=temperature_k)
    needed_m3_s = ventilation_needed_m3_s(still.release_m3_s, o2_frac=o2_frac, fan=Fan.DRAWS_OUT)
    return (needed_m3_s or 0.0) / volume_m3
