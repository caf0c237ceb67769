"""The append-only log of what bears on a qualification, and apart from it what opens a commitment."""

from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey, ForeignKeyConstraint, Index, LargeBinary, String
from sqlalchemy.orm import Mapped, mapped_column

from trainer.domain.ledger import EntryType
from trainer.storage.tables.base import Base, enum_type


class LedgerEntryRow(Base):
    """One entry of one organisation's log: `canonical` is the entry, byte for byte.

    The rest is copied out for look-ups, and proved equal to it by the audit. UPDATE and DELETE are refused by
    triggers (migration 002)."""

    __tablename__ = "ledger_entry"

    organisation_id: Mapped[UUID] = mapped_column(
        ForeignKey("organisation.organisation_id"), primary_key=True
    )
    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    entry_type: Mapped[EntryType] = mapped_column(enum_type(EntryType, name="entry_type"))
    subject: Mapped[UUID]
    canonical: Mapped[bytes] = mapped_column(LargeBinary)
    prev: Mapped[str | None] = mapped_column(String(64))
    leaf_hash: Mapped[str] = mapped_column(String(64))

    __table_args__ = (
        CheckConstraint("seq >= 0", name="seq_from_zero"),
        CheckConstraint("(seq = 0) = (prev IS NULL)", name="prev_but_for_first"),
        Index(None, "subject"),
    )


class CommitmentSaltRow(Base):
    """The salt, details and reason behind one entry's commitments: an ordinary row, deleted to erase them."""

    __tablename__ = "commitment_salt"

    organisation_id: Mapped[UUID] = mapped_column(primary_key=True)
    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    salt: Mapped[bytes] = mapped_column(LargeBinary(32))
    details: Mapped[bytes | None] = mapped_column(LargeBinary)
    reason: Mapped[bytes | None] = mapped_column(LargeBinary)

    __table_args__ = (
        ForeignKeyConstraint(
            ["organisation_id", "seq"], ["ledger_entry.organisation_id", "ledger_entry.seq"]
        ),
        CheckConstraint("length(salt) = 32", name="salt_32_bytes"),
    )
