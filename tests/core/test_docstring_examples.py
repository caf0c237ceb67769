"""Every example in the docstrings of trainer.core gives what it shows, one test for each function and class."""

import doctest
import importlib
import inspect
import pkgutil

import pytest

import trainer.core

MODULES = sorted(m.name for m in pkgutil.walk_packages(trainer.core.__path__, "trainer.core."))


def _documented():
    for module_name in MODULES:
        module = importlib.import_module(module_name)
        for name, thing in vars(module).items():
            # x_: the copies of a function that a mutation run puts beside it
            if name.startswith(("_", "x_")) or not callable(thing):
                continue
            if inspect.unwrap(thing).__module__ == module_name:
                yield pytest.param(module, thing, id=f"{module_name.removeprefix('trainer.core.')}.{name}")


def _examples(module, thing):
    # `module=False`: a function is looked at though something may be wrapped around it
    return doctest.DocTestFinder().find(thing, thing.__name__, module=False, globs=vars(module).copy())


@pytest.mark.parametrize(("module", "thing"), list(_documented()))
def test_an_example_gives_what_it_shows(module, thing):
    results = [doctest.DocTestRunner().run(examples) for examples in _examples(module, thing)]
    assert not any(result.failed for result in results)
    written = (inspect.unwrap(thing).__doc__ or "").count(">>> ")
    assert sum(result.attempted for result in results) >= written, "the finder overlooked an example"
