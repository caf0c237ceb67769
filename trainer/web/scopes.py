"""A scope, a state and a list of reasons in words."""

from collections.abc import Iterable

from flask_babel import gettext

from trainer.domain.qualifications import QualificationAct, QualificationState
from trainer.domain.quantities import Dimension
from trainer.domain.reasons import Reason
from trainer.domain.scope import Scope
from trainer.web.figures import shown
from trainer.web.gases import gas_words
from trainer.web.kinds import kind_words
from trainer.web.reasons import reason_words


def scope_rows(scope: Scope) -> list[tuple[str, str]]:
    """What a scope covers, line by line."""
    return [
        (gettext("Material"), ", ".join(kind_words(each) for each in sorted(scope.materials))),
        (gettext("Purge gas"), ", ".join(gas_words(each) for each in sorted(scope.gases))),
        (
            gettext("Outside diameter"),
            gettext(
                "%(low)s to %(high)s",
                low=shown(scope.outside_diameter_from_m, Dimension.LENGTH),
                high=shown(scope.outside_diameter_to_m, Dimension.LENGTH),
            ),
        ),
        (
            gettext("Length between dams"),
            gettext("up to %(high)s", high=shown(scope.section_length_to_m, Dimension.LENGTH)),
        ),
        (gettext("Joint situation"), ", ".join(kind_words(each) for each in sorted(scope.situations))),
        (
            gettext("Confined spaces"),
            gettext("endorsed") if scope.confined_space else gettext("not covered"),
        ),
    ]


def scope_line(scope: Scope) -> str:
    """A scope in one line of a table."""
    materials, gases, diameter = (words for _, words in scope_rows(scope)[:3])
    line = f"{materials}; {gases}; {diameter}"
    if not scope.confined_space:
        return line
    confined = gettext("confined spaces")
    return f"{line}; {confined}"


def state_words(state: QualificationState) -> str:
    """The state of a qualification in words."""
    return {
        QualificationState.IN_TRAINING: gettext("in training"),
        QualificationState.CURRENT: gettext("in force"),
        QualificationState.DUE: gettext("in force, due soon"),
        QualificationState.LAPSED: gettext("lapsed"),
        QualificationState.SUSPENDED: gettext("suspended"),
        QualificationState.REVOKED: gettext("revoked"),
    }[state]


def act_words(act: QualificationAct) -> str:
    """What was done to a qualification, in a word."""
    return {
        QualificationAct.AWARDED: gettext("awarded"),
        QualificationAct.CONFIRMED: gettext("confirmed"),
        QualificationAct.SUSPENDED: gettext("suspended"),
        QualificationAct.LIFTED: gettext("suspension lifted"),
        QualificationAct.REVOKED: gettext("revoked"),
    }[act]


def days_left_words(days: int) -> str:
    """How long something still lasts."""
    if days < 0:
        return gettext("over since %(days)s days", days=-days)
    if days == 0:
        return gettext("today is the last day")
    return gettext("%(days)s days left", days=days)


def reasons_words(reasons: Iterable[Reason]) -> list[str]:
    """Each reason as a sentence."""
    return [reason_words(each) for each in reasons]
