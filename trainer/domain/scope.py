"""What a qualification covers, computed from what was done, and how a job is held against it.

Evidence widens a scope only where a purge was decided (dams, inlet and vent, or time): the diameters and
lengths reach as far beyond what was done as the site policy's ratios say.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from trainer.core.terms import MaterialGroup
from trainer.domain.policy import QualificationRules
from trainer.domain.reasons import Reason, reason
from trainer.domain.scenario import Answer, Marked, Scenario
from trainer.domain.set_up import DamKind, Place, SetUp

# The decisions that every purge between dams takes; each must be shown before anybody signs for one.
SKILLS_BEHIND_A_PURGE = (3, 4, 6)
SKILL_OF_AIR_TO_BREATHE = 11
# Spaces that are entered under a permit (the definition of 29 CFR 1910.146(b): large enough to enter, limited
# ways in or out, not meant for continuous occupancy). A room or a van is not one of them.
CONFINED_PLACES = frozenset({Place.PIT, Place.TRENCH, Place.VESSEL, Place.PIPE})


class JointSituation(StrEnum):
    """How the joint can be reached, which decides what dams can be used and got out again."""

    OPEN_END = "open end"
    LONG_RUN = "long run"
    COMPLEX_SPOOL = "complex spool"
    CLOSURE = "closure"


def joint_situation(set_up: SetUp) -> JointSituation | None:
    """The situation that the dams tell of; None where no dam is known.

    Common practice, no single source: paper that dissolves stays where nothing can be pulled out after the
    closure weld; tape or a plate shuts an open pipe end; foam and inflatable dams stand inside a run.
    """
    kinds = {each.kind for each in set_up.dams}
    if DamKind.SOLUBLE_PAPER in kinds:
        return JointSituation.CLOSURE
    if kinds & {DamKind.FOAM, DamKind.INFLATABLE}:
        return JointSituation.LONG_RUN
    if kinds & {DamKind.TAPE, DamKind.METAL_PLATE}:
        return JointSituation.OPEN_END
    return None


@dataclass(frozen=True, kw_only=True)
class Done:
    """What one scenario of an attempt shows: the set-up as the person left it, and the skills asked in it."""

    skills: tuple[int, ...]
    critical_skills: tuple[int, ...]  # skills in which something critical could be missed
    material: MaterialGroup | None = None
    gas: str | None = None
    outside_diameter_m: float | None = None
    section_length_m: float | None = None
    situation: JointSituation | None = None
    confined_space: bool = False

    @property
    def decides_a_purge(self) -> bool:
        """Whether a decision about the purge itself was asked."""
        return any(each in SKILLS_BEHIND_A_PURGE for each in self.skills)


def done_in(scenario: Scenario, *, marked: Marked) -> Done:
    """What a marked scenario shows, from the person's own set-up where it could be put together."""
    set_up = marked.own_set_up or scenario.set_up
    run = marked.run
    skills = {each.skill for each in scenario.items}
    place = set_up.surroundings.kind if set_up.surroundings else None
    return Done(
        skills=tuple(sorted(skills)),
        critical_skills=tuple(sorted({
            each.skill for each in scenario.items if _can_fail_critically(scenario.answers[each.id])
        })),
        material=set_up.material,
        gas=set_up.gas.symbol if set_up.gas else None,
        outside_diameter_m=run.pipe.outside_diameter_m if run and run.pipe else None,
        section_length_m=run.section.length_m if run and run.section else None,
        situation=joint_situation(set_up),
        confined_space=SKILL_OF_AIR_TO_BREATHE in skills and place in CONFINED_PLACES,
    )  # fmt: skip


def _can_fail_critically(answer: Answer) -> bool:
    return answer.critical or any(each.is_hazard and each.critical for each in answer.hazards)


@dataclass(frozen=True, kw_only=True)
class Scope:
    """What a person may do; diameters are outside diameters, and the ends of each range are included."""

    materials: tuple[MaterialGroup, ...]
    gases: tuple[str, ...]
    outside_diameter_from_m: float
    outside_diameter_to_m: float
    section_length_to_m: float
    situations: tuple[JointSituation, ...]
    confined_space: bool


def scope_gaps(done: Sequence[Done], *, rules: QualificationRules) -> tuple[Reason, ...]:
    """What the evidence lacks for any scope at all: a part nothing was shown for, or too few scenarios."""
    purges = [each for each in done if each.decides_a_purge]
    gaps = [reason("no-evidence-for", part=part) for part, shown in _parts(purges).items() if not shown]
    skills = {skill for each in done for skill in each.skills}
    gaps += [reason("skill-not-shown", skill=each) for each in SKILLS_BEHIND_A_PURGE if each not in skills]
    need = rules.scenarios_behind_a_critical
    gaps += [
        reason("too-few-scenarios-behind-a-critical", skill=skill, have=have, need=need)
        for skill, have in sorted(scenarios_behind_criticals(done).items())
        if have < need
    ]
    return tuple(gaps)


