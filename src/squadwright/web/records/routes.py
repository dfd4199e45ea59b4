"""Records: what was noted."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import InvalidInput
from squadwright.services.clubs import load_club, present_club
from squadwright.services.data_out import everything, everything_of
from squadwright.services.done import recorded_sessions
from squadwright.services.erasing import erase_athlete
from squadwright.services.health_log import MOST_KEPT, health_log, log_given_out
from squadwright.web.forms import Form
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.records.data_attachment import data_attachment
from squadwright.web.records.data_in_routes import DATA_IN_ROUTES
from squadwright.web.records.pages import athlete_record_page, health_log_page, records_page
from squadwright.web.site import site

HERE = "/records"


def show(request: Request) -> Response:
    """What there is to look back on."""
    keeper = site(request).keeper
    return render(request, records_page(present_club(keeper), recorded_sessions(keeper)))


def give_out(request: Request) -> Response:
    """Everything as a file of one kind; that it left is kept in the log."""
    keeper = site(request).keeper
    data = everything(keeper)
    answer = data_attachment(
        data, request.path_params["kind"], "everything", health_log(keeper, most=MOST_KEPT).lines
    )
    log_given_out(keeper, [athlete.id for athlete in data.club.athletes])
    return answer


def show_athlete(request: Request) -> Response:
    """What is held of one athlete, and how it leaves."""
    club = load_club(site(request).keeper)
    return render(request, athlete_record_page(club, club.athlete(request.path_params["athlete"])))


def give_athlete(request: Request) -> Response:
    """Everything of one athlete and of nobody else, as a file; that it left is kept in the log."""
    keeper, athlete_id = site(request).keeper, request.path_params["athlete"]
    data = everything_of(keeper, athlete_id)
    log = health_log(keeper, athlete_id, most=MOST_KEPT).lines
    answer = data_attachment(data, request.path_params["kind"], "record", log)
    log_given_out(keeper, [athlete_id])
    return answer


def show_log(request: Request) -> Response:
    """Who touched which health field of whom, and when."""
    asked = request.query_params.get("athlete", "")
    return render(request, health_log_page(health_log(site(request).keeper, asked), asked))


def erase(request: Request) -> Response:
    """Erase an athlete for good, where his name was typed."""
    here, form = site(request), Form.of(request)
    athlete_id = request.path_params["athlete"]
    try:
        name = erase_athlete(
            here.keeper, athlete_id, typed_name=form.raw("typed_name"), today=here.today()
        )
    except InvalidInput as error:
        club = load_club(here.keeper)
        page = athlete_record_page(club, club.athlete(athlete_id), form.refused(error))
        return render(request, page, status=422)
    return see_other("/squad", changed=f"{name} is erased for good.")


PART = Part(
    "Records",
    HERE,
    routes=(
        Route(HERE, show),
        Route(f"{HERE}/everything.{{kind}}", give_out, methods=["POST"]),
        Route(f"{HERE}/health-log", show_log),
        Route(f"{HERE}/athlete/{{athlete}}", show_athlete),
        Route(f"{HERE}/athlete/{{athlete}}/record.{{kind}}", give_athlete, methods=["POST"]),
        Route(f"{HERE}/athlete/{{athlete}}/erase", erase, methods=["POST"]),
        *DATA_IN_ROUTES,
    ),
)
