"""How many examples a property is tried on: as many as it names, or as many as the environment asks for."""

import os

from hypothesis import HealthCheck, settings

MUTATION_PROFILE = "mutation"
EXAMPLES = "BRIGHTROOT_EXAMPLES"  # a whole number; for a long run by hand


def tried(example_count):
    """So many examples however long each takes; in a mutation run the few of its profile."""
    if settings.get_current_profile_name() == MUTATION_PROFILE:
        return settings()
    return settings(
        max_examples=int(os.environ.get(EXAMPLES, example_count)),
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow],  # how long drawing takes is the machine's affair
    )
