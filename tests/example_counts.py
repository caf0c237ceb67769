"""How many examples a property is tried on: as many as it names, or as many as the environment asks for."""

import os

from hypothesis import HealthCheck, Phase, settings

MUTATION_PROFILE = "mutation"
EXAMPLES = "BRIGHTROOT_EXAMPLES"  # a whole number; for a long run by hand
# A long run looks for no smaller example: the next ordinary one tries what was found again, and makes it small.
_WITHOUT_SHRINKING = (Phase.explicit, Phase.reuse, Phase.generate)


def tried(example_count):
    """So many examples however long each takes; in a mutation run the few of its profile."""
    if settings.get_current_profile_name() == MUTATION_PROFILE:
        return settings()
    return settings(
        max_examples=int(os.environ.get(EXAMPLES, example_count)),
        phases=_WITHOUT_SHRINKING if EXAMPLES in os.environ else tuple(Phase),
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow],  # how long drawing takes is the machine's affair
    )
