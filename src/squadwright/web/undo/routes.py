"""Take a step back and go on from the page it was told on."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.services.club_changes import take_back
from squadwright.web.forms import Form
from squadwright.web.page import see_other
from squadwright.web.part import Part
from squadwright.web.security import is_own_path
from squadwright.web.site import site

LONGEST_PATH = 500


def undo(request: Request) -> Response:
    """Put back what a step changed; the undoing is a step as well."""
    back = Form.of(request).raw("back")
    here = site(request)
    taken = take_back(here.keeper, request.path_params["step"], today=here.today())
    names = taken.names
    shown = ", ".join(names[:3]) + (f" and {len(names) - 3} more" if len(names) > 3 else "")
    words = f"Taken back. As before: {shown}." if shown else "Taken back."
    return see_other(_page(back, taken.gone), changed=words, undo=f"/undo/{taken.step}")


def _page(back: str, gone: tuple[str, ...]) -> str:
    """The page to go to: not the one of something that is no more there, nor an odd address."""
    if not is_own_path(back) or len(back) > LONGEST_PATH:
        return "/"
    steps = back.split("/")
    return f"/{steps[1]}" if set(steps[2:]) & set(gone) else back


PART = Part(
    "Undo",
    "/undo",
    routes=(Route("/undo/{step}", undo, methods=["POST"]),),
    in_navigation=False,
)
