"""Take a step back and go on from the page it was told on."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import NotFound
from squadwright.services import diary
from squadwright.services.club_changes import take_back
from squadwright.web.forms import Form
from squadwright.web.page import see_other
from squadwright.web.part import Part
from squadwright.web.security import is_own_path
from squadwright.web.site import site

LONGEST_PATH = 500
WAYS = {
    "back": (diary.take_back, "Taken back.", "again"),
    "again": (diary.put_again, "Written again.", "back"),
}


def undo(request: Request) -> Response:
    """Put back what a step changed; the undoing is a step as well."""
    back = Form.of(request).raw("back")
    here = site(request)
    taken = take_back(here.keeper, request.path_params["step"], today=here.today())
    names = taken.names
    shown = ", ".join(names[:3]) + (f" and {len(names) - 3} more" if len(names) > 3 else "")
    words = f"Taken back. As before: {shown}." if shown else "Taken back."
    return see_other(_page(back, taken.gone), changed=words, undo=f"/undo/{taken.step}")


def undo_diary(request: Request) -> Response:
    """Take back a write to the diary, or do it again."""
    mark, way = request.path_params["mark"], request.path_params["way"]
    if way not in WAYS:
        raise NotFound(f"nothing is done {way!r} here; go back and load the page afresh")
    turn, words, other = WAYS[way]
    turn(site(request).keeper, mark)
    page = _page(Form.of(request).raw("back"), ())
    return see_other(page, changed=words, undo=diary_undo(mark, other))


def diary_undo(mark: str, way: str = "back") -> str:
    """The address that takes a write to the diary back, or does it again."""
    return f"/undo/diary/{mark}/{way}"


def _page(back: str, gone: tuple[str, ...]) -> str:
    """The page to go to: not the one of something that is no more there, nor an odd address."""
    if not is_own_path(back) or len(back) > LONGEST_PATH:
        return "/"
    steps = back.split("/")
    return f"/{steps[1]}" if set(steps[2:]) & set(gone) else back


PART = Part(
    "Undo",
    "/undo",
    routes=(
        Route("/undo/{step}", undo, methods=["POST"]),
        Route("/undo/diary/{mark}/{way}", undo_diary, methods=["POST"]),
    ),
    in_navigation=False,
)
