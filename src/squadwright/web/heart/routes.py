"""A heart recording: choose its file, look at it, give it to somebody; and what it says."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.exchange.heart_file import read_heart_file
from squadwright.services.clubs import load_club
from squadwright.services.diary import take_out
from squadwright.services.heart import keep_recording, recording, recordings, summarise
from squadwright.web.forms import Form, FormView
from squadwright.web.heart.forms import LONGEST_FILE_NAME, read_asked, read_kept, read_series
from squadwright.web.heart.pages import (
    HERE,
    preview_page,
    recording_page,
    recordings_page,
    series_of,
)
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.undo.routes import diary_undo


def show_list(request: Request) -> Response:
    """The recordings, and a file to choose."""
    return render(request, recordings_page(recordings(site(request).keeper)))


def upload(request: Request) -> Response:
    """Read the file, and show it; nothing is stored."""
    here, form = site(request), Form.of(request)
    club = load_club(here.keeper)
    try:
        interval_s = form.maybe_number(
            "interval", "Seconds between readings", low=0.1, high=60, unit="s"
        )
        name, data = form.file("recording", "The file")
        form.done()
        read = read_heart_file(name, data, interval_s=interval_s)
        series = series_of(read, name[:LONGEST_FILE_NAME])
        lost = (f"{read.lost} readings without a value are left out.",) if read.lost else ()
        page = preview_page(club, series, today=here.today(), notes=(*read.notes, *lost))
    except InvalidInput as error:
        return render(
            request, recordings_page(recordings(here.keeper), _wrong(form, error)), status=422
        )
    return render(request, page)


def keep(request: Request) -> Response:
    """Write the recording into the diary of the athlete chosen."""
    here, form = site(request), Form.of(request)
    club = load_club(here.keeper)
    try:
        series = read_series(form.raw("series"))
    except InvalidInput as error:
        page = recordings_page(recordings(here.keeper), FormView(errors={"recording": str(error)}))
        return render(request, page, status=422)
    try:
        kept = read_kept(form, club, series)
        mark = keep_recording(
            here.keeper,
            kept.series,
            athlete=kept.athlete,
            day=kept.day,
            today=here.today(),
            now=datetime.now(UTC),
        )
    except InvalidInput as error:
        page_again = preview_page(club, series, today=here.today(), view=form.refused(error))
        return render(request, page_again, status=422)
    name = club.shown_names()[kept.athlete]
    return see_other(
        HERE, changed=f"The recording is in the diary of {name}.", undo=diary_undo(mark)
    )


def show_one(request: Request) -> Response:
    """One recording and what it says by author."""
    keeper = site(request).keeper
    athlete, entry, series = recording(keeper, request.path_params["entry"])
    asked, view = read_asked(request.query_params)
    found = summarise(series, athlete, asked, day=entry.day)
    name = load_club(keeper).shown_names()[athlete.id]
    return render(request, recording_page(athlete, name, entry, series, found, view))


def remove(request: Request) -> Response:
    """Take a recording out of the diary."""
    here = site(request)
    _, entry, _ = recording(here.keeper, request.path_params["entry"])
    mark = take_out(
        here.keeper, (entry.id,), author="coach", today=here.today(), now=datetime.now(UTC)
    )
    return see_other(HERE, changed="The recording is out of the diary.", undo=diary_undo(mark))


def back(request: Request) -> Response:
    """A preview cannot be asked for again by its address: choose the file."""
    return see_other(HERE)


def _wrong(form: Form, error: InvalidInput) -> FormView:
    view = form.refused(error)
    return view if view.errors else FormView(view.typed, {"recording": str(error)})


PART = Part(
    "Heart recordings",
    HERE,
    routes=(
        Route(HERE, show_list, methods=["GET"]),
        Route(HERE, upload, methods=["POST"]),
        Route(f"{HERE}/keep", back, methods=["GET"]),
        Route(f"{HERE}/keep", keep, methods=["POST"]),
        Route(f"{HERE}/of/{{entry}}", show_one, methods=["GET"]),
        Route(f"{HERE}/of/{{entry}}/remove", remove, methods=["POST"]),
    ),
    in_navigation=False,
)
