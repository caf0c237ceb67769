"""The hazard catalogue: what may stand in a scene, which of it hurts somebody, and what to do about it."""

from collections.abc import Mapping
from dataclasses import dataclass

from trainer.domain.scenario import Severity


@dataclass(frozen=True, kw_only=True)
class CatalogueEntry:
    """One thing that can be drawn. Innocent ones carry no severity; `why` says what makes it either."""

    key: str
    sign: str
    text: str
    zone: str  # where in the scene it may stand: "pipe", "bench" or "ground"
    width: float  # drawing units
    height: float
    why: str
    severity: Severity | None = None
    critical: bool = False
    weight: float = 0.0
    right_action: str = ""

    @property
    def is_hazard(self) -> bool:
        """Whether it hurts somebody, the weld or the purse."""
        return self.severity is not None


@dataclass(frozen=True, kw_only=True)
class HazardCatalogue:
    """All entries by key; the version is the digest of the file."""

    version: str
    entries: Mapping[str, CatalogueEntry]

    def __hash__(self) -> int:
        """By the version, since the entries follow from the same file."""
        return hash(self.version)
