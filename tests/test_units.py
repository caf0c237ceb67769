"""What people type becomes SI. Factors are held against pint (independent library, pint 0.25)."""

import math
from contextlib import suppress

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference_rows import reference_rows

from trainer import units
from trainer.domain.quantities import Dimension
from trainer.units.factors import FACTORS, READABLE, SHOWN, TEMPERATURES

_REGISTRY = pint.UnitRegistry()

# Spellings of the trade and of keyboards, as pint writes them.
_IN_PINT = {
    '"': "inch", "″": "inch", "''": "inch", "'": "foot", "′": "foot", "cf": "ft**3", "cu ft": "ft**3", "cfh": "ft**3/hour",
    "cfm": "ft**3/min", "lpm": "L/min", "ipm": "inch/min", "bar(g)": "bar", "barg": "bar", "psig": "psi",
    "psi(g)": "psi", "amp": "A", "amps": "A", "secs": "s", "sec": "s", "mins": "min", "hrs": "hour", "hr": "hour",
    "h": "hour", "d": "day", "°": "degree", "deg": "degree", "feet": "foot", "inches": "inch", "in": "inch",
    "in/min": "inch/min", "inH2O": "inH2O", "µm": "micrometer", "um": "micrometer", "yd": "yard", "hPa": "hectopascal",
    "kg/m3": "kg/m**3", "lb/ft3": "lb/ft**3",
}  # fmt: skip
_STANDARD = {"scfh", "scfm", "Nm^3/h", "Nm3/h"}
_SI = {
    "length": "m", "area": "m**2", "volume": "m**3", "volume flow": "m**3/s", "duration": "s", "pressure": "Pa",
    "current": "A", "voltage": "V", "speed": "m/s", "angle": "degree",
    "density": "kg/m**3",
}  # fmt: skip


def _as_pint_writes(spelling: str) -> str:
    words = _IN_PINT.get(spelling, spelling)
    for power in ("2", "3"):
        words = words.replace(f"^{power}", f"**{power}")
        for base in ("mm", "cm", "m", "in", "ft"):
            if words.startswith(f"{base}{power}"):
                words = words.replace(f"{base}{power}", f"{base}**{power}", 1)
    if words.startswith("sq "):
        words = f"{words[3:]}**2"
    return words.replace("in**", "inch**")


@pytest.mark.parametrize(
    ("dimension", "spelling"),
    [
        (dimension, spelling)
        for dimension, known in FACTORS.items()
        for spelling in known
        if dimension != "fraction" and spelling not in _STANDARD
    ],
)
def test_every_factor_is_the_one_that_pint_has(dimension, spelling):
    asked = _REGISTRY.parse_units(_as_pint_writes(spelling))
    expected = _REGISTRY.Quantity(1.0, asked).m_as(_SI[dimension])
    assert units.parse(f"1 {spelling}", dimension) == pytest.approx(expected, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "frac"), [("1 %", 1e-2), ("50 ppm", 50e-6), ("20.95%", 0.2095), ("5 ppb", 5e-9)]
)
def test_percent_and_ppm_become_fractions(text, frac):
    assert units.parse(text, Dimension.FRACTION) == pytest.approx(frac, rel=1e-15)


def test_standard_cubic_feet_are_at_70_degf_and_taken_to_20_degc():
    # Worked by hand: 35 ft3/h x 0.0283168 m3/ft3 / 60 x 293.15 K / 294.26 K = 16.456 L/min.
    # Statement of the condition: NCWM Uniform Regulation on the method of sale (70 degF, 1 atm).
    assert units.parse("35 scfh", Dimension.VOLUME_FLOW) * 60_000 == pytest.approx(16.456, abs=0.001)


def test_plain_cubic_feet_per_hour_are_a_plain_volume_flow():
    # Worked by hand: 35 x 28.3168 L / 60 min = 16.518 L/min.
    assert units.parse("35 cfh", Dimension.VOLUME_FLOW) * 60_000 == pytest.approx(16.518, abs=0.001)


