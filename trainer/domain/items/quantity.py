"""Quantity items: one number with a unit, scored by its ratio to the key.

The unsafe side reaches zero exactly where the core says that the outcome fails, so that the score and the
replay of the person's own set-up cannot disagree.
"""

from collections.abc import Sequence
from math import exp, hypot, inf, log

from trainer.domain.items import why as words
from trainer.domain.scenario import Item, ItemOutcome, QuantityBand

UNSAFE_BAND_SHARE = 0.9  # of the way to the failing ratio, where the band would reach beyond it
# Where the band reaches beyond the safe zero, the marks still fall over a stretch: with a step from 1 to 0
# the last digit of another unit would decide.
LEAST_FALL = 1.5
COVERAGE = 2.0  # k of a 95 % interval, as the GUM takes it for a normal distribution

# Wrong factors that give an answer away: what was mixed up, and by how much the answer is then off.
UNIT_SLIPS = (
    ("feet and metres mixed up", 3.281),
    ("cubic feet an hour and litres a minute mixed up", 2.119),
    ("minutes and seconds, or minutes and hours, mixed up", 60.0),
    ("inches and millimetres mixed up", 25.4),
    ("pounds per square inch and kilopascals mixed up", 6.895),
    ("radius and diameter mixed up, or a double counted", 2.0),
    ("radius taken for diameter in an area", 4.0),
)


def band_ratio(relative_uncertainties: Sequence[float]) -> float:
    """U = exp(k sqrt(sum s_i^2)): the band that input uncertainties of a product deserve."""
    return exp(COVERAGE * hypot(*relative_uncertainties))


def score_quantity(band: QuantityBand, response: float) -> float:
    """Full marks inside the band, then linear in the log of the ratio; 0 from the failing ratio on."""
    if response <= 0.0 or band.unsafe_zero_ratio <= 1.0:
        return 0.0
    towards_safe = log(response / band.key) if band.more_is_safer else log(band.key / response)
    inside = log(band.band_ratio)
    if towards_safe >= 0.0:
        return _falling(towards_safe, start=inside, end=max(log(band.safe_zero_ratio), LEAST_FALL * inside))
    fails = log(band.unsafe_zero_ratio)
    if -towards_safe >= fails:
        return 0.0
    return _falling(-towards_safe, start=min(inside, UNSAFE_BAND_SHARE * fails), end=fails)


def unit_slip(band: QuantityBand, response: float) -> str | None:
    """What was mixed up, where the ratio to the key is that of two units or of radius and diameter."""
    if response <= 0.0:
        return None
    off = abs(log(response / band.key))
    slips = [(abs(off - log(factor)), name) for name, factor in UNIT_SLIPS]
    distance, name = min(slips)
    return name if distance <= log(band.band_ratio) and off > log(band.band_ratio) else None


def quantity_outcome(
    item: Item, *, band: QuantityBand, response: float | None, traps: Sequence[tuple[float, str]]
) -> ItemOutcome:
    """The outcome of one response; `traps` are the wrong values (SI) with the belief behind each."""
    if response is None:
        return ItemOutcome(item_id=item.id, score=0.0, correct=False, answered=False, why=(words.UNANSWERED,))
    score = score_quantity(band, response)
    beliefs = () if score >= 1.0 else _beliefs(band, response, traps)
    return ItemOutcome(
        item_id=item.id,
        score=score,
        correct=score >= 1.0,
        answered=True,
        why=(_why(band, response, score),),
        misconceptions=beliefs,
    )


def full_marks_between(band: QuantityBand) -> tuple[float, float]:
    """The SI interval that scores 1, lowest first."""
    safe = band.band_ratio
    unsafe = exp(min(log(band.band_ratio), UNSAFE_BAND_SHARE * log(band.unsafe_zero_ratio)))
    ends = (
        (band.key / unsafe, band.key * safe) if band.more_is_safer else (band.key / safe, band.key * unsafe)
    )
    return (min(ends), max(ends))


def _falling(value: float, *, start: float, end: float) -> float:
    if value <= start:
        return 1.0
    return 0.0 if value >= end else 1.0 - (value - start) / (end - start)


def _beliefs(band: QuantityBand, response: float, traps: Sequence[tuple[float, str]]) -> tuple[str, ...]:
    """The nearest trap within the band, else the units that may have been mixed up."""
    if response <= 0.0:
        return ()
    near = [(abs(log(response / value)), belief) for value, belief in traps if 0.0 < value < inf]
    hits = [each for each in near if each[0] <= log(band.band_ratio)]
    if hits:
        return (min(hits)[1],)
    slip = unit_slip(band, response)
    return () if slip is None else (slip,)


def _why(band: QuantityBand, response: float, score: float) -> str:
    if score >= 1.0:
        return words.IN_BAND
    is_safe = (response > band.key) == band.more_is_safer
    ratio = response / band.key
    some, none = (
        (words.SAFE, words.NOTHING_SAFE)
        if is_safe
        else (words.FAILS, words.NOTHING_FAILS)
        if score == 0.0
        else (words.LITTLE_LEFT, words.NOTHING_LITTLE_LEFT)
    )
    return some % {"ratio": f"{ratio:.2g}"} if ratio > 0.0 else none
