"""What Today says of a session that was started: its sheet is kept, and where it goes on."""

from datetime import date, datetime
from urllib.parse import quote

from squadwright.model.session import Session
from squadwright.services.running import Pinned
from squadwright.web.today.contexts import RunNote
from squadwright.web.wording import short_day_text, time_text


def run_note(session: Session, state: Pinned | None, *, today: date) -> RunNote | None:
    """The sentence and its links; None where the session was not started."""
    if state is None:
        return None
    key = quote(session.id, safe="")
    if state.is_ended:
        return RunNote(
            "Ended",
            f"The session was started at {_when(state.since, today)} and has ended.",
            "What is changed here changes nothing of what was done.",
            (("See what was done", f"/done/{key}"),),
        )
    return RunNote(
        "Running",
        f"The session has been running since {_when(state.since, today)}, and the sheet on the "
        "floor is kept as it was at the start: what is changed here does not move it.",
        "Change it on the live floor, under Change.",
        (("To the live floor", f"/live/{key}"), ("Hand over", f"/live/{key}/handover")),
    )


def _when(since: datetime, today: date) -> str:
    """The time of day, with the day where it is another one."""
    here = since.astimezone()
    clock = time_text(here.time())
    return clock if here.date() == today else f"{short_day_text(here.date())}, {clock}"
