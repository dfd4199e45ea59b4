"""Steps that can be taken back, guests, and a stamp that changes with every write."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns and the table."""
    op.add_column("club", sa.Column("stamp", sa.Text(), nullable=False, server_default=""))
    op.add_column("athlete", sa.Column("guest_until", sa.Date(), nullable=True))
    op.create_table(
        "step",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("made_on", sa.Date(), nullable=False),
        sa.Column("entries", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_step")),
        sa.UniqueConstraint("id", name=op.f("uq_step_id")),
    )
