"""Volumes of elbows, tees, branches, reducers and caps; air in a foam dam; length between dams."""

import math

import numpy as np

from trainer.core.errors import Limits, UnknownSize
from trainer.core.pipe import BORE, INCH_M, LENGTH, bore_area_m2
from trainer.core.tables import table_rows

_ANGLE = Limits(
    quantity="angle of the bend", unit="rad", low=0.0, high=math.pi, why="an elbow turns by up to 180 degrees"
)
_VOID = Limits(quantity="void share of the foam", unit="", low=0.0, high=1.0, why="a share is from 0 to 1")


def length_between_dams_m(
    left_centre_m: float, *, right_centre_m: float, left_thickness_m: float, right_thickness_m: float
) -> float:
    """Length between the inner faces of two dams whose centres were measured from the joint.

    L = a1 + a2 - (b1 + b2) / 2

    Args:
        left_centre_m [m]: a1, from the joint to the centre of the left dam
        right_centre_m [m]: a2
        left_thickness_m [m]: b1
        right_thickness_m [m]: b2
    Returns:
        [m] length between inner faces
    Raises:
        OutOfRange: when a dam reaches over the joint
    Valid: dams on both sides of the joint.

    Example:
        >>> round(length_between_dams_m(
        ...     0.3, right_centre_m=0.3, left_thickness_m=0.09, right_thickness_m=0.09), 3)
        0.51

    Reference: geometry.
    """
    for centre_m, thickness_m in ((left_centre_m, left_thickness_m), (right_centre_m, right_thickness_m)):
        LENGTH.check(thickness_m)
        why = "the dam must not reach over the joint"
        Limits(quantity="distance to the dam's centre", unit="m", low=thickness_m / 2.0, why=why).check(
            centre_m
        )
    return left_centre_m + right_centre_m - (left_thickness_m + right_thickness_m) / 2.0


def long_radius_m(nps: str) -> float:
    """Bend radius of a long-radius elbow, which is its centre-to-end length at 90 degrees.

    Args:
        nps [text]: nominal pipe size as the table writes it, "1/2" to "24"
    Returns:
        [m] radius of the centre line
    Raises:
        UnknownSize: with the sizes of the table
    Valid: the sizes of data/long_radius_elbows.csv.

    Example:
        >>> round(long_radius_m("6"), 4)
        0.2286

    Reference: ASME B16.9, Table 2, read in a reproduction.
    """
    rows = {row["nps"]: row for row in table_rows("long_radius_elbows")}
    if nps not in rows:
        raise UnknownSize(f"long-radius elbow NPS {nps}", schedule=None, known=tuple(rows))
    return float(rows[nps]["centre_to_end_in"]) * INCH_M


def elbow_volume_m3(bore_m: float, *, bend_radius_m: float, angle_rad: float) -> float:
    """Volume of an elbow.

    V = (pi/4) d^2 theta R

    Args:
        bore_m [m]: d
        bend_radius_m [m]: R, of the centre line
        angle_rad [rad]: theta
    Returns:
        [m3] volume
    Raises:
        OutOfRange: for an angle outside 0 to 180 degrees, or a radius less than half the bore
    Valid: exact for a torus without tangents.

    Example:
        >>> round(elbow_volume_m3(0.1615, bend_radius_m=0.2286, angle_rad=math.pi / 2) * 1000, 3)
        7.356

    Reference: Pappus's theorem.
    """
    _ANGLE.check(angle_rad)
    why = "a bend sharper than half its bore crosses itself"
    Limits(quantity="bend radius", unit="m", low=bore_m / 2.0, why=why).check(bend_radius_m)
    return bore_area_m2(bore_m) * angle_rad * bend_radius_m


def tee_volume_m3(bore_m: float, *, run_length_m: float, outlet_m: float) -> float:
    """Volume of a tee whose three bores are equal.

    V = A (2C + M) - (8/3) r^3

    Args:
        bore_m [m]: 2 r
        run_length_m [m]: 2C, end to end along the run
        outlet_m [m]: M, from the run's axis to the end of the outlet
    Returns:
        [m3] volume
    Raises:
        OutOfRange: when run or outlet end inside the crossing
    Valid: sharp inside corner.

    Example:
        >>> round(tee_volume_m3(0.1541, run_length_m=0.286, outlet_m=0.143) * 1000, 3)
        6.781

    Reference: half of a Steinmetz solid taken off two cylinders.
    """
    why = "it has to reach out of the crossing"
    Limits(quantity="run of the tee", unit="m", low=bore_m, why=why).check(run_length_m)
    Limits(quantity="outlet of the tee", unit="m", low=bore_m / 2.0, why=why).check(outlet_m)
    return bore_area_m2(bore_m) * (run_length_m + outlet_m) - bore_m**3 / 3.0


