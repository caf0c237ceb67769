"""Each public function of trainer.core carries its papers.

The format, for module-level functions (all parts required unless marked):

    One sentence that says what the function returns.

    equation(s), free text                                  (optional)

    Args:                                                   (when it takes arguments)
        name [unit]: what it is
    Returns:
        [unit] what it is                                   (name: [unit] ... for several, one a line)
    Raises:                                                 (optional)
        NamedError: when
    Valid: range in which it holds                          (optional)

    Example:                                                (heading optional, the doctest is not)
        >>> call(...)
        result

    Reference: document, edition, section, or "own definition"     ("Source:" will do)

`unit` is anything that pint reads (m3/s is read as m^3/s), or one of [-] dimensionless, [text] strings and enumerations, [bool],
[record] dataclasses and mappings, [none] nothing. An array carries the unit of its members.

Public methods and properties of public classes need one sentence, Args and Returns with units; their
example and reference are those of the functions that they stand on. Enumerations, exceptions and dataclasses
need a sentence. Every example is run by test_docstring_examples.py.
"""

import enum
import importlib
import inspect
import pkgutil
import re

import pint
import pytest

import trainer.core

WORDS = {"-", "text", "bool", "record", "none"}
HEADINGS = ("Args:", "Returns:", "Raises:", "Valid:", "Example:", "Reference:", "Source:")
REGISTRY = pint.UnitRegistry()
MODULES = sorted(m.name for m in pkgutil.walk_packages(trainer.core.__path__, "trainer.core."))


def _unwrapped(thing):
    if isinstance(thing, property):
        return thing.fget
    if isinstance(thing, staticmethod | classmethod):
        return thing.__func__
    return inspect.unwrap(getattr(thing, "func", thing))


def _own_public(module, kind):
    for name, thing in vars(module).items():
        if name.startswith("_"):
            continue
        target = inspect.unwrap(thing) if callable(thing) else thing
        if kind(target) and target.__module__ == module.__name__:
            yield name, target


def _functions():
    for module_name in MODULES:
        module = importlib.import_module(module_name)
        for name, function in _own_public(module, inspect.isfunction):
            yield pytest.param(function, id=f"{module_name.removeprefix('trainer.core.')}.{name}")


def _classes():
    for module_name in MODULES:
        module = importlib.import_module(module_name)
        for name, cls in _own_public(module, inspect.isclass):
            yield pytest.param(cls, id=f"{module_name.removeprefix('trainer.core.')}.{name}")


def _methods():
    for parameter in _classes():
        cls = parameter.values[0]
        if issubclass(cls, enum.Enum):
            continue
        for name, thing in vars(cls).items():
            method = _unwrapped(thing)
            if not name.startswith("_") and inspect.isfunction(method):
                yield pytest.param(method, id=f"{parameter.id}.{name}")


def _sections(docstring):
    """Text by heading; what stands before the first heading is under ''."""
    sections, current = {"": []}, ""
    for line in docstring.splitlines():
        heading = next((h for h in HEADINGS if line.startswith(h)), None)
        if heading:
            current = heading
            sections[current] = [line.removeprefix(heading)]
        else:
            sections[current].append(line)
    return {heading: "\n".join(lines) for heading, lines in sections.items()}


def _is_unit(text):
    if text in WORDS or not text.strip():
        return text in WORDS
    try:
        REGISTRY.parse_units(re.sub(r"([A-Za-z])(-?\d)", r"\1^\2", text))
    except (pint.errors.PintError, ValueError, TypeError, AttributeError):
        return False
    return True


def _arguments(function):
    return [name for name in inspect.signature(function).parameters if name not in ("self", "cls")]


def _check_units(function):
    sections = _sections(inspect.cleandoc(function.__doc__ or ""))
    assert sections[""].strip(), "no sentence"
    documented = dict(re.findall(r"^\s+\*?(\w+) \[([^\]]+)\]: \S", sections.get("Args:", ""), re.MULTILINE))
    assert set(documented) == set(_arguments(function)), "Args must name each argument with a [unit]"
    returned = re.findall(r"^\s+(?:\w+: )?\[([^\]]+)\] \S", sections.get("Returns:", ""), re.MULTILINE)
    assert returned, "Returns must begin with a [unit]"
    unknown = [unit for unit in [*documented.values(), *returned] if not _is_unit(unit)]
    assert not unknown, f"not units: {unknown}"
    return sections


@pytest.mark.parametrize("function", list(_functions()))
def test_each_public_function_states_units_example_and_reference(function):
    sections = _check_units(function)
    assert ">>> " in function.__doc__, "no doctest example"
    assert sections.get("Reference:", sections.get("Source:", "")).strip(), "no reference"


@pytest.mark.parametrize("method", list(_methods()))
def test_each_public_method_states_its_units(method):
    _check_units(method)


@pytest.mark.parametrize("cls", list(_classes()))
def test_each_public_class_says_what_it_is(cls):
    assert (cls.__doc__ or "").strip()
    assert not cls.__doc__.startswith(f"{cls.__name__}("), "the docstring that dataclass makes says nothing"


def test_a_made_up_unit_is_refused():
    assert not _is_unit("furlongs per cake")
    assert not _is_unit("")
    assert _is_unit("m3/s")


def test_an_undocumented_argument_is_found():
    def volume(bore_m):
        """Volume.

        Returns:
            [m3] volume
        """

    with pytest.raises(AssertionError, match="each argument"):
        _check_units(volume)
