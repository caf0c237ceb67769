"""Importing the core stays light: commands that need no solver do not wait for one."""

import subprocess
import sys


def test_the_core_is_imported_without_waiting_for_scipy():
    code = (
        "import sys, trainer.core.dilution; sys.exit(any(name.startswith('scipy') for name in sys.modules))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False, timeout=60).returncode == 0
