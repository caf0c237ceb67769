"""Pressure that a foam dam holds before it slips in the bore: friction round its edge against its face."""

from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.interval import Interval

# Flexible polyurethane without its cells; Gibson and Ashby, Cellular Solids, 2nd ed. 1997, from memory.
SOLID_DENSITY_KG_M3 = 1200.0
_SOLID_MODULUS_PA = 45e6
_COLLAPSE_FRAC = 0.05
# Foams of one density are made soft and hard: this range was set so that the measured ones lie between half
# of the law and four times it (tests/reference/foam_stress.csv).
_SOFTEST_RATIO, _HARDEST_RATIO = 0.5, 4.0
# Foam on a dry pipe wall; no source. Dust, oil and a polished bore take from it, rust and mill scale add.
_FRICTION, _LEAST_FRICTION, _MOST_FRICTION = 0.5, 0.3, 1.0

DENSITY = Limits(
    quantity="density of the foam",
    unit="kg/m3",
    low=15.0,
    high=120.0,
    why="flexible open-cell foam that is sold",
)
STRAIN = Limits(
    quantity="strain of the foam", unit="", low=0.0, high=0.6, why="beyond it the cells lie on each other"
)
_THICKNESS = Limits(quantity="thickness of the dam", unit="m", low=0.0, high=1.0, why="dams up to 1 m thick")
_OVERSIZE = Limits(
    quantity="width over the bore", unit="m", low=0.0, high=1.0, why="a dam is cut at least to the bore"
)
_BORE = Limits(quantity="bore", unit="m", low=0.005, high=3.0, why="pipes from 5 mm to 3 m")


@dataclass(frozen=True, kw_only=True)
class FoamPlug:
    """A round piece of foam before it is pressed into the bore."""

    density_kg_m3: float
    thickness_m: float
    oversize_m: float

    def __post_init__(self) -> None:
        DENSITY.check(self.density_kg_m3)
        _THICKNESS.check(self.thickness_m)
        _OVERSIZE.check(self.oversize_m)


def foam_stress_pa(density_kg_m3: float, *, strain_frac: float) -> Interval:
    """What flexible open-cell polyurethane foam presses back with when it is compressed.

    E* = Es (rho* / rho_s)^2;  sigma = E* min(strain, 0.05);  Es 45 MPa, rho_s 1200 kg/m3

    Args:
        density_kg_m3 [kg/m3]: rho*, of the foam
        strain_frac [-]: compressed by this share of its own width
    Returns:
        [Pa] sigma, from the softest to the hardest foam of that density
    Raises:
        OutOfRange: for another density than flexible foam has, or a strain above 0.6
    Valid: dry, new foam at room temperature; the density says far from all about a foam's hardness.

    Example:
        >>> round(foam_stress_pa(30.0, strain_frac=0.2).expected)
        1406

    Reference: Gibson and Ashby, Cellular Solids, 2nd ed. 1997, chapter 5 (open cells), from memory.
    """
    DENSITY.check(density_kg_m3)
    STRAIN.check(strain_frac)
    modulus_pa = _SOLID_MODULUS_PA * (density_kg_m3 / SOLID_DENSITY_KG_M3) ** 2
    stress_pa = modulus_pa * min(strain_frac, _COLLAPSE_FRAC)
    return Interval(stress_pa, _SOFTEST_RATIO * stress_pa, _HARDEST_RATIO * stress_pa)


def slip_pressure_pa(plug: FoamPlug, *, bore_m: float) -> Interval:
    """Pressure difference across a foam dam at which it slips in the bore.

    p = 2 mu sigma t / r,  strain = oversize / (bore + oversize),  mu 0.5 (0.3 to 1)

    Args:
        plug [record]: the foam as it was cut
        bore_m [m]: 2 r, of the pipe
    Returns:
        [Pa] p; a dam surely stays below the lower end and surely goes above the upper one
    Raises:
        OutOfRange: for foam cut so wide that the bore presses its cells together
    Valid: dry foam in a straight pipe. Stress across as in plain compression; gas that seeps through the foam
        and its pressing together along the pipe are left out. A dam that lets go is shot out, however little
        pressure that took: nobody stands before the open end.

    Example:
        >>> cut = FoamPlug(density_kg_m3=30.0, thickness_m=0.1, oversize_m=0.02)
        >>> holds = slip_pressure_pa(cut, bore_m=0.16)
        >>> [round(each) for each in (holds.lower, holds.expected, holds.upper)]
        [527, 1758, 14063]

    Reference: own balance of forces, 2 pi r t mu sigma = pi r^2 p; the friction has no source.
    """
    _BORE.check(bore_m)
    strain_frac = plug.oversize_m / (bore_m + plug.oversize_m)
    stress = foam_stress_pa(plug.density_kg_m3, strain_frac=strain_frac)
    slenderness = 2.0 * plug.thickness_m / (bore_m / 2.0)
    return Interval(
        _FRICTION * stress.expected * slenderness,
        _LEAST_FRICTION * stress.lower * slenderness,
        _MOST_FRICTION * stress.upper * slenderness,
    )
