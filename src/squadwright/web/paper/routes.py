"""Entering a session that ran from paper, and the score sheet it is written on."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import Conflict, InvalidInput
from squadwright.model.plan import Plan
from squadwright.printing.score_sheet import score_lines, set_score_sheet
from squadwright.printing.sheets import file_stem
from squadwright.printing.wording import as_sentence
from squadwright.services.clubs import load_club
from squadwright.services.paper import enter_from_paper, mark_of_paper, require_open, rounds_of
from squadwright.services.record import record_of
from squadwright.services.sheets import plan_to_print
from squadwright.web.done.paths import done_path
from squadwright.web.file import attachment
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.paper.contexts import PaperLine, PaperPage
from squadwright.web.paper.forms import read_lines
from squadwright.web.paper.paths import OF, paper_path
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.today.paths import session_path, when

EXCEPTIONS = ("absent", "rounds", "load", "seen")


def show(request: Request) -> Response:
    """Everybody in the order of the score sheet."""
    return render(request, _page(request, FormView()))


def enter(request: Request) -> Response:
    """Keep what stands on the sheet."""
    here, named = site(request), request.path_params["session"]
    form = Form.of(request)
    try:
        plan = require_open(here.keeper, named, today=here.today()).plan
        rounds = {line.athlete: rounds_of(plan, line.athlete) for line in score_lines(plan)}
        noted = enter_from_paper(here.keeper, named, read_lines(form, rounds), today=here.today())
    except InvalidInput as error:
        return render(request, _page(request, form.refused(error)), status=422)
    except Conflict:
        return render(request, _page(request, FormView()), status=409)
    undo = done_path(named, f"undo/{noted.mark}")
    return see_other(done_path(named), changed="The session is entered from paper.", undo=undo)


def printed(request: Request) -> Response:
    """The score sheet, with the code that opens the page it is entered on."""
    here, named = site(request), request.path_params["session"]
    plan = plan_to_print(here.keeper, named, today=here.today()).plan
    address = f"{request.url.scheme}://{request.url.netloc}{paper_path(named)}"
    return attachment(
        set_score_sheet(plan, address), f"{file_stem(plan)}-score.pdf", "application/pdf"
    )


def _page(request: Request, view: FormView) -> PaperPage:
    here = site(request)
    session = load_club(here.keeper).session(request.path_params["session"])
    closed = ""
    lines: tuple[PaperLine, ...] = ()
    try:
        plan = require_open(here.keeper, session.id, today=here.today()).plan
        lines = _lines(plan, view)
    except Conflict as why:
        closed = as_sentence(str(why))
    mark = mark_of_paper(record_of(here.keeper, session.id)) if closed else ""
    return PaperPage(
        title=session.name,
        line=f"{when(session)}.",
        closed=closed,
        undo_path=done_path(session.id, f"undo/{mark}") if mark else "",
        action=paper_path(session.id),
        sheet_path=paper_path(session.id, "sheet.pdf"),
        plan_path=session_path(session),
        done_path=done_path(session.id),
        view=view,
        lines=lines,
    )


def _lines(plan: Plan, view: FormView) -> tuple[PaperLine, ...]:
    return tuple(
        PaperLine(
            line.athlete,
            line.name,
            line.planned,
            rounds_of(plan, line.athlete),
            line.load != "",
            any(view.value(f"{name}-{line.athlete}") for name in EXCEPTIONS),
        )
        for line in score_lines(plan)
    )


PART = Part(
    "From paper",
    OF,
    routes=(
        Route(f"{OF}/{{session}}", show, methods=["GET"]),
        Route(f"{OF}/{{session}}", enter, methods=["POST"]),
        Route(f"{OF}/{{session}}/sheet.pdf", printed),
    ),
    in_navigation=False,
)
