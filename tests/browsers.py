"""Which browser the tests of pages in a real browser use, and what the end of a run says where there is none."""

import os
import shutil
from pathlib import Path

import pytest

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge")
FOLDER = Path(__file__).resolve().parent / "browser"
NO_BROWSER = (
    "browser tests did NOT run: no Chromium, Chrome or Edge on this machine;"
    " install one, such as `apt-get install chromium`"
)


def installed_browser() -> str | None:
    """The first browser of the Chromium family on the path."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


def left_out(config: pytest.Config) -> bool:
    """Whether this run asked for browser tests and the machine cannot run them."""
    return installed_browser() is None and any(_holds_browser_tests(each) for each in config.args)


def is_failure() -> bool:
    """Whether that fails the run: on a machine of one's own it is said, in CI it is refused."""
    return os.environ.get("CI", "").lower() in {"1", "true", "yes"}


def _holds_browser_tests(arg: str) -> bool:
    asked = Path(arg.split("::")[0]).resolve()
    return asked == FOLDER or asked in FOLDER.parents or FOLDER in asked.parents
