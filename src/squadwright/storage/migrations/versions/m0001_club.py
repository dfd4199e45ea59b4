"""The first tables: a club, its store, its people, and documents by version."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    _club()
    _bars_and_plates()
    _balls_and_boxes()
    _athletes()
    _tests()
    _events()
    _restrictions()
    _documents()


def _club() -> None:
    """The club, its staff, its week and its rooms."""
    op.create_table(
        "club",
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("format_version", sa.Integer(), nullable=False),
        sa.Column("squads", sa.Text(), nullable=False),
        sa.Column("emergency", sa.Text(), nullable=False),
        sa.Column("store_walk", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("number = 1", name=op.f("ck_club_one_club")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_club")),
    )
    op.create_table(
        "staff_member",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("days", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_staff_member")),
    )
    op.create_table(
        "week_slot",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("day", sa.Text(), nullable=False),
        sa.Column("starts_at", sa.Time(), nullable=False),
        sa.Column("ends_at", sa.Time(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("is_hard", sa.Boolean(), nullable=False),
        sa.Column("squads", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_week_slot")),
    )
    op.create_table(
        "room",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_room")),
    )


def _bars_and_plates() -> None:
    """Bars, plates and collars."""
    op.create_table(
        "bar",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("mass_amount", sa.Text(), nullable=False),
        sa.Column("mass_unit", sa.Text(), nullable=False),
        sa.Column("mass_kg", sa.Double(), nullable=False),
        sa.Column("maximum_load_amount", sa.Text(), nullable=True),
        sa.Column("maximum_load_unit", sa.Text(), nullable=True),
        sa.Column("maximum_load_kg", sa.Double(), nullable=True),
        sa.Column("length_m", sa.Double(), nullable=False),
        sa.Column("is_technique_bar", sa.Boolean(), nullable=False),
        sa.Column("in_service", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bar")),
    )
    op.create_table(
        "plate_pair",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("plate_amount", sa.Text(), nullable=False),
        sa.Column("plate_unit", sa.Text(), nullable=False),
        sa.Column("plate_kg", sa.Double(), nullable=False),
        sa.Column("pairs", sa.Integer(), nullable=False),
        sa.Column("stamped_amount", sa.Text(), nullable=True),
        sa.Column("stamped_unit", sa.Text(), nullable=True),
        sa.Column("stamped_kg", sa.Double(), nullable=True),
        sa.Column("is_full_size", sa.Boolean(), nullable=False),
        sa.Column("in_service", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plate_pair")),
    )
    op.create_table(
        "single_plate",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("plate_amount", sa.Text(), nullable=False),
        sa.Column("plate_unit", sa.Text(), nullable=False),
        sa.Column("plate_kg", sa.Double(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_single_plate")),
    )
    op.create_table(
        "collar_pairs",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("pairs", sa.Integer(), nullable=False),
        sa.Column("pair_mass_amount", sa.Text(), nullable=True),
        sa.Column("pair_mass_unit", sa.Text(), nullable=True),
        sa.Column("pair_mass_kg", sa.Double(), nullable=True),
        sa.Column("in_service", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_collar_pairs")),
    )


def _balls_and_boxes() -> None:
    """Balls, boxes and the rest of the store."""
    op.create_table(
        "ball",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("mass_amount", sa.Text(), nullable=False),
        sa.Column("mass_unit", sa.Text(), nullable=False),
        sa.Column("mass_kg", sa.Double(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("bounces", sa.Boolean(), nullable=False),
        sa.Column("fit_for_walls", sa.Boolean(), nullable=False),
        sa.Column("in_service", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_ball")),
    )
    op.create_table(
        "box",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("heights_m", sa.Text(), nullable=False),
        sa.Column("top_width_m", sa.Double(), nullable=False),
        sa.Column("top_depth_m", sa.Double(), nullable=False),
        sa.Column("is_foam", sa.Boolean(), nullable=False),
        sa.Column("fit_for_landing", sa.Boolean(), nullable=False),
        sa.Column("maximum_body_mass_amount", sa.Text(), nullable=True),
        sa.Column("maximum_body_mass_unit", sa.Text(), nullable=True),
        sa.Column("maximum_body_mass_kg", sa.Double(), nullable=True),
        sa.Column("in_service", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_box")),
    )
    op.create_table(
        "other_kit",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("height_m", sa.Double(), nullable=True),
        sa.Column("in_service", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_other_kit")),
    )


def _athletes() -> None:
    """Athletes, the adults who answer for minors, and what was agreed to."""
    op.create_table(
        "athlete",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("birth_date", sa.Date(), nullable=False),
        sa.Column("sex", sa.Text(), nullable=False),
        sa.Column("level", sa.Text(), nullable=False),
        sa.Column("sport", sa.Text(), nullable=False),
        sa.Column("squad", sa.Text(), nullable=False),
        sa.Column("weight_class", sa.Text(), nullable=False),
        sa.Column("training_age_years", sa.Double(), nullable=False),
        sa.Column("stature_m", sa.Double(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_athlete")),
    )
    op.create_table(
        "guardian",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("relation", sa.Text(), nullable=False),
        sa.Column("telephone", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athlete.id"], name=op.f("fk_guardian_athlete_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_guardian")),
    )
    op.create_table(
        "consent",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("purpose", sa.Text(), nullable=False),
        sa.Column("given_by", sa.Text(), nullable=False),
        sa.Column("given_on", sa.Date(), nullable=False),
        sa.Column("text_version", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athlete.id"], name=op.f("fk_consent_athlete_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_consent")),
    )


def _tests() -> None:
    """Strength tests, jump tests and body mass."""
    op.create_table(
        "strength_test",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("lift", sa.Text(), nullable=False),
        sa.Column("load_amount", sa.Text(), nullable=False),
        sa.Column("load_unit", sa.Text(), nullable=False),
        sa.Column("load_kg", sa.Double(), nullable=False),
        sa.Column("repetitions", sa.Integer(), nullable=False),
        sa.Column("taken_on", sa.Date(), nullable=False),
        sa.Column("method", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_strength_test_athlete_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_strength_test")),
    )
    op.create_table(
        "jump_test",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("height_m", sa.Double(), nullable=False),
        sa.Column("taken_on", sa.Date(), nullable=False),
        sa.Column("method", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athlete.id"], name=op.f("fk_jump_test_athlete_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_jump_test")),
    )
    op.create_table(
        "mass_reading",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("reading_amount", sa.Text(), nullable=False),
        sa.Column("reading_unit", sa.Text(), nullable=False),
        sa.Column("reading_kg", sa.Double(), nullable=False),
        sa.Column("taken_on", sa.Date(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_mass_reading_athlete_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_mass_reading")),
    )


def _events() -> None:
    """Competitions."""
    op.create_table(
        "event",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("starts_on", sa.Date(), nullable=False),
        sa.Column("priority", sa.Text(), nullable=False),
        sa.Column("mass_limit_amount", sa.Text(), nullable=True),
        sa.Column("mass_limit_unit", sa.Text(), nullable=True),
        sa.Column("mass_limit_kg", sa.Double(), nullable=True),
        sa.Column("weigh_in_rule", sa.Text(), nullable=False),
        sa.Column("bouts_expected", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athlete.id"], name=op.f("fk_event_athlete_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_event")),
        sa.UniqueConstraint("athlete_id", "id", name=op.f("uq_event_athlete_id_id")),
    )


def _restrictions() -> None:
    """Restrictions and what lifts them."""
    op.create_table(
        "restriction",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("author_role", sa.Text(), nullable=False),
        sa.Column("starts_on", sa.Date(), nullable=False),
        sa.Column("until", sa.Date(), nullable=True),
        sa.Column("demands", sa.Text(), nullable=False),
        sa.Column("body_areas", sa.Text(), nullable=False),
        sa.Column("all_training", sa.Boolean(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("instruction", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_restriction_athlete_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_restriction")),
        sa.UniqueConstraint("athlete_id", "id", name=op.f("uq_restriction_athlete_id_id")),
    )
    op.create_table(
        "clearance",
        sa.Column("athlete_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("restriction", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("given_on", sa.Date(), nullable=False),
        sa.Column("licence", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id", "restriction"],
            ["restriction.athlete_id", "restriction.id"],
            name="fk_clearance_restriction",
        ),
        sa.ForeignKeyConstraint(
            ["athlete_id"], ["athlete.id"], name=op.f("fk_clearance_athlete_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("athlete_id", "position", name=op.f("pk_clearance")),
        sa.UniqueConstraint("athlete_id", "id", name=op.f("uq_clearance_athlete_id_id")),
    )


def _documents() -> None:
    """Documents by version, each with its SHA-256."""
    op.create_table(
        "routine",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=True),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", "version", name=op.f("pk_routine")),
    )
    op.create_table(
        "session",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=True),
        sa.Column("held_on", sa.Date(), nullable=False),
        sa.Column("routine", sa.Text(), nullable=False),
        sa.Column("routine_version", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["routine", "routine_version"],
            ["routine.id", "routine.version"],
            name=op.f("fk_session_routine"),
        ),
        sa.PrimaryKeyConstraint("id", "revision", name=op.f("pk_session")),
    )
    op.create_table(
        "plan",
        sa.Column("session", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("held_on", sa.Date(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("session", "revision", name=op.f("pk_plan")),
    )
