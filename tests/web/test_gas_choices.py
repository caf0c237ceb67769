"""The gases that forms offer are those that a set-up may name, each with a name beside its symbol."""

from trainer.core.gas_mix import symbol_limits
from trainer.domain.known_parts import PURGE_GASES
from trainer.web.gases import GAS_CHOICES, gas_words


def test_every_gas_of_a_set_up_can_be_chosen(app):
    with app.test_request_context():
        assert sorted(symbol for symbol, _ in GAS_CHOICES) == sorted(PURGE_GASES)
        assert all(str(words).startswith(f"{symbol} ") for symbol, words in GAS_CHOICES)
        assert gas_words("N5") == "N5 nitrogen with hydrogen"
        assert gas_words("X9") == "X9"


def test_what_a_choice_says_of_its_shares_is_what_the_symbol_allows():
    """ISO 14175:2008, table of groups, from memory."""
    words = dict(GAS_CHOICES)
    for symbol, component, name in (("R1", "H2", "hydrogen"), ("N2", "N2", "nitrogen")):
        (limits,) = (each for each in symbol_limits(symbol) if each.component == component)
        assert f"up to {limits.high_percent:g} % {name}" in str(words[symbol])
    for symbol, component in (("R2", "H2"), ("N3", "N2")):
        (limits,) = (each for each in symbol_limits(symbol) if each.component == component)
        assert limits.low_is_excluded
        assert f"over {limits.low_percent:g} %" in str(words[symbol])
