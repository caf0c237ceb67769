"""Everything that `scenarios/` holds, loaded and checked once."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from hashlib import sha256
from pathlib import Path

from trainer.domain.errors import Missing
from trainer.domain.family import ScenarioFamily
from trainer.domain.hazards import HazardCatalogue
from trainer.domain.people import UnitSystem
from trainer.domain.policy import Policy
from trainer.domain.scenario import Scenario
from trainer.scenario_files.families_file import FamilySource, load_family, read_family
from trainer.scenario_files.faults import ContentFault, Findings
from trainer.scenario_files.hazards_file import load_hazards
from trainer.scenario_files.own_jobs.told import own_job_in_languages, usual_in
from trainer.scenario_files.policy_file import load_policy
from trainer.scenario_files.said import said_in_languages, title_in, titles_in, told_in

FOLDER = Path(__file__).resolve().parents[2] / "scenarios"


@dataclass(frozen=True, kw_only=True)
class Content:
    """The families by id in order of their files, the hazard catalogue and the default site policy."""

    families: Mapping[str, ScenarioFamily]
    # the same, as they are drawn for readers of inches and pounds
    inch_families: Mapping[str, ScenarioFamily]
    hazards: HazardCatalogue
    policy: Policy
    content_version: str
    folder: Path = FOLDER

    def family(self, family_id: str, *, edition: UnitSystem = UnitSystem.METRIC) -> ScenarioFamily:
        """The family of that id, in one of its editions; raises Missing."""
        if family_id not in self.families:
            raise Missing("scenario family", family_id)
        return (self.inch_families if edition is UnitSystem.INCH_POUND else self.families)[family_id]

    def in_other_languages(self, scenario: Scenario, *, edition: UnitSystem) -> Scenario:
        """A scenario just drawn, with what it says in every other language that its family is written in.

        Of somebody's own job these are our sentences only: what was typed stays as it was typed.
        """
        if scenario.family not in self.families:
            return replace(scenario, said=own_job_in_languages(scenario, folder=self.folder))
        family = self.family(scenario.family, edition=edition)
        said = said_in_languages(scenario, family=family, edition=edition, folder=self.folder)
        return replace(scenario, said=said)

    def titles(self, language: str) -> Mapping[str, str]:
        """The English titles of the families with those in another language, where they are told in it."""
        return titles_in(language, self.families, folder=self.folder)

    def told(self, language: str, *, of_own_jobs: Iterable[str] = ()) -> Mapping[str, str]:
        """The plain sentences of families and hazards in another language, and the usual ones of own jobs."""
        usual = usual_in(language, of_own_jobs, folder=self.folder)
        return {**usual, **told_in(language, self.families, folder=self.folder)}

    def told_of_hazards(self, language: str) -> Mapping[str, str]:
        """The sentences of the hazard catalogue in another language."""
        return told_in(language, (), folder=self.folder)

    def title(self, language: str, title: str) -> str | None:
        """What a scenario drawn of a family here is called in another language."""
        return title_in(language, title, self.families, folder=self.folder)

    def own_family(
        self, family_id: str, *, text: str, edition: UnitSystem = UnitSystem.METRIC
    ) -> ScenarioFamily:
        """A family whose text is kept elsewhere, beside this catalogue; ContentFault with all its faults."""
        return _own_family(family_id, text, self.hazards, edition)


# A page lists every job of an organisation, and their texts change seldom.
@lru_cache(maxsize=512)
def _own_family(family_id: str, text: str, hazards: HazardCatalogue, edition: UnitSystem) -> ScenarioFamily:
    findings = Findings()
    source = FamilySource(id=family_id, file=f"{family_id}.toml", written=text.encode())
    return _faultless(read_family(source, hazards=hazards, findings=findings, edition=edition), findings)


def load_one_family(
    path: Path, *, folder: Path = FOLDER, edition: UnitSystem = UnitSystem.METRIC
) -> ScenarioFamily:
    """A family of any file, beside the catalogue of the library; raises ContentFault with all its faults."""
    findings = Findings()
    hazards = load_hazards(folder / "hazards.toml", findings=findings)
    return _faultless(load_family(path, hazards=hazards, findings=findings, edition=edition), findings)


def _faultless(family: ScenarioFamily | None, findings: Findings) -> ScenarioFamily:
    """The family that was read; raises ContentFault with all that was found wrong with it."""
    if family is None or findings.lines:
        raise ContentFault(tuple(findings.lines))
    return family


@cache
def load_content(folder: Path = FOLDER) -> Content:
    """All content files; raises ContentFault with every fault of every file."""
    findings = Findings()
    hazards = load_hazards(folder / "hazards.toml", findings=findings)
    editions: dict[UnitSystem, dict[str, ScenarioFamily]] = {each: {} for each in UnitSystem}
    for path in sorted((folder / "families").glob("*.toml")):
        for edition, families in editions.items():
            before = len(findings.lines)
            family = load_family(path, hazards=hazards, findings=findings, edition=edition)
            if family is not None:
                families[family.id] = family
            if len(findings.lines) > before:
                break  # the other edition would only say the same again
    if findings.lines:
        raise ContentFault(tuple(findings.lines))
    families = editions[UnitSystem.METRIC]
    versions = "\n".join(each.content_version for edition in editions.values() for each in edition.values())
    return Content(
        families=families,
        inch_families=editions[UnitSystem.INCH_POUND],
        hazards=hazards,
        policy=load_policy(folder / "policy.toml"),
        content_version=sha256(versions.encode()).hexdigest()[:16],
        folder=folder,
    )
