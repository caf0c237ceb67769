"""`trainer demo`: an invented school with two months of history in a database of its own, served at once."""

import os
import shutil
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from random import Random

import click

from trainer import config
from trainer.cli.serve import DEFAULT_HOST, run

SEED = 20
_FOLDER = "demo"
_DATABASE = "brightroot.sqlite3"  # the usual name, so that every other command finds it by the folder
_BUILT = "built"  # written last: a folder without it holds a history that was broken off
_STEPS = 240


@click.command()
@click.option("--host", default=DEFAULT_HOST, show_default=True, help="Address to listen on.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port; 8000 or the next free one if left out.")
@click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder of the demo's own database [instance/demo].",
)
@click.option("--fresh", is_flag=True, help="Build the history anew, ending today.")
@click.option("--build-only", is_flag=True, help="Build and print the accounts, but do not serve.")
def demo(host: str, port: int | None, data: Path | None, fresh: bool, build_only: bool) -> None:
    """Build a filled demo site, print its accounts, and serve it until interrupted."""
    folder = data or config.data_folder(os.environ) / _FOLDER
    settings = _settings(folder, fresh=fresh)
    if not (folder / _BUILT).exists():
        build(settings)
        (folder / _BUILT).write_text(f"{datetime.now(UTC):%Y-%m-%d}\n", encoding="ascii")
    _print_accounts(settings)
    if not build_only:
        run(settings, host=host, port=port)


def _settings(folder: Path, *, fresh: bool) -> config.Settings:
    """Settings of the demo's folder, emptied first where its history is to be built."""
    if folder.exists() and (fresh or not (folder / _BUILT).exists()):
        _empty(folder)
    folder.mkdir(parents=True, exist_ok=True)
    config.make_secret(folder)
    # the demo never touches a database that the environment names for the real site
    environ = {key: value for key, value in os.environ.items() if key != "BRIGHTROOT_DATABASE_URL"}
    try:
        settings = config.settings_from(environ, data=folder)
    except config.SettingsFault as fault:
        raise click.UsageError(str(fault)) from fault
    return replace(settings, database_url=f"sqlite:///{folder.resolve() / _DATABASE}")


def _empty(folder: Path) -> None:
    """Removes what an earlier demo left; a folder that holds anything else is refused, not emptied."""
    ours = (_DATABASE, "secret_key", _BUILT, ".gitignore")
    strangers = sorted(each.name for each in folder.iterdir() if not each.name.startswith(ours))
    if strangers:
        raise click.UsageError(
            f"{folder} holds other files ({', '.join(strangers[:3])}); name another folder"
        )
    shutil.rmtree(folder)


def build(settings: config.Settings) -> None:
    """Acts the history out in the database that the settings name, showing how far it has come."""
    from rich.console import Console  # noqa: PLC0415 - each command imports only what it uses
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn  # noqa: PLC0415

    from trainer.cli.demo_site.history import History  # noqa: PLC0415
    from trainer.domain.attempts import LARGEST_SEED  # noqa: PLC0415
    from trainer.scenario_files import load_content  # noqa: PLC0415
    from trainer.services.passwords import cheap_passwords  # noqa: PLC0415
    from trainer.services.site import Site  # noqa: PLC0415
    from trainer.storage.database import Database  # noqa: PLC0415

    database = Database(settings.database_url)
    database.migrate()
    now = datetime.now(UTC)
    dice = Random(SEED)  # the same scenarios each time it is built
    site = Site(
        database=database,
        content=load_content(settings.scenarios),
        now=lambda: now,
        new_seed=lambda: dice.randrange(LARGEST_SEED + 1),
        # the password is printed for everybody to read; it is hashed in full at the first sign-in
        passwords=cheap_passwords(),
    )
    columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.percentage:>3.0f} %"))
    with Progress(*columns, TimeElapsedColumn(), console=Console(stderr=True)) as progress:
        task = progress.add_task("Acting out two months at the school", total=_STEPS)
        History(site, today=now, seed=SEED, tick=lambda: progress.advance(task)).act_out()
        progress.update(task, completed=_STEPS)
    database.dispose()


def _print_accounts(settings: config.Settings) -> None:
    from trainer.cli.demo_site.accounts import demo_accounts  # noqa: PLC0415
    from trainer.cli.demo_site.cast import PASSWORD  # noqa: PLC0415

    click.echo("Demo accounts (invented people; the password of all of them is below):")
    for account in demo_accounts(settings.database_url):
        click.echo(f"  {account.role:<14} {account.email:<44} {account.name}, {account.organisation}")
    click.echo(f"  password       {PASSWORD}")
