"""Site policy: the numbers that an organisation decides, with where each comes from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from trainer.core.terms import MaterialGroup, RootGrade


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


class GasVerdict(StrEnum):
    """Whether a backing gas may be used on a material."""

    NEVER = "never"
    BY_PROCEDURE = "by procedure"


@dataclass(frozen=True, kw_only=True)
class GasRule:
    """A backing gas that a material does not take, or takes only where a qualified procedure says so."""

    material: MaterialGroup
    symbol: str
    verdict: GasVerdict
    why: str
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
    lost_root_ratio: float  # oxygen at which the root is lost, as a multiple of the limit
    thresholds: tuple[Threshold, ...]
    pass_mark_frac: float
    quantity_safe_zero_ratio: float  # answer this many times the key on the safe side scores 0
    qualification: QualificationRules
    gas_rules: tuple[GasRule, ...] = ()
    unpurged_materials: frozenset[MaterialGroup] = frozenset()  # need no purge in ordinary service
    # upper mole fraction of oxygen by grade, where the site replaces the core's proposal for a material
    root_grades: Mapping[MaterialGroup, Mapping[RootGrade, float]] = field(default_factory=dict)

    def threshold(self, code: str) -> Threshold:
        """The threshold that raises a caution; raises KeyError for a code that the table does not hold."""
        return next(each for each in self.thresholds if each.code == code)

    def gas_rule(self, material: MaterialGroup | None, *, symbol: str | None) -> GasRule | None:
        """What stands against a gas on a material; None where nothing does."""
        rules = (each for each in self.gas_rules if each.material is material and each.symbol == symbol)
        return next(rules, None)
