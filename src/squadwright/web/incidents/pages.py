"""The pages of incidents, put together from the records."""

from squadwright.model.club import Club
from squadwright.services.club_changes import fingerprint
from squadwright.services.incidents import Incident, Incidents
from squadwright.web.forms import FormView
from squadwright.web.incidents.contexts import CardPage, IncidentRow, IncidentsPage
from squadwright.web.restrictions.rows import restrictions_path
from squadwright.web.squad.words import athlete_path
from squadwright.web.wording import count_text, day_text

NO_NOTE = "Head knock. No note was written."


def incidents_page(found: Incidents, *, of: str) -> IncidentsPage:
    """Everything that was noted, the latest first."""
    names = found.club.shown_names()
    people = {athlete.id for athlete in found.club.athletes}
    return IncidentsPage(
        title=f"Incidents of {names[of]}" if of else "Incidents",
        line=f"{count_text(len(found.rows), 'incident')}, for the coach alone.",
        rows=tuple(_row(row, names, row.athlete in people) for row in found.rows),
        of_one=bool(of),
    )


def card_page(club: Club, view: FormView | None = None) -> CardPage:
    """The emergency card, as it is or as it was typed."""
    card = club.emergency
    filled = FormView.of(
        address=card.address,
        access=card.access,
        defibrillator=card.defibrillator,
        contacts="\n".join(card.contacts),
    )
    return CardPage(view or filled, fingerprint(card))


def _row(row: Incident, names: dict[str, str], is_here: bool) -> IncidentRow:
    at = row.at.astimezone()
    return IncidentRow(
        day=day_text(row.session.held_on if row.session else at.date()),
        clock=f"{at:%H:%M:%S}",
        session=row.session.name if row.session else "a session no more kept",
        name=names.get(row.athlete, row.athlete) or "nobody named",
        athlete_path=athlete_path(row.athlete) if is_here else "",
        restrictions_path=restrictions_path(row.athlete) if is_here and row.is_out else "",
        words=row.words or NO_NOTE,
        author=row.author,
        is_taken_back=row.is_taken_back,
        is_out=row.is_out,
    )
