"""The emergency card as typed."""

from squadwright.model.club import EmergencyCard
from squadwright.web.forms import Form

LONGEST_LINE = 300


def read_card(form: Form) -> EmergencyCard:
    """Address, way in, defibrillator, and contacts, one a line."""
    contacts = form.text("contacts", "Whom to call", is_required=False, longest=1000)
    card = EmergencyCard(
        address=form.text("address", "Where we are", is_required=False, longest=LONGEST_LINE),
        access=form.text("access", "Way in", is_required=False, longest=LONGEST_LINE),
        defibrillator=form.text(
            "defibrillator", "Defibrillator", is_required=False, longest=LONGEST_LINE
        ),
        contacts=tuple(line.strip() for line in contacts.split("\n") if line.strip()),
    )
    form.done()
    return card
