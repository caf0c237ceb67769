"""A family to be checked, in the form that is handed to another process."""

from dataclasses import dataclass
from pathlib import Path

from trainer.domain.family import ScenarioFamily
from trainer.domain.people import UnitSystem
from trainer.scenario_files import Content, load_content, load_one_family


@dataclass(frozen=True)
class FamilyTask:
    """One family to check: by its id in the library, or by its file."""

    family: str
    seeds: range
    file: Path | None = None

    def loaded(self, *, edition: UnitSystem = UnitSystem.METRIC) -> tuple[ScenarioFamily, Content]:
        """The family in one of its editions, and the content beside it."""
        content = load_content()
        if self.file is None:
            return content.family(self.family, edition=edition), content
        return load_one_family(self.file, edition=edition), content
