"""How strongly a purge stirs its layers, how much gas takes a short cut, and how sure we are of it."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.core.closure import constant
from trainer.core.gentle_stirring import falling_short_cut_ratio, gentle_stirring, running_down_frac
from trainer.core.stirring_parts import (
    Situation,
    Stirring,
    between,
    geometric_mean,
    smooth_step,
    upright_frac,
)
from trainer.core.terms import InletEnd


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

    diffuser K L/Q = min(8.0 F_b^1.03 (L/D)^0.23, 0.24) + 1.02 s when level, less as the vent's end rises;
    open tube K A/(Q H) = 2.7 to 25 as l_M/D passes 0.7 to 1.0 or the pipe is stood
    upright; a rag the geometric mean of both; a gas about as heavy as air mixed

    Args:
        situation [record]: the groups
    Returns:
        [record] the closure
    Valid: bores 54 to 305 mm, L/D up to 19, 2 to 40 L/min, above 100 ppm.

    Example:
        >>> base = Situation(end=InletEnd.DIFFUSER, rise_deg=0.0, bulk_froude_ratio=0.0159,
        ...     jet_length_ratio=0.07, length_ratio=3.73, plume_fall_ratio=0.0, density_difference_frac=0.38)
        >>> round(closure(base).expected.exchange_ratio, 3)
        0.152

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv; no standard gives these figures.
    """
    gentle, stirred = gentle_stirring(situation), _tube(situation)
    expected, ends = {
        InletEnd.DIFFUSER: (gentle, (gentle,)),
        InletEnd.OPEN_TUBE: (stirred, (stirred,)),
        InletEnd.RAG: (between(gentle, second=stirred, second_frac=0.5), (gentle, stirred)),
    }[situation.end]
    layered_frac = smooth_step(
        situation.density_difference_frac,
        start=constant("density difference over air, mixed at"),
        end=constant("density difference over air, layered at"),
    )
    if layered_frac == 1.0:
        return Closure(expected=expected, ends=ends)
    return Closure(
        expected=between(_mixed(), second=expected, second_frac=layered_frac), ends=(*ends, _mixed())
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
    strong_frac = smooth_step(
        situation.jet_length_ratio,
        start=constant("jet length over bore, tube turns strong from"),
        end=constant("jet length over bore, tube is strong at"),
    )
    # An open jet stirs upright pipe whatever its strength, and gas from above mixes as it falls.
    upright = upright_frac(situation.rise_deg)
    strong_frac = max(upright, strong_frac + (1.0 - strong_frac) * upright)
    return between(_weak_jet(situation), second=_strong_jet(situation), second_frac=strong_frac)


def _narrow_frac(situation: Situation) -> float:
    return smooth_step(
        situation.bulk_froude_ratio,
        start=constant("bulk Froude, narrow pipe from"),
        end=constant("bulk Froude, narrow pipe at"),
    )


def _weak_jet(situation: Situation) -> Stirring:
    narrow_frac = _narrow_frac(situation)
    running_frac = running_down_frac(situation.rise_deg)
    return Stirring(
        exchange_ratio=constant("weak jet"),
        beyond_vent_ratio=constant("left beyond the vent"),
        short_cut_ratio=geometric_mean(
            constant("short cut, weak jet"),
            second=constant("short cut, jet in narrow pipe"),
            second_frac=narrow_frac,
        )
        * falling_short_cut_ratio(situation.rise_deg),
        lower_ratio=geometric_mean(
            constant("weak jet, lower"),
            second=constant("weak jet, falling pipe, lower"),
            second_frac=running_frac,
        ),
        upper_ratio=geometric_mean(
            constant("weak jet, upper"),
            second=constant("weak jet, falling pipe, upper"),
            second_frac=running_frac,
        ),
        vent_margin_ratio=geometric_mean(
            constant("root over vent, weak jet"),
            second=constant("root over vent, jet in narrow pipe"),
            second_frac=narrow_frac,
        ),
    )


def _strong_jet(situation: Situation) -> Stirring:
    narrow_frac = _narrow_frac(situation)
    long_frac = smooth_step(
        situation.length_ratio,
        start=constant("length over bore, long from"),
        end=constant("length over bore, long at"),
    )
    return Stirring(
        exchange_ratio=constant("strong jet"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=geometric_mean(
            constant("short cut, strong jet"),
            second=constant("short cut, jet in narrow pipe"),
            second_frac=narrow_frac,
        ),
        lower_ratio=geometric_mean(
            constant("strong jet, lower"),
            second=constant("long section with a jet, lower"),
            second_frac=long_frac,
        ),
        upper_ratio=constant("strong jet, upper"),
        vent_margin_ratio=geometric_mean(
            constant("root over vent, strong jet"),
            second=constant("root over vent, jet in narrow pipe"),
            second_frac=narrow_frac,
        ),
    )
