"""What is shown and taken as given suffices: values that nobody is told move no key."""

import pytest
from second_solver import decides_untold

from trainer.scenario_files import load_content

CONTENT = load_content()


@pytest.mark.parametrize("family", sorted(CONTENT.families))
@pytest.mark.parametrize("difficulty", [0.0, 0.5, 1.0])
def test_nothing_decides_that_was_not_told(family, difficulty):
    for seed in (1, 2):
        assert decides_untold(CONTENT, CONTENT.families[family], seed=seed, difficulty=difficulty) == {}
