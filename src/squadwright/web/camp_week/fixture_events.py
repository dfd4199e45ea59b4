"""A fixture as an event of athletes: who competes there, and how much it counts for each."""

from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Priority
from squadwright.model.calendar import Fixture
from squadwright.model.club import Club
from squadwright.services.calendar_files import events_of_fixture
from squadwright.services.clubs import load_club
from squadwright.services.event_dates import NewEvent, add_events
from squadwright.web.camp_week.contexts import FixtureAthlete, FixtureEventsPage
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.site import site
from squadwright.web.wording import count_text, day_text

FIXTURES = "/camp/week/fixtures"
PATH = f"{FIXTURES}/{{fixture}}/athletes"
CHOICES = (("", "not there"), (Priority.A.value, "A"), (Priority.B.value, "B"))


def events_path(fixture: Fixture) -> str:
    """Where the athletes of a fixture are chosen."""
    return f"{FIXTURES}/{quote(fixture.id, safe='')}/athletes"


def show(request: Request) -> Response:
    """Who competes at a fixture."""
    club = load_club(site(request).keeper)
    return render(request, _page(club, _fixture(request, club), FormView()))


def keep(request: Request) -> Response:
    """Make the fixture an event of those who were chosen, all or none."""
    here, form = site(request), Form.of(request)
    club = load_club(here.keeper)
    fixture = _fixture(request, club)
    try:
        new = [
            NewEvent(athlete.id, fixture.name, fixture.starts_on, Priority(said))
            for athlete in club.athletes
            if (said := form.raw(f"day-{athlete.id}")) in (Priority.A.value, Priority.B.value)
        ]
        done = add_events(here.keeper, new, today=here.today())
    except InvalidInput as error:
        return render(request, _page(club, fixture, form.refused(error)), status=422)
    said = f"{fixture.name} is an event of {count_text(len(new), 'athlete')} more."
    return see_other(FIXTURES, changed=said, undo=f"/undo/{done.step}")


def _fixture(request: Request, club: Club) -> Fixture:
    wanted = request.path_params["fixture"]
    for fixture in club.fixtures:
        if fixture.id == wanted:
            return fixture
    raise NotFound("There is no such fixture; it may have been taken out")


def _page(club: Club, fixture: Fixture, view: FormView) -> FixtureEventsPage:
    names = club.shown_names()
    held = dict(events_of_fixture(club, fixture))
    return FixtureEventsPage(
        title=f"Who competes: {fixture.name}",
        line=f"{day_text(fixture.starts_on)}. An A event is one to peak for.",
        action=events_path(fixture),
        back=FIXTURES,
        view=view,
        choices=CHOICES,
        rows=tuple(
            FixtureAthlete(each.id, names[each.id], _held(held.get(each.id)))
            for each in club.athletes
            if each.guest_until is None
        ),
    )


def _held(priority: str | None) -> str:
    return "" if priority is None else f"has it as {priority} event already"


ROUTES = (Route(PATH, show), Route(PATH, keep, methods=["POST"]))
