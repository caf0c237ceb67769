"""Numbers as a language writes them. Expected signs are those of Unicode's CLDR, as Babel 2.18 carries them."""

import pytest
from babel.numbers import format_decimal

from trainer.catalogues import interface_translations
from trainer.domain.people import Language
from trainer.domain.purge_run import Caution
from trainer.domain.quantities import Dimension
from trainer.domain.set_up_faults import SetUpFault
from trainer.wording.both_systems import in_system
from trainer.wording.cautions import caution_words
from trainer.wording.faults import fault_words
from trainer.wording.numerals import localised_amounts, number_words
from trainer.wording.quantities import UnitSystem, oxygen_words, plain_number, quantity_words
from trainer.wording.sentences import in_units_of

LANGUAGES = [each.value for each in Language]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("value", [0.5, -1.25, 12.0, 0.003, 4321.5])
def test_a_number_has_the_signs_that_cldr_gives_its_language(value, language):
    by_cldr = format_decimal(value, format="0.###", locale=language)  # without groups, as everywhere here
    assert plain_number(value, figures=6, language=language) == by_cldr
    assert number_words(value, ".6g", language=language) == by_cldr


def test_a_quantity_keeps_its_unit_and_changes_only_its_decimal_sign():
    said = {each: quantity_words(0.0125, Dimension.LENGTH, language=each) for each in LANGUAGES}
    assert said == {"en": "12.5 mm", "es": "12,5 mm"}
    assert quantity_words(1.5, Dimension.DURATION, language="es") == "1,5 s"
    assert oxygen_words(0.0015, language="es") == "0,15\u00a0%"
    assert oxygen_words(2.5e-6, language="es") == "2,5\u00a0ppm"


def test_inches_stay_as_a_rule_is_marked():
    for language in LANGUAGES:
        assert (
            quantity_words(0.034925, Dimension.LENGTH, system=UnitSystem.US, language=language) == "1 3/8 in"
        )


def test_amounts_of_a_sentence_are_converted_in_its_own_writing():
    # 1 ft is 0.3048 m, exactly (international yard and pound agreement of 1959)
    assert in_units_of("a 1,5 m de la junta", system=UnitSystem.US, language="es") == "a 4,92 ft de la junta"
    assert in_system("1,5 m = 1500 mm", system=UnitSystem.US, language="es") == "4,92 ft = 4,92 ft"


def test_a_caution_writes_its_figures_in_its_language():
    caution = Caution(
        code="beyond-tested-range", facts=(("target_frac", 2.5e-6), ("limit_target_frac", 1e-5))
    )
    assert "2,5 ppm" in caution_words(caution, str, language="es").because


@pytest.mark.parametrize(
    ("with_point", "with_comma"),
    [
        ("un hueco de 2.5 mm", "un hueco de 2,5 mm"),
        ("1.4", "1,4"),
        ("de 0.5 a 1.25 % de oxígeno", "de 0,5 a 1,25 % de oxígeno"),
        ("29 CFR 1910.252(b)(2), AWS D18.2", "29 CFR 1910.252(b)(2), AWS D18.2"),
    ],
)
def test_amounts_of_a_text_take_a_comma_and_clauses_keep_their_point(with_point, with_comma):
    assert localised_amounts(with_point, language="es") == with_comma
    assert localised_amounts(with_point, language="en") == with_point


def test_a_fault_writes_its_figures_and_ends_in_its_language():
    facts = {"quantity": "q", "number": 0.25, "unit": "m", "low": 0.5, "high": 2.5, "why": "w"}
    fault = SetUpFault(path="", code="out-of-formula", facts=facts)
    assert fault_words(fault, str) == "q is 0.25 m; calculated from 0.5 up to 2.5 m: w"
    spanish = fault_words(fault, interface_translations("es").gettext, language="es")
    assert "0,25 m" in spanish
    assert "desde 0,5 hasta 2,5 m" in spanish
