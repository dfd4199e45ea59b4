"""How long a bout of an event lasts."""

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the column."""
    op.add_column("event", sa.Column("bout_minutes", sa.Integer(), nullable=True))
