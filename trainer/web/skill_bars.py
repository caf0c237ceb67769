"""Skills in bars and shades: the profile of one person, and the twelve of everybody in a class."""

from collections.abc import Sequence
from dataclasses import dataclass

from flask_babel import gettext, ngettext
from markupsafe import Markup

from trainer.domain.skills import SKILLS, skill
from trainer.domain.standing import SkillStanding, Standing
from trainer.drawing.bars import skill_bar
from trainer.services.class_results import ClassSkills
from trainer.web.figures import percent

_FULL_STEP = 4  # the darkest shade: the mark is reached


@dataclass(frozen=True, kw_only=True)
class SkillLine:
    """One skill of one person: the bar, a short line beside it, and the cells of the table behind it."""

    number: int
    name: str
    bar: Markup
    words: str
    share: str
    interval: str
    standing: str


@dataclass(frozen=True, kw_only=True)
class SkillProfile:
    """The twelve skills of one person and the mark that all are held to."""

    lines: tuple[SkillLine, ...]
    mark: str


@dataclass(frozen=True, kw_only=True)
class ShadedCell:
    """One skill of one person in a class: how much reached the mark, of how many, and the shade of that."""

    share: str
    count: str
    step: int  # 0: not tried; 1 to 4: lightest to darkest


@dataclass(frozen=True, kw_only=True)
class ShadedClass:
    """A class as a table of shades: the skills, a row for each person by name, and the class as a whole."""

    heads: tuple[tuple[int, str], ...]
    rows: tuple[tuple[str, str, tuple[ShadedCell, ...]], ...]  # id and name of a person, cells
    whole: tuple[ShadedCell, ...]
    steps: tuple[tuple[int, str], ...]


def skill_profile(standings: Sequence[SkillStanding]) -> SkillProfile:
    """The profile of one person."""
    return SkillProfile(lines=tuple(map(_line, standings)), mark=percent(standings[0].cut_frac))


def shaded_class(skills: ClassSkills) -> ShadedClass:
    """The skills of a class in shades."""
    cut = skills.whole[0].cut_frac
    return ShadedClass(
        heads=tuple((each.number, gettext(each.name)) for each in SKILLS),
        rows=tuple(
            (str(person.person_id), person.name, tuple(map(_cell, standings)))
            for person, standings in skills.rows
        ),
        whole=tuple(map(_cell, skills.whole)),
        steps=tuple((step, _step_words(step, cut)) for step in range(_FULL_STEP, -1, -1)),
    )


def _line(standing: SkillStanding) -> SkillLine:
    count, interval = standing.scenarios_count, standing.interval_frac
    bar = skill_bar(standing.share_frac, interval=interval, cut=standing.cut_frac, told=_bar_words(standing))
    return SkillLine(
        number=standing.skill,
        name=gettext(skill(standing.skill).name),
        bar=Markup(bar),
        words=_words(standing),
        share=gettext("%(right)s of %(count)s", right=standing.right_count, count=count) if count else "–",
        interval="–" if interval is None else _interval_words(*interval),
        standing=_standing_words(standing),
    )


def _words(standing: SkillStanding) -> str:
    if not standing.scenarios_count:
        return gettext("not tried yet")
    return gettext(
        "%(right)s of %(count)s: %(standing)s",
        right=standing.right_count,
        count=standing.scenarios_count,
        standing=_standing_words(standing),
    )


def _bar_words(standing: SkillStanding) -> str:
    if standing.interval_frac is None:
        return gettext("not tried yet")
    low, high = map(percent, standing.interval_frac)
    return gettext(
        "%(share)s, in nine cases of ten between %(low)s and %(high)s, from %(count)s scenarios",
        share=percent(standing.share_frac),
        low=low,
        high=high,
        count=standing.scenarios_count,
    )


def _standing_words(standing: SkillStanding) -> str:
    if not standing.scenarios_count:
        return gettext("not tried yet")
    return {
        Standing.NOT_SHOWN: gettext("not shown yet"),
        Standing.LIKELY: gettext("likely"),
        Standing.SHOWN: gettext("shown"),
    }[standing.standing]


def _interval_words(low: float, high: float) -> str:
    return gettext("%(low)s to %(high)s", low=percent(low), high=percent(high))


def _cell(standing: SkillStanding) -> ShadedCell:
    share = standing.share_frac
    if share is None:
        return ShadedCell(share="–", count="", step=0)
    count = ngettext("of %(num)s", "of %(num)s", standing.scenarios_count)
    return ShadedCell(share=percent(share), count=count, step=_step(share, standing.cut_frac))


def _step(share: float, cut: float) -> int:
    """The mark reached, else by thirds of the way to it."""
    return _FULL_STEP if share >= cut - 1e-9 else 1 + int((_FULL_STEP - 1) * share / cut)


def _step_words(step: int, cut: float) -> str:
    if step == 0:
        return gettext("not tried yet")
    low = cut * (step - 1) / (_FULL_STEP - 1)
    if step == _FULL_STEP:
        return gettext("%(mark)s and more: the mark is reached", mark=percent(cut))
    if step == 1:
        return gettext("below %(high)s", high=percent(cut / (_FULL_STEP - 1)))
    return gettext("from %(low)s", low=percent(low))
