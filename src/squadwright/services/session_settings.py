"""Use cases of a session as a whole: the minutes left, and how an odd number is divided."""

from dataclasses import replace
from datetime import date

from squadwright.errors import InvalidInput, range_text
from squadwright.model.club import Club
from squadwright.model.session import OddSquad, Session
from squadwright.services.session_changes import Replanned, change_session
from squadwright.services.unit_of_work import Keeper

FEWEST_MINUTES = 5


def set_minutes_left(
    keeper: Keeper, session_id: str, minutes: int | None, *, today: date
) -> Replanned:
    """The slot has so many minutes left; None gives it back the whole of its time."""

    def change(club: Club, session: Session) -> Session:
        if minutes is not None and not FEWEST_MINUTES <= minutes <= session.minutes:
            raise InvalidInput(
                "minutes",
                f"{minutes} minutes are outside {range_text(FEWEST_MINUTES, session.minutes)}",
                "Write how many minutes of the slot are left",
            )
        is_whole = minutes is None or minutes == session.minutes
        return replace(session, minutes_left=None if is_whole else minutes)

    def said(club: Club, session: Session) -> str:
        if session.minutes_left is None:
            return f"The whole {session.minutes} minutes again."
        return f"{session.minutes_left} minutes left."

    return change_session(keeper, session_id, change, today=today, said=said, recalls=True)


def set_odd_squad(keeper: Keeper, session_id: str, choice: OddSquad, *, today: date) -> Replanned:
    """How an odd number is divided where pairs are wanted."""

    def change(club: Club, session: Session) -> Session:
        return replace(session, settings=replace(session.settings, odd_squad=choice))

    def said(club: Club, session: Session) -> str:
        return f"An odd number makes {choice.value}."

    return change_session(keeper, session_id, change, today=today, said=said, recalls=True)
