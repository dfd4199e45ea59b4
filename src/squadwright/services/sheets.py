"""Use case: the plan of a session as it is shown, to be printed."""

from datetime import date

from squadwright.errors import NoSolution
from squadwright.services.planning import Planned, ShownSession, show_session
from squadwright.services.unit_of_work import Keeper


def plan_to_print(keeper: Keeper, session_id: str, *, today: date) -> Planned:
    """The plan that stands on the page of a session; NoSolution says why there is none."""
    shown = show_session(keeper, session_id, today=today)
    if not isinstance(shown, ShownSession) or shown.plan is None:
        trouble = shown.trouble if isinstance(shown, ShownSession) else "There is no club yet"
        raise NoSolution(f"There is no plan to print. {trouble}")
    return Planned(shown.club, shown.plan)
