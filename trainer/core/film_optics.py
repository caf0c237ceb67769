"""Colour of a thin oxide film on metal, by interference: reflectance, then the eye, then the screen."""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from trainer.core.errors import Limits, UnknownName
from trainer.core.tables import table_rows

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

_THICKNESS = Limits(
    quantity="film thickness",
    unit="m",
    low=0.0,
    high=1e-6,
    why="thicker oxide is rough and absorbing, and shows no interference",
)
# The one film whose index was measured over the visible; the others follow the formula of film_oxides.csv.
_TABULATED_FILMS = {"titanium": "titania"}
_REFERENCE_UM = 0.55
# CIE XYZ (D65 white) to linear sRGB, IEC 61966-2-1, with the digits of its amendment 1.
_XYZ_TO_RGB = np.array(
    [
        [3.2406255, -1.5372080, -0.4986286],
        [-0.9689307, 1.8757561, 0.0415175],
        [0.0557101, -0.2040211, 1.0569959],
    ]
)


@dataclass(frozen=True)
class _Stack:
    """What does not depend on the film's thickness, ready for many thicknesses."""

    outer: Complexes
    inner: Complexes
    phase_per_m: Complexes
    to_linear_rgb: Floats


def film_reflectance(thickness_m: float, *, metal: str) -> tuple[Floats, Floats]:
    """Reflectance of an oxide film on metal over the visible, seen straight on.

    r = (r01 + r12 exp(2i beta)) / (1 + r01 r12 exp(2i beta)),  beta = 2 pi n d / lambda,  R = |r|^2

    Args:
        thickness_m [m]: d, thickness of the film
        metal [text]: "stainless", "titanium" or "nickel", each under the oxide that grows on it
    Returns:
        wavelength_m: [m] wavelengths, 380 to 780 nm by 5
        reflectance: [-] R at each of them
    Raises:
        UnknownName: for another metal
        OutOfRange: for a thickness below 0 or above 1 micrometre
    Valid: smooth, even films; n + ik with k > 0 absorbs, hence the sign of the phase.

    Example:
        >>> wavelength_m, reflectance = film_reflectance(0.0, metal="nickel")
        >>> len(wavelength_m), round(float(reflectance[34]), 2)
        (81, 0.64)

    Reference: Born and Wolf, Principles of Optics, 7th ed., section 14.4 (absorbing film on a substrate).
    """
    _THICKNESS.check(thickness_m)
    stack = _stack(metal)
    wavelength_m = np.array([float(row["wavelength_nm"]) for row in table_rows("cie_1931_d65")]) * 1e-9
    return wavelength_m, _reflectance(stack, thickness_m)


def film_linear_rgb(thickness_m: float, *, metal: str) -> tuple[float, float, float]:
    """Linear light of an oxide film on metal in daylight, for an sRGB screen.

    X, Y, Z = sum R S (x, y, z) / sum S y,  then the matrix of sRGB

    Args:
        thickness_m [m]: thickness of the film
        metal [text]: "stainless", "titanium" or "nickel"
    Returns:
        [-] red, green and blue, 0 to 1; a colour beyond what a screen shows is taken to its nearest edge
    Raises:
        UnknownName: for another metal
        OutOfRange: for a thickness below 0 or above 1 micrometre
    Valid: D65, CIE 1931 2 degree observer, normal incidence.

    Example:
        >>> [round(channel, 2) for channel in film_linear_rgb(50e-9, metal="titanium")]
        [0.03, 0.17, 0.46]

    Reference: CIE 15:2018 (tristimulus values); IEC 61966-2-1 (sRGB).
    """
    _THICKNESS.check(thickness_m)
    stack = _stack(metal)
    red, green, blue = (_reflectance(stack, thickness_m) @ stack.to_linear_rgb).tolist()
    return _on_screen(red), _on_screen(green), _on_screen(blue)


def encoded_colour(linear_rgb: tuple[float, float, float]) -> str:
    """Linear light as a screen colour.

    12.92 v up to 0.0031308, 1.055 v^(1/2.4) - 0.055 above

    Args:
        linear_rgb [-]: red, green and blue, 0 to 1
    Returns:
        [text] '#rrggbb'

    Example:
        >>> encoded_colour((1.0, 0.2140, 0.0))
        '#ff7f00'

    Reference: IEC 61966-2-1.
    """
    return "#" + "".join(f"{round(255.0 * _encoded(light)):02x}" for light in linear_rgb)


def linear_colour(colour: str) -> tuple[float, float, float]:
    """A screen colour as linear light: the inverse of `encoded_colour`.

    Args:
        colour [text]: '#rrggbb'
    Returns:
        [-] red, green and blue, 0 to 1

    Example:
        >>> encoded_colour(linear_colour("#5a4a91"))
        '#5a4a91'

    Reference: IEC 61966-2-1.
    """
    red, green, blue = (_decoded(int(colour[i : i + 2], 16) / 255.0) for i in (1, 3, 5))
    return red, green, blue


def _encoded(light: float) -> float:
    return 12.92 * light if light <= 0.0031308 else 1.055 * math.pow(light, 1.0 / 2.4) - 0.055


def _decoded(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else math.pow((value + 0.055) / 1.055, 2.4)


def _on_screen(light: float) -> float:
    return min(max(light, 0.0), 1.0)


def _reflectance(stack: _Stack, thickness_m: float) -> Floats:
    turn = np.exp(stack.phase_per_m * thickness_m)
    amplitude = (stack.outer + stack.inner * turn) / (1.0 + stack.outer * stack.inner * turn)
    return np.asarray(amplitude.real**2 + amplitude.imag**2)


@cache
def _stack(metal: str) -> _Stack:
    rows = table_rows("cie_1931_d65")
    wavelength_nm = np.array([float(row["wavelength_nm"]) for row in rows])
    film, under = _film_index(metal, wavelength_nm), _tabulated_index(metal, wavelength_nm)
    observer = np.array([[float(row[bar]) for bar in ("x_bar", "y_bar", "z_bar")] for row in rows])
    light = observer * np.array([[float(row["d65"])] for row in rows])
    return _Stack(
        outer=(1.0 - film) / (1.0 + film),
        inner=(film - under) / (film + under),
        phase_per_m=4j * math.pi * film / (wavelength_nm * 1e-9),
        to_linear_rgb=light @ _XYZ_TO_RGB.T / light[:, 1].sum(),
    )


def _film_index(metal: str, wavelength_nm: Floats) -> Complexes:
    if metal in _TABULATED_FILMS:
        return _tabulated_index(_TABULATED_FILMS[metal], wavelength_nm)
    rows = {row["metal"]: row for row in table_rows("film_oxides")}
    if metal not in rows:
        raise UnknownName("metal with a film", metal, known=sorted([*rows, *_TABULATED_FILMS]))
    row = {name: float(value) for name, value in rows[metal].items() if name not in ("metal", "status")}
    inverse_square = (1000.0 / wavelength_nm) ** 2 - 1.0 / _REFERENCE_UM**2
    fading = np.exp((wavelength_nm[0] - wavelength_nm) / row["k_fading_nm"])
    absorbing = row["k_red"] + (row["k_380"] - row["k_red"]) * fading
    return np.asarray(row["n_550"] + row["dispersion_um2"] * inverse_square + 1j * absorbing)


def _tabulated_index(substance: str, wavelength_nm: Floats) -> Complexes:
    rows = [row for row in table_rows("optical_constants") if row["substance"] == substance]
    places = [float(row["wavelength_nm"]) for row in rows]
    return np.interp(wavelength_nm, places, [complex(float(row["n"]), float(row["k"])) for row in rows])
