"""A site with the real content on both databases, and a school on it."""

from dataclasses import replace

import pytest
from training_steps import School, content, school

from trainer.services.site import Site


@pytest.fixture
def teaching_site(site: Site) -> Site:
    """The site with what `scenarios/` holds."""
    return replace(site, content=content())


@pytest.fixture
def place(teaching_site: Site) -> School:
    """A training provider with two instructors and an apprentice in a class."""
    return school(teaching_site)
