"""The purge gases by their ISO 14175 symbols, as forms offer them and pages name them."""

from flask_babel import lazy_gettext as _l

GAS_CHOICES = (
    ("I1", _l("I1 argon")),
    ("I2", _l("I2 helium")),
    ("N1", _l("N1 nitrogen")),
    ("I3", _l("I3 argon with helium")),
    ("R1", _l("R1 argon with up to 15 % hydrogen")),
    ("R2", _l("R2 argon with over 15 % hydrogen")),
    ("N2", _l("N2 argon with up to 5 % nitrogen")),
    ("N3", _l("N3 argon with over 5 % nitrogen")),
    ("N4", _l("N4 argon with hydrogen and nitrogen")),
    ("N5", _l("N5 nitrogen with hydrogen")),
)
_WORDS = dict(GAS_CHOICES)


def gas_words(symbol: str) -> str:
    """A gas by its symbol and its name."""
    return str(_WORDS.get(symbol, symbol))
