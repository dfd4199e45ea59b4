"""The record of what happened on the floor."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table."""
    op.create_table(
        "record_event",
        sa.Column("arrival", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("session", sa.Text(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("arrival", name=op.f("pk_record_event")),
        sa.UniqueConstraint("id", name=op.f("uq_record_event_id")),
    )
    op.create_index(op.f("ix_record_event_session_arrival"), "record_event", ["session", "arrival"])
