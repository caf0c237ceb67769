"""Why a response was marked as it was, said again in another language from what was kept in English."""

import pytest

from trainer.catalogues import interface_translations
from trainer.domain.items import why
from trainer.wording.marking import messages, why_words

SPANISH = interface_translations("es").gettext
TOLD = {
    "Argon lies in the pit.": "El argón está en el foso.",
    "Nobody goes in.": "Nadie entra.",
    "Read the meter": "Leer el medidor",
    "Open the valve": "Abrir la válvula",
    "Turn it down.": "Bájalo.",
    "the vent is blocked": "el venteo está tapado",
}


def _said(reason):
    return why_words(reason, SPANISH, told=TOLD, language="es")


@pytest.mark.parametrize(
    ("kept", "said"),
    [
        ("Not answered.", "Sin responder."),
        (why.FAILS % {"ratio": "0.54"}, "0,54 veces la respuesta: del lado inseguro, y tu propio montaje falla con ello."),
        (why.MISSED % {"why": "Argon lies in the pit. Nobody goes in."}, "Se te pasó: El argón está en el foso. Nadie entra."),
        (why.NO_HAZARD % {"why": "Nobody goes in."}, "No es un peligro: Nadie entra."),
        (
            why.OUT_OF_ORDER % {"before": "Read the meter", "after": "Open the valve", "why": "Nobody goes in."},
            "Leer el medidor va antes que Abrir la válvula: Nadie entra.",
        ),
        (why.PUT_RIGHT % {"cause": "the vent is blocked"}, "Era esto: el venteo está tapado. Se arregló a tiempo."),
        (
            why.TOLD_NOTHING % {"steps": "Read the meter; Turn it down"},
            "Ya no podía decir nada nuevo cuando se hizo: Leer el medidor; Bájalo.",
        ),
        ("feet and metres mixed up", "pies y metros confundidos"),
        ("Nobody goes in.", "Nadie entra."),  # what a scenario says of a wrong placement
    ],
)  # fmt: skip
def test_a_kept_reason_is_said_in_spanish_with_all_that_was_filled_in(kept, said):
    assert _said(kept) == said


def test_what_an_instructor_wrote_stays_as_it_is():
    assert _said("Bien razonado; 0.5 bar de más.") == "Bien razonado; 0.5 bar de más."


def test_in_english_a_reason_reads_as_it_was_kept():
    filled = dict.fromkeys(("ratio", "why", "count", "before", "after", "step", "cause", "steps"), "1.5")
    for template in why.ALL:
        assert why_words(template % filled, str, told={}) == template % filled


def test_every_sentence_of_the_marking_is_among_the_messages():
    sentences = {each for name, each in vars(why).items() if name.isupper() and isinstance(each, str)}
    assert sentences == set(why.ALL) <= set(messages())
