"""The forms of restrictions, read into the words of the trade."""

from datetime import date

from squadwright.model.athlete import AuthorRole, Clearance, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.web.forms import Form

LONGEST_NOTE = 1000


def read_restriction(form: Form, restriction_id: str) -> Restriction:
    """A restriction as typed."""
    all_training = form.flag("all_training")
    demands = form.choices("demands", "Movements", [d.value for d in Demand])
    areas = form.choices("body_areas", "Body areas", [a.value for a in BodyArea])
    if not (all_training or demands or areas):
        form.refuse(
            "demands",
            "What it bars",
            "nothing is chosen",
            "Choose a movement, a body area or all training",
        )
    author = form.text("author", "Who says so")
    role = form.member("author_role", "In which role", AuthorRole)
    starts_on = form.day("starts_on", "From")
    until = form.maybe_day("until", "Until")
    if until is not None and until <= starts_on:
        form.refuse(
            "until",
            "Until",
            f"{until} is not after the start {starts_on}",
            "Give a later day, or leave it empty if it holds until lifted",
        )
    reason = form.text("reason", "Reason", is_required=False, longest=LONGEST_NOTE)
    instruction = form.text("instruction", "Instruction", is_required=False, longest=LONGEST_NOTE)
    form.done()
    return Restriction(
        id=restriction_id,
        author=author,
        author_role=role,
        starts_on=starts_on,
        until=until,
        demands=tuple(Demand(d) for d in demands),
        body_areas=tuple(BodyArea(a) for a in areas),
        all_training=all_training,
        reason=reason,
        instruction=instruction,
    )


def read_goes_on(form: Form) -> tuple[date, str]:
    """Until when it goes on, and who says so."""
    until = form.day("goes_on_until", "Goes on until")
    by = form.text("goes_on_by", "Who says so")
    form.done()
    return until, by


def read_over(form: Form) -> str:
    """Who says that it is over."""
    by = form.text("over_by", "Who says so")
    form.done()
    return by


def read_clearance(form: Form, restriction_id: str) -> Clearance:
    """A written clearance: who, with which licence, when."""
    author = form.text("cleared_by", "Who gave it")
    licence = form.text("licence", "Licence")
    given_on = form.day("given_on", "Date on the clearance")
    note = form.text("cleared_note", "What it says", is_required=False, longest=LONGEST_NOTE)
    form.done()
    return Clearance("new", restriction_id, author, given_on, licence, note)


def read_pain_to_keep(form: Form) -> tuple[str, BodyArea]:
    """Of which session, and where it hurts."""
    session = form.text("session", "Session")
    area = form.member("area", "Body area", BodyArea)
    form.done()
    return session, area
