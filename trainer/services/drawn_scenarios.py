"""Draws scenarios that a person has not met: a seed from the right space, and a variant new to them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from uuid import UUID

import rfc8785

from trainer.domain.attempts import AttemptKind, seed_in_space
from trainer.domain.errors import Conflict, Duplicate
from trainer.domain.families import Sources, draw_counted
from trainer.domain.family import ScenarioFamily
from trainer.domain.people import Acting, UnitSystem
from trainer.domain.scenario import Scenario
from trainer.scenario_files import public_document, scenario_document
from trainer.services.family_library import family_to_draw
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import attempts, paper, people
from trainer.storage.attempts import DrawnScenario
from trainer.storage.database import Work

# A family of some hundred variants shows a new one within a few draws; a person who has met nearly all of
# them meets one again under a new seed, which is better than being sent away.
_DRAWS_FOR_A_NEW_VARIANT = 8
_DRAWS_FOR_A_NEW_SEED = 100
_STARTS = 5
_SEED_TAKEN = "uq_attempt_scenario_person_id_seed"


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """One scenario to draw."""

    family: str
    difficulty: float


@dataclass(frozen=True, kw_only=True)
class ForWhom:
    """Whom scenarios are drawn for: somebody of an organisation, or nobody yet, in one edition.

    `elsewhere` are fingerprints of what stands beside it, which is not drawn again where there is a choice.
    """

    organisation_id: UUID
    person_id: UUID | None
    edition: UnitSystem
    elsewhere: frozenset[str] = frozenset()


def drawn_for(
    site: Site, acting: Acting, *, kind: AttemptKind, wanted: Sequence[Wanted]
) -> tuple[DrawnScenario, ...]:
    """Scenarios new to this person, none with a seed that they have met; drawn outside any writing."""
    with site.database.reading() as work:
        edition = people.get_person(work, acting.person_id).units
    whom = ForWhom(organisation_id=acting.organisation_id, person_id=acting.person_id, edition=edition)
    return drawn_for_whom(site, whom, kind=kind, wanted=wanted)


def drawn_for_whom(
    site: Site, whom: ForWhom, *, kind: AttemptKind, wanted: Sequence[Wanted]
) -> tuple[DrawnScenario, ...]:
    """The same for somebody else than who is acting, or for a sheet that is nobody's yet."""
    with site.database.reading() as work:
        policy = policy_of(work, site, organisation_id=whom.organisation_id)
    sources = Sources(policy=policy, hazards=site.content.hazards)
    drawn: list[DrawnScenario] = []
    for each in wanted:
        with site.database.reading() as work:
            met = _met(work, whom, each.family)
            seeds = _new_seeds(site, work, whom.person_id, kind, {other.seed for other in drawn})
            family = family_to_draw(
                site, work, organisation_id=whom.organisation_id, family=each.family, edition=whom.edition
            )
        met |= {other.fingerprint for other in drawn}
        retold = partial(site.content.in_other_languages, edition=whom.edition)
        draw_one = partial(_drawn, family, sources, each.difficulty, retold)
        drawn.append(_new_variant(draw_one, met=met, seeds=seeds))
    return tuple(drawn)


def _met(work: Work, whom: ForWhom, family: str) -> frozenset[str]:
    """What of a family the person has met, on a screen or on a sheet that was printed for them."""
    if whom.person_id is None:
        return whom.elsewhere
    met = attempts.list_fingerprints(work, person_id=whom.person_id, family=family)
    printed = paper.list_waiting_fingerprints(work, person_id=whom.person_id, family=family)
    return whom.elsewhere | met | printed


def started_with_new_seeds(start: Callable[[], UUID]) -> UUID:
    """Starts, and starts again where another process took one of the seeds for the same person in between."""
    for _ in range(_STARTS - 1):
        try:
            return start()
        except Duplicate as error:
            if error.constraint != _SEED_TAKEN:
                raise
    return start()


def _new_variant(
    draw_one: Callable[[int], DrawnScenario], *, met: frozenset[str], seeds: list[int]
) -> DrawnScenario:
    for seed in seeds[:-1]:
        drawn = draw_one(seed)
        if drawn.fingerprint not in met:
            return drawn
    return draw_one(seeds[-1])


def _new_seeds(
    site: Site, work: Work, person_id: UUID | None, kind: AttemptKind, taken: set[int]
) -> list[int]:
    seeds: list[int] = []
    for _ in range(_DRAWS_FOR_A_NEW_SEED):
        seed = seed_in_space(site.new_seed(), kind=kind)
        if seed in taken or seed in seeds:
            continue
        if person_id is not None and attempts.is_seed_drawn(work, person_id=person_id, seed=seed):
            continue
        seeds.append(seed)
        if len(seeds) == _DRAWS_FOR_A_NEW_VARIANT:
            break
    if not seeds:
        raise Conflict("no new seed was found; try again")
    return seeds


def _drawn(
    family: ScenarioFamily,
    sources: Sources,
    difficulty: float,
    retold: Callable[[Scenario], Scenario],
    seed: int,
) -> DrawnScenario:
    scenario = draw_counted(family, seed=seed, difficulty=difficulty, sources=sources).scenario
    # a variant is the same one in whatever languages it is told
    fingerprint = sha256(rfc8785.dumps(public_document(scenario))).hexdigest()
    scenario = retold(scenario)
    return DrawnScenario(
        family=scenario.family,
        seed=seed,
        difficulty_percent=round(scenario.difficulty * 100),
        fingerprint=fingerprint,
        content_version=scenario.content_version,
        core_version=scenario.core_version,
        policy_version=scenario.policy_version,
        shown=public_document(scenario),
        drawn=scenario_document(scenario, with_answers=True),
    )
