"""The forms of Today, read into values of the trade."""

from datetime import date

from squadwright.model.athlete import Sex
from squadwright.model.muscles import BodyArea
from squadwright.model.session import Pain, Presence, Session
from squadwright.services.coach_override import ACTIONS, OWN_LOAD, OWN_ROUNDS, REASONS, Wanted
from squadwright.services.guests import NewGuest, age_of
from squadwright.web.forms import Form

QUICK_MINUTES = (5, 10, 15, 20, 30)
SIDES = ("left", "right", "both", "not stated")
WORST_PAIN = 10
MOST_ROUNDS = 30


def read_presence(form: Form, session_minutes: int) -> tuple[Presence, int]:
    """Whether he is here, and how late: from a button of its own, or from the field."""
    quick = {f"late-{minutes}": minutes for minutes in QUICK_MINUTES}
    chosen = form.choice("presence", "Presence", [*(p.value for p in Presence), *quick])
    minutes = 0
    if chosen in quick:
        chosen, minutes = Presence.LATE.value, quick[chosen]
        if minutes >= session_minutes:
            form.refuse(
                "presence",
                "Presence",
                f"{minutes} minutes late for a session of {session_minutes} minutes",
                "Tap Absent",
            )
    elif chosen == Presence.LATE.value:
        minutes = form.whole(
            "minutes", "Minutes late", low=1, high=session_minutes - 1, unit="minutes"
        )
    form.done()
    return Presence(chosen), minutes


def read_pain(form: Form) -> Pain:
    """Where it hurts and how much."""
    area = form.member("area", "Body area", BodyArea)
    side = form.choice("side", "Side", SIDES)
    score = form.whole("score", "Pain", low=0, high=WORST_PAIN, unit="of 10")
    form.done()
    return Pain(area, score, side)


def read_note(form: Form) -> str:
    """What he says, or nothing."""
    note = form.text("note", "Note", is_required=False, longest=200)
    form.done()
    return note


def read_late(form: Form, session: Session) -> tuple[tuple[str, ...], int]:
    """Who comes late together, and by how many minutes: a button, or the field."""
    athletes = form.choices("athletes", "Who", session.athletes)
    quick = form.raw("quick")
    if quick.isascii() and quick.isdigit() and int(quick) in QUICK_MINUTES:
        minutes = int(quick)
    else:
        minutes = form.whole(
            "minutes", "Minutes late", low=1, high=session.minutes - 1, unit="minutes"
        )
    if not athletes:
        form.refuse("athletes", "Who", "nobody is ticked", "Tick everybody who comes late")
    form.done()
    return athletes, minutes


def read_minutes_left(form: Form, session: Session) -> int | None:
    """The minutes left, from a button or the field; None for the whole slot again."""
    if form.raw("quick") == "whole":
        return None
    name = "quick" if form.raw("quick") else "minutes"
    minutes = form.whole(name, "Minutes left", low=5, high=session.minutes, unit="minutes")
    form.done()
    return minutes


def read_guest(form: Form, *, today: date) -> NewGuest:
    """A guest as he says himself at the door."""
    is_minor = form.choice("kind", "Adult or minor", ("adult", "minor")) == "minor"
    number = form.maybe_number("age", "Age or birth year", low=1, high=today.year, unit="")
    if number is not None and (number != int(number) or 100 <= number < 1900):
        form.refuse(
            "age", "Age or birth year", f"{number:g} is neither", "Write 17, or a year like 2009"
        )
    agreed = form.flag("agreed")
    if not agreed:
        form.refuse(
            "agreed", "Agreed", "is not ticked", "Ask the guest, or the guardian of a minor"
        )
    by = form.text("agreed_by", "Who agreed", is_required=is_minor, longest=100)
    guest = NewGuest(
        name=form.text("name", "Name", longest=100),
        is_minor=is_minor,
        agreed=agreed,
        agreed_by=by,
        age=None if number is None else age_of(int(number), today=today),
        sex=form.member("sex", "Sex", Sex) if form.raw("sex") else None,
        body_mass=form.maybe_mass("body_mass", "Body mass"),
    )
    form.done()
    return guest


def read_member(form: Form) -> tuple[date, Sex]:
    """What must be known of a member."""
    birth_date, sex = form.day("birth_date", "Birth date"), form.member("sex", "Sex", Sex)
    form.done()
    return birth_date, sex


def read_block(form: Form) -> str:
    """The block a change is for; empty where the session has one."""
    return form.raw("block")[:120]


def read_override(form: Form) -> Wanted:
    """What the coach wants, and the reason: a tap, or typed."""
    action = form.choice("action", "Change", ACTIONS)
    tapped = form.raw("reason")
    reason = tapped if tapped in REASONS else form.text("why", "Reason", longest=200)
    load = form.mass("load", "Load") if action == OWN_LOAD else None
    rounds = None
    if action == OWN_ROUNDS:
        rounds = form.whole("rounds", "Rounds", low=1, high=MOST_ROUNDS, unit="rounds")
    form.done()
    return Wanted(action, reason, load=load, bar=form.raw("bar"), rounds=rounds)
