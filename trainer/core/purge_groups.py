"""The dimensionless groups of a purge, and whether they lie within what was simulated."""

from __future__ import annotations

import math

from trainer.core.closure import constant
from trainer.core.gas import AIR, Gas, reduced_gravity_m_s2
from trainer.core.purge_case import PurgeCase
from trainer.core.sloped_column import POOL_DEPTH_M
from trainer.core.stirring_parts import Situation
from trainer.core.terms import InletEnd

_TESTED_BORE_M = (0.054, 0.305)
_TESTED_FLOW_L_MIN = (2.0, 40.0)
_TESTED_LENGTH_RATIO = 19.0
# Pipe that falls towards its vent, as the gas sees it: down to 10 degrees, and upright, which half a degree
# leaves as it is.
_TESTED_FALL_DEG = (10.0, 89.5)
# Sizes come from tables and inches; a thousandth beyond the end is the end.
_SLACK_FRAC = 1e-3

# Why a purge lies outside what was simulated; pages find the filled-in numbers again and say them their way.
UNTESTED_BORE = "bore %(bore)s mm: 54 to 305 mm tested"
UNTESTED_LENGTH = "length %(ratio)s times the bore: up to 19 tested"
UNTESTED_SLOPE = "slope %(slope)s deg: -10 to 90 deg and -90 deg tested"
UNTESTED_FLOW = "flow %(flow)s L/min: 2 to 40 L/min tested"
UNTESTED_JET = "diffuser blowing like a jet over %(jet)s of the bore: up to %(gentle)s tested"


def situation(case: PurgeCase, *, flow_m3_s: float) -> Situation:
    """The dimensionless groups that decide how a purge stirs its layers.

    F_b = (Q/A) / sqrt(g' D);  l_M / D = (Q U)^(3/4) / (g' Q)^(1/2) / D;  g' = g |rho_gas - rho_air| / rho_air

    Args:
        case [record]: the purge
        flow_m3_s [m3/s]: Q, purge gas
    Returns:
        [record] the groups; infinite where gas and air weigh the same

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> round(situation(BASE_CASE, flow_m3_s=2.5e-4).bulk_froude_ratio, 4)
        0.0159

    Reference: Turner, Buoyancy Effects in Fluids (1973), section 6.1 (forced plumes).
    """
    bore_m = case.section.bore_m
    gravity = reduced_gravity_m_s2(case.gas, temperature_k=case.temperature_k)
    fall_m = case.above_pool_frac(case.inlet.height_frac) * bore_m - POOL_DEPTH_M
    return Situation(
        end=case.inlet.end,
        rise_deg=case.rise_deg,
        bulk_froude_ratio=_ratio(flow_m3_s / case.section.area_m2, math.sqrt(gravity * bore_m)),
        jet_length_ratio=_jet_length_ratio(case, flow_m3_s),
        length_ratio=case.section.length_m / bore_m,
        plume_fall_ratio=max(0.0, fall_m) / bore_m,
        density_difference_frac=_density_difference_frac(case.gas),
    )


def inlet_velocity_m_s(case: PurgeCase, *, flow_m3_s: float) -> float:
    """Mean velocity at which the gas enters the section.

    U = Q / A_inlet

    Args:
        case [record]: the purge
        flow_m3_s [m3/s]: Q, purge gas
    Returns:
        [m/s] velocity at the tube's mouth or the diffuser's face

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> round(inlet_velocity_m_s(BASE_CASE, flow_m3_s=2.5e-4), 3)
        0.089

    Reference: continuity.
    """
    return flow_m3_s / case.inlet.opening_area_m2


