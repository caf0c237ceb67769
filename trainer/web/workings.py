"""A worked solution as its page shows it: formula, numbers in both unit systems, rule of thumb, caution."""

from collections.abc import Sequence
from dataclasses import dataclass

from flask_babel import gettext

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import RuleOfThumb, SolutionStep, Verdict
from trainer.web.figures import as_written, sentence, shown_in_both, wording_system
from trainer.web.preferences import language
from trainer.wording.both_systems import can_be_converted, in_system, other_system, system_of
from trainer.wording.lines_of_working import line_of_working
from trainer.wording.quantities import UnitSystem


@dataclass(frozen=True, kw_only=True)
class WorkingStep:
    """One step in words; `other` is the line of numbers in the units that the reader does not use."""

    what: str
    formula: str
    in_words: str
    numbers: str
    other: str
    thumb: str
    rule: str
    caution: str


def working_steps(steps: Sequence[SolutionStep]) -> tuple[WorkingStep, ...]:
    """All steps of a worked solution."""
    return tuple(_step(each) for each in steps)


def _step(step: SolutionStep) -> WorkingStep:
    numbers, other = _both_lines(step)
    told = sentence if can_be_converted(step.numbers) else as_written
    return WorkingStep(
        what=sentence(step.what),
        formula=told(step.formula),
        in_words=told(step.words),
        numbers=numbers,
        other=other,
        thumb=_thumb_words(step.thumb) if step.thumb is not None else "",
        rule=sentence(step.rule),
        caution=sentence(step.caution),
    )


def _both_lines(step: SolutionStep) -> tuple[str, str]:
    """Numbers and result in the reader's units, and in the others where those are other numbers."""
    own, numbers, result = wording_system(), as_written(step.numbers), as_written(step.result)
    line = line_of_working(numbers, result)
    system = system_of(line)
    if system is None:
        return line, ""
    if not can_be_converted(numbers):
        return line, _in_other(result, step) if system is own else ""
    if system is not own:
        return in_system(line, system=own, figures=step.figures, language=language()), line
    return line, _in_other(line, step)


def _in_other(text: str, step: SolutionStep) -> str:
    """The text in the units that the reader does not use; nothing where it is the same."""
    system = other_system(wording_system())
    told = in_system(text, system=system, figures=step.figures, language=language())
    return "" if told == text else told


def other_units_words() -> str:
    """What stands before a line in the units that the reader does not use."""
    if wording_system() is UnitSystem.METRIC:
        return gettext("In inches and pounds:")
    return gettext("In metric units:")


def _thumb_words(thumb: RuleOfThumb) -> str:
    """The rule of thumb, what it comes to here, and whether the working agrees with it."""
    says = _with_ends(thumb)
    if thumb.verdict is None:
        return gettext("Rule of thumb: %(says)s.", says=says)
    if thumb.verdict is Verdict.AGREES:
        return gettext("Rule of thumb: %(says)s. The answer agrees with it.", says=says)
    if thumb.is_unsafe and thumb.verdict is Verdict.GIVES_LESS:
        return gettext(
            "Rule of thumb: %(says)s. The answer disagrees: the rule gives less than is needed here.",
            says=says,
        )
    if thumb.is_unsafe:
        return gettext(
            "Rule of thumb: %(says)s. The answer disagrees: the rule gives more than there is here.",
            says=says,
        )
    if thumb.verdict is Verdict.GIVES_LESS:
        return gettext(
            "Rule of thumb: %(says)s. The answer disagrees: the rule gives less, the safe side here.",
            says=says,
        )
    return gettext(
        "Rule of thumb: %(says)s. The answer disagrees: the rule gives more, safe here but wasteful.",
        says=says,
    )


def _with_ends(thumb: RuleOfThumb) -> str:
    says = sentence(thumb.says)
    if thumb.dimension is None:
        return says
    low, high = (_amount(each, thumb.dimension) for each in (thumb.low, thumb.high))
    if low and high and low != high:
        return gettext("%(says)s, here %(low)s to %(high)s", says=says, low=low, high=high)
    return gettext("%(says)s, here %(amount)s", says=says, amount=low or high)


def _amount(value: float | None, dimension: Dimension) -> str:
    return "" if value is None else shown_in_both(value, dimension)
