"""The weigh-in of an event, and the weight plans that were written down."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the column and the table."""
    op.add_column("event", sa.Column("weigh_in", sa.Text(), nullable=True))
    op.create_table(
        "weight_plan",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("written_on", sa.Date(), nullable=False),
        sa.Column("kept_text", sa.Text(), nullable=False),
        sa.Column("refused", sa.Text(), nullable=False),
        sa.Column("told", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_weight_plan_athlete_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_weight_plan")),
    )
