"""What is typed after a session."""

from squadwright.model.effort import EFFORTS, RESERVES
from squadwright.model.record import EventKind
from squadwright.planning.live.review import LONGEST_LINE, Review
from squadwright.web.forms import Form


def read_at_door(form: Form) -> tuple[str, EventKind, int]:
    """Who, what he was asked, and his answer."""
    athlete = form.text("athlete", "Athlete")
    if form.raw("reserve"):
        kind, name, label, known = EventKind.RESERVE, "reserve", "Reserve", RESERVES
    else:
        kind, name, label, known = EventKind.EFFORT, "effort", "Effort", EFFORTS
    value = form.choice(name, label, [str(number) for number in known])
    form.done()
    return athlete, kind, int(value)


def read_review(form: Form) -> Review:
    """The three lines, each of which may be empty."""
    found = Review(
        work=form.text("work", "Planned and done", is_required=False, longest=LONGEST_LINE),
        trouble=form.text("trouble", "What went wrong", is_required=False, longest=LONGEST_LINE),
        change=form.text("change", "What to change", is_required=False, longest=LONGEST_LINE),
    )
    form.done()
    return found