@pytest.mark.parametrize(
    ("text", "kelvin"),
    [("20 degC", 293.15), ("68 degF", 293.15), ("-40 degF", 233.15), ("300 K", 300.0), ("20℃", 293.15)],
)
def test_temperatures_carry_their_offset(text, kelvin):
    assert units.parse(text, Dimension.TEMPERATURE) == pytest.approx(kelvin, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("4 min 30 s", "duration", 270.0),
        ("4min30s", "duration", 270.0),
        ("1 h 5 min", "duration", 3900.0),
        ("270 s", "duration", 270.0),
        ("2 ft 3 in", "length", 0.6858),
        ("2'3\"", "length", 0.6858),
        ("1/4 in", "length", 0.00635),
        ("1-1/2 in", "length", 0.0381),
        ("1 1/2 in", "length", 0.0381),
        ("1½ in", "length", 0.0381),
        (".25 in", "length", 0.00635),
        ("1e3 mm", "length", 1.0),
        ("1,5 L/min", "volume flow", 2.5e-5),
        ("0,125 in", "length", 0.003175),
        ("1234,567 mm", "length", 1.234567),
        ("1,500.5 mm", "length", 1.5005),
        ("1.500,5 mm", "length", 1.5005),
        ("1,000,000 mm", "length", 1000.0),
        ("１５ Ｌ/ｍｉｎ", "volume flow", 2.5e-4),
        ("١٥ L/min", "volume flow", 2.5e-4),
        ("15 l / min", "volume flow", 2.5e-4),
        ("15 cm²", "area", 15e-4),
        ("−5 mm", "length", -0.005),
        ("50PPM", "fraction", 50e-6),
        ("2 MPa", "pressure", 2e6),
    ],
)
def test_every_usual_way_of_writing_is_read(text, dimension, value):
    assert units.parse(text, dimension) == pytest.approx(value, rel=1e-12)


