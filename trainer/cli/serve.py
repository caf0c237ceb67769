"""`trainer serve`: a real server folder, secret, schema, workers forked from a warm parent."""

import gc
import os
import socket
from collections.abc import Callable
from pathlib import Path
from pkgutil import resolve_name
from typing import TYPE_CHECKING, Any

import click

from trainer import config

if TYPE_CHECKING:
    from flask import Flask

# A server is told the name of its application: the parts are wired in app.py, which stands above this layer.
APPLICATION = "trainer.app:create_app"
DEFAULT_HOST = "127.0.0.1"
DEFAULT_PORT = 8000
_PORTS_TRIED = 20
_WORKER_TIMEOUT_S = 30
_BACKLOG = 256


@click.command()
@click.option("--host", default=DEFAULT_HOST, show_default=True, help="Address to listen on.")
@click.option(
    "--port", type=click.IntRange(1, 65535), help=f"Port; {DEFAULT_PORT} or the next free one if left out."
)
@click.option("--workers", type=click.IntRange(1, 64), help="Server processes; one a processor if left out.")
@click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder of database and secret key [instance].",
)
def serve(host: str, port: int | None, workers: int | None, data: Path | None) -> None:
    """Serve the site until interrupted."""
    folder = data or config.data_folder(os.environ)
    folder.mkdir(parents=True, exist_ok=True)
    if config.SECRET_KEY not in os.environ:
        config.make_secret(folder)
    try:
        settings = config.settings_from(os.environ, data=folder)
    except config.SettingsFault as fault:
        raise click.UsageError(str(fault)) from fault
    run(settings, host=host, port=port, workers=workers)


def run(settings: config.Settings, *, host: str, port: int | None, workers: int | None = None) -> None:
    """Bring the database up to date and serve until interrupted; `trainer demo` has settings of its own."""
    listener = listen(host, port)
    app: Flask = resolve_name(APPLICATION)(settings)
    database = app.extensions["brightroot_site"].database
    database.migrate()
    address = f"http://{_shown(host)}:{listener.getsockname()[1]}"
    if hasattr(os, "fork"):
        count = workers or os.cpu_count() or 1
        _serve_forked(app, listener, count, lambda: _announce(address), lambda: database.dispose(close=False))
    else:
        _serve_threaded(app, listener, lambda: _announce(address))


def listen(host: str, port: int | None) -> socket.socket:
    """A socket on the port; a taken one is named, and passed over only where none was asked for."""
    wanted = [port] if port is not None else range(DEFAULT_PORT, DEFAULT_PORT + _PORTS_TRIED)
    for each in wanted:
        listener = _bound(host, each)
        if listener is not None:
            return listener
        click.echo(f"Port {each} on {host} is taken.", err=True)
    if port is not None:
        raise click.UsageError(f"port {port} is taken; leave --port out to use the next free one")
    raise click.ClickException(f"no free port from {DEFAULT_PORT} to {DEFAULT_PORT + _PORTS_TRIED - 1}")


def _bound(host: str, port: int) -> socket.socket | None:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen(_BACKLOG)
    except OSError as fault:
        listener.close()
        if fault.errno in _TAKEN:
            return None
        raise click.UsageError(f"cannot listen on {host}: {fault.strerror}") from fault
    return listener


def _announce(address: str) -> None:
    click.echo(f"Brightroot is at {address}   (Ctrl+C stops it)")


def _shown(host: str) -> str:
    if host in {"0.0.0.0", "::"}:
        return "localhost"
    return f"[{host}]" if ":" in host else host


def _serve_forked(
    app: "Flask",
    listener: socket.socket,
    workers: int,
    announce: Callable[[], None],
    forked: Callable[[], None],
) -> None:
    from gunicorn.app.base import BaseApplication  # noqa: PLC0415

    def when_ready(_: Any) -> None:
        # what was built so far lives as long as the server: keep the collector and the copies of pages off it
        gc.collect()
        gc.freeze()
        announce()

    def post_fork(_: Any, __: Any) -> None:
        forked()  # lets go of connections that are the parent's

    class Server(BaseApplication):
        """gunicorn, told everything here and reading no file of its own."""

        def load_config(self) -> None:
            """Its settings."""
            listener.set_inheritable(True)
            for name, value in {
                "bind": f"fd://{listener.fileno()}",
                "workers": workers,
                "worker_class": "sync",
                "preload_app": True,
                "timeout": _WORKER_TIMEOUT_S,
                "control_socket_disable": True,
                "loglevel": "warning",
                "when_ready": when_ready,
                "post_fork": post_fork,
            }.items():
                self.cfg.set(name, value)

        def load(self) -> "Flask":
            """The app, built before the workers are forked."""
            return app

    Server().run()


def _serve_threaded(app: "Flask", listener: socket.socket, announce: Callable[[], None]) -> None:
    from waitress import serve as serve_with_threads  # noqa: PLC0415

    announce()
    serve_with_threads(app, sockets=[listener], threads=8)


_TAKEN = {48, 98, 10048}  # EADDRINUSE on macOS, Linux and Windows
