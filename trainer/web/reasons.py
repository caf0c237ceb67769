"""Reasons of the domain in words: what is missing or refused, and what to do about it."""

from collections.abc import Mapping
from typing import Any

from flask_babel import gettext, lazy_gettext

from trainer.domain.errors import DomainError, Refused
from trainer.domain.quantities import Dimension
from trainer.domain.reasons import Reason, RefusedFor
from trainer.domain.skills import skill
from trainer.web.figures import shown

_WORDS: Mapping[str, Any] = {
    # people, roles and shares
    "starts-in-the-past": lazy_gettext("The first day lies in the past; a share starts today or later."),
    "basis-missing": lazy_gettext("Say on what basis the record is shared."),
    "consent-missing": lazy_gettext("Say where the person's consent is filed."),
    "role-does-not-fit": lazy_gettext("An organisation of this kind has no such role."),
    "ended-already": lazy_gettext("The role has ended already."),
    "last-day-too-early": lazy_gettext("The last day lies before the first, or in the past."),
    "last-administrator": lazy_gettext(
        "This is the last administrator: give the role to somebody else first."
    ),
    "belongs-elsewhere-too": lazy_gettext(
        "The person belongs to another organisation too, so the password is not yours to reset."
    ),
    # awards
    "award-to-oneself": lazy_gettext("Nobody signs for themselves: another instructor has to award this."),
    "signer-without-authority-today": lazy_gettext(
        "You hold no authority to sign today: your role here has ended."
    ),
    "no-passed-attempt": lazy_gettext("No passed assessed attempt was chosen."),
    "no-observation": lazy_gettext("No observation was chosen: record one made in the booth first."),
    "no-evidence-for": lazy_gettext("The chosen attempts show nothing for this part of the scope: %(part)s."),
    "skill-not-shown": lazy_gettext("The chosen attempts do not ask skill %(skill)s."),
    "too-few-scenarios-behind-a-critical": lazy_gettext(
        "Critical points of skill %(skill)s rest on %(have)s scenarios; %(need)s are needed against luck."
    ),
    "one-person-taught-and-decided": lazy_gettext("One person both taught and decided; the record says so."),
    # observations
    "observation-not-accepted": lazy_gettext("The observation was not accepted in the booth."),
    "observation-oxygen-over-limit": lazy_gettext(
        "Oxygen at strike was read as %(read_frac)s in the booth; the limit is %(limit_frac)s."
    ),
    "observation-root-sugared": lazy_gettext("The root came out sugared in the booth."),
    "observation-analyser-out-of-calibration": lazy_gettext(
        "The analyser's calibration had run out on %(until)s, before the observation."
    ),
    "observation-outside-scope": lazy_gettext(
        "What was seen in the booth lies outside the scope that the attempts carry: %(part)s."
    ),
    "attempt-does-not-count": lazy_gettext(
        "A chosen attempt is not a passed assessed one of this person here."
    ),
    "observed-by-somebody-else": lazy_gettext("You can only record what you saw yourself."),
    "observed-in-the-future": lazy_gettext("The observation lies in the future: %(day)s."),
    "observer-without-authority": lazy_gettext(
        "You were not an instructor here on %(day)s, or are not today, so the observation cannot stand."
    ),
    "reason-missing": lazy_gettext("Write the reason; it stays on the record."),
    "name-missing": lazy_gettext("Give it a name."),
    "score-out-of-range": lazy_gettext("A score lies between 0 and 1."),
    # grades
    "level-missing": lazy_gettext("Choose a level for: %(criterion)s."),
    "unknown-criterion": lazy_gettext("The rubric has no criterion %(criterion)s."),
    "comment-too-long": lazy_gettext("The comment is too long: up to %(most)s signs."),
    "comment-unreadable": lazy_gettext(
        "The comment holds signs that cannot be stored. Type it again by hand."
    ),
    # assignments
    "due-in-the-past": lazy_gettext("The due day %(due_on)s lies in the past."),
    "attempts-allowed-out-of-range": lazy_gettext("Allow 1 to %(most)s attempts."),
    # on paper
    "nothing-for-paper": lazy_gettext(
        "Everything in this module unfolds step by step, which paper cannot: give it on a screen."
    ),
    "nobody-to-print-for": lazy_gettext("Tick at least one apprentice, or ask for blank sheets."),
    "blank-sheets-out-of-range": lazy_gettext("Ask for 0 to %(most)s blank sheets."),
    "sat-in-the-future": lazy_gettext("The day %(day)s has not come yet."),
    "sat-before-printed": lazy_gettext("The sheet was printed on %(printed)s, so nobody sat it on %(day)s."),
    "keying-for-oneself": lazy_gettext(
        "Nobody keys in a sheet of their own: another instructor has to do it."
    ),
    "sheet-for-somebody-else": lazy_gettext("This person was not given the module, or no longer has it."),
    "attempts-used-up": lazy_gettext(
        "All attempts allowed have been made: %(made)s of %(allowed)s. Give the module again,"
        " then print anew."
    ),
    # jobs
    "no-qualification": lazy_gettext("There is no qualification: in training."),
    "not-in-force-that-day": lazy_gettext(
        "The qualification is %(state)s that day; its last day is %(last_day)s."
    ),
    "material-outside-scope": lazy_gettext("The material %(asked)s is not in the scope."),
    "gas-outside-scope": lazy_gettext("The gas %(asked)s is not in the scope."),
    "diameter-outside-scope": lazy_gettext(
        "The outside diameter %(asked_m)s lies outside %(from_m)s to %(to_m)s."
    ),
    "length-outside-scope": lazy_gettext("The section of %(asked_m)s is longer than %(to_m)s."),
    "joint-situation-outside-scope": lazy_gettext("The joint situation '%(asked)s' is not in the scope."),
    "no-confined-space-endorsement": lazy_gettext("There is no endorsement for confined spaces."),
    # modules
    "module-without-rows": lazy_gettext("A module needs at least one row."),
    "module-too-long": lazy_gettext(
        "The rows draw %(scenarios)s scenarios; up to %(most)s make one attempt."
    ),
    "pass-mark-out-of-range": lazy_gettext("The pass mark is above 0 and up to 1, such as 0.80."),
    "time-limit-out-of-range": lazy_gettext("The time limit lies between %(low)s and %(high)s."),
    "unknown-skill": lazy_gettext("Row %(row)s names a skill that there is not."),
    "row-count-out-of-range": lazy_gettext("Row %(row)s draws %(value)s scenarios; accepted: 1 to %(most)s."),
    "difficulty-out-of-range": lazy_gettext("Row %(row)s: difficulty lies between 0 and 1 in steps of 0.01."),
    "cut-out-of-range": lazy_gettext("Row %(row)s: the cut is above 0 and up to 1, such as 0.80."),
    "row-without-families": lazy_gettext("Row %(row)s names no scenario family."),
    "unknown-family": lazy_gettext("Row %(row)s names a scenario family that there is not."),
    "family-does-not-ask-skill": lazy_gettext(
        "Row %(row)s: the family '%(family)s' does not ask skill %(skill)s."
    ),
    "unknown-critical-item": lazy_gettext("The critical item '%(item)s' is in none of the families."),
}


