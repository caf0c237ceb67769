"""A family to be checked, in the form that is handed to another process."""

from dataclasses import dataclass
from pathlib import Path

from trainer.domain.family import ScenarioFamily
from trainer.scenario_files import Content, load_content, load_one_family


@dataclass(frozen=True)
class FamilyTask:
    """One family to check: by its id in the library, or by its file."""

    family: str
    seeds: int
    file: Path | None = None

    def loaded(self) -> tuple[ScenarioFamily, Content]:
        """The family, and the content beside it."""
        content = load_content()
        return content.family(self.family) if self.file is None else load_one_family(self.file), content
