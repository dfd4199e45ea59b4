"""The camp: this week, plan, one athlete, season, dates, and taking rounds over."""

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NoSolution
from squadwright.printing.camp_sheet import set_camp_sheet, set_season_sheet
from squadwright.services.camp import CampView, camp_view, season_view
from squadwright.services.camp_take_over import offers, take_over
from squadwright.services.clubs import load_club, present_club
from squadwright.services.event_dates import add_events
from squadwright.web.camp import rules
from squadwright.web.camp.pages import (
    PATH,
    athlete_page,
    camp_page,
    dates_page,
    plan_page,
    read_dates,
    season_page,
)
from squadwright.web.file import attachment
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site


def camp(request: Request) -> Response:
    """What the camp has for this week."""
    if present_club(site(request).keeper) is None:
        return RedirectResponse("/start", status_code=303)
    return render(request, camp_page(_view(request)))


def plan(request: Request) -> Response:
    """The plan of the squad."""
    here, view = site(request), _view(request)
    return render(request, plan_page(view, offers(here.keeper, view, today=here.today())))


def athlete(request: Request) -> Response:
    """One athlete's line."""
    page = athlete_page(_view(request), request.path_params["athlete"])
    if page is None:
        return RedirectResponse(f"{PATH}/plan", status_code=303)
    return render(request, page)


def printed_plan(request: Request) -> Response:
    """The plan on paper."""
    view = _view(request)
    if view.solution is None:
        raise NoSolution(f"There is no camp to print: {view.trouble}")
    name = f"{view.problem.first_day}-camp.pdf"
    return attachment(set_camp_sheet(view), name, "application/pdf")


def season(request: Request) -> Response:
    """The season, and where a week of tests would fit."""
    here = site(request)
    club, form = load_club(here.keeper), Form.in_address(request)
    problem, found = season_view(here.keeper, today=here.today())
    try:
        tests_on = form.maybe_day("tests", "Squad tests")
        form.done()
    except InvalidInput as error:
        page = season_page(club, problem, found, form.refused(error), None)
        return render(request, page, status=422)
    shown = FormView.of(tests=tests_on)
    return render(request, season_page(club, problem, found, shown, tests_on))


def printed_season(request: Request) -> Response:
    """The season on one sheet."""
    here, form = site(request), Form.in_address(request)
    tests_on = form.maybe_day("tests", "Squad tests")
    form.done()
    problem, found = season_view(here.keeper, today=here.today())
    sheet = set_season_sheet(load_club(here.keeper), problem, found, tests_on)
    return attachment(sheet, f"{problem.first_day}-season.pdf", "application/pdf")


def dates(request: Request) -> Response:
    """Dates of everybody, to be filled in."""
    here = site(request)
    return render(request, dates_page(load_club(here.keeper), here.today(), FormView()))


def keep_dates(request: Request) -> Response:
    """Store the dates typed, all or none."""
    here, form = site(request), Form.of(request)
    club = load_club(here.keeper)
    try:
        events = read_dates(form, club)
        done = add_events(here.keeper, events, today=here.today())
    except InvalidInput as error:
        page = dates_page(club, here.today(), form.refused(error))
        return render(request, page, status=422)
    count = "One date is" if len(events) == 1 else f"{len(events)} dates are"
    return see_other(f"{PATH}/season", changed=f"{count} kept.", undo=f"/undo/{done.step}")


def write_over(request: Request) -> Response:
    """Write the rounds of the camp into one session."""
    here = site(request)
    try:
        done = take_over(here.keeper, request.path_params["session"], today=here.today())
    except InvalidInput as error:
        return see_other(f"{PATH}/plan", changed=str(error))
    return see_other(f"{PATH}/plan", changed=done.words, undo=f"/undo/{quote(done.step)}")


def _view(request: Request) -> CampView:
    here = site(request)
    return camp_view(here.keeper, today=here.today())


PART = Part(
    "Camp",
    PATH,
    routes=(
        Route(PATH, camp),
        Route(f"{PATH}/plan", plan),
        Route(f"{PATH}/plan/camp.pdf", printed_plan),
        Route(f"{PATH}/plan/{{athlete}}", athlete),
        Route(f"{PATH}/take-over/{{session}}", write_over, methods=["POST"]),
        Route(f"{PATH}/season", season),
        Route(f"{PATH}/season/season.pdf", printed_season),
        Route(f"{PATH}/dates", dates),
        Route(f"{PATH}/dates", keep_dates, methods=["POST"]),
        *rules.ROUTES,
    ),
)
