"""What the routes of Today share: the session a path names, and the answer after a change."""

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.services.clubs import load_club
from squadwright.services.session_changes import Replanned
from squadwright.web.page import see_other
from squadwright.web.site import site
from squadwright.web.today.paths import session_path


def named_session(request: Request) -> tuple[Club, Session]:
    """The club and the session of the path; raises NotFound."""
    club = load_club(site(request).keeper)
    return club, club.session(request.path_params["session"])


def changed(session: Session, done: Replanned, path: str = "") -> Response:
    """Go on to a page of the session, say what changed, and offer to take it back."""
    back = f"{session_path(session)}/undo/{quote(done.step)}"
    return see_other(path or session_path(session), changed=done.words, undo=back)
