"""Numbers typed by readers of English and of Spanish: what is read, what is refused, what is shown again.

Which sign stands before decimals in a language is what Unicode's CLDR says, as Babel carries it.
"""

import pytest
from babel.numbers import get_decimal_symbol
from flask_babel import force_locale
from werkzeug.datastructures import MultiDict

from trainer.domain.people import Language
from trainer.domain.quantities import Dimension
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import QuantityField
from trainer.web.forms.numbers import CountField, NumberField
from trainer.web.forms.typed import as_typed, kept

pytestmark = pytest.mark.usefixtures("form_context")

LANGUAGES = [each.value for each in Language]


class _Form(PageForm):
    class Meta(PageForm.Meta):
        csrf = False

    share = NumberField("Share", low=0, high=5000, example="0.8", required=False)
    length = QuantityField("Length", Dimension.LENGTH, limits=(0.0, 100.0, "up to 100 m"), required=False)
    count = CountField("Count", low=1, high=10_000, example="3", required=False)


def _sent(**typed: str) -> _Form:
    form = _Form(MultiDict({**typed, "length-unit": "m"}))
    form.validate()
    return form


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("0.5", 0.5),
        ("0,5", 0.5),
        ("12,25", 12.25),
        ("12.25", 12.25),
        ("0,125", 0.125),  # no group of thousands begins with a nought
        ("0.125", 0.125),
        ("1500", 1500.0),
        ("1.234,5", 1234.5),  # two signs say which is which
        ("1,234.5", 1234.5),
        ("１,５", 1.5),
    ],
)
def test_both_signs_are_read_in_both_languages(language, typed, value):
    with force_locale(language):
        form = _sent(share=typed, length=typed if value < 100 else f"{typed} mm")
    assert not form.errors
    assert form.share.data == pytest.approx(value, rel=1e-12)
    assert form.length.data == pytest.approx(value if value < 100 else value / 1000, rel=1e-12)


@pytest.mark.parametrize("language", LANGUAGES)
def test_three_digits_behind_the_sign_of_ones_own_language_are_decimals(language):
    typed = f"1{get_decimal_symbol(language)}125"
    with force_locale(language):
        form = _sent(share=typed, length=typed)
    assert not form.errors
    assert form.share.data == form.length.data == 1.125


@pytest.mark.parametrize("language", LANGUAGES)
def test_three_digits_behind_the_other_sign_are_refused_and_kept(language):
    own = get_decimal_symbol(language)
    typed = f"1{'.' if own == ',' else ','}500"
    with force_locale(language):
        form = _sent(share=typed, length=f"{typed} mm", count=typed)
        for field in (form.share, form.length, form.count):
            (said,) = field.errors
            assert typed in said
            assert f"1{own}500" in said  # what to write for one and a half
            assert " 1500" in said  # and for the other
        assert f'value="{typed}"' in form.share()
        assert f'value="{typed} mm"' in form.length()


@pytest.mark.parametrize("typed", ["1,5,5", "1.2.3", "0.5.", "half", "1_000", "1e999", "--1"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_what_is_no_number_is_refused(language, typed):
    with force_locale(language):
        form = _sent(share=typed)
    assert form.share.errors
    assert form.share.data is None


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_a_form_is_opened_with_is_read_back_as_the_same(language):
    with force_locale(language):
        for number in ("1.125", "0.5", "12.5 mm", "1 3/8 in", "5 ft 6.5 in", "1500"):
            assert kept(as_typed(number)) == number
        opened = _Form(data={"share": 1.125}).share._value()
        assert opened == f"1{get_decimal_symbol(language)}125"
        assert _sent(share=opened).share.data == 1.125
