"""Run migrations on the connection given, each in one transaction with its record."""

from alembic import context

from squadwright.storage import log_tables, tables

metadata = tables.club.metadata
assert log_tables.step.metadata is metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    # SQLite can roll back a change of tables too; Alembic has to be told.
    transactional_ddl=True,
    transaction_per_migration=True,
)
with context.begin_transaction():
    context.run_migrations()
