"""The week to keep: one page of paper, and a workbook that holds the weeks ahead as well."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.camp.weeks_ahead import weeks_ahead
from squadwright.exchange.week_xlsx import week_workbook
from squadwright.printing.week_sheet import set_week_sheet
from squadwright.services.camp_week import WeekView, week_view
from squadwright.services.clubs import load_club
from squadwright.web.camp_week.asked import asked_day
from squadwright.web.file import attachment
from squadwright.web.site import site

# As long as a camp is planned.
SEASON_WEEKS = 12
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def printed_week(request: Request) -> Response:
    """The week on one page."""
    view = _view(request)
    clashes = tuple(choices.clash for choices in view.choices)
    document = set_week_sheet(view.club, view.monday, view.works, view.squads, clashes)
    return attachment(document, f"{view.monday}-week.pdf", "application/pdf")


def workbook(request: Request) -> Response:
    """Week and season as a workbook."""
    view = _view(request)
    clashes = tuple(choices.clash for choices in view.choices)
    ahead = weeks_ahead(view.club, view.monday, SEASON_WEEKS)
    data = week_workbook(view.club, view.works, view.squads, clashes, ahead)
    return attachment(data, f"{view.monday}-week.xlsx", XLSX)


def _view(request: Request) -> WeekView:
    here = site(request)
    return week_view(load_club(here.keeper), asked_day(request), today=here.today())


ROUTES = (
    Route("/camp/week/week.pdf", printed_week),
    Route("/camp/week/week.xlsx", workbook),
)
