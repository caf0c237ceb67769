"""Site policy: the numbers that an organisation decides, with where each comes from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from trainer.core.backing_gas import BackingRule, BackingVerdict, GasPart, backing_rule, rule_for_part
from trainer.core.gas import Gas
from trainer.core.terms import MaterialGroup, RootGrade

LOST_ROOT_CODE = "root-lost"


class Compare(StrEnum):
    """How a quantity is held against a threshold; the sign decides what happens exactly at it."""

    AT_LEAST = ">="
    ABOVE = ">"
    AT_MOST = "<="
    BELOW = "<"

    def holds(self, value: float, *, threshold: float) -> bool:
        """Whether the value stands in this relation to the threshold."""
        return {
            Compare.AT_LEAST: value >= threshold,
            Compare.ABOVE: value > threshold,
            Compare.AT_MOST: value <= threshold,
            Compare.BELOW: value < threshold,
        }[self]


@dataclass(frozen=True, kw_only=True)
class Threshold:
    """One line of the thresholds table: the caution, on which quantity, from which value, after whom."""

    code: str
    quantity: str
    compare: Compare
    value: float
    unit: str
    source: str
    status: str
    site_may_change: bool

    def is_met_by(self, value: float) -> bool:
        """Whether the value (SI) raises this caution."""
        return self.compare.holds(value, threshold=self.value)


@dataclass(frozen=True, kw_only=True)
class OxygenLimit:
    """The oxygen that a material group's root may see, as a mole fraction, and who recommends it."""

    frac: float
    source: str
    status: str


@dataclass(frozen=True, kw_only=True)
class QualificationRules:
    """How long a qualification lasts and how far its scope reaches beyond what was done."""

    validity_months: int
    confirmation_months: int
    due_days: int
    diameter_from_ratio: float  # smallest diameter qualified, as a share of the smallest one done
    diameter_to_ratio: float
    length_to_ratio: float  # longest section qualified, as a multiple of the longest one done
    scenarios_behind_a_critical: int
    source: str


@dataclass(frozen=True, kw_only=True)
class Policy:
    """One version of a site's policy; `version` names it in every attempt and award made under it."""

    version: str
    oxygen_limits: Mapping[MaterialGroup, OxygenLimit]
    thresholds: tuple[Threshold, ...]
    pass_mark_frac: float
    quantity_safe_zero_ratio: float  # answer this many times the key on the safe side scores 0
    qualification: QualificationRules
    gas_rules: tuple[BackingRule, ...] = ()  # where the site replaces the core's default for a material
    # upper mole fraction of oxygen by grade, where the site replaces the core's proposal for a material
    root_grades: Mapping[MaterialGroup, Mapping[RootGrade, float]] = field(default_factory=dict)

    @property
    def lost_root_ratio(self) -> float:
        """Oxygen at which the root is lost, as a multiple of the limit."""
        return self.threshold(LOST_ROOT_CODE).value

    def threshold(self, code: str) -> Threshold:
        """The threshold that raises a caution; raises KeyError for a code that the table does not hold."""
        return next(each for each in self.thresholds if each.code == code)

    def backing_rule(self, gas: Gas, *, material: MaterialGroup | None) -> BackingRule | None:
        """How a gas suits the root of a material: by the site, else by default; None for no material."""
        if material is None:
            return None
        return backing_rule(gas, group=material, own_rules=self.gas_rules)

    def needs_no_purge(self, material: MaterialGroup) -> bool:
        """Whether the root of a material needs no back purge in ordinary service."""
        rule = rule_for_part(GasPart.INERT, group=material, own_rules=self.gas_rules)
        return rule.verdict is BackingVerdict.NOT_NEEDED

    def is_root_lost(self, material: MaterialGroup | None, *, oxygen_frac: float | None) -> bool | None:
        """Whether a root that saw so much oxygen has to come out again; None where it is not known."""
        limit = self.oxygen_limits.get(material) if material is not None else None
        if limit is None or oxygen_frac is None:
            return None
        lost = (each for each in self.thresholds if each.code == LOST_ROOT_CODE)
        return any(each.is_met_by(oxygen_frac / limit.frac) for each in lost)
