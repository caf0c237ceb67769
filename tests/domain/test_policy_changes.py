"""A site's own numbers over the default policy: named, bounded, and under a version of their own."""

from dataclasses import replace

import pytest

from trainer.core.terms import MaterialGroup
from trainer.domain.errors import Refused
from trainer.domain.policy import Compare, Policy
from trainer.domain.policy_changes import changed_policy
from trainer.scenario_files.policy_file import DEFAULT_POLICY, load_policy


@pytest.fixture(scope="module")
def policy() -> Policy:
    return load_policy(DEFAULT_POLICY)


def test_nothing_changed_is_the_default_under_another_version(policy: Policy) -> None:
    assert changed_policy(policy, changes={}, version="2") == replace(policy, version="2")


def test_named_numbers_are_laid_over_the_default(policy: Policy) -> None:
    changes = {
        "pass_mark_frac": "0.9",
        "oxygen_limits.austenitic-stainless": "0.00005",
        "qualification.validity_months": "24",
        "qualification.length_to_ratio": "1.5",
    }
    changed = changed_policy(policy, changes=changes, version="2")
    assert changed.version == "2"
    assert changed.pass_mark_frac == 0.9
    stainless = changed.oxygen_limits[MaterialGroup.AUSTENITIC_STAINLESS]
    assert (stainless.frac, stainless.source) == (0.00005, "site policy")
    assert changed.oxygen_limits[MaterialGroup.TITANIUM] == policy.oxygen_limits[MaterialGroup.TITANIUM]
    assert changed.qualification == replace(policy.qualification, validity_months=24, length_to_ratio=1.5)
    assert changed.thresholds == policy.thresholds


def test_a_caution_may_come_sooner_but_never_later(policy: Policy) -> None:
    below = replace(
        policy.thresholds[0], quantity="low", compare=Compare.BELOW, value=0.195, site_may_change=True
    )
    above = replace(below, quantity="high", compare=Compare.AT_LEAST, value=10.0)
    fixed = replace(below, quantity="fixed", site_may_change=False)
    mixed = replace(policy, thresholds=(below, above, fixed))
    low, high, not_ours = (f"thresholds.{each.code}/{each.quantity}" for each in (below, above, fixed))

    changed = changed_policy(mixed, changes={low: "0.2", high: "9"}, version="2")
    assert changed.thresholds == (replace(below, value=0.2), replace(above, value=9.0), fixed)

    with pytest.raises(Refused) as refused:
        changed_policy(mixed, changes={low: "0.19", high: "11", not_ours: "0.2"}, version="2")
    assert refused.value.reasons == (f"out-of-range:{low}", f"out-of-range:{high}", f"unknown:{not_ours}")


def test_every_fault_is_named_at_once(policy: Policy) -> None:
    changes = {
        "pass_mark": "0.9",
        "pass_mark_frac": "1.1",
        "oxygen_limits.titanium": "nan",
        "oxygen_limits.duplex": "much",
        "qualification.validity_months": "12.5",
    }
    with pytest.raises(Refused) as refused:
        changed_policy(policy, changes=changes, version="2")
    assert refused.value.reasons == (
        "unknown:pass_mark",
        "out-of-range:pass_mark_frac",
        "no-number:oxygen_limits.titanium",
        "no-number:oxygen_limits.duplex",
        "out-of-range:qualification.validity_months",
    )


def test_every_default_is_a_number_that_a_site_could_set(policy: Policy) -> None:
    values = {
        f"qualification.{name}": str(getattr(policy.qualification, name))
        for name in ("validity_months", "confirmation_months", "due_days", "diameter_to_ratio")
    }
    values |= {
        f"oxygen_limits.{group.value.replace(' ', '-')}": f"{limit.frac:.6f}"
        for group, limit in policy.oxygen_limits.items()
    }
    assert (
        changed_policy(policy, changes=values, version=policy.version).qualification == policy.qualification
    )


def test_a_root_that_a_site_calls_lost_sooner_is_lost_sooner_for_scores_too(policy: Policy) -> None:
    changes = {"thresholds.root-lost/root.oxygen_over_limit": "4"}
    assert changed_policy(policy, changes=changes, version="2").lost_root_ratio == 4.0
