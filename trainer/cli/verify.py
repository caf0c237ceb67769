"""`trainer verify`: proves the ledger of every organisation, entry by entry."""

import json
from collections.abc import Mapping
from pathlib import Path
from uuid import UUID

import click

from trainer.cli.database import data_option, opened_current
from trainer.cli.exits import refuse
from trainer.domain.audit import Head
from trainer.services.records import LogProof, verify_ledgers


@click.command
@data_option
@click.option(
    "--heads",
    "kept_file",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="File of heads kept from an earlier run: every log must still begin with what they were over.",
)
@click.option(
    "--write-heads",
    "new_file",
    type=click.Path(dir_okay=False, path_type=Path),
    help="File to write today's heads to when everything holds; keep it away from this machine.",
)
def verify(data: Path | None, kept_file: Path | None, new_file: Path | None) -> None:
    """Prove the ledger of every organisation.

    Each entry must be in canonical form, in its place, chained to the one before and true to its hashes. The
    first one that is not is named, and the exit code is 2.

    A ledger alone does not stop somebody who can rewrite the whole database; heads kept elsewhere do.
    """
    kept = _read_heads(kept_file) if kept_file is not None else {}
    with opened_current(data) as database:
        found = verify_ledgers(database, kept=kept)
    for each in found:
        if each.proof.holds:
            click.echo(_line(each))
    gone = kept.keys() - {each.organisation.organisation_id for each in found}
    broken = [_line(each) for each in found if not each.proof.holds]
    broken += [f"log {each}: broken: its organisation is gone, of which a head was kept" for each in gone]
    if broken:
        refuse(broken)
    if new_file is not None:
        _write_heads(new_file, found)


def _line(found: LogProof) -> str:
    log = f"{found.organisation.name} ({found.organisation.organisation_id})"
    head, fault = found.proof.head, found.proof.fault
    if fault is None:
        return f"{log}: holds, {head.size} entries, root {head.root}"
    return f"{log}: broken at entry {fault.seq}, {fault.what}: expected {fault.expected}, found {fault.found}"


def _read_heads(path: Path) -> Mapping[UUID, Head]:
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        heads = [
            Head(organisation_id=UUID(each["log"]), size=int(each["size"]), root=str(each["root"]))
            for each in document["heads"]
        ]
    except (ValueError, KeyError, TypeError) as error:
        refuse([f"{path}: no file of heads: {error}"])
    return {each.organisation_id: each for each in heads}


def _write_heads(path: Path, found: tuple[LogProof, ...]) -> None:
    heads = [
        {"log": str(head.organisation_id), "size": head.size, "root": head.root}
        for head in (each.proof.head for each in found)
    ]
    path.write_text(json.dumps({"heads": heads}, indent=2) + "\n", encoding="utf-8")
