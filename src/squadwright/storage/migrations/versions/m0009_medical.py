"""What medical staff wrote about an athlete, and the coach's own limits of the safety gates."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns."""
    for table, name in (("athlete", "medical"), ("club", "gate_limits")):
        column = sa.Column(name, sa.Text(), nullable=False, server_default="{}")
        op.add_column(table, column)
