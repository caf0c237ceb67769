"""`trainer verify` on a ledger that somebody damaged behind the program's back, on both databases."""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from uuid import UUID

import pytest
from click.testing import CliRunner, Result
from clock import Clock
from factories import member, provider, site_on
from sqlalchemy import text

from trainer.cli import main
from trainer.domain import merkle
from trainer.services.passwords import Passwords
from trainer.storage.database import Database

TRIGGERS = ("ledger_entry_no_update", "ledger_entry_no_delete", "ledger_entry_no_replace")


@dataclass
class Damaged:
    """A database with two organisations' logs, opened up for whoever has the file or the server."""

    database: Database
    quay: UUID
    dock: UUID
    folder: Path
    url: str = field(init=False)

    def __post_init__(self) -> None:
        self.url = self.database._url.render_as_string(hide_password=False)

    def run(self, *arguments: str) -> Result:
        return CliRunner().invoke(
            main, ["verify", *arguments], env={"BRIGHTROOT_DATABASE_URL": self.url}, catch_exceptions=False
        )

    def rows(self, log: UUID) -> list[dict]:
        with self.database.reading() as work:
            found = work.session.execute(
                text("SELECT * FROM ledger_entry WHERE organisation_id = :log ORDER BY seq"),
                {"log": self._id(log)},
            )
            return [dict(each) for each in found.mappings()]

    def write(self, log: UUID, rows: list[dict]) -> None:
        """Puts these rows in place of the log, with every guard of the database out of the way."""
        with self.database.work() as work:
            run = work.session.execute
            run(text("DELETE FROM commitment_salt WHERE organisation_id = :log"), {"log": self._id(log)})
            run(text("DELETE FROM ledger_entry WHERE organisation_id = :log"), {"log": self._id(log)})
            for row in rows:
                run(
                    text(
                        "INSERT INTO ledger_entry VALUES "
                        "(:organisation_id, :seq, :entry_type, :subject, :canonical, :prev, :leaf_hash)"
                    ),
                    {**row, "organisation_id": self._id(log)},
                )

    def remove_guards(self) -> None:
        with self.database.work() as work:
            run = work.session.execute
            if self.database.dialect == "sqlite":
                for each in TRIGGERS:
                    run(text(f"DROP TRIGGER {each}"))
            else:
                run(text("ALTER TABLE ledger_entry DISABLE TRIGGER USER"))
                run(text("ALTER TABLE ledger_entry DROP CONSTRAINT ck_ledger_entry_prev_but_for_first"))

    def _id(self, log: UUID) -> object:
        return log.hex if self.database.dialect == "sqlite" else log


@pytest.fixture
def damaged(own_database: Database, clock: Clock, passwords: Passwords, tmp_path: Path) -> Iterator[Damaged]:
    """Two logs of nine and three entries, and no trigger left."""
    site = site_on(own_database, clock=clock, passwords=passwords)
    quay, dock = provider(site, name="Quay Training"), provider(site, name="Dock Training")
    for _ in range(7):
        clock.go_on(minutes=1)
        member(site, quay)
    member(site, dock)
    made = Damaged(own_database, quay.organisation_id, dock.organisation_id, tmp_path)
    made.remove_guards()
    return made


def good_line(found: Result, name: str) -> str:
    return next(line for line in found.stdout.splitlines() if line.startswith(name))


def test_an_untouched_ledger_holds(damaged: Damaged) -> None:
    found = damaged.run()
    assert found.exit_code == 0
    assert found.stderr == ""
    leaves = [row["leaf_hash"] for row in damaged.rows(damaged.quay)]
    assert f"holds, 9 entries, root {merkle.root(leaves)}" in good_line(found, "Quay Training")
    assert "holds, 3 entries" in good_line(found, "Dock Training")


def flip_a_bit(rows: list[dict], other: list[dict]) -> list[dict]:
    flipped = bytearray(rows[4]["canonical"])
    flipped[60] ^= 0x80  # which makes it no text at all
    rows[4]["canonical"] = bytes(flipped)
    return rows


def flip_a_bit_of_the_hash(rows: list[dict], other: list[dict]) -> list[dict]:
    rows[4]["leaf_hash"] = rows[4]["leaf_hash"].replace("a", "b", 1).replace("0", "1", 1)
    return rows


def change_and_hash_anew(rows: list[dict], other: list[dict]) -> list[dict]:
    rows[4]["canonical"] = rows[4]["canonical"].replace(b"apprentice", b"instructor")
    rows[4]["leaf_hash"] = merkle.leaf_hash(rows[4]["canonical"])
    return rows


def drop(rows: list[dict], other: list[dict]) -> list[dict]:
    return rows[:4] + rows[5:]


def drop_and_close_up(rows: list[dict], other: list[dict]) -> list[dict]:
    return rows[:4] + [{**row, "seq": row["seq"] - 1} for row in rows[5:]]


