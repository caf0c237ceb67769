"""What can be wrong with a response as typed or sent, each with what to write instead."""

from collections.abc import Mapping


class ResponseFault(ValueError):
    """A response that cannot be read; nothing is scored or kept.

    `template % facts` is the message, the template what to translate.
    """

    def __init__(self, item_id: str, template: str, facts: Mapping[str, str] | None = None) -> None:
        self.item_id, self.template, self.facts = item_id, template, dict(facts or {})
        self.message = template % self.facts if self.facts else template
        super().__init__(f"{item_id}: {self.message}")


NO_SUCH_ITEM = "there is no such item; the items are %(known)s"
NO_QUANTITY = "%(typed)s is not a number with its unit. Write it like %(example)s."
NOT_ABOVE_ZERO = "'%(typed)s' is not above zero. Write it like %(example)s."
NO_PURGE = "'%(typed)s' is not above zero, and without any there is no purge."
NO_PLACES = "%(typed)s does not name a place for each of %(known)s."
NO_SUCH_PART = "there is nothing called %(typed)s; there is %(known)s."
PLACE_WITHOUT_UNIT = "%(part)s: %(typed)s has no unit. Write it like %(example)s."
PLACE_NO_NUMBER = "%(part)s: %(typed)s is not a number from %(low)s to %(high)s."
NOT_OF_THESE = "%(typed)s is not one of %(known)s."
NO_ORDER = "%(typed)s is not a list of steps in their order, of %(known)s."
TWICE = "%(typed)s stands in the order more than once."
NO_MARKS = "%(typed)s is not a list of at most %(most)s marks."
NO_MARK = "%(typed)s is neither an object nor a point with x from 0 to 800 and y from 0 to 420."
NO_TEXT = "%(typed)s is not a text; write a few sentences."
EMPTY_TEXT = "there is nothing to read in it; write a few sentences."
LONG_TEXT = "it has %(count)s characters; a few sentences have up to %(most)s."
STRANGE_SIGNS = "it holds signs that cannot be stored. Type it again by hand."
NO_STEPS = "%(typed)s is not a list of steps as they were taken, of %(known)s."
MANY_STEPS = "%(count)s steps were taken; at most %(most)s are."
OVER_BEFORE = "it was over before the last of these steps; no further one is taken."
STEPS_TAKEN_BACK = "Steps that were taken stand and cannot be taken back: %(steps)s. Go on from there."
OUTSIDE = "'%(typed)s' lies outside %(low)s to %(high)s."
OUTSIDE_ONE = "'%(typed)s' lies outside %(low)s."
PLACE_OUTSIDE = "%(part)s: '%(typed)s' lies outside %(low)s to %(high)s."


def messages() -> tuple[str, ...]:
    """Every template that a page can come to show, for those who translate them."""
    return (
        NO_QUANTITY, NOT_ABOVE_ZERO, NO_PURGE, PLACE_WITHOUT_UNIT, PLACE_NO_NUMBER, NOT_OF_THESE, EMPTY_TEXT,
        LONG_TEXT, STRANGE_SIGNS, MANY_STEPS, OVER_BEFORE, STEPS_TAKEN_BACK, OUTSIDE, OUTSIDE_ONE,
        PLACE_OUTSIDE,
    )  # fmt: skip
