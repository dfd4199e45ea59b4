"""Query: a session as it can be done away from home; nothing is kept."""

from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.travel import TravelCard, TravelKit, travel_card
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Journey:
    """A session away from home; ``restricted`` are those who need a card of their own."""

    club: Club
    session: Session
    card: TravelCard
    people: tuple[PersonToday, ...]

    @property
    def restricted(self) -> tuple[PersonToday, ...]:
        """Whoever is restricted or hurts: the common card is not for him."""
        return tuple(p for p in self.people if p.restrictions or p.pains)


def journey(keeper: Keeper, session_id: str, kit: TravelKit, athlete: str = "") -> Journey:
    """The travel version of a session, for one athlete or for whoever is not restricted.

    NotFound for an unknown session, InvalidInput for an athlete who is not in it.
    """
    club = load_club(keeper)
    session = club.session(session_id)
    people = people_today(club, session)
    person = next((p for p in people if p.id == athlete), None)
    if athlete and person is None:
        raise InvalidInput(
            "athlete", f"{athlete!r} is not expected in {session.name}", "Choose one of the list"
        )
    return Journey(club, session, travel_card(club, session, kit, person), people)
