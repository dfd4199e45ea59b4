"""The coach's override: load, rounds or bar of one athlete, with a reason."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.services.coach_override import Place, remove_override, set_override, what_stands
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render
from squadwright.web.site import site
from squadwright.web.today.answers import changed, named_session
from squadwright.web.today.change import change_page
from squadwright.web.today.contexts import ChangePage
from squadwright.web.today.forms import read_block, read_override


def change(request: Request) -> Response:
    """What may be changed for one athlete, with the load or the rounds of the address typed in."""
    club, session = named_session(request)
    place = _place(request, session, request.query_params.get("block", "")[:120])
    typed = {n: (v[:16],) for n in ("load", "rounds") if (v := request.query_params.get(n))}
    return render(request, _page(request, club, session, place, FormView(typed)))


def set_change(request: Request) -> Response:
    """Keep the coach's word with its reason, and plan anew."""
    club, session = named_session(request)
    form, here = Form.of(request), site(request)
    place = _place(request, session, read_block(form))
    try:
        done = set_override(here.keeper, place, read_override(form), today=here.today())
    except InvalidInput as error:
        page = _page(request, club, session, place, form.refused(error))
        return render(request, page, status=422)
    return changed(session, done)


def remove_change(request: Request) -> Response:
    """Take the coach's word away."""
    _, session = named_session(request)
    here = site(request)
    place = _place(request, session, read_block(Form.of(request)))
    return changed(session, remove_override(here.keeper, place, today=here.today()))


def _place(request: Request, session: Session, block: str) -> Place:
    return Place(session.id, request.path_params["athlete"], block)


def _page(
    request: Request, club: Club, session: Session, place: Place, view: FormView | None = None
) -> ChangePage:
    stands = what_stands(site(request).keeper, club, session, place)
    return change_page(session, place, stands, view)


ROUTES = (
    Route("/today/{session}/change/{athlete}", change),
    Route("/today/{session}/change/{athlete}", set_change, methods=["POST"]),
    Route("/today/{session}/change/{athlete}/removed", remove_change, methods=["POST"]),
)
