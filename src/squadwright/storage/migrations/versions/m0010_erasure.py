"""Who was erased for good, and what an import brought, so that it can be taken back."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the tables."""
    op.create_table(
        "erased",
        sa.Column("salt", sa.Text(), nullable=False),
        sa.Column("of_id", sa.Text(), nullable=False),
        sa.Column("of_person", sa.Text(), nullable=False),
        sa.Column("erased_on", sa.Date(), nullable=False),
        sa.PrimaryKeyConstraint("salt", name=op.f("pk_erased")),
    )
    op.create_table(
        "taken_in",
        sa.Column("mark", sa.Text(), nullable=False),
        sa.Column("club_step", sa.Text(), nullable=False),
        sa.Column("diary_mark", sa.Text(), nullable=False),
        sa.Column("events", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("mark", name=op.f("pk_taken_in")),
    )
