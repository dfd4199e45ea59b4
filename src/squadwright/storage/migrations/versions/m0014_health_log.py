"""Who touched which health field of whom, and when."""

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table."""
    op.create_table(
        "health_log",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("field", sa.Text(), nullable=False),
        sa.Column("how", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_health_log")),
    )
    op.create_index(op.f("ix_health_log_athlete_id"), "health_log", ["athlete_id"])
