"""Run by alembic: the open connection comes with the settings, the wanted schema from all table classes."""

import importlib
import pkgutil

from alembic import context

from trainer.storage import tables
from trainer.storage.tables.base import Base

for module in pkgutil.iter_modules(tables.__path__):
    importlib.import_module(f"{tables.__name__}.{module.name}")

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    transactional_ddl=True,  # SQLite can, but alembic has to be told
    compare_type=True,
)
with context.begin_transaction():
    context.run_migrations()
