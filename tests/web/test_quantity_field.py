"""A quantity as people type it into a page: unit beside it or in it, and every way of getting it wrong."""

import pytest
from bs4 import BeautifulSoup
from werkzeug.datastructures import MultiDict

from trainer.domain.quantities import Dimension
from trainer.web.forms.base import PageForm
from trainer.web.forms.fields import QuantityField, is_bare_number, with_chosen_unit

pytestmark = pytest.mark.usefixtures("form_context")


class _FlowForm(PageForm):
    class Meta(PageForm.Meta):
        csrf = False

    flow = QuantityField("Flow", Dimension.VOLUME_FLOW, limits=(1e-6, 0.01, "up to 600 L/min"))


def _sent(typed: str, unit: str = "L/min") -> _FlowForm:
    form = _FlowForm(MultiDict({"flow": typed, "flow-unit": unit}))
    form.validate()
    return form


@pytest.mark.parametrize(
    ("typed", "unit", "l_min"),
    [
        ("15", "L/min", 15.0),
        ("15 L/min", "cfh", 15.0),
        ("1,5", "L/min", 1.5),
        ("１５", "L/min", 15.0),
        ("32 cfh", "L/min", 32 * 0.3048**3 / 60 * 1000),  # 1 ft = 0.3048 m exactly
        (" 15 ", "L/min", 15.0),
        ("1.5e1", "L/min", 15.0),
    ],
)
def test_a_number_with_its_unit_becomes_si(typed, unit, l_min):
    form = _sent(typed, unit)

    assert not form.flow.errors
    assert form.flow.data == pytest.approx(l_min / 60_000, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("15 kg", "kg"),
        ("15 mm", "mm"),
        ("-15", "outside"),
        ("1e999", "too large"),
        ("1e12", "outside"),
        ("nan", "does not start with a number"),
        ("inf", "does not start with a number"),
        ("1,500", "two ways"),
        ("fifteen", "does not start with a number"),
        ("", "Write a number with its unit"),
        ("   ", "Write a number with its unit"),
        ("9" * 400, "more than"),
        ("1 L/min; DROP TABLE", "not accepted"),
    ],
)
def test_what_cannot_be_read_is_named_and_kept(typed, said):
    form = _sent(typed)

    assert form.flow.data is None
    assert said in " ".join(form.flow.errors)
    assert form.flow.typed == typed


def test_the_box_shows_again_what_was_typed_and_escapes_it():
    shown = str(_sent('"><script>', "cfh").flow())

    assert "<script>" not in shown
    assert "&#34;&gt;&lt;script&gt;" in shown
    assert '<option value="cfh" selected>cfh</option>' in shown


@pytest.mark.parametrize(
    ("dimension", "unit", "sign"),
    [
        # signs of the SI brochure, 9th edition (2019), and of the conventional inch-pound units
        (Dimension.AREA, "cm^2", "cm²"),
        (Dimension.AREA, "in^2", "in²"),
        (Dimension.VOLUME, "m^3", "m³"),
        (Dimension.TEMPERATURE, "degC", "°C"),
        (Dimension.TEMPERATURE, "degF", "°F"),
        (Dimension.ANGLE, "deg", "°"),
        (Dimension.VOLUME_FLOW, "L/min", "L/min"),
    ],
)
def test_units_are_offered_as_people_write_them_and_sent_by_name(dimension, unit, sign):
    class Form(_FlowForm):
        amount = QuantityField("Amount", dimension, limits=(0.0, 1.0, "up to 1"))

    shown = BeautifulSoup(str(Form(None).amount()), "html.parser")

    assert {each["value"]: each.text for each in shown.find_all("option")}[unit] == sign


def test_a_unit_beside_the_field_counts_only_for_a_bare_number():
    assert with_chosen_unit("6", "min", Dimension.DURATION) == "6 min"
    assert with_chosen_unit("6 s", "min", Dimension.DURATION) == "6 s"
    assert with_chosen_unit("6", "furlong", Dimension.DURATION) == "6"
    assert not is_bare_number("1'")
    assert is_bare_number("1e3")
    assert not is_bare_number("1 e")
