"""Body mass of one athlete, a plan written down, and the weigh-in of one event."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, Event
from squadwright.model.club import Club
from squadwright.services.body_mass import show_mass
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club
from squadwright.services.weigh_in import CHANGED_WEIGH_IN, event_of, set_weigh_in
from squadwright.services.weight_plans import LONGEST_PLAN, write_weight_plan
from squadwright.web.body_mass.contexts import WeighInPage
from squadwright.web.body_mass.forms import filled, read_weigh_in, rule_options
from squadwright.web.body_mass.pages import mass_page
from squadwright.web.body_mass.paths import event_path, mass_path
from squadwright.web.body_mass.words import standing_words
from squadwright.web.forms import Form, FormView
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.site import site
from squadwright.web.wording import capital


def body_mass(request: Request) -> Response:
    """One athlete's body mass."""
    here = site(request)
    found = show_mass(here.keeper, request.path_params["athlete"], today=here.today())
    return render(request, mass_page(found))


def keep_plan(request: Request) -> Response:
    """Keep a plan to reach a class, whatever becomes of it."""
    here, form = site(request), Form.of(request)
    athlete = load_club(here.keeper).athlete(request.path_params["athlete"])
    text = form.text("plan", "Plan", longest=LONGEST_PLAN)
    try:
        form.done()
        written = write_weight_plan(here.keeper, athlete.id, text, today=here.today())
    except InvalidInput as error:
        found = show_mass(here.keeper, athlete.id, today=here.today())
        return render(request, mass_page(found, form.refused(error)), status=422)
    told = " and ".join(written.plan.told)
    words = f"The plan is refused and kept. Tell: {told}." if told else "The plan is kept."
    return see_other(f"{mass_path(athlete.id)}#plan", changed=words)


def weigh_in(request: Request) -> Response:
    """The form of the weigh-in of one event."""
    club, athlete, event = _asked(request)
    view = filled(event, club.time_zone)
    return render(request, _page(athlete, event, view, fingerprint(event.weigh_in)))


def keep_weigh_in(request: Request) -> Response:
    """Keep what is known of a weigh-in."""
    here, form = site(request), Form.of(request)
    _, athlete, event = _asked(request)
    shown = form.raw("shown")
    try:
        typed = read_weigh_in(form, event, today=here.today())
        changed = set_weigh_in(here.keeper, athlete.id, event.id, typed, shown, today=here.today())
    except InvalidInput as error:
        if error.place == CHANGED_WEIGH_IN:
            shown = fingerprint(event.weigh_in)
        page = _page(athlete, event, form.refused(error), shown)
        return render(request, page, status=422)
    words = f"The weigh-in of {event.name} is kept: {typed.standing}."
    return see_other(mass_path(athlete.id), changed=words, undo=f"/undo/{changed.step}")


def _asked(request: Request) -> tuple[Club, Athlete, Event]:
    club = load_club(site(request).keeper)
    athlete = club.athlete(request.path_params["athlete"])
    return club, athlete, event_of(athlete, request.path_params["event"])


def _page(athlete: Athlete, event: Event, view: FormView, shown: str) -> WeighInPage:
    return WeighInPage(
        title=f"Weigh-in: {event.name}",
        line=f"{capital(standing_words(event))}.",
        action=event_path(athlete.id, event),
        back=mass_path(athlete.id),
        view=view,
        shown=shown,
        rules=rule_options(),
    )


_OF = "/squad/athlete/{athlete}/mass"

PART = Part(
    "Body mass",
    "/squad",
    routes=(
        Route(_OF, body_mass),
        Route(f"{_OF}/plan", keep_plan, methods=["POST"]),
        Route(f"{_OF}/weigh-in/{{event}}", weigh_in, methods=["GET"]),
        Route(f"{_OF}/weigh-in/{{event}}", keep_weigh_in, methods=["POST"]),
    ),
    in_navigation=False,
)
