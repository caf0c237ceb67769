"""The one table of constants of the purge closure, each with its origin.

Everything here comes from simulation of argon, helium and nitrogen filling dammed pipe, not from a standard.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

_START = "starting closure: least squares over 32 three-dimensional runs, which include the A and B rows"
_FIT = "fitted to the rows of tests/reference/purge_3d.csv whose name has an odd first byte of SHA-256"
# Errors on runs not fitted, as stated with the starting closure: median 6 to 13 % (diffuser), 3 to 10 % for
# jets. Nine in ten of a normal scatter lie within 2.44 times its median: exp(+-0.32) and exp(+-0.24). Leaving
# one fitted row out at a time, the gentle ones come out within 21 % above 100 ppm.
_WIDTH_GENTLE = "2.44 times the 13 % median error of the starting closure on unseen diffuser runs"
_WIDTH_JET = "2.44 times the 10 % median error of the starting closure on unseen jet runs"
_WIDTH_ROWS = (
    "from the extreme ratios of simulated to modelled time among the rows with an odd first byte of SHA-256, "
    "too few for a scatter, rounded outwards"
)
_READ = "read off the simulated runs: the change falls between 0.64 and 1.27"
_VENT = "worst root over vent in the simulated runs at one and three volume changes"
_OWN = "chosen, no source"
_FALLS = _FIT + ": F01, F02, F04, F08"
_PLUME = "0.153^(3/5) (pi/4)^(-2/5): Morton, Taylor and Turner 1956, entrainment coefficient 0.1, from memory"


@dataclass(frozen=True)
class Constant:
    """A constant of the closure and where it comes from.

    Args:
        value [-]: the number
        origin [text]: how it was found

    Reference: own definition.
    """

    value: float
    origin: str


CONSTANTS: Mapping[str, Constant] = MappingProxyType(
    {
        # Stirring, as K A / (Q H): K [m2/s] over flow, plan area and height of the gas space.
        "gentle stirring": Constant(8.0, _FIT + " (start 6.81)"),
        "gentle stirring, power of bulk Froude": Constant(1.03, _START),
        "gentle stirring, power of length over bore": Constant(0.23, _START),
        "gentle stirring, most": Constant(0.25, _FIT + " (start 0.182)"),
        "falling plume, over what it draws in": Constant(0.28, _FIT + ": A04, A15"),
        "falling plume, drawn in": Constant(0.357, _PLUME),
        "left of a plume beyond the vent": Constant(0.185, _START),
        "stirring beyond the vent, over u D": Constant(0.006, _FIT + ": A02, D05"),
        "weak jet": Constant(2.8, _FIT + " (start 2.7)"),
        "left beyond the vent, weak jet": Constant(0.185, _START),
        "strong jet": Constant(25.0, _FIT + " (start 9.0: low inlet with low vent came out 14 % slow)"),
        "strong jet, long section": Constant(2.8, _FIT + ": B09"),
        "mixed": Constant(400.0, _OWN + "; so much that no place of the vent matters"),
        "upright fill, over u D": Constant(0.005, _FIT),
        # Slope, by the rise or fall from end to end in bores: how the level closure becomes the upright one.
        "rising pipe, level stirring fades from": Constant(0.13, _FIT + ": T04, F13"),
        "falling pipe, gas runs down from": Constant(0.105, _FALLS),
        "falling pipe, power of its plume": Constant(3.0, _OWN + "; next to nothing at 5 deg, as in F08"),
        "left beyond the vent, falling pipe": Constant(0.45, _FALLS),
        "short cut, falling pipe": Constant(9.3, _FALLS),
        "short cut, falling pipe, power of bulk Froude": Constant(0.76, _FALLS),
        "short cut, falling pipe, most": Constant(
            1.0, _OWN + "; no row falls with a bulk Froude above 0.016"
        ),
        "short cut, falling pipe, weak jet": Constant(1.30, "mean of the gentle rows that fall, by analogy"),
        # Where one closure hands over to another.
        "jet length over bore, tube turns strong from": Constant(0.65, _READ),
        "jet length over bore, tube is strong at": Constant(1.2, _READ),
        "jet length over bore, diffuser is gentle up to": Constant(0.7, _OWN + "; 0.22 tested"),
        "bulk Froude, narrow pipe from": Constant(0.04, "starting closure's step at 0.06, blended"),
        "bulk Froude, narrow pipe at": Constant(0.09, "starting closure's step at 0.06, blended"),
        "density difference over air, mixed at": Constant(0.05, _OWN + "; 15 K undo 5 %"),
        "density difference over air, layered at": Constant(0.10, _OWN + "; 30 K undo 10 %"),
        # Purge gas supplied over purge gas that takes part; the rest leaves unmixed at the vent.
        "short cut, weak jet": Constant(1.0, _FIT + " (start 1.096)"),
        "short cut, strong jet": Constant(1.13, _FIT),
        "short cut, strong jet, long section": Constant(1.0, "none; the one such row, B09, wants 0.96"),
        "short cut, jet in narrow pipe": Constant(1.55, _FIT + ": B08 (start 1.51)"),
        # What an analyser at a well-placed vent hides: the layers know no distance along the pipe, so by them
        # alone the vent would read as much as the crown.
        "root over vent, gentle": Constant(4.0, _VENT + "; 1.2 to 3.2 at one, 1.5 to 7 at three"),
        "root over vent, weak jet": Constant(3.0, _VENT + "; 1.0 to 2.9"),
        "root over vent, strong jet": Constant(2.0, _VENT + "; 1.1 to 2.1"),
        "root over vent, jet in narrow pipe": Constant(3.3, _VENT),
        "vent reading is safe from, height above the pool": Constant(0.8, _OWN + "; high against mid vents"),
        # Ratio of simulated to modelled time between which nine runs in ten lie.
        "bulk Froude, gentle flow is fast from": Constant(0.02, _OWN),
        "bulk Froude, gentle flow is fast at": Constant(0.06, _OWN),
        "length over bore, long from": Constant(4.0, _OWN + "; one run at 18.6"),
        "length over bore, long at": Constant(18.6, _OWN + "; one run there"),
        "gentle, lower": Constant(0.73, _WIDTH_GENTLE),
        "gentle, upper": Constant(1.38, _WIDTH_GENTLE),
        "gentle, fast flow, lower": Constant(0.55, _WIDTH_ROWS + "; one row, A09"),
        "gentle, fast flow, upper": Constant(1.50, _WIDTH_ROWS + "; one row, A09"),
        "weak jet, lower": Constant(0.70, _WIDTH_ROWS),
        "weak jet, upper": Constant(1.28, _WIDTH_JET),
        "strong jet, lower": Constant(0.75, _WIDTH_ROWS),
        "strong jet, upper": Constant(1.28, _WIDTH_JET),
        "long section with a jet, lower": Constant(0.65, _OWN + "; one run"),
        "long section with a jet, upper": Constant(1.50, _OWN + "; one run, with the vent high"),
        "upright fill, lower": Constant(0.75, _WIDTH_ROWS),
        "upright fill, upper": Constant(1.40, _WIDTH_ROWS),
        "upright, gentle inlet above, lower": Constant(0.70, _OWN + "; no row to fit on"),
        "upright, gentle inlet above, upper": Constant(1.40, _OWN + "; no row to fit on"),
        # How much each step away from the fitted runs adds to 1, the power that widens these intervals.
        "wider, gas falling from its inlet": Constant(0.3, _OWN + "; one argon run and one nitrogen run"),
        "wider, light gas": Constant(0.2, _OWN + "; one helium run was fitted"),
        "wider, gentle flow in a falling pipe": Constant(0.4, _OWN + "; four runs at 3 and 5 degrees"),
        "wider, gentle flow in a rising pipe": Constant(0.15, _OWN + "; three runs, all with the vent high"),
        "wider, fast flow in an upright pipe": Constant(0.7, _OWN + "; two runs, neither fast"),
        "wider, weak jet on a slope": Constant(0.8, _OWN + "; no row to fit on"),
        "wider, strong jet on a slope": Constant(0.5, _OWN + "; no row to fit on"),
        "density difference over air, argon's kind up to": Constant(0.45, _OWN + "; argon differs by 0.38"),
        "density difference over air, helium's kind from": Constant(0.80, _OWN + "; helium differs by 0.86"),
    }
)


def constant(name: str) -> float:
    """The value of a constant of the table.

    Args:
        name [text]: its name
    Returns:
        [-] its value
    Raises:
        KeyError: for a name that the table does not hold

    Example:
        >>> constant("weak jet")
        2.8

    Reference: the table itself, which gives the origin of each.
    """
    return CONSTANTS[name].value