def inlet_froude(case: PurgeCase, *, flow_m3_s: float) -> float:
    """Densimetric Froude number of the gas as it enters.

    Fr = U / sqrt(g' d),  d = sqrt(4 A_inlet / pi)

    Args:
        case [record]: the purge
        flow_m3_s [m3/s]: Q, purge gas
    Returns:
        [-] Froude number by the equal-area diameter; infinite where gas and air weigh the same

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> round(inlet_froude(BASE_CASE, flow_m3_s=2.5e-4), 2)
        0.19

    Reference: Turner, Buoyancy Effects in Fluids (1973), section 6.1.
    """
    gravity = reduced_gravity_m_s2(case.gas, temperature_k=case.temperature_k)
    diameter_m = math.sqrt(4.0 * case.inlet.opening_area_m2 / math.pi)
    return _ratio(inlet_velocity_m_s(case, flow_m3_s=flow_m3_s), math.sqrt(gravity * diameter_m))


def beyond_tested_range(case: PurgeCase) -> tuple[str, ...]:
    """Why a set-up lies outside what was simulated.

    Args:
        case [record]: the purge
    Returns:
        [text] one reason for each quantity beyond its range; empty inside

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> beyond_tested_range(BASE_CASE)
        ()

    Reference: range of the runs in tests/reference/purge_3d.csv and their kin.
    """
    reasons = []
    bore_mm, length_ratio = 1000.0 * case.section.bore_m, case.section.length_m / case.section.bore_m
    if not _within(case.section.bore_m, *_TESTED_BORE_M):
        reasons.append(UNTESTED_BORE % {"bore": f"{bore_mm:.4g}"})
    if length_ratio > _TESTED_LENGTH_RATIO * (1.0 + _SLACK_FRAC):
        reasons.append(UNTESTED_LENGTH % {"ratio": f"{length_ratio:.3g}"})
    if not _slope_was_tested(case.rise_deg):
        reasons.append(UNTESTED_SLOPE % {"slope": f"{case.section.slope_deg:.3g}"})
    # Without flow only diffusion is left, which needs no test of a closure.
    for flow_m3_s in dict.fromkeys(segment.flow_m3_s for segment in case.segments if segment.flow_m3_s):
        reasons += _flow_beyond_tested(case, flow_m3_s)
    return tuple(reasons)


def _flow_beyond_tested(case: PurgeCase, flow_m3_s: float) -> list[str]:
    reasons = []
    flow_l_min = 60_000.0 * flow_m3_s
    if not _within(flow_l_min, *_TESTED_FLOW_L_MIN):
        reasons.append(UNTESTED_FLOW % {"flow": f"{flow_l_min:.3g}"})
    # A gas about as heavy as air is taken as mixed already.
    layers = _density_difference_frac(case.gas) >= constant("density difference over air, layered at")
    if case.inlet.end is not InletEnd.DIFFUSER or not layers:
        return reasons
    jet_length = _jet_length_ratio(case, flow_m3_s)
    gentle_up_to = constant("jet length over bore, diffuser is gentle up to")
    if jet_length > gentle_up_to:
        reasons.append(UNTESTED_JET % {"jet": f"{jet_length:.2g}", "gentle": f"{gentle_up_to:.2g}"})
    return reasons


def _jet_length_ratio(case: PurgeCase, flow_m3_s: float) -> float:
    gravity = reduced_gravity_m_s2(case.gas, temperature_k=case.temperature_k)
    momentum = flow_m3_s * inlet_velocity_m_s(case, flow_m3_s=flow_m3_s)
    return _ratio(momentum**0.75 / case.section.bore_m, math.sqrt(gravity * flow_m3_s))


def _slope_was_tested(rise_deg: float) -> bool:
    steepest_fall_deg, upright_from_deg = _TESTED_FALL_DEG
    return rise_deg >= -steepest_fall_deg * (1.0 + _SLACK_FRAC) or rise_deg <= -upright_from_deg


def _within(value: float, low: float, high: float) -> bool:
    return low * (1.0 - _SLACK_FRAC) <= value <= high * (1.0 + _SLACK_FRAC)


def _density_difference_frac(gas: Gas) -> float:
    return abs(gas.molar_mass_kg_mol - AIR.molar_mass_kg_mol) / AIR.molar_mass_kg_mol


def _ratio(numerator: float, denominator: float) -> float:
    if numerator == 0.0:
        return 0.0
    return numerator / denominator if denominator > 0.0 else math.inf
