"""Items as an instructor reads them: how hard, how well they tell people apart, what was answered."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from flask_babel import gettext
from markupsafe import Markup

from trainer.domain.item_statistics import Advice, ItemStatistics
from trainer.domain.skills import skill
from trainer.drawing.bars import share_bar
from trainer.drawing.item_plot import ItemMark, item_plot
from trainer.web.figures import number_shown, percent, why_shown
from trainer.web.preferences import drawing_reader


@dataclass(frozen=True, kw_only=True)
class AnswerShare:
    """One thing that was answered: its words, how often, and the bar of that."""

    words: str
    count: int
    bar: Markup


@dataclass(frozen=True, kw_only=True)
class ItemLine:
    """One item in the table."""

    number: int
    family: str
    asks_what: str
    skill: str
    count: int
    difficulty: str
    discrimination: str
    asks: bool
    waits: bool
    advice: str
    answers: tuple[AnswerShare, ...]


@dataclass(frozen=True, kw_only=True)
class ItemTable:
    """The plot, where enough items have both figures, and the lines: those that ask for a look come first."""

    plot: Markup | None
    lines: tuple[ItemLine, ...]

    @property
    def asking(self) -> tuple[ItemLine, ...]:
        """Those that ask for a look."""
        return tuple(each for each in self.lines if each.asks)

    @property
    def judged(self) -> tuple[ItemLine, ...]:
        """Those with answers enough to say something of them."""
        return tuple(each for each in self.lines if not each.waits)

    @property
    def waiting(self) -> tuple[ItemLine, ...]:
        """Those with too few, of which a school that begins has hundreds."""
        return tuple(each for each in self.lines if each.waits)


def item_table(
    found: Sequence[ItemStatistics], *, titles: Mapping[str, str], asked: Mapping[tuple[str, str], str]
) -> ItemTable:
    """The statistics with words; titles are those of the families, and `asked` is what their items ask."""
    marks = [
        ItemMark(
            number=number,
            difficulty_frac=each.difficulty_frac,
            discrimination=each.discrimination,
            asks=each.advice.asks,
        )
        for number, each in enumerate(found, start=1)
        if each.difficulty_frac is not None and each.discrimination is not None
    ]
    plot = Markup(item_plot(marks, reader=drawing_reader("items"))) if marks else None
    lines = (_line(number, each, titles, asked) for number, each in enumerate(found, start=1))
    return ItemTable(plot=plot, lines=tuple(lines))


def _line(
    number: int, item: ItemStatistics, titles: Mapping[str, str], asked: Mapping[tuple[str, str], str]
) -> ItemLine:
    few = gettext("not enough answers yet")
    return ItemLine(
        number=number,
        family=titles.get(item.family, item.family),
        asks_what=asked.get((item.family, item.item_id), item.item_id),
        skill=f"{item.skill} {gettext(skill(item.skill).name)}",
        count=item.answers_count,
        difficulty=few if item.difficulty_frac is None else percent(item.difficulty_frac),
        discrimination=few if item.discrimination is None else number_shown(item.discrimination, ".2f"),
        asks=item.advice.asks,
        waits=item.advice is Advice.WAIT,
        advice=_advice_words(item.advice),
        answers=_answers(item),
    )


def _answers(item: ItemStatistics) -> tuple[AnswerShare, ...]:
    counts = [(gettext("full marks"), item.right_count)]
    counts += [(why_shown(belief), count) for belief, count in item.beliefs]
    if item.other_count:
        counts.append((gettext("other answers"), item.other_count))
    if item.unanswered_count:
        counts.append((gettext("not answered"), item.unanswered_count))
    return tuple(_answer(words, count, item.answers_count) for words, count in counts)


def _answer(words: str, count: int, of_count: int) -> AnswerShare:
    told = gettext("%(count)s of %(all)s", count=count, all=of_count)
    return AnswerShare(words=words, count=count, bar=Markup(share_bar(count / of_count, told=told)))


def _advice_words(advice: Advice) -> str:
    return {
        Advice.CHECK_KEY: gettext(
            "Those who do well elsewhere get this wrong. Look at the key and the wording first; leave it out"
            " of modules until then."
        ),
        Advice.TOO_HARD: gettext(
            "Nearly everybody fails. Teach it, or check that the question can be understood."
        ),
        Advice.WEAK: gettext(
            "So far it hardly tells who is good. Read what was answered: two answers may both be defensible."
        ),
        Advice.TOO_EASY: gettext(
            "Nearly everybody is right. Good enough as a check on danger; it measures nothing more."
        ),
        Advice.FINE: gettext("Nothing to do."),
        Advice.WAIT: gettext("Wait: fewer than ten answers say nothing."),
    }[advice]
