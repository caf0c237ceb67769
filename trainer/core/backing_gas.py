"""Whether a gas may stand behind the root of a material: a default table, the strictest part deciding."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from trainer.core.errors import UnknownGas
from trainer.core.gas import Gas
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup

_REACTIVE = {"N1": "nitrogen", "H2": "hydrogen"}
_INERT = ("I1", "I2")


class BackingVerdict(StrEnum):
    """How a backing gas suits a material, mildest first."""

    USUAL = "usual"
    NOT_NEEDED = "not needed"
    BY_PROCEDURE = "by procedure"
    NEVER = "never"


@dataclass(frozen=True, kw_only=True)
class BackingRule:
    """What the table says of one part of a gas on one material, and who says it."""

    verdict: BackingVerdict
    part: str
    why: str
    source: str
    status: str


def backing_rule(gas: Gas, *, group: MaterialGroup) -> BackingRule:
    """Whether a gas may be used behind the root of a material.

    the strictest verdict of what the gas holds: nitrogen, hydrogen, or nothing that reacts

    Args:
        gas [record]: the purge gas, pure or mixed
        group [text]: material group
    Returns:
        [record] the verdict, with its reason, source and status
    Raises:
        UnknownGas: for air or oxygen, which are no backing gases
    Valid: a default; site policy and the qualified procedure come before it.

    Example:
        >>> from trainer.core.gas_designation import purge_gas
        >>> backing_rule(purge_gas("N5", composition="NH-5"), group=MaterialGroup.DUPLEX).verdict.value
        'never'

    Reference: data/backing_gases.csv, which names the source and status of each line.
    """
    symbols = [symbol for symbol, _ in gas.composition] or [gas.symbol]
    for symbol in symbols:
        if symbol not in (*_INERT, *_REACTIVE):
            raise UnknownGas(symbol, known=[*_INERT, *_REACTIVE])
    parts = {_REACTIVE[symbol] for symbol in symbols if symbol in _REACTIVE} or {"inert"}
    rules = [
        _rule(row) for row in table_rows("backing_gases") if row["group"] == group and row["part"] in parts
    ]
    return max(rules, key=lambda rule: list(BackingVerdict).index(rule.verdict))


def _rule(row: Mapping[str, str]) -> BackingRule:
    return BackingRule(
        verdict=BackingVerdict(row["verdict"]),
        part=row["part"],
        why=row["why"],
        source=row["source"],
        status=row["status"],
    )
