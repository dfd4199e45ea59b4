"""Which date of something that repeats a fixture is."""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the column."""
    op.add_column("fixture", sa.Column("recurrence", sa.Text(), nullable=False, server_default=""))
