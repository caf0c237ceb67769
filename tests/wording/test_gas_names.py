"""Gases by name in the reader's language; the names that go in are those of the core."""

import pytest

from trainer.catalogues import interface_translations
from trainer.wording.gas_names import gas_words

SPANISH = interface_translations("es").gettext


@pytest.mark.parametrize(
    ("name", "spanish"),
    [
        ("argon", "argón"),
        ("argon with 30 % helium", "argón con 30 % de helio"),
        ("nitrogen with 2.5 % hydrogen", "nitrógeno con 2,5 % de hidrógeno"),
        ("argon with 2 % nitrogen and 1 % hydrogen", "argón con 2 % de nitrógeno y 1 % de hidrógeno"),
    ],
)
def test_a_mixture_is_said_part_by_part(name, spanish):
    assert gas_words(name, SPANISH, language="es") == spanish
    assert gas_words(name, str) == name
