"""How strongly a purge stirs its layers, how much gas takes a short cut, and how sure we are of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from trainer.core.closure import constant
from trainer.core.terms import InletEnd


class Position(StrEnum):
    """How the pipe lies, as seen by the gas."""

    LEVEL = "level"
    FILLING = "upright, inlet where the gas settles"
    FALLING = "upright, inlet at the far end"


@dataclass(frozen=True, kw_only=True)
class Situation:
    """The dimensionless groups that the closure goes by.

    Args:
        end [text]: what the gas leaves the hose through
        position [text]: how the pipe lies
        bulk_froude_ratio [-]: (Q/A) / sqrt(g' D)
        jet_length_ratio [-]: momentum length over bore, l_M / D
        length_ratio [-]: length over bore
        plume_fall_ratio [-]: height of the inlet above its pool, over bore
        density_difference_frac [-]: density difference over that of air

    Reference: momentum length after Turner, Buoyancy Effects in Fluids (1973), section 6.1.
    """

    end: InletEnd
    position: Position
    bulk_froude_ratio: float
    jet_length_ratio: float
    length_ratio: float
    plume_fall_ratio: float
    density_difference_frac: float


@dataclass(frozen=True, kw_only=True)
class Stirring:
    """What one inlet does to the layers, and between which ratios of time the truth is expected.

    Args:
        exchange_ratio [-]: K A / (Q H)
        beyond_vent_ratio [-]: share of it left beyond the vent
        short_cut_ratio [-]: purge gas supplied over purge gas that takes part
        lower_ratio [-]: shortest time over the time modelled
        upper_ratio [-]: longest time over the time modelled
        vent_margin_ratio [-]: worst oxygen of the root over what a well-placed vent may read

    Reference: own definition.
    """

    exchange_ratio: float
    beyond_vent_ratio: float
    short_cut_ratio: float
    lower_ratio: float
    upper_ratio: float
    vent_margin_ratio: float


@dataclass(frozen=True, kw_only=True)
class Closure:
    """The stirring that is expected, and those between which it may lie.

    Args:
        expected [record]: the stirring to expect
        ends [record]: one or more, whose intervals the answer spans

    Reference: own definition.
    """

    expected: Stirring
    ends: tuple[Stirring, ...]


def closure(situation: Situation) -> Closure:
    """The stirring of a purge, from its dimensionless groups.

    diffuser K A/(Q H) = min(8.0 F_b^1.03 (L/D)^0.23, 0.24) + 1.02 s; open tube 2.7 to 25 as l_M/D passes
    0.7 to 1.0; a rag the geometric mean of both; a gas about as heavy as air mixed

    Args:
        situation [record]: the groups
    Returns:
        [record] the closure
    Valid: bores 54 to 305 mm, L/D up to 19, 2 to 40 L/min, above 100 ppm.

    Example:
        >>> base = Situation(end=InletEnd.DIFFUSER, position=Position.LEVEL, bulk_froude_ratio=0.0159,
        ...     jet_length_ratio=0.07, length_ratio=3.73, plume_fall_ratio=0.0, density_difference_frac=0.38)
        >>> round(closure(base).expected.exchange_ratio, 3)
        0.152

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv; no standard gives these figures.
    """
    gentle, stirred = _gentle(situation), _tube(situation)
    expected, ends = {
        InletEnd.DIFFUSER: (gentle, (gentle,)),
        InletEnd.OPEN_TUBE: (stirred, (stirred,)),
        InletEnd.RAG: (_between(gentle, stirred, 0.5), (gentle, stirred)),
    }[situation.end]
    layered_frac = _step(
        situation.density_difference_frac,
        constant("density difference over air, mixed at"),
        constant("density difference over air, layered at"),
    )
    if layered_frac == 1.0:
        return Closure(expected=expected, ends=ends)
    return Closure(expected=_between(_mixed(), expected, layered_frac), ends=(*ends, _mixed()))


def _step(value: float, start: float, end: float) -> float:
    """Smooth step from 0 at `start` to 1 at `end`, on a logarithmic scale."""
    if value <= start:
        return 0.0
    if value >= end:
        return 1.0
    x = math.log(value / start) / math.log(end / start)
    return x * x * (3.0 - 2.0 * x)


def _mix(first: float, second: float, second_frac: float) -> float:
    return float(first ** (1.0 - second_frac) * second**second_frac)


def _between(first: Stirring, second: Stirring, second_frac: float) -> Stirring:
    return Stirring(
        exchange_ratio=_mix(first.exchange_ratio, second.exchange_ratio, second_frac),
        beyond_vent_ratio=_mix(first.beyond_vent_ratio, second.beyond_vent_ratio, second_frac),
        short_cut_ratio=_mix(first.short_cut_ratio, second.short_cut_ratio, second_frac),
        lower_ratio=_mix(first.lower_ratio, second.lower_ratio, second_frac),
        upper_ratio=_mix(first.upper_ratio, second.upper_ratio, second_frac),
        vent_margin_ratio=_mix(first.vent_margin_ratio, second.vent_margin_ratio, second_frac),
    )


def _mixed() -> Stirring:
    """What a gas about as heavy as air is taken to do: temperature alone can turn its layers over."""
    return Stirring(
        exchange_ratio=constant("strong jet"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=1.0,
        lower_ratio=constant("strong jet, lower"),
        upper_ratio=constant("strong jet, upper"),
        vent_margin_ratio=constant("root over vent, strong jet"),
    )


def _tube(situation: Situation) -> Stirring:
    strong_frac = _step(
        situation.jet_length_ratio,
        constant("jet length over bore, tube turns strong from"),
        constant("jet length over bore, tube is strong at"),
    )
    # An open jet was seen to stir upright pipe whatever its strength, and gas from above mixes as it falls.
    if situation.position is not Position.LEVEL:
        strong_frac = 1.0
    return _between(_weak_jet(situation), _strong_jet(situation), strong_frac)


def _narrow_frac(situation: Situation) -> float:
    return _step(
        situation.bulk_froude_ratio,
        constant("bulk Froude, narrow pipe from"),
        constant("bulk Froude, narrow pipe at"),
    )


def _weak_jet(situation: Situation) -> Stirring:
    narrow_frac = _narrow_frac(situation)
    return Stirring(
        exchange_ratio=constant("weak jet"),
        beyond_vent_ratio=constant("left beyond the vent"),
        short_cut_ratio=_mix(
            constant("short cut, weak jet"), constant("short cut, jet in narrow pipe"), narrow_frac
        ),
        lower_ratio=constant("weak jet, lower"),
        upper_ratio=constant("weak jet, upper"),
        vent_margin_ratio=_mix(
            constant("root over vent, weak jet"), constant("root over vent, jet in narrow pipe"), narrow_frac
        ),
    )


def _strong_jet(situation: Situation) -> Stirring:
    narrow_frac = _narrow_frac(situation)
    long_frac = _step(
        situation.length_ratio,
        constant("length over bore, long from"),
        constant("length over bore, long at"),
    )
    return Stirring(
        exchange_ratio=constant("strong jet"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=_mix(
            constant("short cut, strong jet"), constant("short cut, jet in narrow pipe"), narrow_frac
        ),
        lower_ratio=_mix(
            constant("strong jet, lower"), constant("long section with a jet, lower"), long_frac
        ),
        upper_ratio=constant("strong jet, upper"),
        vent_margin_ratio=_mix(
            constant("root over vent, strong jet"),
            constant("root over vent, jet in narrow pipe"),
            narrow_frac,
        ),
    )


def _gentle(situation: Situation) -> Stirring:
    by_position = {
        Position.LEVEL: _gentle_level,
        Position.FILLING: _gentle_filling,
        Position.FALLING: _gentle_falling,
    }
    return by_position[situation.position](situation)


def _gentle_level(situation: Situation) -> Stirring:
    through_flow = (
        constant("gentle stirring")
        * situation.bulk_froude_ratio ** constant("gentle stirring, power of bulk Froude")
        * situation.length_ratio ** constant("gentle stirring, power of length over bore")
    )
    plume = constant("falling plume, per bore of fall") * situation.plume_fall_ratio
    fast_frac = _step(
        situation.bulk_froude_ratio,
        constant("bulk Froude, gentle flow is fast from"),
        constant("bulk Froude, gentle flow is fast at"),
    )
    return Stirring(
        exchange_ratio=min(through_flow, constant("gentle stirring, most")) + plume,
        beyond_vent_ratio=constant("left beyond the vent"),
        short_cut_ratio=1.0,
        lower_ratio=_mix(constant("gentle, lower"), constant("gentle, fast flow, lower"), fast_frac),
        upper_ratio=_mix(constant("gentle, upper"), constant("gentle, fast flow, upper"), fast_frac),
        vent_margin_ratio=constant("root over vent, gentle"),
    )


def _gentle_filling(situation: Situation) -> Stirring:
    return Stirring(
        # K = a u D, and K A / (Q H) = K / (u L).
        exchange_ratio=constant("upright fill, over u D") / situation.length_ratio,
        beyond_vent_ratio=1.0,
        short_cut_ratio=1.0,
        lower_ratio=constant("upright fill, lower"),
        upper_ratio=constant("upright fill, upper"),
        vent_margin_ratio=1.0,
    )


def _gentle_falling(_: Situation) -> Stirring:
    return Stirring(
        exchange_ratio=constant("strong jet"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=constant("short cut, upright, gentle inlet above"),
        lower_ratio=constant("upright, gentle inlet above, lower"),
        upper_ratio=constant("upright, gentle inlet above, upper"),
        vent_margin_ratio=constant("root over vent, gentle"),
    )
