"""Why a purge lies outside what was simulated, as pages say it in the reader's language and units."""

import pytest

from trainer.core import purge_groups, spool_body
from trainer.wording.quantities import UnitSystem
from trainer.wording.untested import messages, untested_words

SPANISH = {
    "bore %(bore)s mm: 54 to 305 mm tested": "interior de %(bore)s mm: probado de 54 a 305 mm",
    "flow %(flow)s L/min: 2 to 40 L/min tested": "caudal de %(flow)s L/min: probado de 2 a 40 L/min",
}


def in_spanish(text):
    return SPANISH.get(text, text)


def test_each_reason_is_said_in_the_readers_language_with_its_decimals():
    reasons = "bore 53.9 mm: 54 to 305 mm tested; flow 1.9 L/min: 2 to 40 L/min tested"
    assert untested_words(reasons, in_spanish, language="es") == (
        "interior de 53,9 mm: probado de 54 a 305 mm; caudal de 1,9 L/min: probado de 2 a 40 L/min"
    )


@pytest.mark.parametrize(
    ("reason", "said"),
    [
        # 1 in is 25.4 mm: NIST Special Publication 811, appendix B.8
        ("bore 508 mm: 54 to 305 mm tested", "bore 20 in: 2.13 in to 12 in tested"),
        # 1 cubic foot an hour is 0.4719474 L/min: the same table
        ("flow 41 L/min: 2 to 40 L/min tested", "flow 86.9 cfh: 4.24 cfh to 84.8 cfh tested"),
        ("length 19.5 times the bore: up to 19 tested", "length 19.5 times the bore: up to 19 tested"),
    ],
)
def test_a_reader_of_inches_gets_inches(reason, said):
    assert untested_words(reason, str, system=UnitSystem.US) == said


def test_a_reason_of_an_older_core_stays_as_it_was_kept():
    assert untested_words("gas unlike any other", in_spanish, language="es") == "gas unlike any other"


def test_every_reason_of_the_core_is_among_the_messages():
    declared = {
        value
        for module in (purge_groups, spool_body)
        for name, value in vars(module).items()
        if name.startswith("UNTESTED_")
    }
    assert set(messages()) == declared