def branch_stub_volume_m3(bore_m: float, *, run_bore_m: float, end_m: float) -> float:
    """Volume of a branch outside the run that it stands on.

    V = pi b^2 H - integral from -b to b of 2 sqrt(b^2 - x^2) sqrt(R^2 - x^2) dx

    Args:
        bore_m [m]: 2 b, of the branch
        run_bore_m [m]: 2 R, of the run
        end_m [m]: H, from the run's axis to the branch's end
    Returns:
        [m3] volume
    Raises:
        OutOfRange: for a branch wider than its run, or one that ends inside it
    Valid: b <= R, H >= R, axes crossing at right angles.

    Example:
        >>> round(branch_stub_volume_m3(0.0525, run_bore_m=0.1541, end_m=0.15) * 1000, 4)
        0.1604

    Reference: geometry; the integral by Gauss-Legendre after x = b sin phi.
    """
    BORE.check(run_bore_m)
    why = "a branch is not wider than its run"
    Limits(quantity="bore of the branch", unit="m", low=1e-4, high=run_bore_m, why=why).check(bore_m)
    why = "the branch has to end outside the run"
    Limits(quantity="end of the branch", unit="m", low=run_bore_m / 2.0, why=why).check(end_m)
    radius_m, run_radius_m = bore_m / 2.0, run_bore_m / 2.0
    nodes, weights = np.polynomial.legendre.leggauss(48)
    sine, cosine = np.sin(nodes * math.pi / 2.0), np.cos(nodes * math.pi / 2.0)
    heights = np.sqrt(run_radius_m**2 - (radius_m * sine) ** 2)
    inside_run = math.pi * radius_m**2 * float(np.sum(weights * cosine**2 * heights))
    return math.pi * radius_m**2 * end_m - inside_run


def reducer_volume_m3(bore_m: float, *, other_bore_m: float, length_m: float) -> float:
    """Volume of a conical reducer.

    V = pi H / 12 (d1^2 + d1 d2 + d2^2)

    Args:
        bore_m [m]: d1
        other_bore_m [m]: d2
        length_m [m]: H
    Returns:
        [m3] volume
    Raises:
        OutOfRange: for a negative length or a bore outside 0.1 mm to 3 m
    Valid: concentric or eccentric cone; a bell shape differs by a few per cent.

    Example:
        >>> round(reducer_volume_m3(0.1615, other_bore_m=0.1082, length_m=0.14) * 1000, 3)
        2.026

    Reference: geometry of a frustum.
    """
    for bore in (bore_m, other_bore_m):
        BORE.check(bore)
    LENGTH.check(length_m)
    return math.pi * length_m / 12.0 * (bore_m**2 + bore_m * other_bore_m + other_bore_m**2)


def cap_volume_m3(bore_m: float, *, straight_flange_m: float = 0.0) -> float:
    """Volume of a 2:1 elliptical cap.

    V = pi d^3 / 24 + (pi/4) d^2 s

    Args:
        bore_m [m]: d
        straight_flange_m [m]: s, straight part before the head
    Returns:
        [m3] volume
    Raises:
        OutOfRange: for a negative flange or a bore outside 0.1 mm to 3 m
    Valid: head depth d/4.

    Example:
        >>> round(cap_volume_m3(0.1615, straight_flange_m=0.045) * 1000, 3)
        1.473

    Reference: geometry of half an ellipsoid.
    """
    LENGTH.check(straight_flange_m)
    return math.pi * bore_m**3 / 24.0 + bore_area_m2(bore_m) * straight_flange_m


def foam_air_m3(bore_m: float, *, thickness_m: float, void_frac: float = 0.97) -> float:
    """Air that an open-cell foam dam holds and gives off while the section is purged.

    V = phi A b,  phi = 1 - rho_foam / rho_polymer

    Args:
        bore_m [m]: bore that the dam fills
        thickness_m [m]: b
        void_frac [-]: phi, 0.97 for usual foam
    Returns:
        [m3] volume of air
    Raises:
        OutOfRange: for a void share outside 0 to 1 or a negative thickness
    Valid: open cells.

    Example:
        >>> round(foam_air_m3(0.1615, thickness_m=0.09, void_frac=0.975) * 1000, 2)
        1.8

    Reference: geometry; 30 kg/m3 foam of 1200 kg/m3 polymer, densities from memory.
    """
    _VOID.check(void_frac)
    LENGTH.check(thickness_m)
    return void_frac * bore_area_m2(bore_m) * thickness_m
