"""Fills in the worked solution of an item with the figures of the finished set-up."""

from collections.abc import Iterator

from trainer.domain.drawn import Drawn
from trainer.domain.family import Figure, ItemTemplate, StepTemplate, Value
from trainer.domain.item_templates import ThumbTemplate
from trainer.domain.quantities import Dimension
from trainer.domain.result_kinds import RESULTS
from trainer.domain.scenario import QuantityBand, RuleOfThumb, ShownFigure, SolutionStep, Verdict
from trainer.domain.set_up_paths import spec_at
from trainer.domain.templates import filled, names_in


def worked_solution(
    template: ItemTemplate, *, drawn: Drawn, band: QuantityBand | None
) -> tuple[SolutionStep, ...]:
    """The steps that take part at this difficulty, in order."""
    dimension = spec_at(template.sets[0]).dimension if band is not None else None
    return tuple(
        _step(each, drawn, band, dimension) for each in template.solution if each.span.holds(drawn.difficulty)
    )


def _step(
    template: StepTemplate, drawn: Drawn, band: QuantityBand | None, dimension: Dimension | None
) -> SolutionStep:
    return SolutionStep(
        what=drawn.figures(template.what),
        formula=drawn.figures(template.formula),
        words=drawn.figures(template.words),
        numbers=drawn.figures(template.numbers),
        result=drawn.figures(template.result),
        rule=drawn.figures(template.rule),
        thumb=None if template.thumb is None else _thumb(template.thumb, drawn, band, dimension),
        caution=drawn.figures(template.caution),
        figures=tuple(_figures(f"{template.numbers} {template.result}", drawn)),
    )


def _thumb(
    template: ThumbTemplate, drawn: Drawn, band: QuantityBand | None, dimension: Dimension | None
) -> RuleOfThumb:
    low, high = _end(template.low, drawn), _end(template.high, drawn)
    verdict = _verdict(low, high, band) if band is not None else None
    unsafe = None
    if band is not None:
        unsafe = Verdict.GIVES_LESS if band.more_is_safer else Verdict.GIVES_MORE
    return RuleOfThumb(
        says=drawn.figures(template.says),
        dimension=dimension if (low, high) != (None, None) else None,
        low=low,
        high=high,
        verdict=verdict,
        is_unsafe=verdict is not None and verdict is unsafe,
    )


def _end(template: Value, drawn: Drawn) -> float | None:
    return None if template is None else drawn.amount(template)


def _verdict(low: float | None, high: float | None, band: QuantityBand) -> Verdict | None:
    """Whether the key lies between the ends, give or take the band that the core's own uncertainty gives."""
    if low is None and high is None:
        return None
    if high is not None and band.key > high * band.band_ratio:
        return Verdict.GIVES_LESS
    return Verdict.GIVES_MORE if low is not None and band.key < low / band.band_ratio else Verdict.AGREES


def _figures(text: str, drawn: Drawn) -> Iterator[ShownFigure]:
    """Each figure that a text names and that has a unit, once."""
    for name in dict.fromkeys(names_in(text)):
        figure = drawn.family.figures.get(name)
        if figure is not None and (found := _shown_figure(name, figure, drawn)) is not None:
            yield found


def _shown_figure(name: str, figure: Figure, drawn: Drawn) -> ShownFigure | None:
    source, dimension = figure.source, RESULTS[figure.source.result].dimension
    value = drawn.core.end(drawn.named(source.of), source.result, end=figure.end)
    if dimension is None or not isinstance(value, float):
        return None
    return ShownFigure(
        text=drawn.figures(f"{{{name}}}"),
        value=value * float(filled(source.times, drawn.values)),
        dimension=dimension,
        digits=figure.digits,
    )
