"""Who weighs in when, and the squad at the scales."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.model.athlete import MassReading
from squadwright.services.body_mass import who_weighs_in
from squadwright.services.clubs import load_club
from squadwright.services.squad_entries import add_entry
from squadwright.web.body_mass.squad_pages import (
    SCALES,
    action_of,
    anchor_of,
    scales_page,
    scales_path,
    weigh_ins_page,
)
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.question import answered_form, asked_or_refused
from squadwright.web.site import site

TAPPED = "reading"


def weigh_ins(request: Request) -> Response:
    """Everybody with a weigh-in to come."""
    here = site(request)
    return render(request, weigh_ins_page(who_weighs_in(here.keeper, today=here.today())))


def scales(request: Request) -> Response:
    """The squad at the scales."""
    here = site(request)
    squad = request.query_params.get("squad", "")
    return render(request, scales_page(load_club(here.keeper), squad, today=here.today()))


def weigh(request: Request) -> Response:
    """Keep the value that was tapped as the reading of today."""
    here = site(request)
    club = load_club(here.keeper)
    squad = request.query_params.get("squad", "")
    athlete = club.athlete(request.path_params["athlete"])
    form, answer = answered_form(request)
    mass = form.mass(TAPPED, "Body mass")
    try:
        form.done()
        reading = MassReading(mass, here.today())
        changed = add_entry(
            here.keeper, athlete.id, "body_mass", reading, today=here.today(), answer=answer
        )
    except InvalidInput as error:
        view, question = asked_or_refused(form, error)
        page = scales_page(
            club,
            squad,
            today=here.today(),
            question=question,
            question_action=action_of(athlete.id, squad),
            problem="" if question else view.wrong(TAPPED) or view.error,
        )
        return render(request, page, status=422)
    name = club.shown_names()[athlete.id]
    return see_other(
        f"{scales_path(squad)}#{anchor_of(athlete.id)}",
        changed=f"{name}: {reading.reading}.",
        undo=f"/undo/{changed.step}",
    )


PART = Part(
    "Weigh-in",
    "/weigh-in",
    routes=(
        Route("/weigh-in", weigh_ins),
        Route(SCALES, scales),
        Route(f"{SCALES}/{{athlete}}", weigh, methods=["POST"]),
    ),
    in_navigation=False,
)
