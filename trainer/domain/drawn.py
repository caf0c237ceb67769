"""One draw in the making: what was drawn, the right set-up so far, and the core to ask about it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import floor, log10
from typing import Any

from trainer.domain.core_results import CoreResults
from trainer.domain.family import RIGHT, Amount, Figure, ResultOf, ScenarioFamily, Value
from trainer.domain.policy import Policy
from trainer.domain.quantities import NEVER, Never
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import value_at, with_values
from trainer.domain.templates import FamilyFault, Said, filled, names_in, sentence, set_up_values

_FIGURES_THAT_DECIDE = (
    6  # a result that decides a draw is rounded to so many, to be the same on every machine
)


class Rejected(Exception):
    """This draw breaks a constraint and is thrown away."""


@dataclass(kw_only=True)
class Drawn:
    """The drawn values by name; `right` is the set-up with the keys known so far."""

    family: ScenarioFamily
    difficulty: float
    values: Mapping[str, Value]
    policy: Policy
    right: SetUp = field(default_factory=SetUp)
    core: CoreResults = field(init=False)
    _made: dict[str, SetUp] = field(default_factory=dict)
    _said: dict[str, str] = field(default_factory=dict)
    _told: dict[str, dict[str, Any]] = field(default_factory=dict)  # what variants set, whatever is right

    def __post_init__(self) -> None:
        self.core = CoreResults(self.policy)

    def go_on_from(self, right: SetUp) -> None:
        """From here on this is the right set-up, and the variants and figures are those of it."""
        if right is not self.right:
            self.right = right
            self._made.clear()
            self._said.clear()

    def named(self, name: str) -> SetUp:
        """The right set-up, or one of the family's variants of it."""
        if name in ("", RIGHT):
            return self.right
        if name not in self._made:
            self._made[name] = self._variant(name)
        return self._made[name]

    def _variant(self, name: str) -> SetUp:
        variant = self.family.variants[name]
        if name not in self._told:
            self._told[name] = set_up_values(variant.set_up, self.values)
        changed = with_values(self.right, self._told[name])
        copied = {path: value_at(self.right, source) for path, source in variant.copied.items()}
        derived = {path: self._derived(source) for path, source in variant.derived.items()}
        return with_values(changed, {**copied, **derived})

    def result(self, source: ResultOf) -> float | str | Never:
        """A core result that decides something: rounded to 6 figures."""
        found = [self.core.result(self.named(name), source.result) for name in (source.of, *source.others)]
        if isinstance(found[0], str):
            return found[0]
        numbers = [each for each in found if isinstance(each, float)]
        return rounded(min(numbers) * self._times(source)) if numbers else NEVER

    def _times(self, source: ResultOf) -> float:
        return float(filled(source.times, self.values))

    def _derived(self, source: ResultOf) -> float:
        found = self.result(source)
        if not isinstance(found, float):
            raise Rejected(f"{source.result} of {source.of} is no number to go on from")
        return found

    def amount(self, template: Value) -> float:
        """The SI value of an amount or of a drawn one."""
        if isinstance(template, ResultOf):
            return self._derived(template)
        value = filled(template, self.values)
        if isinstance(value, Amount):
            return value.value
        if isinstance(value, int | float):
            return float(value)
        raise FamilyFault(f"{template!s} is not a number with its unit")

    def figures(self, text: str) -> Said:
        """A text of the worked solution, with draws and figures of the core filled in."""
        used = {name: self.figure(name) for name in names_in(text) if name in self.family.figures}
        return sentence(text, {**self.values, **used} if used else self.values)

    def figure(self, name: str) -> str:
        """A figure of the family in words."""
        if name not in self._said:
            self._said[name] = self._figure(self.family.figures[name])
        return self._said[name]

    def _figure(self, figure: Figure) -> str:
        value = self.core.end(self.named(figure.source.of), figure.source.result, end=figure.end)
        if isinstance(value, str):
            return value
        if isinstance(value, Never):
            return "never"
        in_unit = (value * self._times(figure.source) - figure.si_offset) / figure.si_per_unit
        return f"{shown_number(in_unit, digits=figure.digits)} {figure.unit}".strip()


def rounded(value: float, *, figures: int = _FIGURES_THAT_DECIDE) -> float:
    """The value to so many significant figures."""
    return float(f"{value:.{figures - 1}e}")


def shown_number(value: float, *, digits: int) -> str:
    """The value to so many significant digits, never in powers of ten."""
    if value == 0.0:
        return "0"
    places = max(0, digits - 1 - floor(log10(abs(rounded(value, figures=digits)))))
    return f"{rounded(value, figures=digits):.{places}f}"
