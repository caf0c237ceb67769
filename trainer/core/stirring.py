"""How strongly a purge stirs its layers, how much gas takes a short cut, and how sure we are of it."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.core.certainty import less_sure, tube_widening_ratio
from trainer.core.closure import constant
from trainer.core.gentle_stirring import gentle_stirring
from trainer.core.slope_effects import left_beyond_frac, weak_jet_short_cut_ratio
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

    diffuser: as `gentle_stirring`; open tube K A/(Q H) = 2.8 to 25 as l_M/D passes 0.65 to 1.2 or the pipe is
    stood upright, and back to 2.8 as L/D passes 4 to 18.6; a rag the geometric mean of both; a gas about as
    heavy as air mixed

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
    expected, ends = _layered(situation)
    layered_frac = smooth_step(
        situation.density_difference_frac,
        start=constant("density difference over air, mixed at"),
        end=constant("density difference over air, layered at"),
    )
    if layered_frac == 1.0:
        return Closure(expected=expected, ends=ends)
    mixed = _mixed(situation.end)
    return Closure(expected=between(mixed, second=expected, second_frac=layered_frac), ends=(*ends, mixed))


def _layered(situation: Situation) -> tuple[Stirring, tuple[Stirring, ...]]:
    """What the inlet's own end does in a gas that layers, and what it may do."""
    if situation.end is InletEnd.DIFFUSER:
        gentle = gentle_stirring(situation)
        return gentle, (gentle,)
    stirred = _tube(situation)
    if situation.end is InletEnd.OPEN_TUBE:
        return stirred, (stirred,)
    gentle = gentle_stirring(situation)
    # What a rag lets out as a jet mixes all along: did it fade with the length as a whole jet does, beside
    # the gentle half that fades too, a longer section would be purged sooner.
    half = _tube(situation, reaches_end=True)
    return between(gentle, second=half, second_frac=0.5), (gentle, stirred)


def _mixed(end: InletEnd) -> Stirring:
    """What a gas about as heavy as air is taken to do: temperature alone can turn its layers over.

    From a tube it still takes the short cut of a jet.
    """
    tube_frac = {InletEnd.DIFFUSER: 0.0, InletEnd.RAG: 0.5, InletEnd.OPEN_TUBE: 1.0}[end]
    return Stirring(
        exchange_ratio=constant("mixed"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=constant("short cut, strong jet") ** tube_frac,
        lower_ratio=constant("strong jet, lower"),
        upper_ratio=constant("strong jet, upper"),
        vent_margin_ratio=constant("root over vent, strong jet"),
    )


def _tube(situation: Situation, *, reaches_end: bool = False) -> Stirring:
    strong_frac = smooth_step(
        situation.jet_length_ratio,
        start=constant("jet length over bore, tube turns strong from"),
        end=constant("jet length over bore, tube is strong at"),
    )
    # An open jet stirs upright pipe whatever its strength, and gas from above mixes as it falls.
    upright = upright_frac(situation.rise_deg)
    strong_frac = max(upright, strong_frac + (1.0 - strong_frac) * upright)
    strong = _strong_jet(situation, reaches_end=reaches_end)
    return between(_weak_jet(situation), second=strong, second_frac=strong_frac)


def _narrow_frac(situation: Situation) -> float:
    return smooth_step(
        situation.bulk_froude_ratio,
        start=constant("bulk Froude, narrow pipe from"),
        end=constant("bulk Froude, narrow pipe at"),
    )


def _weak_jet(situation: Situation) -> Stirring:
    narrow_frac = _narrow_frac(situation)
    level = Stirring(
        exchange_ratio=constant("weak jet"),
        beyond_vent_ratio=constant("left beyond the vent, weak jet") * left_beyond_frac(situation),
        short_cut_ratio=geometric_mean(
            constant("short cut, weak jet"),
            second=constant("short cut, jet in narrow pipe"),
            second_frac=narrow_frac,
        )
        * weak_jet_short_cut_ratio(situation),
        lower_ratio=constant("weak jet, lower"),
        upper_ratio=constant("weak jet, upper"),
        vent_margin_ratio=geometric_mean(
            constant("root over vent, weak jet"),
            second=constant("root over vent, jet in narrow pipe"),
            second_frac=narrow_frac,
        ),
    )
    return less_sure(
        level, widening_ratio=tube_widening_ratio(situation, sloping="wider, weak jet on a slope")
    )


def _strong_jet(situation: Situation, *, reaches_end: bool) -> Stirring:
    narrow_frac = _narrow_frac(situation)
    # A jet stirs a few bores of the pipe; beyond, what it has mixed is displaced, but not in upright pipe.
    fading_frac = 0.0 if reaches_end else 1.0 - upright_frac(situation.rise_deg)
    long_frac = fading_frac * smooth_step(
        situation.length_ratio,
        start=constant("length over bore, long from"),
        end=constant("length over bore, long at"),
    )

    def by_length(short: str, long: str) -> float:
        return geometric_mean(constant(short), second=constant(long), second_frac=long_frac)

    level = Stirring(
        exchange_ratio=by_length("strong jet", "strong jet, long section"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=geometric_mean(
            by_length("short cut, strong jet", "short cut, strong jet, long section"),
            second=constant("short cut, jet in narrow pipe"),
            second_frac=narrow_frac,
        ),
        lower_ratio=by_length("strong jet, lower", "long section with a jet, lower"),
        upper_ratio=by_length("strong jet, upper", "long section with a jet, upper"),
        vent_margin_ratio=geometric_mean(
            constant("root over vent, strong jet"),
            second=constant("root over vent, jet in narrow pipe"),
            second_frac=narrow_frac,
        ),
    )
    return less_sure(
        level, widening_ratio=tube_widening_ratio(situation, sloping="wider, strong jet on a slope")
    )
