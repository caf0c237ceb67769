"""Observations in the booth: added, never changed."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import select

from trainer.domain.qualifications import Observation
from trainer.storage.database import Work
from trainer.storage.tables.people import PersonRow
from trainer.storage.tables.qualifications import ObservationRow


@dataclass(frozen=True, kw_only=True)
class RecordedObservation:
    """An observation with the observer's name, when it was written down, and its place in the ledger."""

    observation: Observation
    observed_by_name: str
    recorded_at: datetime
    ledger_seq: int


def add_observation(work: Work, observation: Observation, *, recorded_at: datetime, ledger_seq: int) -> None:
    """Adds an observation under the id that it carries."""
    work.session.add(ObservationRow(**vars(observation), recorded_at=recorded_at, ledger_seq=ledger_seq))
    work.session.flush()


def find_observation(work: Work, *, observation_id: UUID) -> Observation | None:
    """The observation of that id."""
    row = work.session.get(ObservationRow, observation_id)
    return None if row is None else _observation(row)


def list_observations(
    work: Work,
    *,
    person_id: UUID,
    organisation_id: UUID,
    only: Sequence[UUID] | None = None,
) -> tuple[RecordedObservation, ...]:
    """A person's observations in one organisation, the latest first; only some of them where asked."""
    query = (
        select(ObservationRow, PersonRow.name)
        .join(PersonRow, PersonRow.person_id == ObservationRow.observed_by)
        .where(ObservationRow.person_id == person_id, ObservationRow.organisation_id == organisation_id)
        .order_by(ObservationRow.observed_on.desc(), ObservationRow.observation_id)
    )
    if only is not None:
        query = query.where(ObservationRow.observation_id.in_(only))
    return tuple(
        RecordedObservation(
            observation=_observation(row),
            observed_by_name=name,
            recorded_at=row.recorded_at,
            ledger_seq=row.ledger_seq,
        )
        for row, name in work.session.execute(query)
    )


def _observation(row: ObservationRow) -> Observation:
    return Observation(
        observation_id=row.observation_id,
        person_id=row.person_id,
        organisation_id=row.organisation_id,
        observed_by=row.observed_by,
        observed_on=row.observed_on,
        material=row.material,
        gas=row.gas,
        outside_diameter_m=row.outside_diameter_m,
        oxygen_at_strike_frac=row.oxygen_at_strike_frac,
        root_grade=row.root_grade,
        confined_space=row.confined_space,
        accepted=row.accepted,
        analyser_serial=row.analyser_serial,
        analyser_calibrated_until=row.analyser_calibrated_until,
        notes=row.notes,
    )
