"""How hard the shape of a formula is tried: settings and strategies that several core tests share."""

from hypothesis import settings
from hypothesis import strategies as st

L_MIN = 1.0 / 60000.0
MUTATION_PROFILE = "mutation"


def tried(example_count):
    """So many examples however long each takes; in a mutation run the few of its profile."""
    if settings.get_current_profile_name() == MUTATION_PROFILE:
        return settings()
    return settings(max_examples=example_count, deadline=None)


SHAPE = settings(tried(300), derandomize=True)


def flows_l_min(low=0.1, high=100.0):
    return st.floats(low, high).map(lambda flow: flow * L_MIN)


def fractions(low=0.0, high=1.0):
    return st.floats(low, high)
