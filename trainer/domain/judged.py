"""What the thresholds of a site's policy are held against, and what one such quantity is."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp


@dataclass(frozen=True, kw_only=True)
class Judged:
    """What thresholds are held against: the set-up, its run, and what the run does not tell."""

    set_up: SetUp
    run: PurgeRun
    policy: Policy
    untested: tuple[str, ...] = ()  # why the purge lies outside what was simulated
    hold_floor_frac: float | None = None
    vent_outflow_m3_s: float | None = None  # the smallest that the vent sees
    gas_needed_m3: float | None = None  # for one joint, at the supply's reference condition
    largest_draw_m3_s: float | None = None  # the larger of purge and hold flow, at that condition too


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """One quantity that a threshold may name: its dimension, its value, and the facts shown beside it."""

    fact: str
    dimension: Dimension | None
    value: Callable[[Judged], float | None]
    facts: Callable[[Judged], Mapping[str, float | str]] = lambda _: {}