def scenarios_behind_criticals(done: Sequence[Done]) -> Mapping[int, int]:
    """How many scenarios ask each skill in which the evidence holds anything critical.

    Whether a draw shows a critical hazard is chance, and a scene without one asks for the same look: so every
    scenario that asks the skill counts, once any of them could have been failed critically.
    """
    critical = sorted({skill for each in done for skill in each.critical_skills})
    return {skill: sum(skill in each.skills for each in done) for skill in critical}


def confined_space_gap(
    done: Sequence[Done], *, seen_in_booth: bool, rules: QualificationRules
) -> tuple[Reason, ...]:
    """Why evidence that touches confined spaces does not carry the endorsement; empty where it does, and
    where nothing was asked of them at all."""
    have, need = sum(each.confined_space for each in done), rules.scenarios_behind_a_critical
    if have == 0 and not seen_in_booth:
        return ()
    gap = [] if have >= need else [reason("confined-space-scenarios-too-few", have=have, need=need)]
    return (*gap, *(() if seen_in_booth else (reason("confined-space-not-observed"),)))


def _parts(purges: Sequence[Done]) -> dict[str, bool]:
    return {
        "material": any(each.material for each in purges),
        "gas": any(each.gas for each in purges),
        "diameter": any(each.outside_diameter_m for each in purges),
        "length": any(each.section_length_m for each in purges),
        "joint situation": any(each.situation for each in purges),
    }


def scope_from(done: Sequence[Done], *, confined_space_seen: bool, rules: QualificationRules) -> Scope:
    """The scope that the evidence carries; raises ValueError where `scope_gaps` names a missing part.

    The endorsement for confined spaces takes both: air to breathe shown in as many scenarios set in one as
    stand behind a critical, and an observation made in one.
    """
    purges = [each for each in done if each.decides_a_purge]
    diameters = [each.outside_diameter_m for each in purges if each.outside_diameter_m]
    lengths = [each.section_length_m for each in purges if each.section_length_m]
    return Scope(
        materials=tuple(sorted({each.material for each in purges if each.material})),
        gases=tuple(sorted({each.gas for each in purges if each.gas})),
        outside_diameter_from_m=min(diameters) * rules.diameter_from_ratio,
        outside_diameter_to_m=max(diameters) * rules.diameter_to_ratio,
        section_length_to_m=max(lengths) * rules.length_to_ratio,
        situations=tuple(sorted({each.situation for each in purges if each.situation})),
        confined_space=confined_space_seen
        and not confined_space_gap(done, seen_in_booth=confined_space_seen, rules=rules),
    )


@dataclass(frozen=True, kw_only=True)
class Job:
    """A job that somebody is to be put on; what is None is not asked for."""

    material: MaterialGroup
    gas: str
    outside_diameter_m: float
    section_length_m: float | None = None
    situation: JointSituation | None = None
    confined_space: bool = False


def outside_scope(scope: Scope, *, job: Job) -> tuple[Reason, ...]:
    """Why a scope does not cover a job, one reason for each part; empty where it does."""
    reasons = []
    if job.material not in scope.materials:
        reasons.append(reason("material-outside-scope", asked=job.material))
    if job.gas not in scope.gases:
        reasons.append(reason("gas-outside-scope", asked=job.gas))
    if not scope.outside_diameter_from_m <= job.outside_diameter_m <= scope.outside_diameter_to_m:
        reasons.append(
            reason(
                "diameter-outside-scope",
                asked_m=job.outside_diameter_m,
                from_m=scope.outside_diameter_from_m,
                to_m=scope.outside_diameter_to_m,
            )
        )
    if job.section_length_m is not None and job.section_length_m > scope.section_length_to_m:
        reasons.append(
            reason("length-outside-scope", asked_m=job.section_length_m, to_m=scope.section_length_to_m)
        )
    if job.situation is not None and job.situation not in scope.situations:
        reasons.append(reason("joint-situation-outside-scope", asked=job.situation))
    if job.confined_space and not scope.confined_space:
        reasons.append(reason("no-confined-space-endorsement"))
    return tuple(reasons)


def still_carries(scope: Scope, *, awarded: Scope) -> bool:
    """Whether a scope computed anew reaches as far as the one that was awarded, in every part."""
    return (
        set(awarded.materials) <= set(scope.materials)
        and set(awarded.gases) <= set(scope.gases)
        and set(awarded.situations) <= set(scope.situations)
        and scope.outside_diameter_from_m <= awarded.outside_diameter_from_m
        and scope.outside_diameter_to_m >= awarded.outside_diameter_to_m
        and scope.section_length_to_m >= awarded.section_length_to_m
        and scope.confined_space >= awarded.confined_space
    )
