"""Speed goals: `python -m tests.bench` measures them in one run and prints them as one table; no test runs them.

The modules that tests share stand beside this folder, where pytest puts them on the path by itself.
"""

import sys
from pathlib import Path

import trainer  # noqa: F401 (before any bench brings in numpy: it keeps the linear algebra on one thread)

_TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(_TESTS), str(_TESTS / "browser")]
