"""How hard the shape of a formula is tried: settings and strategies that several core tests share."""

from example_counts import tried
from hypothesis import settings
from hypothesis import strategies as st

L_MIN = 1.0 / 60000.0
SHAPE = settings(tried(300), derandomize=True)


def flows_l_min(low=0.1, high=100.0):
    return st.floats(low, high).map(lambda flow: flow * L_MIN)


def fractions(low=0.0, high=1.0):
    return st.floats(low, high)
