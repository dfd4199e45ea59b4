"""The editor's routes: build a routine, change one, and the checks while it is typed."""

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from squadwright.errors import InvalidInput
from squadwright.library import routine as shelf_routine
from squadwright.model.club import Club
from squadwright.model.routine import Routine
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club, present_club
from squadwright.services.routines import Saved, add_routine, current_routine, save_routine
from squadwright.web.forms import Form
from squadwright.web.page import html, render, see_other
from squadwright.web.routines.changes import redo
from squadwright.web.routines.contexts import ChecksPart
from squadwright.web.routines.draft import BlockDraft, Draft, draft_of
from squadwright.web.routines.editor import (
    Place,
    editor_page,
    see_draft,
    usual_words,
    with_setting,
)
from squadwright.web.routines.forms import read_routine
from squadwright.web.routines.pages import routine_path
from squadwright.web.site import site

NEW = Place("Build a routine", "/routines/new", "/routines")
SAVE = "save"


def new(request: Request) -> Response:
    """An empty editor, or one filled from the shelf or from a routine of the club."""
    club = present_club(site(request).keeper)
    if club is None:
        return RedirectResponse("/routines", status_code=303)
    if request.method == "POST":
        return _send(request, club, NEW)
    like = _like(request, club)
    if like is None:
        draft = Draft(blocks=(BlockDraft({"style": "complex"}),)).with_empty_rows()
        return _shown(request, club, NEW, with_setting(draft, club), focus="field-name")
    draft = draft_of(like).with_empty_rows()
    if "shelf" not in request.query_params:
        draft = draft.with_fields(name=f"{like.name[:110]} copy")
    return _shown(request, club, NEW, with_setting(draft, club, like))


def edit(request: Request) -> Response:
    """The editor of a routine of the club."""
    club = load_club(site(request).keeper)
    now = current_routine(club, request.path_params["routine"])
    path = routine_path(now.id)
    place = Place(f"Change {now.name}", f"{path}/edit", path, now.id)
    if request.method == "POST":
        return _send(request, club, place)
    draft = draft_of(now).with_fields(shown=fingerprint(now)).with_empty_rows()
    return _shown(request, club, place, with_setting(draft, club, now))


def check(request: Request) -> Response:
    """What is said of a routine while it is typed, and what is usual in its empty fields."""
    club = load_club(site(request).keeper)
    form = Form.of(request)
    draft = Draft.of_form(form)
    seen = see_draft(club, draft, form.raw("routine"))
    return JSONResponse(
        {
            "checks": html(request, ChecksPart(seen.checks)),
            "usual": dict(usual_words(draft)),
        }
    )


def _like(request: Request, club: Club) -> Routine | None:
    """The routine to begin from: one of the shelf, one of the club, or none."""
    asked = request.query_params
    if "shelf" in asked:
        return shelf_routine(asked["shelf"])
    return current_routine(club, asked["routine"]) if "routine" in asked else None


def _send(request: Request, club: Club, place: Place) -> Response:
    """A button of the editor: save, or change what is typed and show it again."""
    form = Form.of(request)
    draft = Draft.of_form(form)
    do = form.raw("do") or SAVE
    if do == SAVE:
        try:
            return _save(request, draft, place.routine)
        except InvalidInput as error:
            return _refused(request, club, place, draft, error)
    before = see_draft(club, draft, place.routine) if do.startswith("fix") else None
    fixes = tuple(fix for found in before.findings for fix in found.fixes) if before else ()
    done = redo(draft, do, fixes)
    return _shown(request, club, place, done.draft, focus=done.focus, trouble=done.trouble)


def _save(request: Request, draft: Draft, routine_id: str) -> Response:
    here = site(request)
    form = draft.form()
    routine = read_routine(draft, form)
    done: Saved
    if not routine_id:
        done = add_routine(here.keeper, routine, today=here.today())
        said = f"{done.routine.name} is one of the club's routines."
    else:
        shown = form.raw("shown")
        done = save_routine(here.keeper, routine_id, routine, shown, today=here.today())
        said = f"{done.routine.name} is stored as version {done.routine.version}."
    undo = f"/undo/{done.changed.step}"
    return see_other(routine_path(done.routine.id), changed=said, undo=undo)


def _refused(
    request: Request, club: Club, place: Place, draft: Draft, error: InvalidInput
) -> Response:
    """The form as it was typed, with what is wrong; it may be sent again over what is stored."""
    if place.routine:
        draft = draft.with_fields(shown=fingerprint(current_routine(club, place.routine)))
    seen = see_draft(club, draft, place.routine)
    return render(request, editor_page(place, club, draft, seen, error=error), status=422)


def _shown(
    request: Request,
    club: Club,
    place: Place,
    draft: Draft,
    *,
    focus: str = "",
    trouble: str = "",
) -> Response:
    draft = with_setting(draft, club)
    seen = see_draft(club, draft, place.routine)
    return render(request, editor_page(place, club, draft, seen, focus=focus, trouble=trouble))
