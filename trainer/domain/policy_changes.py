"""What a site changes about the default policy: a flat list of named numbers, checked and laid over it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from typing import Any

from trainer.core.terms import MaterialGroup
from trainer.domain.errors import Refused
from trainer.domain.policy import Compare, Policy, Threshold

OF_THE_SITE = "site policy"  # where a limit comes from that the site set itself
_LIMIT = "oxygen_limits."
_THRESHOLD = "thresholds."
_QUALIFICATION = "qualification."


@dataclass(frozen=True)
class Bounds:
    """Between which values a site may set a number, both included, and whether it counts something."""

    low: Decimal
    high: Decimal
    whole: bool = False

    def admit(self, value: Decimal) -> bool:
        """Whether a site may set this value."""
        return self.low <= value <= self.high and not (self.whole and value % 1)


# Ours: what lies outside is a slip of the hand rather than a policy. Limits are mole fractions.
_OXYGEN = Bounds(Decimal("0.000001"), Decimal("0.02"))
_OF_PASS = Bounds(Decimal("0.5"), Decimal(1))
_OF_QUALIFICATION = {
    "validity_months": Bounds(Decimal(1), Decimal(60), whole=True),
    "confirmation_months": Bounds(Decimal(1), Decimal(24), whole=True),
    "due_days": Bounds(Decimal(0), Decimal(180), whole=True),
    "diameter_from_ratio": Bounds(Decimal("0.1"), Decimal(1)),
    "diameter_to_ratio": Bounds(Decimal(1), Decimal(10)),
    "length_to_ratio": Bounds(Decimal(1), Decimal(10)),
    "scenarios_behind_a_critical": Bounds(Decimal(3), Decimal(50), whole=True),
}


def changeable(policy: Policy) -> Mapping[str, Bounds]:
    """Every number that a site may set, by name, and between which values.

    The value that raises a caution may only be moved so that the caution comes sooner.
    """
    found = {"pass_mark_frac": _OF_PASS}
    found |= {_LIMIT + _key(group): _OXYGEN for group in policy.oxygen_limits}
    found |= {_name(each): _sooner(each) for each in policy.thresholds if each.site_may_change}
    found |= {_QUALIFICATION + name: bounds for name, bounds in _OF_QUALIFICATION.items()}
    return found


def numbers_of(policy: Policy) -> Mapping[str, float]:
    """What a policy says for every number that a site may set, by name."""
    found = {"pass_mark_frac": policy.pass_mark_frac}
    found |= {_LIMIT + _key(group): limit.frac for group, limit in policy.oxygen_limits.items()}
    found |= {_name(each): each.value for each in policy.thresholds if each.site_may_change}
    found |= {_QUALIFICATION + name: getattr(policy.qualification, name) for name in _OF_QUALIFICATION}
    return found


def limit_material(name: str) -> MaterialGroup | None:
    """Whose oxygen limit the number of that name is, if it is one."""
    key = name.removeprefix(_LIMIT)
    return next((group for group in MaterialGroup if _key(group) == key and name != key), None)


def checked_changes(policy: Policy, *, changes: Mapping[str, str]) -> Mapping[str, Decimal]:
    """The changes as numbers; raises Refused with one `unknown:…`, `no-number:…` or `out-of-range:…` each."""
    known = changeable(policy)
    numbers: dict[str, Decimal] = {}
    reasons = []
    for name, text in changes.items():
        number = _number(text)
        if name not in known:
            reasons.append(f"unknown:{name}")
        elif number is None:
            reasons.append(f"no-number:{name}")
        elif not known[name].admit(number):
            reasons.append(f"out-of-range:{name}")
        else:
            numbers[name] = number
    if reasons:
        raise Refused(tuple(reasons))
    return numbers


def changed_policy(policy: Policy, *, changes: Mapping[str, str], version: str) -> Policy:
    """The policy with a site's changes laid over it, under the version that names both."""
    numbers = checked_changes(policy, changes=changes)
    of_qualification: dict[str, Any] = {
        name: int(numbers[_QUALIFICATION + name]) if bounds.whole else float(numbers[_QUALIFICATION + name])
        for name, bounds in _OF_QUALIFICATION.items()
        if _QUALIFICATION + name in numbers
    }
    return replace(
        policy,
        version=version,
        pass_mark_frac=float(numbers.get("pass_mark_frac", policy.pass_mark_frac)),
        oxygen_limits={
            group: replace(limit, frac=float(numbers[_LIMIT + _key(group)]), source=OF_THE_SITE, status="d")
            if _LIMIT + _key(group) in numbers
            else limit
            for group, limit in policy.oxygen_limits.items()
        },
        thresholds=tuple(
            replace(each, value=float(numbers.get(_name(each), each.value))) for each in policy.thresholds
        ),
        qualification=replace(policy.qualification, **of_qualification),
    )


def _key(group: MaterialGroup) -> str:
    return group.value.replace(" ", "-")


def _name(threshold: Threshold) -> str:
    """One caution may stand on several quantities."""
    return f"{_THRESHOLD}{threshold.code}/{threshold.quantity}"


def _sooner(threshold: Threshold) -> Bounds:
    now = Decimal(repr(threshold.value))
    if threshold.compare in {Compare.BELOW, Compare.AT_MOST}:
        return Bounds(now, Decimal("Infinity"))
    return Bounds(Decimal("-Infinity"), now)


def _number(text: str) -> Decimal | None:
    try:
        number = Decimal(text)
    except InvalidOperation:
        return None
    return number if number.is_finite() else None