# A gallon is 3.785411784 L by definition (NIST SP 811), a torr 101325/760 Pa, a furlong 201.168 m.
@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("1 gallon/minute", "volume flow", 3.785411784e-3 / 60),
        ("760 torr", "pressure", 101325.0),
        ("1 furlong", "length", 201.168),
        ("1 m/min", "speed", 1 / 60),
    ],
)
def test_a_unit_beyond_the_table_is_asked_of_pint(text, dimension, value):
    assert units.parse(text, dimension) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize(
    ("text", "dimension", "says"),
    [
        ("15", "volume flow", "'15' has no unit. Write 15 L/min or 32 cfh."),
        ("", "volume", "Nothing was written."),
        ("   ", "volume", "Nothing was written."),
        ("1,500 L", "volume", "can be read in two ways"),
        ("15 kg", "volume flow", "the unit 'kg' is not accepted. Accepted: L/min, m^3/h, cfh, cfm"),
        ("15 m", "duration", "is in metres. Write min for minutes"),
        ("nan L", "volume", "does not start with a number"),
        ("inf L", "volume", "does not start with a number"),
        ("1e999 L", "volume", "too large"),
        ("1/0 in", "length", "cannot be read"),
        ("1.2.3 mm", "length", "cannot be read"),
        ("1.500.5 mm", "length", "cannot be read"),
        ("30 s 4 min", "duration", "does not add up"),
        ("4 min -30 s", "duration", "the unit 'min -30 s' is not accepted"),
        ("1 h 30", "duration", "has no unit"),
        ("5 degC", "length", "not accepted"),
        ("1 rad", "fraction", "not accepted"),
        ("5 mm", "temperature", "not accepted"),
        ("1 500 L", "volume", "not accepted"),
        ("5 __import__('os')", "length", "not accepted"),
        ("5 m**9", "length", "not accepted"),
        ("9" * 61 + " mm", "length", "more than 60 characters"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_to_write(text, dimension, says):
    with pytest.raises(units.UnitFault, match=says.replace("(", r"\(").replace("^", r"\^")):
        units.parse(text, dimension)


@pytest.mark.parametrize(
    ("one", "other", "dimension"),
    [
        ("100 ppm", "0.01 %", "fraction"),
        ("0.1 %", "1000 ppm", "fraction"),
        ("300 mm", "30 cm", "length"),
        ("6 min", "360 s", "duration"),
        ("0.9 m^3/h", "15 L/min", "volume flow"),
    ],
)
def test_one_quantity_in_two_metric_units_is_one_number(one, other, dimension):
    assert units.parse(one, dimension) == units.parse(other, dimension)


def test_a_thousandth_of_a_pascal_is_no_megapascal():
    assert units.parse("5 mPa", "pressure") == pytest.approx(0.005)


def test_a_fault_names_its_template_so_that_it_can_be_translated():
    with pytest.raises(units.UnitFault) as caught:
        units.parse("15", "volume flow")
    assert caught.value.template % caught.value.facts == str(caught.value)


def test_what_was_typed_is_shown_without_control_characters():
    with pytest.raises(units.UnitFault) as caught:
        units.parse("15\x1b[31m kg", "volume flow")
    assert str(caught.value).isprintable()


@pytest.mark.parametrize("dimension", list(Dimension))
def test_every_dimension_has_units_examples_and_a_readable_unit(dimension):
    for example in SHOWN[dimension][1:]:
        assert math.isfinite(units.parse(example, dimension))
    for unit in (*units.accepted_units(dimension).split(", "), *units.known_units(dimension)):
        assert math.isfinite(units.parse(f"1 {unit}", dimension))
    for _, unit in READABLE[dimension]:
        assert unit in (TEMPERATURES if dimension == "temperature" else FACTORS[dimension])


@given(
    st.floats(min_value=1e-9, max_value=1e9),
    st.sampled_from([each for each in Dimension if each is not Dimension.TEMPERATURE]),
)
def test_what_is_written_is_read_back(value, dimension):
    assert units.parse(units.written(value, dimension), dimension) == pytest.approx(value, rel=1e-13)


@given(st.floats(min_value=200.0, max_value=400.0), st.sampled_from(["degC", "degF", "K"]))
def test_temperatures_are_read_back_in_every_unit(value, unit):
    assert units.parse(units.written(value, "temperature", unit), "temperature") == pytest.approx(
        value, rel=1e-13
    )


@given(st.text(max_size=70), st.sampled_from(list(Dimension)))
def test_any_text_is_a_finite_number_or_a_fault(text, dimension):
    with suppress(units.UnitFault):
        assert math.isfinite(units.parse(text, dimension))


@given(
    st.text(alphabet="0123456789.,/ -+eEmLinftscfhpabr'\"%^*µ½²٣", max_size=20),
    st.sampled_from(list(Dimension)),
)
def test_any_near_miss_is_a_finite_number_or_a_fault(text, dimension):
    with suppress(units.UnitFault):
        assert math.isfinite(units.parse(text, dimension))


@pytest.mark.parametrize(
    ("row_id", "value"),
    [
        ("S-05", lambda: units.parse("35 cfh", Dimension.VOLUME_FLOW) * 60_000.0),
        ("S-07", lambda: units.parse("1 inH2O", Dimension.PRESSURE)),
        ("S-09", lambda: (units.parse("2640 psig", Dimension.PRESSURE) + 101_325.0) / 1e5),
    ],
)
def test_reference_rows_that_are_plain_changes_of_unit_hold(row_id, value):
    row = reference_rows("flow_checks")[row_id]
    assert row.holds(value()), row.source


@pytest.mark.parametrize(
    ("typed", "other", "dimension"),
    [
        ("300 mm", "11.811023622047244 in", Dimension.LENGTH),
        # 900 L/h over a cubic foot of 28.316846592 L
        ("15 L/min", "31.78320004933973 cfh", Dimension.VOLUME_FLOW),
        ("5 L/min", "0.3 m^3/h", Dimension.VOLUME_FLOW),
        ("100 ppm", "0.01 %", Dimension.FRACTION),
        ("60 mm/min", "1 mm/s", Dimension.SPEED),
        ("30 kg/m^3", "0.03 g/cm^3", Dimension.DENSITY),
        ("20 degC", "68 degF", Dimension.TEMPERATURE),
        ("90 deg", "1.5707963267948966 rad", Dimension.ANGLE),
    ],
)
def test_what_is_meant_is_one_float_whatever_the_unit(typed, other, dimension):
    meant, same = (units.as_meant(units.parse(each, dimension), dimension) for each in (typed, other))
    assert meant == same == units.parse(typed, dimension)


def test_what_differs_in_the_twelfth_digit_is_not_the_same():
    near, far = (units.as_meant(value, Dimension.LENGTH) for value in (0.3, 0.300000000001))
    assert near < far
