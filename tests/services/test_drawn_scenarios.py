"""Which scenarios a person meets: new seeds always, new variants as long as there are any."""

from collections.abc import Iterable
from dataclasses import replace
from uuid import UUID

import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.attempts import AttemptKind
from trainer.domain.errors import Conflict, Duplicate
from trainer.domain.people import Language, UnitSystem
from trainer.services import accounts
from trainer.services.drawn_scenarios import Wanted, drawn_for, started_with_new_seeds
from trainer.services.site import Site
from trainer.storage import attempts
from trainer.storage.attempts import DrawnScenario, NewAttempt

LONG_RUN = Wanted(family="long-run", difficulty=0.0)


def with_seeds(site: Site, seeds: Iterable[int]) -> Site:
    return replace(site, new_seed=iter(seeds).__next__)


def draw_one(site: Site, place: School) -> DrawnScenario:
    (drawn,) = drawn_for(site, place.apprentice, kind=AttemptKind.PRACTICE, wanted=[LONG_RUN])
    return drawn


def meet(site: Site, place: School, drawn: DrawnScenario) -> None:
    """Lets the apprentice have met a scenario."""
    new = NewAttempt(
        person_id=place.apprentice.person_id,
        organisation_id=place.apprentice.organisation_id,
        kind=AttemptKind.PRACTICE,
        title="Long run",
        blueprint={"rows": [], "pass_mark_frac": 0.8},
        started_at=site.now(),
    )
    with site.database.work() as work:
        attempts.add_attempt(work, new, scenarios=(drawn,))


def test_variant_that_was_met_under_another_seed_is_passed_over(teaching_site: Site, place: School) -> None:
    met = draw_one(with_seeds(teaching_site, range(100, 200)), place)
    meet(teaching_site, place, replace(met, seed=7_000))
    drawn = draw_one(with_seeds(teaching_site, range(100, 200)), place)
    assert met.seed == 100
    assert drawn.seed == 102
    assert drawn.fingerprint != met.fingerprint


def test_person_who_has_met_every_variant_on_offer_gets_one_again_under_a_new_seed(
    teaching_site: Site, place: School
) -> None:
    for place_in_row, seed in enumerate(range(100, 116, 2)):
        drawn = draw_one(with_seeds(teaching_site, range(seed, seed + 40)), place)
        meet(teaching_site, place, replace(drawn, seed=7_000 + 2 * place_in_row))
    again = draw_one(with_seeds(teaching_site, range(100, 200)), place)
    assert again.seed == 114


def test_seed_that_was_met_is_never_drawn_again(teaching_site: Site, place: School) -> None:
    meet(teaching_site, place, draw_one(with_seeds(teaching_site, range(100, 200)), place))
    assert draw_one(with_seeds(teaching_site, range(100, 200)), place).seed == 102


def test_source_of_seeds_that_repeats_itself_is_an_error_and_not_a_repetition(
    teaching_site: Site, place: School
) -> None:
    stuck = replace(teaching_site, new_seed=lambda: 100)
    meet(teaching_site, place, draw_one(stuck, place))
    with pytest.raises(Conflict, match="no new seed"):
        draw_one(stuck, place)


def test_few_seeds_are_enough_for_one_scenario(teaching_site: Site, place: School) -> None:
    assert draw_one(replace(teaching_site, new_seed=lambda: 101), place).seed == 100


def test_scenarios_of_one_attempt_differ_in_seed_and_variant(teaching_site: Site, place: School) -> None:
    drawn = drawn_for(teaching_site, place.apprentice, kind=AttemptKind.ASSESSED, wanted=[LONG_RUN] * 5)
    assert len({each.seed for each in drawn}) == len({each.fingerprint for each in drawn}) == 5


def test_start_is_tried_again_only_for_a_seed_taken_in_between(place: School) -> None:
    def refuse(constraint: str) -> UUID:
        tries.append(constraint)
        raise Duplicate("the same is already there", constraint=constraint)

    tries: list[str] = []
    for constraint, expected in (("uq_attempt_scenario_person_id_seed", 5), ("uq_attempt_one_open", 1)):
        tries.clear()
        with pytest.raises(Duplicate):
            started_with_new_seeds(lambda name=constraint: refuse(name))
        assert len(tries) == expected
    assert started_with_new_seeds(lambda: place.class_id) == place.class_id


def test_every_scenario_keeps_the_versions_that_it_was_drawn_with(teaching_site: Site, place: School) -> None:
    drawn = draw_one(teaching_site, place)
    assert (drawn.content_version, drawn.policy_version) == (
        steps.content().families["long-run"].content_version,
        steps.content().policy.version,
    )


def test_a_reader_of_inches_gets_sizes_that_a_tape_in_inches_has(teaching_site: Site, place: School) -> None:
    for units in UnitSystem:
        accounts.change_preferences(teaching_site, place.apprentice, units=units, language=Language.ENGLISH)
        (drawn,) = drawn_for(
            teaching_site,
            place.apprentice,
            kind=AttemptKind.PRACTICE,
            wanted=[Wanted(family="long-run", difficulty=0.0)],
        )
        family = teaching_site.content.family("long-run", edition=units)
        assert drawn.content_version == family.content_version
