"""The accessibility checker is the file that its package ships, byte for byte, and no part of the site."""

import hashlib
import json
from pathlib import Path

VENDOR = Path(__file__).parent / "vendor"
TOLD = json.loads((VENDOR / "axe-core.json").read_text(encoding="utf-8"))
STATIC = Path(__file__).parents[2] / "static"


def test_axe_core_is_unchanged_and_of_the_version_named() -> None:
    source = (VENDOR / "axe.min.js").read_bytes()

    assert hashlib.sha256(source).hexdigest() == TOLD["sha256"]
    assert source.startswith(f"/*! axe v{TOLD['version']}".encode())
    assert (VENDOR / "LICENSE-axe-core.txt").read_text(encoding="utf-8").startswith("Mozilla Public License, version 2.0")  # fmt: skip


def test_the_site_does_not_ship_it() -> None:
    assert [each for each in STATIC.rglob("*") if "axe" in each.name] == []
