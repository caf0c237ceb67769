"""What somebody expects who has met the easiest scenarios of a family only: which option was right there."""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from trainer.domain.scenario import Item, Scenario

_NUMBERS = re.compile(r"\d[\d .,/]*")


@dataclass(frozen=True)
class Habits:
    """How often each option, by its words without their numbers, was right."""

    right: Counter[tuple[str, str]]

    def expected(self, item: Item) -> str | None:
        """The option that was right most often among those offered; None where none of them ever was."""
        ranked = [(self.right[item.id, words_of(each.text)], each.id) for each in item.options]
        often, option = max(ranked, default=(0, ""))
        return option if often else None


def habits_from(scenarios: Iterable[Scenario]) -> Habits:
    """The habits that these scenarios leave behind."""
    return Habits(
        Counter(
            (item.id, words_of(option.text))
            for scenario in scenarios
            for item in scenario.items
            for option in item.options
            if option.id == scenario.answers[item.id].key
        )
    )


def words_of(text: str) -> str:
    """A text without its numbers: the same decision in other sizes is the same habit."""
    return _NUMBERS.sub("#", text)
