"""Routines: the club's own, the shelf, one routine, sharing, the handover sheet."""

from collections.abc import Sequence

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.complaint import Complaint
from squadwright.exchange.routine_file import examine_routine, write_routine
from squadwright.library import routine as shelf_routine
from squadwright.model.routine import Routine
from squadwright.services.clubs import load_club, present_club
from squadwright.services.routines import (
    Saved,
    bring_back,
    copy_routine,
    current_routine,
    move_sessions,
    remove_routine,
    rename_routine,
    take_in_routine,
)
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.routines import building
from squadwright.web.routines.contexts import NamePage, TakeInPage
from squadwright.web.routines.pages import (
    club_routine_page,
    handover_page,
    list_page,
    routine_path,
    session_words,
    shelf_page,
    shelf_routine_page,
)
from squadwright.web.routines.words import block_lines, routine_facts
from squadwright.web.site import site
from squadwright.words import capital

LARGEST_TEXT = 900_000


def routine_list(request: Request) -> Response:
    """The club's routines."""
    return render(request, list_page(present_club(site(request).keeper)))


def shelf(request: Request) -> Response:
    """The routines that come with the program."""
    asked = Form(FormData(dict(request.query_params)))
    return render(
        request, shelf_page(asked, has_club=present_club(site(request).keeper) is not None)
    )


def shelf_one(request: Request) -> Response:
    """One routine of the shelf."""
    routine = shelf_routine(request.path_params["routine"])
    return render(request, shelf_routine_page(present_club(site(request).keeper), routine))


def take_copy(request: Request) -> Response:
    """A routine of the shelf becomes one of the club."""
    routine = shelf_routine(request.path_params["routine"])
    here = site(request)
    done = copy_routine(here.keeper, routine, today=here.today())
    return _to_routine(done, f"{done.routine.name} is one of the club's routines.")


def routine(request: Request) -> Response:
    """One routine of the club, in its newest version or the one asked for."""
    asked = request.query_params.get("version")
    if asked is not None and not (asked.isascii() and asked.isdecimal() and len(asked) < 6):
        raise NotFound(f"{asked[:20]!r} is no version of a routine")
    version = None if asked is None else int(asked)
    page = club_routine_page(
        load_club(site(request).keeper),
        request.path_params["routine"],
        version,
        today=site(request).today(),
    )
    return render(request, page)


def sheet(request: Request) -> Response:
    """What an assistant needs."""
    here = site(request)
    club = load_club(here.keeper)
    page = handover_page(club, request.path_params["routine"], today=here.today())
    return render(request, page)


def copy(request: Request) -> Response:
    """One more of the same, under a name of its own."""
    here = site(request)
    now = current_routine(load_club(here.keeper), request.path_params["routine"])
    done = copy_routine(here.keeper, now, today=here.today())
    return _to_routine(done, f"{done.routine.name} is a copy of {now.name}.")


def name(request: Request) -> Response:
    """Another name for a routine."""
    here = site(request)
    now = current_routine(load_club(here.keeper), request.path_params["routine"])
    path = routine_path(now.id)
    if request.method != "POST":
        page = NamePage(f"Rename {now.name}", f"{path}/name", path, FormView.of(name=now.name))
        return render(request, page)
    form = Form.of(request)
    try:
        new = form.text("name", "Name")
        form.done()
        done = rename_routine(here.keeper, now.id, new, today=here.today())
    except InvalidInput as error:
        page = NamePage(f"Rename {now.name}", f"{path}/name", path, form.refused(error))
        return render(request, page, status=422)
    return _to_routine(done, f"{now.name} is called {done.routine.name} now.")


def remove(request: Request) -> Response:
    """Off the list; kept where a session used it."""
    here = site(request)
    done = remove_routine(here.keeper, request.path_params["routine"], today=here.today())
    said = (
        "is put away, and kept for the sessions that used it"
        if done.routine.is_put_away
        else ("is no routine of the club any more")
    )
    undo = f"/undo/{done.changed.step}"
    return see_other("/routines", changed=f"{done.routine.name} {said}.", undo=undo)


