"""Load: the week of the squad, effort at the door, days without training, and one athlete."""

from datetime import UTC, date, datetime, timedelta

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.calendar import monday_of
from squadwright.planning.occasions import Occasion
from squadwright.services.clubs import load_club
from squadwright.services.load import (
    SquadLoad,
    load_histories,
    occasion_of,
    squad_load,
    take_out_told,
    tell_effort,
    tell_rest,
    tell_session,
)
from squadwright.web.forms import Form
from squadwright.web.load import file_routes
from squadwright.web.load.forms import FARTHEST, read_at_door, read_resting, read_session, read_week
from squadwright.web.load.pages import athlete_load_page, door_page, rest_page, week_page
from squadwright.web.load.paths import LOAD, athlete_load_path, door_path, week_path
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.undo.routes import diary_undo
from squadwright.web.wording import count_text, short_day_text

WEEK = timedelta(days=7)


def week(request: Request) -> Response:
    """The week that is asked for, else this one."""
    here = site(request)
    monday = read_week(Form.in_address(request), today=here.today())
    found = squad_load(here.keeper, monday - WEEK, monday + WEEK - timedelta(days=1))
    return render(request, week_page(found, monday, here.today()))


def door(request: Request) -> Response:
    """Everybody who was expected on one date of a slot."""
    found, occasion = _occasion(request)
    return render(request, door_page(found, occasion))


def tell(request: Request) -> Response:
    """Keep one answer, or that nobody else was there."""
    found, occasion = _occasion(request)
    form, here = Form.of(request), site(request)
    missing = [a for a, day in found.on(occasion.day).items() if occasion in day.missing]
    try:
        said = read_at_door(form, occasion, missing)
        mark = tell_effort(
            here.keeper,
            occasion,
            said.athletes,
            said.effort,
            minutes=said.minutes,
            today=here.today(),
            now=datetime.now(UTC),
        )
    except InvalidInput as error:
        typed = form.raw("athlete"), form.refused(error)
        page = door_page(found, occasion, wrong=str(error), typed=typed)
        return render(request, page, status=422)
    names = found.club.shown_names()
    who = names[said.athletes[0]] if len(said.athletes) == 1 else f"{len(said.athletes)} of them"
    words = f"effort {said.effort}, {count_text(said.minutes, 'minute')}"
    words = words if said.effort else "not there"
    return see_other(door_path(occasion), changed=f"{who}: {words}.", undo=diary_undo(mark))


def rest(request: Request) -> Response:
    """Who had no training on a day."""
    day = _day(request)
    return render(request, rest_page(squad_load(site(request).keeper, day, day), day))


def tell_of_rest(request: Request) -> Response:
    """Keep that a day was without training."""
    day, form, here = _day(request), Form.of(request), site(request)
    found = squad_load(here.keeper, day, day)
    try:
        athletes = read_resting(form, [a for a, _ in rest_page(found, day).people])
        mark = tell_rest(here.keeper, athletes, day, today=here.today(), now=datetime.now(UTC))
    except InvalidInput as error:
        return render(request, rest_page(found, day, form.refused(error)), status=422)
    words = (
        f"{short_day_text(day)} was without training for {count_text(len(athletes), 'athlete')}."
    )
    return see_other(week_path(monday_of(day)), changed=words, undo=diary_undo(mark))


def athlete(request: Request) -> Response:
    """The load of one athlete."""
    return _athlete(request)


def add_session(request: Request) -> Response:
    """Keep a session beside those of the week."""
    form, here, named = Form.of(request), site(request), request.path_params["athlete"]
    name = load_club(here.keeper).athlete(named).name
    try:
        day, done = read_session(form, today=here.today())
        mark = tell_session(
            here.keeper, named, day, done, today=here.today(), now=datetime.now(UTC)
        )
    except InvalidInput as error:
        return _athlete(request, form, error)
    words = f"{name}, {short_day_text(day)}: {done.name} is in the diary."
    return see_other(athlete_load_path(named), changed=words, undo=diary_undo(mark))


def take_out(request: Request) -> Response:
    """Take one entry out."""
    here, named = site(request), request.path_params["athlete"]
    mark = take_out_told(
        here.keeper, request.path_params["entry"], today=here.today(), now=datetime.now(UTC)
    )
    return see_other(athlete_load_path(named), changed="Taken out.", undo=diary_undo(mark))


def _athlete(
    request: Request, form: Form | None = None, error: InvalidInput | None = None
) -> Response:
    here, named = site(request), request.path_params["athlete"]
    club = load_club(here.keeper)
    club.athlete(named)
    found, histories = load_histories(here.keeper, today=here.today(), of=[named])
    view = form.refused(error) if form is not None and error is not None else None
    page = athlete_load_page(found.club, named, histories[named], today=here.today(), view=view)
    return render(request, page, status=200 if error is None else 422)


def _occasion(request: Request) -> tuple[SquadLoad, Occasion]:
    day = _day(request)
    found = squad_load(site(request).keeper, day, day)
    return found, occasion_of(found.club, request.path_params["slot"], day)


def _day(request: Request) -> date:
    typed = request.path_params["day"]
    try:
        day = date.fromisoformat(typed)
    except ValueError as error:
        raise NotFound(f"{typed!r} is no day; it is written year-month-day") from error
    if abs(day - site(request).today()) > FARTHEST:
        raise NotFound(f"{day} is too far from today")
    return day


PART = Part(
    "Load",
    LOAD,
    routes=(
        Route(LOAD, week),
        Route(f"{LOAD}/door/{{slot}}/{{day}}", door),
        Route(f"{LOAD}/door/{{slot}}/{{day}}", tell, methods=["POST"]),
        Route(f"{LOAD}/rest/{{day}}", rest),
        Route(f"{LOAD}/rest/{{day}}", tell_of_rest, methods=["POST"]),
        *file_routes.ROUTES,
        Route(f"{LOAD}/athlete/{{athlete}}", athlete),
        Route(f"{LOAD}/athlete/{{athlete}}", add_session, methods=["POST"]),
        Route(f"{LOAD}/athlete/{{athlete}}/out/{{entry}}", take_out, methods=["POST"]),
    ),
    in_navigation=False,
)
