"""A dated week: what clashes, what fits instead, one date changed, the coach's hours."""

from datetime import date

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.camp.week_words import move_words
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.services.camp_week import (
    change_date,
    make_lighter,
    set_limits,
    take_move,
    week_view,
)
from squadwright.services.clubs import load_club
from squadwright.services.week import slot_named
from squadwright.web.camp_week import files, fixtures
from squadwright.web.camp_week.asked import asked_day, typed_day
from squadwright.web.camp_week.forms import read_date, read_limits
from squadwright.web.camp_week.pages import (
    WEEK,
    date_page,
    limits_page,
    move_fields,
    week_page,
    week_path,
)
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.wording import short_day_text


def show(request: Request) -> Response:
    """The week a day lies in; without a day, this one."""
    return render(
        request, week_page(week_view(_club(request), asked_day(request), today=_today(request)))
    )


def move(request: Request) -> Response:
    """Take one of the moves that are proposed."""
    form, today = Form.of(request), _today(request)
    day = typed_day(form.raw("day")) or today
    view = week_view(_club(request), day, today=today)
    for choices in view.choices:
        for each in choices.moves:
            if move_fields(each)["move"] == form.raw("move"):
                done = take_move(site(request).keeper, each, today=today)
                return see_other(
                    week_path(day), changed=f"{move_words(each)}.", undo=f"/undo/{done.step}"
                )
    raise Conflict("This move does not fit any more: the week has changed. Look at it again")


def ease(request: Request) -> Response:
    """Give a session the lighter version of its routine."""
    form, today = Form.of(request), _today(request)
    session = _club(request).session(form.raw("session"))
    done = make_lighter(site(request).keeper, session.id, today=today)
    said = f"{session.name} is lighter."
    return see_other(week_path(session.held_on), changed=said, undo=f"/undo/{done.step}")


def edit(request: Request) -> Response:
    """One date of a slot in its form."""
    club = _club(request)
    slot = slot_named(club, request.path_params["slot"])
    return render(request, date_page(club, slot, _held_on(request)))


def change(request: Request) -> Response:
    """Store one date of a slot, then show the week with what clashes now."""
    club, today, form = _club(request), _today(request), Form.of(request)
    slot, held_on = slot_named(club, request.path_params["slot"]), _held_on(request)
    try:
        entry = read_date(form, club)
        keeper = site(request).keeper
        done = change_date(keeper, slot.id, held_on, entry, form.raw("shown"), today=today)
    except InvalidInput as error:
        page = date_page(club, slot, held_on, form.refused(error))
        return render(request, page, status=422)
    said = f"{slot.name} of {short_day_text(held_on)} is changed. The week is checked again."
    return see_other(week_path(entry.day), changed=said, undo=f"/undo/{done.step}")


def limits(request: Request) -> Response:
    """The coach's hours between sessions."""
    return render(request, limits_page(_club(request).clash_limits))


def keep_limits(request: Request) -> Response:
    """Store the coach's hours between sessions."""
    form, here = Form.of(request), site(request)
    try:
        typed = read_limits(form)
        done = set_limits(here.keeper, typed, form.raw("shown"), today=here.today())
    except InvalidInput as error:
        page = limits_page(_club(request).clash_limits, form.refused(error))
        return render(request, page, status=422)
    return see_other(f"{WEEK}/limits", changed="Your hours are stored.", undo=f"/undo/{done.step}")


def _held_on(request: Request) -> date:
    day = typed_day(request.path_params["day"])
    if day is None:
        raise NotFound("The week has no such day. Go back to the week")
    return day


def _club(request: Request) -> Club:
    return load_club(site(request).keeper)


def _today(request: Request) -> date:
    return site(request).today()


PART = Part(
    "Week",
    WEEK,
    routes=(
        Route(WEEK, show),
        Route(f"{WEEK}/move", move, methods=["POST"]),
        Route(f"{WEEK}/lighter", ease, methods=["POST"]),
        Route(f"{WEEK}/limits", limits, methods=["GET"]),
        Route(f"{WEEK}/limits", keep_limits, methods=["POST"]),
        *fixtures.ROUTES,
        *files.ROUTES,
        Route(f"{WEEK}/{{slot}}/{{day}}", edit, methods=["GET"]),
        Route(f"{WEEK}/{{slot}}/{{day}}", change, methods=["POST"]),
    ),
    in_navigation=False,
)
