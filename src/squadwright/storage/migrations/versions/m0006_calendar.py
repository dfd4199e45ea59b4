"""What a slot of the week asks for, and the calendar of the club."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns and the tables."""
    _add("club", sa.Column("time_zone", sa.Text(), nullable=False, server_default=""))
    _add("club", sa.Column("clash_limits", sa.Text(), nullable=False, server_default="{}"))
    _add("week_slot", sa.Column("work", sa.Text(), nullable=False, server_default="not stated"))
    _add("week_slot", sa.Column("planned_effort", sa.Integer(), nullable=True))
    _add("week_slot", sa.Column("regions", sa.Text(), nullable=False, server_default="[]"))
    off = sa.false()
    _add("week_slot", sa.Column("to_failure", sa.Boolean(), nullable=False, server_default=off))
    _add("week_slot", sa.Column("room", sa.Text(), nullable=True))
    _add("week_slot", sa.Column("staff", sa.Text(), nullable=False, server_default="[]"))
    _table("closure", _text("name"), *_days(), _text("rooms"))
    _table("school_term", _text("name"), *_days())
    _table("travel", _text("name"), _text("athlete"), *_days(), _text("time_zone"))
    _table(
        "slot_change",
        _text("slot"),
        sa.Column("held_on", sa.Date(), nullable=False),
        sa.Column("moved_to", sa.Date(), nullable=True),
        *_clock(),
        sa.Column("room", sa.Text(), nullable=True),
        sa.Column("planned_effort", sa.Integer(), nullable=True),
        sa.Column("is_off", sa.Boolean(), nullable=False),
        _text("reason"),
    )
    _table(
        "fixture",
        _text("uid"),
        _text("name"),
        *_days(),
        *_clock(),
        _text("time_zone"),
        _text("place"),
        sa.Column("sequence", sa.Integer(), nullable=False),
    )


def _add(table: str, column: sa.Column[object]) -> None:
    op.add_column(table, column)


def _table(name: str, *columns: sa.Column[object]) -> None:
    op.create_table(
        name,
        _text("id"),
        sa.Column("position", sa.Integer(), nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
    )


def _text(name: str) -> sa.Column[object]:
    return sa.Column(name, sa.Text(), nullable=False)


def _days() -> tuple[sa.Column[object], ...]:
    return tuple(sa.Column(name, sa.Date(), nullable=False) for name in ("starts_on", "ends_on"))


def _clock() -> tuple[sa.Column[object], ...]:
    return tuple(sa.Column(name, sa.Time(), nullable=True) for name in ("starts_at", "ends_at"))
