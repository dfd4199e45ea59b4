"""The page of a session away from home, put together from its card."""

from collections.abc import Mapping
from urllib.parse import quote, urlencode

from squadwright.model.session import Session
from squadwright.planning.travel import TravelKit
from squadwright.printing.travel_sheet import travel_words
from squadwright.services.travel import Journey
from squadwright.web.forms import Form, FormView
from squadwright.web.journey.contexts import JourneyPage
from squadwright.web.today.paths import session_path, when

PATH = "/journey"
LEAST_ROOM_M, MOST_ROOM_M = 1.5, 60.0
LEAST_CEILING_M, MOST_CEILING_M = 1.8, 20.0
LEAST_BALL_KG, MOST_BALL_KG = 1.0, 12.0


def journey_path(session: Session) -> str:
    """The travel version of a session."""
    return f"{PATH}/{quote(session.id, safe='')}"


def read_kit(form: Form) -> TravelKit:
    """What is there; where nothing was asked, one 4 kg ball and 3 x 3 m."""
    if not form.flag("asked"):
        return TravelKit()
    kit = TravelKit(
        ball_kg=_ball_kg(form),
        width_m=form.number("width_m", "Width", low=LEAST_ROOM_M, high=MOST_ROOM_M, unit="m"),
        length_m=form.number("length_m", "Length", low=LEAST_ROOM_M, high=MOST_ROOM_M, unit="m"),
        ceiling_m=form.number(
            "ceiling_m", "Ceiling", low=LEAST_CEILING_M, high=MOST_CEILING_M, unit="m"
        ),
        has_mat=form.flag("mat"),
        has_partner=form.flag("partner"),
        has_fixed_bar=form.flag("fixed_bar"),
    )
    form.done()
    return kit


def _ball_kg(form: Form) -> float | None:
    mass = form.maybe_mass("ball", "Ball")
    if mass is None:
        return None
    if not LEAST_BALL_KG <= mass.kg <= MOST_BALL_KG:
        limits = f"{LEAST_BALL_KG:g} to {MOST_BALL_KG:g} kg"
        form.refuse("ball", "Ball", f"{mass} is outside {limits}", "Check the number and its unit")
    return mass.kg


def asked(kit: TravelKit, athlete: str) -> dict[str, str]:
    """The kit and the athlete as an address says them."""
    said = {
        "asked": "yes",
        "athlete": athlete,
        "ball": "" if kit.ball_kg is None else f"{kit.ball_kg:g}",
        "ball_unit": "kg",
        "width_m": f"{kit.width_m:g}",
        "length_m": f"{kit.length_m:g}",
        "ceiling_m": f"{kit.ceiling_m:g}",
    }
    ticked = {"mat": kit.has_mat, "partner": kit.has_partner, "fixed_bar": kit.has_fixed_bar}
    return said | {name: "yes" for name, is_there in ticked.items() if is_there}


def filled(said: Mapping[str, str]) -> FormView:
    """The form as it stands for a card."""
    return FormView({name: (value,) for name, value in said.items()})


def journey_page(found: Journey, view: FormView, athlete: str, *, is_refused: bool) -> JourneyPage:
    """The card of a session away from home, or why what was typed cannot be used."""
    session = found.session
    path, said = journey_path(session), asked(found.card.kit, athlete)
    return JourneyPage(
        title=f"{session.name}, away from home",
        line=f"{when(session)}. {found.card.routine.name}: {found.card.routine.aim}.",
        path=path,
        plan_path=session_path(session),
        view=view,
        athletes=(
            ("", "Whoever is not restricted"),
            *((p.id, p.shown_name) for p in found.people),
        ),
        words=None if is_refused else travel_words(found),
        sheet_path=f"{path}/card.pdf?{urlencode(said)}",
        own_cards=()
        if athlete
        else tuple(
            (p.shown_name, f"{path}?{urlencode({**said, 'athlete': p.id})}")
            for p in found.restricted
        ),
    )