def reason_words(because: Reason) -> str:
    """One reason as a sentence; an unknown code is shown as it is rather than hidden."""
    template = _WORDS.get(because.code)
    if template is None:
        return str(because)
    return str(template) % {name: _fact(name, value) for name, value in because.facts}


def refusal_words(error: DomainError) -> list[str]:
    """Why something was refused, a line a reason."""
    if isinstance(error, RefusedFor):
        return [reason_words(each) for each in error.because]
    if isinstance(error, Refused):
        return [str(_WORDS.get(each, each)) for each in error.reasons]
    return [_sentence(str(error))]


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}." if text and text[-1] not in ".?" else text


def part_words(code: str) -> str:
    """What a part of a scope is called, where a reason names another reason's code."""
    return {
        "material-outside-scope": gettext("material"),
        "gas-outside-scope": gettext("gas"),
        "diameter-outside-scope": gettext("diameter"),
        "length-outside-scope": gettext("length"),
        "joint-situation-outside-scope": gettext("joint situation"),
        "no-confined-space-endorsement": gettext("confined space"),
    }.get(code, code)


def _fact(name: str, value: str | int | float) -> str:
    if name == "part":
        return part_words(str(value))
    if name == "skill":
        return f"{value} ({gettext(skill(int(value)).name)})" if 1 <= int(value) <= 12 else str(value)
    if name.endswith("_m"):
        return shown(float(value), Dimension.LENGTH)
    if name.endswith("_frac"):
        return shown(float(value), Dimension.FRACTION)
    if name in {"low", "high"}:
        return shown(float(value), Dimension.DURATION)
    return gettext(str(value)) if name == "state" else str(value)
