"""A site with the real content on both databases, a school on it, and somebody who has an account."""

from dataclasses import replace

import pytest
import training_steps
from account_steps import ADA, account
from factories import new_person, provider
from training_steps import School, content

from trainer.domain.people import Acting
from trainer.services.site import Site


@pytest.fixture
def teaching_site(site: Site) -> Site:
    """The site with what `scenarios/` holds."""
    return replace(site, content=content())


@pytest.fixture
def place(teaching_site: Site) -> School:
    """A training provider with two instructors and an apprentice in a class."""
    return training_steps.school(teaching_site)


@pytest.fixture
def school(site: Site) -> Acting:
    return provider(site, name="Quay Training")


@pytest.fixture
def ada(site: Site, school: Acting) -> Acting:
    """An apprentice with a password, beside somebody else who has one too."""
    account(site, school, new_person())
    return account(site, school, ADA)
