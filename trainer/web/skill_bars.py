"""The twelve skills, a line each: the bar in neutral ink and the count behind it."""

from collections.abc import Sequence
from dataclasses import dataclass

from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.skills import skill
from trainer.domain.standing import SkillStanding
from trainer.drawing.bars import skill_bar
from trainer.web.preferences import drawing_reader


@dataclass(frozen=True, kw_only=True)
class SkillLine:
    """One skill of one person."""

    number: int
    name: str
    bar: Markup
    words: str


def skill_lines(standings: Sequence[SkillStanding], *, cut: float) -> list[SkillLine]:
    """A line for each skill."""
    return [_line(each, cut) for each in standings]


def _line(standing: SkillStanding, cut: float) -> SkillLine:
    count = standing.scenarios_count
    share = standing.right_count / count if count else None
    bar = skill_bar(share, cut=cut, count=count, reader=drawing_reader(f"skill-{standing.skill}"))
    words = (
        gettext("%(right)s of %(count)s scenarios reached the mark", right=standing.right_count, count=count)
        if count
        else gettext("not tried yet")
    )
    return SkillLine(number=standing.skill, name=skill(standing.skill).name, bar=Markup(bar), words=words)
