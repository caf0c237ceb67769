"""What a purge gas carries besides itself: oxygen by its purity, and moisture by its frost point."""

import math

from trainer.core.errors import Limits, UnknownName
from trainer.core.gas import ATMOSPHERE_PA
from trainer.core.tables import table_rows

_FROST = Limits(
    quantity="frost point", unit="K", low=150.0, high=273.16, why="ice exists from 150 K to the triple point"
)
_PURITY = Limits(quantity="purity", unit="%", low=90.0, high=100.0, why="a purge gas is over 90 % pure")
_SLACK_PERCENT = 1e-9  # a purity that came through another unit still names its grade


def grade_o2_frac(purity_percent: float) -> float:
    """Oxygen that gas of a purity grade is taken to carry.

    Args:
        purity_percent [percent]: 99.99, 99.996, 99.998 or 99.999
    Returns:
        [-] mole fraction of oxygen, site policy
    Raises:
        UnknownName: for a purity that is no grade; `impurity_bound_frac` holds for any
    Valid: at delivery, not at the point of use.

    Example:
        >>> round(grade_o2_frac(99.996) * 1e6, 6)
        5.0

    Reference: data/gas_grades.csv, common practice between the figures that its header names.
    """
    grades = _grades()
    if purity_percent not in grades:
        raise UnknownName("purity grade", f"{purity_percent:g} %", known=[f"{grade:g} %" for grade in grades])
    return grades[purity_percent]


def _grades() -> dict[float, float]:
    return {float(row["purity_percent"]): float(row["o2_ppm"]) * 1e-6 for row in table_rows("gas_grades")}


def source_o2_frac(purity_percent: float) -> float:
    """Oxygen that gas of any purity is taken to carry, on the safe side.

    x = min(oxygen of the best grade that the purity reaches, 1 - purity); the whole impurity below all grades

    Args:
        purity_percent [percent]: purity on the certificate
    Returns:
        [-] mole fraction of oxygen
    Raises:
        OutOfRange: for a purity outside 90 to 100 %
    Valid: at delivery, not at the point of use.

    Example:
        >>> [round(source_o2_frac(purity) * 1e6, 6) for purity in (99.9, 99.99, 99.997, 99.9999)]
        [1000.0, 10.0, 5.0, 1.0]

    Reference: data/gas_grades.csv, common practice; the bound is arithmetic.
    """
    bound_frac = impurity_bound_frac(purity_percent)
    reached = [o2 for grade, o2 in _grades().items() if grade <= purity_percent + _SLACK_PERCENT]
    return min((*reached, bound_frac))


def impurity_bound_frac(purity_percent: float) -> float:
    """The most oxygen that gas of a purity can carry: all of its impurity.

    x = 1 - purity

    Args:
        purity_percent [percent]: purity on the certificate
    Returns:
        [-] mole fraction
    Raises:
        OutOfRange: for a purity outside 90 to 100 %
    Valid: any certified purity.

    Example:
        >>> round(impurity_bound_frac(99.99) * 1e6, 6)
        100.0

    Reference: arithmetic.
    """
    _PURITY.check(purity_percent)
    return (100.0 - purity_percent) / 100.0


def moisture_frac(frost_point_k: float) -> float:
    """Water vapour in a gas at one atmosphere whose frost point was measured.

    ln(p / 611.657 Pa) = (1/theta) sum a_i theta^b_i,  theta = T / 273.16 K

    Args:
        frost_point_k [K]: temperature at which frost forms
    Returns:
        [-] mole fraction of water
    Raises:
        OutOfRange: above the triple point or below 150 K
    Valid: over ice, 150 to 273.16 K.

    Example:
        >>> round(moisture_frac(223.15) * 1e6, 1)
        38.9

    Reference: IAPWS R14-08(2011), sublimation pressure of ice.
    """
    _FROST.check(frost_point_k)
    theta = frost_point_k / 273.16
    coefficients = ((-21.2144006, 0.00333333333), (27.3203819, 1.20666667), (-6.1059813, 1.70333333))
    exponent = math.fsum(a * math.pow(theta, b) for a, b in coefficients) / theta
    return 611.657 * math.exp(exponent) / ATMOSPHERE_PA
