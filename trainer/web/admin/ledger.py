"""The ledger of the organisation: whether its chain holds, and its latest entries."""

from datetime import datetime
from typing import Any

from flask import render_template, request
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.ledger import EntryType
from trainer.domain.permissions import Permission
from trainer.services import records
from trainer.web.access import access, acting, site
from trainer.web.admin.blueprint import blueprint


@blueprint.get("/ledger")
@access(Permission.READ_LEDGER)
def ledger_state() -> ResponseReturnValue:
    """The proof of the own log and a page of entries, the newest first."""
    before = request.args.get("before", type=int)
    entries = records.ledger_entries(site(), acting(), before=before if before and before < 2**53 else None)
    here = acting().organisation_id
    proofs = records.verify_ledgers(site().database)
    proof = next(each.proof for each in proofs if each.organisation.organisation_id == here)
    return render_template("admin/ledger.html", proof=proof, entries=[_shown(each) for each in entries])


def _shown(entry: dict[str, Any]) -> dict[str, Any]:
    """An entry with its act in words and its time as a moment, beside what stands in it to the letter."""
    return {**entry, "words": _act_words(entry), "moment": datetime.fromisoformat(entry["time"])}


def _act_words(entry: dict[str, Any]) -> str:
    act = EntryType(entry["type"])
    # a lifted suspension stands in the ledger as a confirmation that takes the place of the entry before it
    if act is EntryType.QUALIFICATION_CONFIRMED and entry["supersedes"] is not None:
        return gettext("suspension lifted")
    return {
        EntryType.ATTEMPT_STARTED: gettext("attempt started"),
        EntryType.ATTEMPT_HANDED_IN: gettext("attempt handed in"),
        EntryType.ATTEMPT_EXPIRED: gettext("attempt over, time up"),
        EntryType.ATTEMPT_MARKED: gettext("attempt marked"),
        EntryType.SCORE_OVERRIDDEN: gettext("score overridden"),
        EntryType.EXPLANATION_GRADED: gettext("explanation graded"),
        EntryType.OBSERVATION_RECORDED: gettext("observation recorded"),
        EntryType.QUALIFICATION_AWARDED: gettext("qualification awarded"),
        EntryType.QUALIFICATION_CONFIRMED: gettext("qualification confirmed"),
        EntryType.QUALIFICATION_SUSPENDED: gettext("qualification suspended"),
        EntryType.QUALIFICATION_REVOKED: gettext("qualification revoked"),
        EntryType.SHARE_GIVEN: gettext("record shared"),
        EntryType.SHARE_ENDED: gettext("sharing ended"),
        EntryType.ROLE_GIVEN: gettext("role given"),
        EntryType.ROLE_ENDED: gettext("role ended"),
        EntryType.POLICY_CHANGED: gettext("policy changed"),
    }[act]
