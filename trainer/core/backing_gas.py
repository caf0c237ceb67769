"""Whether a gas may stand behind the root of a material: a default table, the strictest part deciding."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType

from trainer.core.errors import UnknownGas
from trainer.core.gas import Gas
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup

_INERT = ("I1", "I2")


class BackingVerdict(StrEnum):
    """How a backing gas suits a material, mildest first."""

    RECOMMENDED = "recommended"
    NOT_NEEDED = "not needed"
    BY_PROCEDURE = "by procedure"
    NEVER = "never"


class GasPart(StrEnum):
    """What a gas holds, as far as a root is concerned; argon and helium alone are inert."""

    INERT = "inert"
    NITROGEN = "nitrogen"
    HYDROGEN = "hydrogen"


@dataclass(frozen=True, kw_only=True)
class BackingRule:
    """What is said of one part of a gas on one material, and who says it."""

    group: MaterialGroup
    part: GasPart
    verdict: BackingVerdict
    why: str
    source: str
    status: str


_REACTIVE = {"N1": GasPart.NITROGEN, "H2": GasPart.HYDROGEN}


def backing_rule(gas: Gas, *, group: MaterialGroup, own_rules: Sequence[BackingRule] = ()) -> BackingRule:
    """Whether a gas may be used behind the root of a material.

    the strictest verdict of what the gas holds: nitrogen, hydrogen, or nothing that reacts

    Args:
        gas [record]: the purge gas, pure or mixed
        group [text]: material group
        own_rules [record]: a site's rules, each in place of the default for its group and part
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
    parts = {_REACTIVE[symbol] for symbol in symbols if symbol in _REACTIVE} or {GasPart.INERT}
    rules = [rule_for_part(part, group=group, own_rules=own_rules) for part in GasPart if part in parts]
    return max(rules, key=lambda rule: list(BackingVerdict).index(rule.verdict))


def rule_for_part(
    part: GasPart, *, group: MaterialGroup, own_rules: Sequence[BackingRule] = ()
) -> BackingRule:
    """What is said of one part of a gas on a material: by the site where it says something, else by default.

    Args:
        part [text]: inert, nitrogen or hydrogen
        group [text]: material group
        own_rules [record]: a site's rules
    Returns:
        [record] the verdict, with its reason, source and status
    Valid: a default; site policy and the qualified procedure come before it.

    Example:
        >>> rule_for_part(GasPart.NITROGEN, group=MaterialGroup.DUPLEX).verdict.value
        'recommended'

    Reference: data/backing_gases.csv, which names the source and status of each line.
    """
    own = (rule for rule in own_rules if (rule.group, rule.part) == (group, part))
    return next(own, _defaults()[group, part])


@cache
def _defaults() -> Mapping[tuple[MaterialGroup, GasPart], BackingRule]:
    rules = [_rule(row) for row in table_rows("backing_gases")]
    return MappingProxyType({(rule.group, rule.part): rule for rule in rules})


def _rule(row: Mapping[str, str]) -> BackingRule:
    return BackingRule(
        group=MaterialGroup(row["group"]),
        part=GasPart(row["part"]),
        verdict=BackingVerdict(row["verdict"]),
        why=row["why"],
        source=row["source"],
        status=row["status"],
    )
