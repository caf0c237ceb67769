"""Numbered migrations, one topic each, up and down; they travel with the package."""

from pathlib import Path

from alembic.config import Config
from sqlalchemy import Connection


def config(connection: Connection) -> Config:
    """Alembic's settings for one open connection, which env.py then uses."""
    settings = Config()
    # ConfigParser reads % as interpolation.
    settings.set_main_option("script_location", str(Path(__file__).parent).replace("%", "%%"))
    settings.attributes["connection"] = connection
    return settings
