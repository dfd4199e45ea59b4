"""The forms of the door, read into a check-in."""

from squadwright.model.muscles import BodyArea
from squadwright.model.session import Pain, Presence
from squadwright.web.forms import Form

QUICK_MINUTES = (5, 10, 15, 20, 30)
SIDES = ("left", "right", "both", "not stated")
WORST_PAIN = 10


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
                "Mark him absent",
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
