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
from squadwright.services.weigh_in import (
    CHANGED_WEIGH_IN,
    event_of,
    same_events,
    set_weigh_in,
    shown_of,
)
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
    return render(request, mass_page(load_club(here.keeper), found))


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
        page = mass_page(load_club(here.keeper), found, form.refused(error))
        return render(request, page, status=422)
    told = " and ".join(written.plan.told)
    words = f"The plan is refused and kept. Tell: {told}." if told else "The plan is kept."
    return see_other(f"{mass_path(athlete.id)}#plan", changed=words)


def weigh_in(request: Request) -> Response:
    """The form of the weigh-in of one event."""
    club, athlete, event = _asked(request)
    others = same_events(club, athlete.id, event)
    also = tuple(a.id for a, e in others if e.weigh_in is None or e.weigh_in == event.weigh_in)
    view = filled(event, club.time_zone, also)
    return render(request, _page(club, athlete, event, view))


def keep_weigh_in(request: Request) -> Response:
    """Keep what is known of a weigh-in."""
    here, form = site(request), Form.of(request)
    club, athlete, event = _asked(request)
    shown, others = form.raw("shown"), _others(club, athlete, event)
    try:
        typed, also = read_weigh_in(form, event, others, today=here.today())
        changed = set_weigh_in(
            here.keeper, athlete.id, event.id, typed, shown, today=here.today(), also=also
        )
    except InvalidInput as error:
        kept = "" if error.place == CHANGED_WEIGH_IN else shown
        page = _page(club, athlete, event, form.refused(error), kept)
        return render(request, page, status=422)
    names = dict(others)
    too = f" The same for {', '.join(names[each] for each in also)}." if also else ""
    words = f"The weigh-in of {event.name} is kept: {typed.standing}.{too}"
    return see_other(mass_path(athlete.id), changed=words, undo=f"/undo/{changed.step}")


def _asked(request: Request) -> tuple[Club, Athlete, Event]:
    club = load_club(site(request).keeper)
    athlete = club.athlete(request.path_params["athlete"])
    return club, athlete, event_of(athlete, request.path_params["event"])


def _others(club: Club, athlete: Athlete, event: Event) -> tuple[tuple[str, str], ...]:
    names = club.shown_names()
    return tuple((a.id, names[a.id]) for a, _ in same_events(club, athlete.id, event))


def _page(
    club: Club, athlete: Athlete, event: Event, view: FormView, shown: str = ""
) -> WeighInPage:
    return WeighInPage(
        title=f"Weigh-in: {event.name}",
        line=f"{capital(standing_words(event))}.",
        action=event_path(athlete.id, event),
        back=mass_path(athlete.id),
        view=view,
        shown=shown or fingerprint(shown_of(club, athlete.id, event)),
        rules=rule_options(),
        others=_others(club, athlete, event),
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
