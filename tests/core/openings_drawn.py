"""Openings drawn by Hypothesis, and their exchange of air and gas by an independent integration."""

import math

from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from trainer.core.gas import gas
from trainer.core.joint_gap import JointGap

ARGON, HELIUM, NITROGEN = gas("I1"), gas("I2"), gas("N1")
GASES = st.sampled_from([ARGON, HELIUM, NITROGEN])
DIAMETERS = st.floats(0.002, 0.1)
COUNTS = st.integers(1, 6)
SLOPES = st.floats(-90.0, 90.0) | st.sampled_from([-90.0, 0.0, 90.0])
GAPS = st.builds(
    JointGap,
    bore_m=st.floats(0.02, 0.6),
    gap_m=st.floats(0.0005, 0.006),
    taped_frac=st.floats(0.0, 0.99),
    slope_deg=SLOPES,
)


def integrated_inflow(width, top, flow, which):
    """Neutral level and inflow by scipy's quad and brentq, strip by strip: an independent route."""
    air, inside = 0.0289647, which.molar_mass_kg_mol
    out_g, in_g = (9.80665 * abs(inside - air) / rho for rho in (inside, air))

    def through(gravity, low, high, neutral):
        def strip(z):
            return width(z) * math.sqrt(2 * gravity * abs(z - neutral))

        return 0.61 * quad(strip, low, high, limit=200)[0] if high > low else 0.0

    def net(neutral):
        return through(out_g, 0.0, neutral, neutral) - through(in_g, neutral, top, neutral) - flow

    neutral = brentq(net, 0.0, top, xtol=1e-12)
    return through(in_g, neutral, top, neutral)