def swap(rows: list[dict], other: list[dict]) -> list[dict]:
    rows[4], rows[6] = {**rows[6], "seq": 4}, {**rows[4], "seq": 6}
    return rows


def insert(rows: list[dict], other: list[dict]) -> list[dict]:
    again = {**rows[2], "seq": 4, "prev": rows[3]["leaf_hash"]}
    return [*rows[:4], again, *({**row, "seq": row["seq"] + 1} for row in rows[4:])]


def cut_the_middle(rows: list[dict], other: list[dict]) -> list[dict]:
    return rows[:4] + rows[7:]


def replay_another_organisation_s(rows: list[dict], other: list[dict]) -> list[dict]:
    rows[0] = other[0]
    return rows


def replay_in_the_chain(rows: list[dict], other: list[dict]) -> list[dict]:
    rows[4] = {**other[2], "seq": 4, "prev": rows[3]["leaf_hash"]}
    return rows


Damage = Callable[[list[dict], list[dict]], list[dict]]


@pytest.mark.parametrize(
    ("damage", "seq", "what"),
    [
        (flip_a_bit, 4, "leaf hash"),
        (flip_a_bit_of_the_hash, 4, "leaf hash"),
        (change_and_hash_anew, 5, "prev"),
        (drop, 4, "missing entry"),
        (drop_and_close_up, 4, "prev"),
        (swap, 4, "prev"),
        (insert, 4, "seq"),
        (cut_the_middle, 4, "missing entry"),
        (replay_another_organisation_s, 0, "log"),
        (replay_in_the_chain, 4, "log"),
    ],
    ids=lambda value: value.__name__ if callable(value) else None,
)
def test_damage_is_named_at_the_first_entry_that_it_broke(
    damaged: Damaged, damage: Damage, seq: int, what: str
) -> None:
    damaged.write(damaged.quay, damage(damaged.rows(damaged.quay), damaged.rows(damaged.dock)))
    found = damaged.run()
    assert found.exit_code == 2
    (line,) = found.stderr.splitlines()
    assert line.startswith(f"Quay Training ({damaged.quay}): broken at entry {seq}, {what}: expected ")
    assert "Quay" not in found.stdout
    assert "holds, 3 entries" in good_line(found, "Dock Training")


def test_the_line_names_the_expected_and_the_found_hash(damaged: Damaged) -> None:
    rows = damaged.rows(damaged.quay)
    kept = rows[4]["leaf_hash"]
    rows[4]["canonical"] = rows[4]["canonical"].replace(b"apprentice", b"instructor")
    damaged.write(damaged.quay, rows)
    assert f"expected {kept}, found {merkle.leaf_hash(rows[4]['canonical'])}" in damaged.run().stderr


def test_a_changed_reason_is_found(damaged: Damaged) -> None:
    with damaged.database.work() as work:
        work.session.execute(
            text("INSERT INTO commitment_salt VALUES (:log, 2, :salt, :details, NULL)"),
            {"log": damaged._id(damaged.quay), "salt": bytes(32), "details": b'"made up"'},
        )
    found = damaged.run()
    assert found.exit_code == 2
    assert "broken at entry 2, commitment: expected None, found " in found.stderr


def test_a_cut_end_is_found_by_heads_kept_elsewhere(damaged: Damaged) -> None:
    heads = damaged.folder / "heads.json"
    assert damaged.run("--write-heads", str(heads)).exit_code == 0
    assert damaged.run("--heads", str(heads)).exit_code == 0
    damaged.write(damaged.quay, damaged.rows(damaged.quay)[:6])
    assert damaged.run().exit_code == 0  # nothing inside the ledger could tell
    found = damaged.run("--heads", str(heads))
    assert found.exit_code == 2
    assert "broken at entry 6, missing entry: expected 9 entries, found 6 entries" in found.stderr


def test_a_log_that_is_gone_is_found_by_heads_kept_elsewhere(damaged: Damaged) -> None:
    heads = damaged.folder / "heads.json"
    gone = "99999999-0000-4000-8000-000000000000"
    heads.write_text(json.dumps({"heads": [{"log": gone, "size": 1, "root": "00"}]}))
    found = damaged.run("--heads", str(heads))
    assert found.exit_code == 2
    assert gone in found.stderr


@pytest.mark.parametrize("content", ["", "[]", '{"heads": [{"log": "x", "size": 1, "root": ""}]}'])
def test_a_file_that_holds_no_heads_is_refused(damaged: Damaged, content: str) -> None:
    heads = damaged.folder / "heads.json"
    heads.write_text(content)
    found = damaged.run("--heads", str(heads))
    assert found.exit_code == 2
    assert "no file of heads" in found.stderr


def test_heads_are_not_written_over_a_broken_ledger(damaged: Damaged) -> None:
    heads = damaged.folder / "heads.json"
    damaged.write(damaged.quay, drop(damaged.rows(damaged.quay), []))
    assert damaged.run("--write-heads", str(heads)).exit_code == 2
    assert not heads.exists()
