"""The three modules that the school teaches."""

from dataclasses import dataclass

from trainer.domain.modules import Blueprint, BlueprintRow
from trainer.domain.policy import Policy

# What the school teaches each skill with; the library holds more, for practice.
_FAMILIES = {
    3: ("long-run", "near-the-end", "hot-work"),
    4: ("end-plates", "column-nozzle"),
    6: ("plates-already-drilled",),
    11: ("pump-pit",),
}


@dataclass(frozen=True, kw_only=True)
class Course:
    """One of the three modules: its title and blueprint."""

    title: str
    blueprint: Blueprint


def courses(policy: Policy) -> tuple[Course, Course, Course]:
    """The three modules, with the pass mark of the policy."""
    mark = policy.pass_mark_frac
    return (
        Course(
            title="Purge a joint alone",
            # three with cylinders and fire about: a qualification wants as many behind what is critical
            blueprint=_blueprint(((3, 3, 0.2), (4, 1, 0.2), (6, 1, 0.2)), mark, minutes=110),
        ),
        Course(title="Air to breathe", blueprint=_blueprint(((11, 3, 0.3),), mark, minutes=60)),
        Course(
            title="Sign-off: long runs and pits",
            blueprint=_blueprint(((6, 2, 0.5), (11, 2, 0.5)), mark, minutes=120),
        ),
    )


def _blueprint(rows: tuple[tuple[int, int, float], ...], pass_mark_frac: float, *, minutes: int) -> Blueprint:
    return Blueprint(
        rows=tuple(
            BlueprintRow(
                skill=skill,
                families=_FAMILIES[skill],
                count=count,
                difficulty=difficulty,
            )
            for skill, count, difficulty in rows
        ),
        pass_mark_frac=pass_mark_frac,
        time_limit_s=minutes * 60,
    )
