"""Fixtures from a calendar file: look at what is new, changed and gone, then store it."""

from base64 import b64decode, b64encode
from binascii import Error as BadBase64
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.exchange.calendar_in import Difference, difference
from squadwright.exchange.calendar_repeats import PLACE
from squadwright.model.calendar import Fixture
from squadwright.model.club import Club
from squadwright.services.calendar_files import (
    events_of_fixture,
    fixtures_file,
    remove_fixture,
    take_fixtures,
    week_file,
)
from squadwright.services.clubs import load_club
from squadwright.web.camp_week.contexts import FixtureLine, FixturesPage, FixturesPreview
from squadwright.web.camp_week.fixture_events import ROUTES as EVENTS
from squadwright.web.camp_week.fixture_events import events_path
from squadwright.web.file import attachment
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.wording import count_text, short_day_text

HERE = "/camp/week/fixtures"
CALENDAR_TYPE = "text/calendar; charset=utf-8"


def show(request: Request) -> Response:
    """The fixtures there are."""
    return render(request, fixtures_page(load_club(site(request).keeper)))


def look(request: Request) -> Response:
    """What a file would change; nothing is stored."""
    form, club = Form.of(request), load_club(site(request).keeper)
    try:
        _, data = form.file("calendar", "The file")
        form.done()
        found = difference(club.fixtures, data, today=site(request).today())
    except InvalidInput as error:
        return _again(request, club, error)
    return render(request, preview_page(club, found, data))


def take(request: Request) -> Response:
    """Store what the file that was looked at changes."""
    here, form = site(request), Form.of(request)
    try:
        data = b64decode(form.raw("content"), validate=True)
        done, found = take_fixtures(here.keeper, data, today=here.today())
    except BadBase64:
        error = InvalidInput(PLACE, "came back damaged", "Choose it again")
        return _again(request, load_club(here.keeper), error)
    except InvalidInput as error:
        return _again(request, load_club(here.keeper), error)
    said = f"Fixtures: {len(found.new)} new, {len(found.changed)} changed, {len(found.gone)} gone."
    return see_other(HERE, changed=said, undo=f"/undo/{done.step}")


def remove(request: Request) -> Response:
    """Take one fixture out."""
    here = site(request)
    done = remove_fixture(here.keeper, request.path_params["fixture"], today=here.today())
    return see_other(HERE, changed="The fixture is taken out.", undo=f"/undo/{done.step}")


def week_as_calendar(request: Request) -> Response:
    """Half a year of the week as an iCalendar file."""
    here = site(request)
    return attachment(week_file(here.keeper, today=here.today()), "week.ics", CALENDAR_TYPE)


def fixtures_as_calendar(request: Request) -> Response:
    """The fixtures as an iCalendar file."""
    return attachment(fixtures_file(site(request).keeper), "fixtures.ics", CALENDAR_TYPE)


def fixtures_page(club: Club, view: FormView | None = None) -> FixturesPage:
    """The fixtures in the order of their days, and the form for a file."""
    ordered = sorted(club.fixtures, key=lambda f: (f.starts_on, f.name, f.id))
    lines = tuple(_line(each, who=_who(club, each)) for each in ordered)
    return FixturesPage(view or FormView(), lines, "/camp/week")


def preview_page(club: Club, found: Difference, data: bytes) -> FixturesPreview:
    """What a file would change."""
    same = f"{count_text(found.same, 'fixture stays', 'fixtures stay')} as stored."
    return FixturesPreview(
        line=f"Nothing is stored yet. {same}",
        new=tuple(_line(each) for each in found.new),
        changed=tuple(
            _line(now, before=_when(old, old.name), who=_goes_along(club, old, now))
            for old, now in found.changed
        ),
        gone=tuple(_line(each, who=_who(club, each)) for each in found.gone),
        left_out=tuple((each.name, each.why) for each in found.left_out),
        content="" if found.is_empty else b64encode(data).decode(),
        can_take=not found.is_empty,
    )


def _again(request: Request, club: Club, error: InvalidInput) -> Response:
    view = FormView(errors={"calendar": str(error)})
    return render(request, fixtures_page(club, view), status=422)


def _line(fixture: Fixture, *, before: str = "", who: str = "") -> FixtureLine:
    path = f"{HERE}/{quote(fixture.id, safe='')}/remove" if fixture.id else ""
    return FixtureLine(fixture.name, _when(fixture), before, path, who, events_path(fixture))


def _who(club: Club, fixture: Fixture) -> str:
    """For whom it is an event."""
    shown = club.shown_names()
    return ", ".join(f"{shown[each]} ({level})" for each, level in events_of_fixture(club, fixture))


def _goes_along(club: Club, old: Fixture, now: Fixture) -> str:
    """Whose events move with a fixture."""
    is_same = (old.name, old.starts_on) == (now.name, now.starts_on)
    who = "" if is_same else _who(club, old)
    return f"The event goes along: {who}" if who else ""


def _when(fixture: Fixture, name: str = "") -> str:
    first, last = (short_day_text(day) for day in (fixture.starts_on, fixture.ends_on))
    if fixture.starts_at is None or fixture.ends_at is None:
        days = first if first == last else f"{first} to {last}"
    else:
        until = f"{fixture.ends_at:%H:%M}" if first == last else f"{last}, {fixture.ends_at:%H:%M}"
        days = f"{first}, {fixture.starts_at:%H:%M} to {until}"
    said = (name, f"{days} {fixture.ends_on.year}", fixture.time_zone, fixture.place)
    return "; ".join(filter(None, said))


ROUTES = (
    Route(HERE, show, methods=["GET"]),
    Route(f"{HERE}/look", show, methods=["GET"]),
    Route(f"{HERE}/look", look, methods=["POST"]),
    Route(f"{HERE}/take", take, methods=["POST"]),
    Route(f"{HERE}/fixtures.ics", fixtures_as_calendar),
    Route(f"{HERE}/{{fixture}}/remove", remove, methods=["POST"]),
    *EVENTS,
    Route("/camp/week/week.ics", week_as_calendar),
)
