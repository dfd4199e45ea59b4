"""A roster file: choose it, look at every doubtful cell, take it in; and the squad as a file."""

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.exchange.roster import Answers, recognised
from squadwright.exchange.roster_file import read_roster_file
from squadwright.exchange.squad_csv import squad_csv
from squadwright.model.club import Club
from squadwright.services.clubs import load_club
from squadwright.services.erasing import erased_list
from squadwright.services.roster import take_in
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.roster.forms import LONGEST_FILE_NAME, Sent, read_preview
from squadwright.web.roster.pages import preview_page, rows_of, upload_page
from squadwright.web.site import site
from squadwright.web.wording import count_text

HERE = "/squad/import"


def choose(request: Request) -> Response:
    """Choose a file."""
    return render(request, upload_page(load_club(site(request).keeper)))


def upload(request: Request) -> Response:
    """Read the file, and show it; nothing is stored."""
    club = load_club(site(request).keeper)
    form = Form.of(request)
    try:
        name, data = form.file("roster", "The file")
        form.done()
        table = read_roster_file(name, data)
    except InvalidInput as error:
        return _choose_again(request, club, error)
    sent = Sent(table, recognised(table.heads), Answers({}), name[:LONGEST_FILE_NAME], False)
    return _shown(request, club, sent)


def look_again(request: Request) -> Response:
    """The preview with what was said to it."""
    club = load_club(site(request).keeper)
    try:
        sent = read_preview(_form(request))
    except InvalidInput as error:
        return _choose_again(request, club, error)
    return _shown(request, club, sent)


def take(request: Request) -> Response:
    """Take everybody in who is not left out."""
    here = site(request)
    club = load_club(here.keeper)
    try:
        sent = read_preview(_form(request))
    except InvalidInput as error:
        return _choose_again(request, club, error)
    rows = rows_of(club, sent, here.today(), erased_list(here.keeper))
    try:
        done, count = take_in(here.keeper, rows, today=here.today())
    except InvalidInput as error:
        return render(request, preview_page(sent, rows, wrong=str(error)), status=422)
    return see_other(
        "/squad",
        changed=f"{count_text(count, 'athlete is', 'athletes are')} in the squad, "
        f"from {sent.file_name or 'the file'}.",
        undo=f"/undo/{done.step}",
    )


def back(request: Request) -> Response:
    """A preview cannot be asked for again by its address: choose the file."""
    return see_other(HERE)


def squad_file(request: Request) -> Response:
    """The squad as a CSV file."""
    here = site(request)
    data = squad_csv(load_club(here.keeper).athletes, today=here.today())
    return Response(
        data,
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="squad.csv"'},
    )


def _choose_again(request: Request, club: Club, error: InvalidInput) -> Response:
    page = upload_page(club, FormView(errors={"roster": str(error)}))
    return render(request, page, status=422)


def _shown(request: Request, club: Club, sent: Sent) -> Response:
    here = site(request)
    rows = rows_of(club, sent, here.today(), erased_list(here.keeper))
    return render(request, preview_page(sent, rows))


def _form(request: Request) -> FormData:
    form = request.state.form
    assert isinstance(form, FormData)
    return form


PART = Part(
    "Roster import",
    HERE,
    routes=(
        Route(HERE, choose, methods=["GET"]),
        Route(HERE, upload, methods=["POST"]),
        Route(f"{HERE}/preview", back, methods=["GET"]),
        Route(f"{HERE}/preview", look_again, methods=["POST"]),
        Route(f"{HERE}/take", back, methods=["GET"]),
        Route(f"{HERE}/take", take, methods=["POST"]),
        Route(f"{HERE}/squad.csv", squad_file, methods=["GET"]),
    ),
    in_navigation=False,
)
