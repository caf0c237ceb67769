"""The layered purge by another route: method of lines on a grid of its own, with fluxes of its own.

Volumes are integrals of chords, faces crowd where the gas enters and where the air stays, the flux at a face is the
second-order central one (advection by the interpolated air, diffusion by the gradient), and an ODE solver steps in
time. Only the strengths of stirring and short cut are taken from the closure.
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp

from trainer.core.gas import sinks_in_air
from trainer.core.purge_courses import mixing_of
from trainer.core.purge_groups import situation
from trainer.core.stirring import closure

_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(6)
_POOL_M = 0.015


def _slice_area_m2(section, tilt, height_m):
    """Width of the pipe integrated along the level line through it: dA = 2 sqrt(v (D - v)) dx."""
    bore, length = section.bore_m, section.length_m
    sine, cosine = math.sin(tilt), math.cos(tilt)
    # v = z cos - x sin across the pipe and s = z sin + x cos along it both have to stay inside.
    low, high = -height_m * sine / cosine, (length - height_m * sine) / cosine
    if sine > 0.0:
        low, high = max(low, (height_m * cosine - bore) / sine), min(high, height_m * cosine / sine)
    if high <= low:
        return 0.0
    # Points crowd at both ends, where the width starts as a root.
    angle = np.linspace(0.0, math.pi, 401)
    x = (low + high) / 2.0 - (high - low) / 2.0 * np.cos(angle)
    v = np.clip(height_m * cosine - x * sine, 0.0, bore)
    return float(np.trapezoid(2.0 * np.sqrt(v * (bore - v)) * (high - low) / 2.0 * np.sin(angle), angle))


@dataclass(frozen=True)
class Grid:
    face_m: np.ndarray
    volume_m3: np.ndarray
    area_m2: np.ndarray  # at the inner faces
    supply_frac: np.ndarray
    exit_frac: np.ndarray
    root_m: np.ndarray  # heights of the root


def grid_of(case, *, cells_count):
    section = case.section
    tilt = math.radians(abs(section.slope_deg))
    sine, cosine = math.sin(tilt), math.cos(tilt)
    upright = section.is_upright
    height = section.length_m if upright else section.bore_m * cosine + section.length_m * sine
    # Between evenly spaced and crowding at both ends.
    even = np.linspace(0.0, 1.0, cells_count + 1)
    face = height * (0.5 * even + 0.5 * (1.0 - np.cos(math.pi * even)) / 2.0)

    def area(z):
        return section.area_m2 if upright else _slice_area_m2(section, tilt, z)

    def volume(low, high):
        z = (low + high) / 2.0 + (high - low) / 2.0 * _POINTS
        return (high - low) / 2.0 * sum(w * area(each) for w, each in zip(_WEIGHTS, z, strict=True))

    cells = list(zip(face[:-1], face[1:], strict=True))
    volumes = np.array([volume(low, high) for low, high in cells])
    pool = 0.0 if upright else min(_POOL_M, section.bore_m / 3.0) * cosine
    pool = max(pool, height / 128.0 * sine)
    supply = np.array([volume(low, min(high, pool)) if low < pool else 0.0 for low, high in cells])
    sinks = sinks_in_air(case.gas)
    along_m = section.length_m if case.rise_deg > 0.0 else 0.0
    across = case.vent.height_frac if sinks else 1.0 - case.vent.height_frac
    centre = along_m * sine + (0.0 if upright else across * section.bore_m * cosine)
    half = max(case.vent.diameter_m / 2.0 * cosine, height / 256.0 if sine else 0.0)
    place = np.clip((face - centre) / half, -1.0, 1.0)
    below = (place * np.sqrt(1.0 - place**2) + np.arcsin(place)) / math.pi + 0.5
    exits = np.diff(below)
    joint = section.joint_m if case.rise_deg > 0.0 else section.length_m - section.joint_m
    ring = (0.0, 0.0) if upright else (0.0, section.bore_m * cosine)
    return Grid(
        face_m=face,
        volume_m3=volumes,
        area_m2=np.array([area(z) for z in face[1:-1]]),
        supply_frac=supply / supply.sum(),
        exit_frac=exits / exits.sum(),
        root_m=joint * sine + np.linspace(*ring, 60),
    )


def root_air_frac(case, times_s, *, cells_count=240):
    """Worst air fraction of the root at rising times, over all flows of the case."""
    grid = grid_of(case, cells_count=cells_count)
    middle = (grid.face_m[1:] + grid.face_m[:-1]) / 2.0
    air, start, found = np.ones(cells_count), 0.0, []
    for segment in case.segments:
        matrix = _rates_per_s(case, grid, segment.flow_m3_s, middle)
        end = min(start + segment.duration_s, times_s[-1])
        here = times_s[(times_s >= start) & (times_s < end if end < times_s[-1] else times_s <= end)]
        solved = solve_ivp(
            lambda _, c, matrix=matrix: matrix @ c,
            (start, end),
            air,
            method="BDF",
            jac=matrix,
            t_eval=np.unique(np.append(here, end)),
            rtol=1e-7,
            atol=1e-10,
        )
        for column in range(here.size):
            found.append(np.interp(grid.root_m, middle, solved.y[:, column]).max())
        air, start = solved.y[:, -1], end
        if start >= times_s[-1]:
            break
    return np.array(found)


def _rates_per_s(case, grid, flow_m3_s, middle_m):
    """dc/dt = M c by central fluxes at the faces between cells."""
    stirring = closure(situation(case, flow_m3_s=flow_m3_s)).expected
    mixing = mixing_of(case, flow_m3_s=flow_m3_s, stirring=stirring)
    takes_part = flow_m3_s / mixing.short_cut_ratio
    exits = takes_part * grid.exit_frac
    upward = np.cumsum(takes_part * grid.supply_frac - exits)[:-1]
    left = 1.0 - np.cumsum(grid.exit_frac)[:-1]
    stirred = mixing.stirring_m2_s * (mixing.beyond_vent_ratio + (1.0 - mixing.beyond_vent_ratio) * left)
    between = np.diff(middle_m)
    conductance = grid.area_m2 * (mixing.diffusivity_m2_s + stirred) / between
    of_upper = (grid.face_m[1:-1] - middle_m[:-1]) / between
    count = middle_m.size
    matrix = np.diag(-exits)
    lower = np.arange(count - 1)
    # Flux up through a face: upward [(1 - w) c_lower + w c_upper] - conductance (c_upper - c_lower).
    by_lower, by_upper = upward * (1.0 - of_upper) + conductance, upward * of_upper - conductance
    for cell, sign in ((lower, -1.0), (lower + 1, 1.0)):
        np.add.at(matrix, (cell, lower), sign * by_lower)
        np.add.at(matrix, (cell, lower + 1), sign * by_upper)
    return matrix / grid.volume_m3[:, np.newaxis]
