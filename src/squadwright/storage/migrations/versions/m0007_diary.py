"""The diary of each athlete, and the steps that wrote it."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the tables."""
    op.create_table(
        "diary_entry",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("written", sa.Text(), nullable=False),
        sa.Column("in_force", sa.Boolean(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_diary_entry")),
    )
    op.create_index(op.f("ix_diary_entry_athlete_id_day"), "diary_entry", ["athlete_id", "day"])
    op.create_index(op.f("ix_diary_entry_kind_day"), "diary_entry", ["kind", "day"])
    op.create_table(
        "diary_step",
        sa.Column("mark", sa.Text(), nullable=False),
        sa.Column("made_on", sa.Date(), nullable=False),
        sa.Column("added", sa.Text(), nullable=False),
        sa.Column("taken_out", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("mark", name=op.f("pk_diary_step")),
    )
