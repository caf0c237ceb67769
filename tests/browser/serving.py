"""The site on a real port: within the test's process for journeys, or as its own command to be killed."""

import logging
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from itertools import count
from pathlib import Path
from urllib.request import urlopen
from wsgiref.types import StartResponse, WSGIApplication, WSGIEnvironment

from werkzeug.serving import make_server

from trainer.app import create_app, wire
from trainer.config import Settings
from trainer.services.site import Site

TRAINER = Path(sys.executable).with_name("trainer")
READY_S = 60


@contextmanager
def served(url: str, folder: Path) -> Iterator[tuple[str, Site]]:
    """The address of the site on a database, and the site itself; its seeds are known, its clock is real."""
    settings = Settings(
        data=folder, database_url=url, secret_key="x" * 40, password_cost="test", rate_limits=False
    )
    seeds = count(1)
    site = replace(wire(settings), new_seed=lambda: next(seeds) * 7919)
    logging.getLogger("werkzeug").setLevel(logging.WARNING)
    server = make_server("127.0.0.1", 0, _closing(create_app(settings, site)), threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}", site
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
        site.database.dispose()


def _closing(app: WSGIApplication) -> WSGIApplication:
    """Closes every answer, also where the browser hung up: there werkzeug's server fails before it does so itself."""

    def answer(environ: WSGIEnvironment, start_response: StartResponse) -> Iterator[bytes]:
        parts = app(environ, start_response)
        try:
            yield from parts
        finally:
            if hasattr(parts, "close"):
                parts.close()

    return answer


class TrainerServe:
    """`trainer serve` as somebody starts it, in a process group of its own that can be killed whole."""

    def __init__(self, data: Path) -> None:
        self._data = data
        self._port = free_port()
        self.address = f"http://127.0.0.1:{self._port}"
        self._process: subprocess.Popen[str] | None = None

    def start(self) -> None:
        """Starts it and waits until a page comes."""
        self._process = subprocess.Popen(
            [TRAINER, "serve", "--data", self._data, "--port", str(self._port), "--workers", "2"],
            env=own_environment(),
            stdout=subprocess.PIPE,
            text=True,
            start_new_session=True,
        )
        said = self._process.stdout.readline()
        assert self.address in said, said
        deadline = time.monotonic() + READY_S
        while not _answers(self.address):
            assert time.monotonic() < deadline, f"nothing answers at {self.address}"
            time.sleep(0.05)

    def kill(self) -> None:
        """SIGKILL to the parent and every worker at once: nobody gets to finish anything."""
        assert self._process is not None
        os.killpg(self._process.pid, signal.SIGKILL)
        self._process.wait()
        self._process.stdout.close()
        self._process = None

    def stop(self) -> None:
        """Ends it if it still runs."""
        if self._process is not None:
            self.kill()


def own_environment() -> dict[str, str]:
    """The environment without the settings of any site of whoever runs the tests."""
    return {key: value for key, value in os.environ.items() if not key.startswith("BRIGHTROOT_")}


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def _answers(address: str) -> bool:
    try:
        with urlopen(f"{address}/how-sure", timeout=5) as answer:
            return answer.status == 200
    except OSError:
        return False
