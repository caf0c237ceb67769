"""`trainer upgrade`, and the database that the other commands open."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from trainer import config
from trainer.cli.exits import refuse
from trainer.storage.database import Database

data_option = click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder of database and secret key [instance].",
)


@contextmanager
def opened(data: Path | None) -> Iterator[Database]:
    """The site's database as it is; ends the command where there is none."""
    folder = data or config.data_folder(os.environ)
    try:
        database = Database(config.database_url_from(os.environ, data=folder))
    except (config.SettingsFault, ValueError) as fault:
        refuse([str(fault)])
    try:
        yield database
    finally:
        database.dispose()


@contextmanager
def opened_current(data: Path | None) -> Iterator[Database]:
    """The site's database; ends the command where its schema is not this program's."""
    with opened(data) as database:
        if not database.exists():
            refuse(["there is no database yet: `trainer upgrade` makes one"])
        if not database.is_current():
            refuse(
                ["the database is of another version of this program: `trainer upgrade` brings it up to date"]
            )
        yield database


@click.command
@data_option
def upgrade(data: Path | None) -> None:
    """Make the database, or bring it up to date.

    All of it happens in one transaction: a failure leaves the database as it was. Keep a copy all the same.
    """
    folder = data or config.data_folder(os.environ)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    with opened(folder) as database:
        if database.exists() and database.is_current():
            click.echo("The database is up to date.")
            return
        database.migrate()
        click.echo("The database was brought up to date.")
