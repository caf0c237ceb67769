"""What contradicts itself in the gas: its symbol, its composition, the scale of a meter, what it carries."""

import re
from collections.abc import Iterator, Mapping

from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.gas_designation import MIXTURE_SYMBOLS
from trainer.core.gas_mix import accepted_shares, shares_outside, symbol_limits, symbols_that_hold
from trainer.core.gas_purity import impurity_bound_frac
from trainer.core.gas_shares import KNOWN_FORMS, composition_of
from trainer.domain.known_parts import AIR_SCALE, PURGE_GASES, scale_gas_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import PurgeGas, SetUp
from trainer.domain.set_up_fault import SetUpFault

# Groups M (argon with carbon dioxide or oxygen), C and O of ISO 14175, alone or with what the designation
# goes on to say, such as ISO 14175-M21-ArC-18, and what they hold.
_OXIDISING = re.compile(
    r"(?:ISO 14175[\s:-]+)?(?:M\d{1,2}|C\d?|O\d?)(?:[\s-]+[A-Z].*)?|CO2|O2|AIR", re.IGNORECASE
)
_OXIDISERS = ("CO2", "O2")
# A share that another unit rounded is no contradiction.
_SLACK_RATIO = 1e-9


def gas_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    """A gas that is unknown or no backing gas, or whose composition or oxygen does not fit the rest."""
    if set_up.gas is not None:
        yield from _symbol_faults(set_up.gas)
        yield from _composition_faults(set_up.gas)
        yield from _purity_faults(set_up.gas)
    yield from _scale_faults(set_up)


def _symbol_faults(gas: PurgeGas) -> Iterator[SetUpFault]:
    if gas.symbol is None or gas.symbol in PURGE_GASES:
        return
    code = "no-backing-gas" if _OXIDISING.fullmatch(gas.symbol) else "unknown-gas"
    facts = {"known": ", ".join(PURGE_GASES)}
    yield SetUpFault(path="gas.symbol", code=code, value=gas.symbol, facts=facts)


def _composition_faults(gas: PurgeGas) -> Iterator[SetUpFault]:
    path, symbol, written = "gas.composition", gas.symbol, gas.composition
    if written is None:
        if symbol in MIXTURE_SYMBOLS:
            accepted = ", ".join(accepted_shares(symbol))
            yield SetUpFault(
                path=path, code="composition-missing", facts={"symbol": symbol, "accepted": accepted}
            )
        return
    try:
        shares = composition_of(written)
    except UnknownName:
        facts = {"known": ", ".join(f"'{form}'" for form in KNOWN_FORMS)}
        yield SetUpFault(path=path, code="composition-unreadable", value=written, facts=facts)
        return
    except OutOfRange as error:
        yield SetUpFault(path=path, code="shares-not-whole", value=written, facts={"total": error.value})
        return
    yield from _share_faults(gas, shares)


def _share_faults(gas: PurgeGas, shares: Mapping[str, float]) -> Iterator[SetUpFault]:
    path, symbol, written = "gas.composition", gas.symbol, gas.composition
    if symbol is not None and symbol not in PURGE_GASES:
        return
    oxidisers = [name for name in _OXIDISERS if name in shares]
    if oxidisers:
        facts = {"known": ", ".join(PURGE_GASES)}
        yield SetUpFault(path=path, code="no-backing-gas", value=written, facts=facts)
        return
    if symbol is None:
        yield SetUpFault(
            path="gas.symbol",
            code="symbol-missing",
            facts={"composition": str(written), "fitting": _fitting(shares)},
        )
        return
    holds = {each.component for each in symbol_limits(symbol)}
    strange = ", ".join(name for name in shares if name not in holds)
    accepted = ", ".join(accepted_shares(symbol))
    if strange:
        yield SetUpFault(
            path=path, code="part-not-in-symbol", value=written,
            facts={"symbol": symbol, "parts": strange, "accepted": accepted, "fitting": _fitting(shares)},
        )  # fmt: skip
        return
    for limits, percent in shares_outside(symbol, composition=shares):
        yield SetUpFault(
            path=path, code="share-outside-symbol", value=written,
            facts={
                "symbol": symbol, "component": limits.component, "percent": percent,
                "accepted": limits.words, "fitting": _fitting(shares),
            },
        )  # fmt: skip


def _fitting(shares: Mapping[str, float]) -> str:
    return ", ".join(symbols_that_hold(shares))


def _purity_faults(gas: PurgeGas) -> Iterator[SetUpFault]:
    if gas.purity_frac is None or gas.oxygen_frac is None:
        return
    bound_frac = impurity_bound_frac(100.0 * gas.purity_frac)
    if gas.oxygen_frac > bound_frac * (1.0 + _SLACK_RATIO) + _SLACK_RATIO:
        yield SetUpFault(
            path="gas.oxygen", code="oxygen-above-purity", value=gas.oxygen_frac,
            dimension=Dimension.FRACTION,
            facts={"purity_percent": 100.0 * gas.purity_frac, "bound_frac": bound_frac},
            involves=("gas.purity",),
        )  # fmt: skip


def _scale_faults(set_up: SetUp) -> Iterator[SetUpFault]:
    made_for = set_up.meter.calibrated_for if set_up.meter else None
    if made_for is None:
        return
    try:
        scale_gas_of(made_for)
    except (UnknownName, OutOfRange):
        known = ", ".join((*(symbol for symbol in PURGE_GASES if symbol not in MIXTURE_SYMBOLS), AIR_SCALE))
        yield SetUpFault(
            path="meter.calibrated_for", code="unknown-scale", value=made_for, facts={"known": known}
        )
