"""The units that people type, with their factors to SI; the tests hold every factor against pint."""

import math

_INCH = 0.0254
_FOOT = 0.3048
_CUBIC_FOOT = _FOOT**3
_POUND = 0.45359237
_PSI = 6894.757293168361
_INCH_OF_WATER = 249.08890999999997  # at 4 degC, as pint has it

# The US gas trade states standard cubic feet at 70 degF and 1 atm (NCWM Uniform Regulation on cylinder
# gases), a normal cubic metre is at 0 degC and 1 atm; flows inside are at pipe temperature and 1 atm, here
# taken as 20 degC. Plain cfh and cfm are flows as they are and take part in no such conversion.
_FROM_70_F = 293.15 / ((70 + 459.67) * 5 / 9)
_FROM_0_C = 293.15 / 273.15

# Spelling → factor to SI, by dimension; the first of each is what messages show first.
FACTORS: dict[str, dict[str, float]] = {
    "length": {
        "mm": 1e-3, "cm": 1e-2, "m": 1.0, "km": 1e3, "um": 1e-6, "µm": 1e-6, "in": _INCH, "ft": _FOOT,
        '"': _INCH, "″": _INCH, "''": _INCH, "'": _FOOT, "′": _FOOT, "inch": _INCH, "inches": _INCH,
        "foot": _FOOT, "feet": _FOOT, "yd": 0.9144,
    },
    "area": {
        "mm^2": 1e-6, "cm^2": 1e-4, "m^2": 1.0, "in^2": _INCH**2, "ft^2": _FOOT**2,
        "mm2": 1e-6, "cm2": 1e-4, "m2": 1.0, "in2": _INCH**2, "ft2": _FOOT**2,
        "sq in": _INCH**2, "sq ft": _FOOT**2, "sq mm": 1e-6, "sq cm": 1e-4, "sq m": 1.0,
    },
    "volume": {
        "L": 1e-3, "mL": 1e-6, "m^3": 1.0, "cm^3": 1e-6, "ft^3": _CUBIC_FOOT, "in^3": _INCH**3,
        "m3": 1.0, "cm3": 1e-6, "ft3": _CUBIC_FOOT, "in3": _INCH**3, "cu ft": _CUBIC_FOOT, "cf": _CUBIC_FOOT,
        "litre": 1e-3, "litres": 1e-3, "liter": 1e-3, "liters": 1e-3,
    },
    "volume flow": {
        "L/min": 1e-3 / 60, "cfh": _CUBIC_FOOT / 3600, "m^3/h": 1 / 3600, "L/s": 1e-3,
        "cfm": _CUBIC_FOOT / 60,
        "m^3/s": 1.0, "scfh": _CUBIC_FOOT / 3600 * _FROM_70_F, "scfm": _CUBIC_FOOT / 60 * _FROM_70_F,
        "Nm^3/h": _FROM_0_C / 3600, "Nm3/h": _FROM_0_C / 3600, "mL/min": 1e-6 / 60, "lpm": 1e-3 / 60,
        "L/h": 1e-3 / 3600,
        "m3/h": 1 / 3600, "m3/s": 1.0, "m^3/min": 1 / 60, "m3/min": 1 / 60, "ft^3/h": _CUBIC_FOOT / 3600,
        "ft3/h": _CUBIC_FOOT / 3600, "ft^3/min": _CUBIC_FOOT / 60, "ft3/min": _CUBIC_FOOT / 60,
        "ft^3/hr": _CUBIC_FOOT / 3600,
    },
    "duration": {
        "min": 60.0, "s": 1.0, "h": 3600.0, "d": 86400.0, "sec": 1.0, "secs": 1.0, "second": 1.0,
        "seconds": 1.0,
        "mins": 60.0, "minute": 60.0, "minutes": 60.0, "hr": 3600.0, "hrs": 3600.0, "hour": 3600.0,
        "hours": 3600.0,
        "day": 86400.0, "days": 86400.0, "ms": 1e-3,
    },
    "pressure": {
        "bar": 1e5, "psi": _PSI, "Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "mbar": 100.0, "inH2O": _INCH_OF_WATER,
        "bar(g)": 1e5, "barg": 1e5, "psig": _PSI, "psi(g)": _PSI, "hPa": 100.0,
    },
    "fraction": {"%": 1e-2, "ppm": 1e-6, "percent": 1e-2, "ppb": 1e-9, "vol%": 1e-2, "vpm": 1e-6},
    "angle": {"deg": 1.0, "°": 1.0, "degree": 1.0, "degrees": 1.0, "rad": 180.0 / math.pi},
    "current": {"A": 1.0, "mA": 1e-3, "kA": 1e3, "amp": 1.0, "amps": 1.0},
    "voltage": {"V": 1.0, "mV": 1e-3, "kV": 1e3, "volt": 1.0, "volts": 1.0},
    "speed": {
        "mm/min": 1e-3 / 60, "mm/s": 1e-3, "m/s": 1.0, "cm/min": 1e-2 / 60, "in/min": _INCH / 60,
        "ipm": _INCH / 60,
        "m/min": 1 / 60, "ft/min": _FOOT / 60, "cm/s": 1e-2, "mph": 5280 * _FOOT / 3600,
    },
    "density": {
        "kg/m^3": 1.0, "lb/ft^3": _POUND / _CUBIC_FOOT, "g/cm^3": 1e3, "g/L": 1.0, "kg/m3": 1.0,
        "lb/ft3": _POUND / _CUBIC_FOOT,
    },
}  # fmt: skip


