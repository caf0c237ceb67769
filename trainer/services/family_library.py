"""The families that an organisation draws from: the library that comes with the site, and its own jobs."""

from uuid import UUID

from trainer.domain.family import ScenarioFamily
from trainer.domain.people import UnitSystem
from trainer.services.site import Site
from trainer.storage import own_jobs
from trainer.storage.database import Work


def offered_families(site: Site, work: Work, *, organisation_id: UUID) -> dict[str, ScenarioFamily]:
    """What may be practised and put into modules, by id: the library, then the jobs that are published."""
    published = own_jobs.list_published(work, organisation_id=organisation_id)
    own = {each.family: _read(site, each) for each in published if each.is_offered}
    return {**site.content.families, **own}


def known_families(site: Site, work: Work, *, organisation_id: UUID) -> dict[str, ScenarioFamily]:
    """The same with the jobs that were withdrawn: modules that were made of them go on drawing from them."""
    published = own_jobs.list_published(work, organisation_id=organisation_id)
    return {**site.content.families, **{each.family: _read(site, each) for each in published}}


def family_to_draw(
    site: Site, work: Work, *, organisation_id: UUID, family: str, edition: UnitSystem
) -> ScenarioFamily:
    """The family of that id as this organisation draws it; raises Missing, for another's job too."""
    published = own_jobs.find_published(work, organisation_id=organisation_id, family=family)
    if published is None:
        return site.content.family(family, edition=edition)
    return _read(site, published, edition=edition)


def _read(
    site: Site, published: own_jobs.PublishedFile, *, edition: UnitSystem = UnitSystem.METRIC
) -> ScenarioFamily:
    return site.content.own_family(published.family, text=published.family_file, edition=edition)
