"""Tables that grow day by day: steps, records, courses of sessions, devices, the diary."""

from sqlalchemy import Index, Table, UniqueConstraint

from squadwright.storage.columns import day, flag, metadata, number, text

# What a write changed, by part of the club, so that it can be taken back.
step = Table(
    "step",
    metadata,
    number("number", key=True),
    text("id"),
    day("made_on"),
    text("entries"),
    UniqueConstraint("id"),
)

# What happened on the floor: rows are added, never changed. ``arrival`` is the order they came in.
record_event = Table(
    "record_event",
    metadata,
    number("arrival", key=True),
    text("id"),
    text("session"),
    text("document"),
    UniqueConstraint("id"),
    Index(None, "session", "arrival"),
)

# How a session runs: rows are added, the one with the highest number counts. ``start`` is the id
# of the event with which it was started.
course = Table(
    "course",
    metadata,
    text("session", key=True),
    number("number", key=True),
    text("start"),
    text("revision"),
    text("document"),
)

# Second devices: a code that waits, or who has joined until the end of the day.
device = Table(
    "device",
    metadata,
    text("id", key=True),
    text("token_hash"),
    text("document"),
    Index(None, "token_hash"),
)

# The diary: what is known of an athlete's days. An entry taken out is kept out of force, so that
# the step which took it out can be taken back.
diary_entry = Table(
    "diary_entry",
    metadata,
    text("id", key=True),
    text("athlete_id"),
    day("day"),
    text("kind"),
    text("written"),
    flag("in_force"),
    text("document"),
    Index(None, "athlete_id", "day"),
    Index(None, "kind", "day"),
)

diary_step = Table(
    "diary_step",
    metadata,
    text("mark", key=True),
    day("made_on"),
    text("added"),
    text("taken_out"),
)

# Who was erased for good: marks from which nobody can be read.
erased = Table(
    "erased",
    metadata,
    text("salt", key=True),
    text("of_id"),
    text("of_person"),
    day("erased_on"),
)

# What an import brought in, until it is taken back.
taken_in = Table(
    "taken_in",
    metadata,
    text("mark", key=True),
    text("club_step"),
    text("diary_mark"),
    text("events"),
)

# Who touched which health field of whom: rows are added, never the value.
health_log = Table(
    "health_log",
    metadata,
    number("number", key=True),
    text("at"),
    text("who"),
    text("athlete_id"),
    text("field"),
    text("how"),
    Index(None, "athlete_id"),
)
