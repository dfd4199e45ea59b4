"""The day of a competition as a page that also runs without a server, and as a sheet of paper."""

from datetime import UTC, date, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.record import record_of_day
from squadwright.planning.mat_record import mat_record
from squadwright.planning.mat_side import Standing
from squadwright.printing.event_day_sheet import set_event_day_sheet
from squadwright.services.clubs import load_club
from squadwright.services.event_day import EventDay, event_day
from squadwright.services.record import record_of
from squadwright.web.event_day.pages import (
    PATH,
    card_key,
    days_page,
    mat_side_page,
    noted_fields,
    noted_standings,
    read_settings,
    read_standings,
)
from squadwright.web.file import attachment
from squadwright.web.forms import Form, FormView
from squadwright.web.hall import visitor
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site

SETTINGS = ("bouts_ahead", "minutes")


def days(request: Request) -> Response:
    """The days of competition that lie ahead."""
    here = site(request)
    return render(request, days_page(load_club(here.keeper), today=here.today()))


def day(request: Request) -> Response:
    """The sheet of one day; what was said in the address orders it, nothing is written."""
    found, form = _found(request), Form.in_address(request)
    record = mat_record(record_of(site(request).keeper, record_of_day(found.day)))
    try:
        settings = read_settings(form, record.settings)
        standings = read_standings(form, found)
    except InvalidInput as error:
        unsaid = tuple(Standing(card_key(c)) for c in found.competitors)
        page = mat_side_page(
            found, unsaid, record.settings, form.refused(error), record, visitor(request)
        )
        return render(request, page, status=422)
    if not form.items():
        standings = noted_standings(found, record, now=datetime.now(UTC))
    filled = FormView.of(
        **({} if form.items() else noted_fields(found, record)),
        bouts_ahead=settings.bouts_ahead,
        minutes=settings.minutes_a_bout,
        **{name: value for name, value in form.items() if name not in SETTINGS},
    )
    page = mat_side_page(found, standings, settings, filled, record, visitor(request))
    return render(request, page)


def printed(request: Request) -> Response:
    """The same on paper, with boxes to tick."""
    found = _found(request)
    return attachment(set_event_day_sheet(found), f"{found.day}-at-the-mats.pdf", "application/pdf")


def _found(request: Request) -> EventDay:
    typed = request.path_params["day"]
    try:
        wanted = date.fromisoformat(typed)
    except ValueError as error:
        raise NotFound(f"{typed!r} is not a day. Write year-month-day: 2026-03-02") from error
    return event_day(site(request).keeper, wanted)


PART = Part(
    "Event day",
    PATH,
    routes=(
        Route(PATH, days),
        Route(f"{PATH}/{{day}}", day),
        Route(f"{PATH}/{{day}}/sheet.pdf", printed),
    ),
    in_navigation=False,
)
