"""Use case: run the complexes of a session in more waves than the routine is written for."""

from dataclasses import replace
from datetime import date

from squadwright.errors import InvalidInput, range_text
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.planning.kit.problem import MOST_WAVES
from squadwright.services.session_changes import Replanned, change_session
from squadwright.services.unit_of_work import Keeper


def choose_waves(keeper: Keeper, session_id: str, waves: int | None, *, today: date) -> Replanned:
    """So many waves; None: as the routine is written."""
    if waves is not None and not 1 <= waves <= MOST_WAVES:
        raise InvalidInput(
            "waves", f"{waves} waves is outside {range_text(1, MOST_WAVES)}", "Choose among these"
        )

    def change(club: Club, session: Session) -> Session:
        return replace(session, waves=waves)

    def said(club: Club, session: Session) -> str:
        if waves is None:
            return f"{session.name}: waves as the routine is written."
        return f"{session.name} in {waves} wave{'s' if waves > 1 else ''}."

    return change_session(keeper, session_id, change, today=today, said=said)
