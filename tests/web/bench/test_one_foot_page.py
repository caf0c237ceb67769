"""One foot from the joint: the page says where it holds and where not, and keeps what was typed."""

from urllib.parse import parse_qsl, urlencode, urlsplit

import pytest
from visitors import Visitor

EXAMPLE = {
    "material": "austenitic stainless", "dam": "foam", "wall": "3.4 mm", "current": "80 A", "voltage": "11 V",
    "speed": "60 mm/min", "efficiency": "0.7", "passes": "1", "between": "10 min",
}  # fmt: skip


@pytest.fixture
def asked(app):
    def ask(**changes):
        return Visitor(app).open_page(f"/bench/one-foot?{urlencode({**EXAMPLE, **changes})}")

    return ask


def test_the_page_opens_with_an_example(app):
    page = Visitor(app).open_page("/bench/one-foot")
    assert page.status == 200
    assert "Peak temperature against the distance" in page.soup.text


def test_one_pass_of_the_example_leaves_one_foot_far_enough(asked):
    # Adams: rise at x = H / (rho c t x sqrt(2 pi e)); 616 J/mm, 3.4 mm, rho c of 4.0 MJ/m3K by hand: 37 K at 300 mm
    assert "One foot holds here" in asked().soup.text


def test_eight_hot_passes_on_chromium_molybdenum_do_not(asked):
    page = asked(
        material="chromium-molybdenum",
        current="150 A",
        voltage="12 V",
        passes="8",
        between="5 min",
        wall="12 mm",
    )
    assert "One foot is too near here" in page.soup.text


def test_what_is_typed_wrongly_is_named_and_kept(asked):
    page = asked(wall="12", current="80 kg")
    assert page.status == 422
    assert page.soup.find("input", attrs={"name": "current"})["value"] == "80 kg"
    assert "the unit 'kg' is not accepted" in page.soup.text


def test_a_bare_number_takes_the_unit_beside_it(asked):
    page = asked(wall="3.4", **{"wall-unit": "mm"})
    assert page.status == 200


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("wall", ["0.005 m", "1.500 cm"])
def test_an_address_is_read_alike_in_every_language(app, language, wall):
    visitor = Visitor(app)
    visitor.post("/language", {"language": language, "next": "/bench"})
    page = visitor.open_page(f"/bench/one-foot?{urlencode({**EXAMPLE, 'wall': wall})}")
    assert page.status == 200
    assert page.soup.find("input", attrs={"name": "wall"})["value"] == (
        wall if language == "en" else wall.replace(".", ",")
    )


def test_what_is_typed_in_spanish_becomes_an_address_that_everybody_can_open(app):
    visitor = Visitor(app)
    visitor.post("/language", {"language": "es", "next": "/bench"})
    typed = {**EXAMPLE, "wall": "1,575 cm", "efficiency": "0,7", "typed": "yes"}
    answer = visitor.client.get(f"/bench/one-foot?{urlencode(typed)}")
    assert answer.status_code == 303
    asked = dict(parse_qsl(urlsplit(answer.location).query))
    assert asked == {**EXAMPLE, "wall": "1.575 cm", "efficiency": "0.7"}
    assert visitor.open_page(answer.location).status == 200


def test_what_can_be_two_numbers_in_spanish_is_refused_with_both(app):
    visitor = Visitor(app)
    visitor.post("/language", {"language": "es", "next": "/bench"})
    page = visitor.open_page(f"/bench/one-foot?{urlencode({**EXAMPLE, 'wall': '1.500 cm', 'typed': 'yes'})}")
    assert page.status == 422
    assert page.soup.find("input", attrs={"name": "wall"})["value"] == "1.500 cm"
    assert "Escribe 1,500 o 1500." in page.soup.text
