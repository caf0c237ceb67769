"""Reading items: what a drawn instrument shows, scored by the distance in what it measures."""

from trainer.domain.items import why as words
from trainer.domain.scenario import Item, ItemOutcome, ReadingBand


def score_reading(band: ReadingBand, *, key: float, response: float) -> float:
    """max(0, 1 - max(0, |x - k| - t) / (D - t)): full marks within t of the key, none from D away on."""
    beyond = max(0.0, abs(response - key) - band.tolerance)
    return max(0.0, 1.0 - beyond / (band.zero_at - band.tolerance))


def reading_outcome(item: Item, *, band: ReadingBand, key: float, response: float | None) -> ItemOutcome:
    """The outcome of one reading that was answered as a quantity."""
    if response is None:
        return ItemOutcome(item_id=item.id, score=0.0, correct=False, answered=False, why=(words.UNANSWERED,))
    score = score_reading(band, key=key, response=response)
    if score >= 1.0:
        why = words.READ_CLOSELY
    else:
        why = words.READ_TOO_HIGH if response > key else words.READ_TOO_LOW
    return ItemOutcome(item_id=item.id, score=score, correct=score >= 1.0, answered=True, why=(why,))
