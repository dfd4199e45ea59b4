"""What the coach asks of every camp."""

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the column."""
    column = sa.Column("camp_rules", sa.Text(), nullable=False, server_default="{}")
    op.add_column("club", column)
