"""A quick way through the core's properties: `--hypothesis-profile=mutation`, for mutation runs alone."""

import importlib
import pkgutil
from functools import cache

import pytest
from hypothesis import Phase, settings

import trainer.core

# Few examples, always the same ones, and no search for a smaller one: a mutant is killed by the first that fails.
settings.register_profile(
    "mutation",
    max_examples=20,
    derandomize=True,
    deadline=None,
    database=None,
    phases=[Phase.explicit, Phase.generate],
)


@cache
def _caches():
    modules = [
        importlib.import_module(m.name) for m in pkgutil.walk_packages(trainer.core.__path__, "trainer.core.")
    ]
    return {thing for module in modules for thing in vars(module).values() if hasattr(thing, "cache_clear")}


@pytest.fixture(autouse=True)
def _nothing_remembered():
    """In a mutation run nothing computed before the change is remembered: each test computes it anew."""
    if settings.get_current_profile_name() == "mutation":
        for cached in _caches():
            cached.cache_clear()
