"""What is measured of an athlete beside his sessions."""

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the column."""
    column = sa.Column("measured", sa.Text(), nullable=False, server_default="{}")
    op.add_column("athlete", column)
