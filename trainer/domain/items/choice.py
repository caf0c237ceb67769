"""Choice items: one of several; right or wrong, each wrong option standing for a belief."""

from trainer.domain.items import why as words
from trainer.domain.own_jobs import OWN_ANSWER
from trainer.domain.scenario import Answer, Item, ItemOutcome


def choice_outcome(item: Item, *, answer: Answer, response: str | None) -> ItemOutcome:
    """1 for the key, 0 for anything else; a critical item answered wrongly fails the attempt."""
    is_right = response == answer.key
    belief = (answer.misconceptions or {}).get(response or "", "")
    beliefs = (belief,) if belief and not is_right else ()
    # of an instructor's own question the core was asked nothing, and is not said to have answered it
    is_own = any(each.what == OWN_ANSWER for each in answer.solution)
    if response is None:
        why = words.UNANSWERED
    elif is_right:
        why = words.AS_INSTRUCTED if is_own else words.AS_CALCULATED
    else:
        why = words.NOT_AS_INSTRUCTED if is_own else words.NOT_AS_CALCULATED
    return ItemOutcome(
        item_id=item.id,
        score=1.0 if is_right else 0.0,
        correct=is_right,
        answered=response is not None,
        why=(why,),
        misconceptions=beliefs,
        critical_missed=answer.critical and not is_right,
    )
