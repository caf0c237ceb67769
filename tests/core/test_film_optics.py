"""Film colours against colour-science, a table computed elsewhere, and the order that welders know."""

import colorsys
import csv
import math
import time
import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference_rows import FOLDER
from shape import SHAPE

from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.film_optics import encoded_colour, film_linear_rgb, film_reflectance, linear_colour
from trainer.core.tables import table_rows

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it wants a plotting library that these tests do not use
    import colour

METALS = ("stainless", "titanium", "nickel")
THICKNESSES_NM = (0, 7, 15, 22, 33, 40, 48, 60, 75, 90, 110, 135, 160)


def film_table():
    with (FOLDER / "film_colours.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def film_colour_of(thickness_nm, metal):
    return encoded_colour(film_linear_rgb(thickness_nm * 1e-9, metal=metal))


def xyz(colour_hex):
    return colour.sRGB_to_XYZ(np.array([int(colour_hex[i : i + 2], 16) for i in (1, 3, 5)]) / 255.0)


def difference(one_xyz, other_xyz):
    return float(colour.delta_E(colour.XYZ_to_Lab(one_xyz), colour.XYZ_to_Lab(other_xyz), method="CIE 2000"))


def index_at(substance, wavelength_nm):
    rows = [row for row in table_rows("optical_constants") if row["substance"] == substance]
    places, real, imaginary = (
        np.array([float(row[key]) for row in rows]) for key in ("wavelength_nm", "n", "k")
    )
    return np.interp(wavelength_nm, places, real) + 1j * np.interp(wavelength_nm, places, imaginary)


def film_index(metal, wavelength_nm):
    if metal == "titanium":
        return index_at("titania", wavelength_nm)
    middle = {"stainless": 2.50, "nickel": 2.40}[metal]
    real = middle + 0.045 * (1e6 / wavelength_nm**2 - 1 / 0.55**2)
    return real + 1j * (0.02 + 0.08 * np.exp((380 - wavelength_nm) / 100))


@pytest.mark.parametrize("thickness_nm", THICKNESSES_NM)
@pytest.mark.parametrize("metal", METALS)
def test_reflectance_is_that_of_a_transfer_matrix(metal, thickness_nm):
    """colour-science 0.4.7, multilayer_tmm (transfer matrices, after Byrnes, arXiv:1603.02720)."""
    wavelength_m, ours = film_reflectance(thickness_nm * 1e-9, metal=metal)
    nm = wavelength_m * 1e9
    stack = np.array([np.ones_like(nm), film_index(metal, nm), index_at(metal, nm)])
    theirs = colour.phenomena.multilayer_tmm(
        n=stack, t=np.array([float(thickness_nm)]), wavelength=nm, theta=0
    )
    assert ours == pytest.approx(np.asarray(theirs[0]).reshape(nm.size, -1)[:, 0], abs=1e-9)


@pytest.mark.parametrize("thickness_nm", THICKNESSES_NM)
@pytest.mark.parametrize("metal", METALS)
def test_same_spectrum_gives_the_colour_that_colour_science_sees(metal, thickness_nm):
    """colour-science 0.4.7, sd_to_XYZ (CIE 1931 2 degree observer, D65): CIE Delta E 2000 below 0.5."""
    wavelength_m, reflectance = film_reflectance(thickness_nm * 1e-9, metal=metal)
    spectrum = colour.SpectralDistribution(dict(zip(np.round(wavelength_m * 1e9), reflectance, strict=True)))
    visible = colour.SpectralShape(380, 780, 5)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(visible)
    daylight = colour.SDS_ILLUMINANTS["D65"].copy().align(visible)
    theirs = colour.sd_to_XYZ(spectrum, observer, daylight, method="Integration") / 100.0
    on_screen = np.clip(colour.XYZ_to_sRGB(theirs), 0.0, 1.0)
    assert difference(xyz(film_colour_of(thickness_nm, metal)), colour.sRGB_to_XYZ(on_screen)) < 0.5


@pytest.mark.parametrize("row", film_table(), ids=lambda row: f"{row['thickness_nm']} nm")
@pytest.mark.parametrize("metal", ["stainless", "titanium"])
def test_colours_are_those_of_the_table_computed_elsewhere(metal, row):
    """tests/reference/film_colours.csv (status b): colour-science 0.4.7; CIE Delta E 2000 below 1, not to be seen."""
    assert difference(xyz(film_colour_of(float(row["thickness_nm"]), metal)), xyz(row[metal])) < 1.0


@pytest.mark.parametrize("wavelength_nm", [380, 455, 555, 780])
def test_observer_and_daylight_are_the_published_tables(wavelength_nm):
    """ISO/CIE 11664-1 and 11664-2, as colour-science 0.4.7 carries them."""
    row = next(row for row in table_rows("cie_1931_d65") if row["wavelength_nm"] == str(wavelength_nm))
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"][float(wavelength_nm)]
    assert [float(row[bar]) for bar in ("x_bar", "y_bar", "z_bar")] == pytest.approx(observer, rel=1e-6)
    assert float(row["d65"]) == pytest.approx(colour.SDS_ILLUMINANTS["D65"][float(wavelength_nm)])


@pytest.mark.parametrize(
    ("substance", "index"),
    [
        ("stainless", 2.044 + 3.673j),
        ("titanium", 2.542 + 3.435j),
        ("nickel", 1.921 + 3.616j),
        ("titania", 2.449),
    ],
)
def test_indices_at_550_nm_are_those_published(substance, index):
    """Karlsson and Ribbing 1982; Johnson and Christy 1974; Jolivet et al. 2023, at 550 nm."""
    assert complex(index_at(substance, 550.0)) == pytest.approx(index, abs=2e-3)


def test_bare_metal_reflects_as_fresnel_says():
    """Fresnel at normal incidence: R = ((n - 1)^2 + k^2) / ((n + 1)^2 + k^2), Born and Wolf section 14.2."""
    wavelength_m, reflectance = film_reflectance(0.0, metal="titanium")
    index = index_at("titanium", wavelength_m * 1e9)
    fresnel = ((index.real - 1) ** 2 + index.imag**2) / ((index.real + 1) ** 2 + index.imag**2)
    assert reflectance == pytest.approx(fresnel, rel=1e-12)


def test_first_minimum_in_the_green_comes_before_the_quarter_wave():
    """The phase shift at an absorbing metal is not pi: 38 to 40 nm, not 550 / (4 n) = 55 nm (status b)."""
    thickness_nm = np.arange(20.0, 80.0, 0.25)
    green = [film_reflectance(nm * 1e-9, metal="stainless")[1][34] for nm in thickness_nm]
    assert 37.0 <= thickness_nm[int(np.argmin(green))] <= 41.0


@pytest.mark.parametrize("metal", METALS)
def test_heat_tints_come_in_the_order_that_welders_know(metal):
    """Straw, brown, purple, blue: AWS D18.2 and heat tint charts rank them so; common practice."""
    hue = {
        nm: colorsys.rgb_to_hsv(*(c for c in film_linear_rgb(nm * 1e-9, metal=metal)))[0]
        for nm in range(10, 56)
    }
    straw, brown, purple, blue = 50 / 360, 25 / 360, 270 / 360, 215 / 360
    found = [
        min(hue, key=lambda nm, target=target: abs(hue[nm] - target))
        for target in (straw, brown, purple, blue)
    ]
    assert found == sorted(set(found))


@SHAPE
@given(st.floats(0.0, 1e-6), st.sampled_from(METALS))
def test_no_film_reflects_less_than_nothing_or_more_than_all(thickness_m, metal):
    _, reflectance = film_reflectance(thickness_m, metal=metal)
    assert ((reflectance >= 0.0) & (reflectance <= 1.0)).all()
    assert all(0.0 <= channel <= 1.0 for channel in film_linear_rgb(thickness_m, metal=metal))


@SHAPE
@given(st.tuples(*[st.integers(0, 255)] * 3))
def test_screen_colours_survive_linear_light(channels):
    written = "#" + "".join(f"{channel:02x}" for channel in channels)
    assert encoded_colour(linear_colour(written)) == written


@pytest.mark.parametrize("thickness_m", [-1e-12, 1.001e-6, math.nan, math.inf])
def test_thickness_outside_a_film_is_refused(thickness_m):
    with pytest.raises(OutOfRange, match="film thickness"):
        film_reflectance(thickness_m, metal="nickel")
    with pytest.raises(OutOfRange, match="film thickness"):
        film_linear_rgb(thickness_m, metal="nickel")


def test_metal_without_a_film_is_refused_naming_those_that_have_one():
    with pytest.raises(UnknownName, match="accepted: nickel, stainless, titanium"):
        film_linear_rgb(0.0, metal="gold")


def test_a_colour_takes_well_under_a_fifth_of_a_millisecond():
    film_linear_rgb(40e-9, metal="stainless")
    rounds = []
    for _ in range(20):
        start = time.perf_counter()
        for nm in range(50):
            film_colour_of(nm, "stainless")
        rounds.append((time.perf_counter() - start) / 50)
    assert min(rounds) < 0.2e-3
