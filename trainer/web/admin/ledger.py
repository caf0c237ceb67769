"""The ledger of the organisation: whether its chain holds, and its latest entries."""

from flask import render_template, request
from flask.typing import ResponseReturnValue

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
    return render_template("admin/ledger.html", proof=proof, entries=entries)