def back_on_the_list(request: Request) -> Response:
    """A routine that was put away is used again."""
    here = site(request)
    done = bring_back(here.keeper, request.path_params["routine"], today=here.today())
    return _to_routine(done, f"{done.routine.name} is back on the list.")


def move(request: Request) -> Response:
    """Sessions to come use the newest version."""
    here = site(request)
    done = move_sessions(here.keeper, request.path_params["routine"], today=here.today())
    who = "; ".join(session_words(s) for s in done.sessions)
    said = f"Version {done.routine.version} of {done.routine.name} is used in {who}."
    undo = f"/undo/{done.changed.step}"
    return see_other(routine_path(done.routine.id), changed=said, undo=undo)


def file(request: Request) -> Response:
    """One routine as a file."""
    now = current_routine(load_club(site(request).keeper), request.path_params["routine"])
    safe = "".join(c if c.isascii() and (c.isalnum() or c in "-_") else "-" for c in now.id)
    return Response(
        write_routine(now),
        media_type="application/json",
        headers={"Content-Disposition": f'attachment; filename="{safe}.routine.json"'},
    )


def take_in(request: Request) -> Response:
    """A routine file: looked at first, then taken in."""
    if request.method != "POST":
        return render(request, _take_in_page(FormView()))
    form, here = Form.of(request), site(request)
    text = form.text("text", "Text", is_required=False, longest=LARGEST_TEXT)
    if form.raw("do") == "store" and not examine_routine(text)[1]:
        done = take_in_routine(here.keeper, text, today=here.today())
        return _to_routine(done, f"{done.routine.name} is one of the club's routines.")
    content = form.file("file", "File")[1]
    source: str | bytes = content or text
    if not source or len(source) > LARGEST_TEXT:
        problem = "is too large for a routine" if source else "nothing was sent"
        form.refuse("text", "File", problem, "Choose a routine file, or paste its text")
        return render(request, _take_in_page(_refused(form)), status=422)
    shown = content.decode("utf-8", "replace") if content else form.raw("text")
    page = _take_in_page(FormView({"text": (shown,)}), *examine_routine(source))
    return render(request, page, status=200 if page.can_be_stored else 422)


def _refused(form: Form) -> FormView:
    try:
        form.done()
    except InvalidInput as error:
        return form.refused(error)
    return FormView()


def _take_in_page(
    view: FormView, found: Routine | None = None, complaints: Sequence[Complaint] = ()
) -> TakeInPage:
    sound = found if not complaints else None
    return TakeInPage(
        view=view,
        complaints=tuple(str(complaint) for complaint in complaints),
        title=found.name if found else "",
        line=f"{capital(sound.aim)}. {routine_facts(sound)}." if sound else "",
        blocks=block_lines(sound) if sound else (),
        cautions=sound.cautions if sound else (),
        can_be_stored=sound is not None,
    )


def _to_routine(done: Saved, said: str) -> RedirectResponse:
    undo = f"/undo/{done.changed.step}"
    return see_other(routine_path(done.routine.id), changed=said, undo=undo)


ONE = "/routines/routine/{routine}"
PART = Part(
    "Routines",
    "/routines",
    routes=(
        Route("/routines", routine_list),
        Route("/routines/shelf", shelf),
        Route("/routines/shelf/{routine}", shelf_one),
        Route("/routines/shelf/{routine}/copy", take_copy, methods=["POST"]),
        Route("/routines/new", building.new, methods=["GET", "POST"]),
        Route("/routines/check", building.check, methods=["POST"]),
        Route("/routines/take-in", take_in, methods=["GET", "POST"]),
        Route(ONE, routine),
        Route(f"{ONE}/edit", building.edit, methods=["GET", "POST"]),
        Route(f"{ONE}/sheet", sheet),
        Route(f"{ONE}/file", file),
        Route(f"{ONE}/name", name, methods=["GET", "POST"]),
        Route(f"{ONE}/copy", copy, methods=["POST"]),
        Route(f"{ONE}/remove", remove, methods=["POST"]),
        Route(f"{ONE}/bring-back", back_on_the_list, methods=["POST"]),
        Route(f"{ONE}/sessions", move, methods=["POST"]),
    ),
)
