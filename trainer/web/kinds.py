"""Members of enumerations in the reader's words."""

from enum import StrEnum

from flask_babel import gettext

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.domain.skills import SKILLS


def kind_words(kind: StrEnum | str) -> str:
    """A word of a set-up, a scope or a role; `cli/interface_words.py` lists which are translated."""
    return gettext(str(kind))


def attempt_kind_words(kind: AttemptKind) -> str:
    """What an attempt is for."""
    return {AttemptKind.PRACTICE: gettext("practice"), AttemptKind.ASSESSED: gettext("assessed")}[kind]


def attempt_state_words(state: AttemptState) -> str:
    """Where an attempt stands."""
    return {
        AttemptState.OPEN: gettext("open"),
        AttemptState.SUBMITTED: gettext("handed in"),
        AttemptState.EXPIRED: gettext("time ran out"),
        AttemptState.MARKED: gettext("marked"),
        AttemptState.SUPERSEDED: gettext("marked again"),
    }[state]


def skill_choices() -> list[tuple[str, str]]:
    """The twelve skills as a select offers them."""
    return [(str(each.number), f"{each.number} {gettext(each.name)}") for each in SKILLS]
