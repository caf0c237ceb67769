"""A quick way through the core's properties: `--hypothesis-profile=mutation`, for mutation runs alone."""

from hypothesis import Phase, settings

# Few examples, always the same ones, and no search for a smaller one: a mutant is killed by the first that fails.
settings.register_profile(
    "mutation",
    max_examples=20,
    derandomize=True,
    deadline=None,
    database=None,
    phases=[Phase.explicit, Phase.generate],
)
