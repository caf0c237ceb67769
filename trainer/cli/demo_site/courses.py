"""The three modules that the school teaches, from whatever families the content has for their skills."""

from dataclasses import dataclass

from trainer.domain.modules import Blueprint, BlueprintRow
from trainer.domain.scenario import ItemKind
from trainer.services.site import Site


@dataclass(frozen=True, kw_only=True)
class Course:
    """One of the three modules: its title and blueprint."""

    title: str
    blueprint: Blueprint


def courses(site: Site) -> tuple[Course, Course, Course]:
    """The three modules, from whatever families the content has for their skills."""
    mark = site.content.policy.pass_mark_frac
    return (
        Course(
            title="Purge a joint alone",
            blueprint=_blueprint(site, ((3, 2, 0.2), (4, 1, 0.2), (6, 1, 0.2)), mark, minutes=90),
        ),
        Course(title="Air to breathe", blueprint=_blueprint(site, ((11, 3, 0.3),), mark, minutes=60)),
        Course(
            title="Sign-off: long runs and pits",
            blueprint=_blueprint(site, ((6, 2, 0.5), (11, 2, 0.5)), mark, minutes=120),
        ),
    )


def _blueprint(
    site: Site, rows: tuple[tuple[int, int, float], ...], pass_mark_frac: float, *, minutes: int
) -> Blueprint:
    return Blueprint(
        rows=tuple(
            BlueprintRow(
                skill=skill,
                families=_families(site, skill),
                count=count,
                difficulty=difficulty,
            )
            for skill, count, difficulty in rows
        ),
        pass_mark_frac=pass_mark_frac,
        time_limit_s=minutes * 60,
    )


def _families(site: Site, skill: int) -> tuple[str, ...]:
    """Those about the skill above all, else any that ask it; those with an explanation lead."""
    families = site.content.families
    about = [key for key, each in families.items() if each.skills[0] == skill]
    about = about or [key for key, each in families.items() if skill in each.skills]
    return tuple(sorted(about, key=lambda key: ItemKind.EXPLANATION not in families[key].item_kinds))
