"""Sentences with places, found again in what was filled into them."""

from trainer.wording.filled_in import filled_in, fillings
from trainer.wording.marking import why_words

OUT_OF_ORDER = "%(before)s comes before %(after)s: %(why)s"


def test_a_sentence_gives_back_what_was_filled_in():
    assert list(fillings("Missed: %(why)s", "Missed: It falls.")) == [{"why": "It falls."}]
    assert list(fillings("Not answered.", "Not answered.")) == [{}]
    assert list(fillings("%(ratio)s times the answer.", "2 times the answer.")) == [{"ratio": "2"}]


def test_a_percent_sign_beside_a_place_stands_for_itself():
    assert filled_in("over %(share)s% of it, 19.5 %", share="50") == "over 50% of it, 19.5 %"
    assert list(fillings("over %(share)s% of it", "over 50% of it")) == [{"share": "50"}]


def test_another_sentence_and_an_empty_place_give_nothing():
    assert list(fillings("Missed: %(why)s", "Missed: ")) == []
    assert list(fillings("Missed: %(why)s", "Found: it")) == []
    assert list(fillings("%(ratio)s times the answer.", "2 times the answer, and more")) == []


def test_every_way_is_given_where_the_template_s_own_words_were_filled_in():
    ways = list(fillings(OUT_OF_ORDER, "Vent comes before tape: the last inch: it blows"))
    assert ways == [
        {"before": "Vent", "after": "tape", "why": "the last inch: it blows"},
        {"before": "Vent", "after": "tape: the last inch", "why": "it blows"},
    ]


def test_a_reason_is_taken_apart_where_its_sentences_are_known():
    told = {
        "Arc": "Arco",
        "Cold: plugs back in, counted": "Frío: los tapones de vuelta, contados",
        "it bottles up the gas": "encierra el gas",
    }
    spanish = {OUT_OF_ORDER: "%(before)s va antes que %(after)s: %(why)s"}
    reason = "Arc comes before Cold: plugs back in, counted: it bottles up the gas"
    said = why_words(reason, lambda text: spanish.get(text, text), told=told, language="es")
    assert said == "Arco va antes que Frío: los tapones de vuelta, contados: encierra el gas"