def scaled(number: float, factor: float) -> float:
    """A number times a factor; by division where that is exact, so that 100 ppm and 0.01 % are one number."""
    inverse = round(1.0 / factor) if factor < 1.0 else 0
    return number / inverse if inverse and 1.0 / inverse == factor else number * factor


# Spelling → (factor, offset): kelvin = typed * factor + offset.
TEMPERATURES: dict[str, tuple[float, float]] = {
    "degC": (1.0, 273.15), "degF": (5 / 9, 459.67 * 5 / 9), "K": (1.0, 0.0), "°C": (1.0, 273.15),
    "°F": (5 / 9, 459.67 * 5 / 9), "C": (1.0, 273.15), "F": (5 / 9, 459.67 * 5 / 9), "kelvin": (1.0, 0.0),
}  # fmt: skip

SHOWN: dict[str, tuple[str, str, str]] = {  # units named in messages, and an example in each system
    "length": ("mm, cm, m, in, ft", "300 mm", "1 ft"),
    "area": ("mm^2, cm^2, m^2, in^2, ft^2", "15 cm^2", "2.3 in^2"),
    "volume": ("L, m^3, ft^3", "50 L", "1.8 ft^3"),
    "volume flow": ("L/min, m^3/h, cfh, cfm", "15 L/min", "32 cfh"),
    "duration": ("s, min, h, d", "6 min", "4 min 30 s"),
    "pressure": ("bar, kPa, MPa, Pa, psi, inH2O", "2 bar", "29 psi"),
    "temperature": ("degC, degF, K", "20 degC", "68 degF"),
    "fraction": ("%, ppm", "0.1 %", "50 ppm"),
    "angle": ("deg", "0 deg", "90 deg"),
    "current": ("A", "80 A", "110 A"),
    "voltage": ("V", "11 V", "12 V"),
    "speed": ("mm/min, mm/s, in/min", "60 mm/min", "2.4 in/min"),
    "density": ("kg/m^3, lb/ft^3", "30 kg/m^3", "1.8 lb/ft^3"),
}

# Metric units by size: the last whose lower end the value reaches.
READABLE: dict[str, tuple[tuple[float, str], ...]] = {
    "length": ((0.0, "mm"), (5.0, "m")),
    "area": ((0.0, "mm^2"), (1e-4, "cm^2"), (0.1, "m^2")),
    "volume": ((0.0, "L"), (1.0, "m^3")),
    "volume flow": ((0.0, "L/min"), (0.03, "m^3/h")),
    "duration": ((0.0, "s"), (120.0, "min"), (7200.0, "h")),
    "pressure": ((0.0, "Pa"), (1e3, "kPa"), (5e4, "bar")),
    "temperature": ((0.0, "degC"),),
    "fraction": ((0.0, "ppm"), (1e-3, "%")),
    "angle": ((0.0, "deg"),),
    "current": ((0.0, "A"),),
    "voltage": ((0.0, "V"),),
    "speed": ((0.0, "mm/min"), (0.1, "m/s")),
    "density": ((0.0, "kg/m^3"),),
}
