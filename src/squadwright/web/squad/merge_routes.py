"""Two athletes who are one person: found, looked at side by side, made one."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.services.clubs import load_club
from squadwright.services.squad_merge import merge_athletes
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.squad.merging import merge_page, same_page
from squadwright.web.squad.words import athlete_path


def same(request: Request) -> Response:
    """Who may be the same person as this one."""
    club = load_club(site(request).keeper)
    return render(request, same_page(club, club.athlete(request.path_params["athlete"])))


def look(request: Request) -> Response:
    """Both side by side."""
    here = site(request)
    club = load_club(here.keeper)
    one, other = (club.athlete(request.path_params[name]) for name in ("athlete", "other"))
    return render(request, merge_page(club, one, other, today=here.today()))


def merge(request: Request) -> Response:
    """Make one of the two."""
    here = site(request)
    club = load_club(here.keeper)
    one, other = (club.athlete(request.path_params[name]) for name in ("athlete", "other"))
    form = Form.of(request)
    try:
        keep = form.choice("keep", "Whose name and details stay", (one.id, other.id))
        form.done()
        gone = other.id if keep == one.id else one.id
        shown = form.raw("shown")
        changed = merge_athletes(here.keeper, keep, gone, shown, today=here.today())
    except InvalidInput as error:
        page = merge_page(club, one, other, today=here.today(), view=form.refused(error))
        return render(request, page, status=422)
    names = club.shown_names()
    return see_other(
        athlete_path(keep),
        changed=f"{names[keep]} and {names[gone]} are one athlete now, with the entries of both.",
        undo=f"/undo/{changed.step}",
    )


MERGE_ROUTES = (
    Route("/squad/athlete/{athlete}/same", same),
    Route("/squad/athlete/{athlete}/same/{other}", look),
    Route("/squad/athlete/{athlete}/same/{other}", merge, methods=["POST"]),
)
