"""`trainer serve` as somebody on a fresh machine types it: folder, key, database, address, and a clean end."""

import os
import signal
import socket
import stat
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest

GIVEN_UP_AFTER_S = 90  # a busy machine is no failure of the server's


def start(folder: Path, *options: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "trainer", "serve", "--data", str(folder), "--workers", "1", *options]
    environ = {key: value for key, value in os.environ.items() if not key.startswith("BRIGHTROOT_")}
    environ |= {"HOME": str(folder.parent), "PYTHONUNBUFFERED": "1"}
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environ)


def address_of(server: subprocess.Popen[str]) -> str:
    """The address that the server prints when it is ready."""
    assert server.stdout is not None
    line = server.stdout.readline()
    assert line.startswith("Brightroot is at http://"), line + (server.stderr.read() if server.stderr else "")
    return line.split()[3]


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture
def taken_port() -> Iterator[int]:
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        yield int(holder.getsockname()[1])


def test_one_command_makes_the_folder_a_key_and_a_database_and_answers(tmp_path):
    folder = tmp_path / "site"
    server = start(folder, "--port", str(free_port()))
    try:
        address = address_of(server)
        with urlopen(f"{address}/account/sign-in", timeout=10) as answer:
            page = answer.read().decode()
    finally:
        server.send_signal(signal.SIGTERM)
        server.communicate(timeout=GIVEN_UP_AFTER_S)

    assert "<h1>Sign in</h1>" in page
    assert server.returncode == 0
    assert stat.S_IMODE((folder / "secret_key").stat().st_mode) == 0o600
    assert (folder / "brightroot.sqlite3").exists()
    assert [each.name for each in tmp_path.iterdir()] == ["site"]  # no folder of the server's own beside it


def test_a_port_that_was_asked_for_and_is_taken_is_named(tmp_path, taken_port):
    server = start(tmp_path / "site", "--port", str(taken_port))
    told = server.communicate(timeout=GIVEN_UP_AFTER_S)[1]

    assert server.returncode == 2
    assert f"port {taken_port} is taken" in told


def test_without_a_port_the_next_free_one_is_used_and_the_taken_one_named(tmp_path):
    holder = socket.socket()
    holder.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        holder.bind(("127.0.0.1", 8000))
        holder.listen()
    except OSError:
        holder.close()  # somebody else holds it, which does as well
    server = start(tmp_path / "site")
    try:
        address = address_of(server)
    finally:
        server.send_signal(signal.SIGTERM)
        told = server.communicate(timeout=GIVEN_UP_AFTER_S)[1]
        holder.close()

    assert not address.endswith(":8000")
    assert "Port 8000 on 127.0.0.1 is taken." in told


def test_a_key_that_is_too_short_refuses_to_start(tmp_path):
    folder = tmp_path / "site"
    folder.mkdir()
    (folder / "secret_key").write_text("short")
    server = start(folder, "--port", str(free_port()))
    told = server.communicate(timeout=GIVEN_UP_AFTER_S)[1]

    assert server.returncode == 2
    assert "at least 32 are needed" in told


def test_a_host_that_is_not_this_machines_is_named(tmp_path):
    server = start(tmp_path / "site", "--host", "192.0.2.1", "--port", str(free_port()))
    told = server.communicate(timeout=GIVEN_UP_AFTER_S)[1]

    assert server.returncode == 2
    assert "192.0.2.1" in told
