"""Purges drawn by Hypothesis over the whole tested range, every draw a valid one."""

from hypothesis import strategies as st
from purge_cases import L_MIN

from trainer.core.dilution import InletEnd

TUBE_BORE_M = 0.00635
targets = st.floats(-4.0, -2.0).map(lambda exponent: 10.0**exponent)
# By how much one set-up exceeds the other, from hardly to as far as the range goes.
shares = st.sampled_from([0.001, 0.01, 0.1, 0.5, 1.0])
level_slope = st.just(0.0)
# Level and upright, the hair's breadth beside them, and all between.
every_slope = (
    st.sampled_from([0.0, 90.0, -90.0, 0.01, -0.01, 89.99, -89.99])
    | st.floats(-12.0, 12.0).map(lambda slope_deg: round(slope_deg, 3))
    | st.floats(-90.0, 90.0).map(lambda slope_deg: round(slope_deg, 3))
)


@st.composite
def set_ups(draw, *, slopes=every_slope, ends=tuple(InletEnd), symbols=("I1", "I2", "N1")):
    """Keyword arguments of `base_case`: bores 54 to 305 mm, L/D to 19, 2 to 40 L/min, any slope."""
    bore_m = draw(st.floats(0.054, 0.305))
    vent_m = draw(st.floats(0.003, 0.02))
    return {
        "bore_m": bore_m,
        "length_m": bore_m * draw(st.floats(1.0, 19.0)),
        "slope_deg": draw(slopes),
        "symbol": draw(st.sampled_from(symbols)),
        "end": draw(st.sampled_from(ends)),
        "flow_m3_s": draw(st.floats(2.0, 40.0)) * L_MIN,
        "vent_diameter_m": vent_m,
        "vent_height_frac": draw(st.floats(vent_m / 2.0 / bore_m, 1.0 - vent_m / 2.0 / bore_m)),
        "inlet_height_frac": draw(st.floats(TUBE_BORE_M / 2.0 / bore_m, 1.0 - TUBE_BORE_M / 2.0 / bore_m)),
    }


def between(low: float, high: float, share: float) -> float:
    """The point a share of the way from low to high, never outside for rounding."""
    return min(high, low + share * (high - low))


# Gas falling in at the top of a steep pipe: a plume that thinned out twice with the length purged a longer one sooner.
PLUME_IN_A_STEEP_PIPE = {
    "bore_m": 0.3,
    "length_m": 0.6,
    "slope_deg": 80.0,
    "symbol": "I1",
    "end": InletEnd.DIFFUSER,
    "flow_m3_s": 11.0 * L_MIN,
    "vent_diameter_m": 0.01,
    "vent_height_frac": 1.0 - 0.01 / 0.6,
    "inlet_height_frac": 0.98,
}

# A vent of 3 mm across the face between two layers, which a hair of tilt carries past it.
SMALL_VENT_AT_A_FACE = {
    "bore_m": 0.25,
    "length_m": 3.0,
    "slope_deg": 0.0,
    "symbol": "I1",
    "end": InletEnd.DIFFUSER,
    "flow_m3_s": 29.0 * L_MIN,
    "vent_diameter_m": 0.003,
    "vent_height_frac": 0.49609,
    "inlet_height_frac": 0.5,
}
