"""Sheets for others: on the page nothing is written; that one was printed is kept in the log."""

from collections.abc import Sequence
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import NotFound
from squadwright.model.role import Role
from squadwright.printing.role_sheet import set_role_sheet
from squadwright.printing.role_words import RoleSheet, words_of_one, words_of_squad
from squadwright.services.clubs import load_club
from squadwright.services.health_log import log_sheet
from squadwright.services.role_sheets import ONE_PERSON, SheetOfSquad, sheet_of_one, sheet_of_squad
from squadwright.web.file import attachment
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.sheets_out.contexts import ChoosePage, SheetLink, SheetPage
from squadwright.web.site import site

PATH = "/squad/sheets"
WORDS = {
    Role.HEAD_COACH: "who may do what, events ahead, load told; no health reasons, no body mass",
    Role.ASSISTANT: "who must not do what, doses, what to watch for, the emergency card",
    Role.ATHLETE: "the athlete's own sessions, restrictions, events, body mass, tests and answers",
    Role.PARENT: "for under 18: sessions, what is left out, consents; no weight, no other child",
    Role.CLINICIAN: "restrictions, clearances, incidents, pain, training told, body mass",
}


def choose(request: Request) -> Response:
    """The sheets of the squad."""
    load_club(site(request).keeper)
    links = tuple(
        SheetLink(f"For the {role.value}", WORDS[role], f"{PATH}/{_slug(role)}")
        for role in Role
        if role not in ONE_PERSON
    )
    line = (
        "Each shows only what its reader may see. Those of one athlete are on that athlete's page."
    )
    return render(request, ChoosePage("Sheets for others", line, "/squad", "The squad", links))


def choose_of_one(request: Request) -> Response:
    """The sheets of one athlete."""
    here = site(request)
    club = load_club(here.keeper)
    athlete = club.athlete(request.path_params["athlete"])
    path = _path_of(athlete.id)
    roles = [r for r in ONE_PERSON if r is not Role.PARENT or athlete.is_minor_on(here.today())]
    page = ChoosePage(
        f"{club.shown_names()[athlete.id]}: sheets for others",
        "Each shows only what its reader may see, and nobody else's name.",
        path.removesuffix("/sheets"),
        "The athlete",
        tuple(
            SheetLink(f"For the {role.value}", WORDS[role], f"{path}/{_slug(role)}")
            for role in roles
        ),
    )
    return render(request, page)


def squad_sheet(request: Request) -> Response:
    """A sheet of the squad."""
    path = f"{PATH}/{_slug(_role(request))}"
    return render(request, SheetPage(words_of_squad(_found_squad(request)), f"{path}.pdf", PATH))


def squad_pdf(request: Request) -> Response:
    """A sheet of the squad, to print; the log keeps that it was."""
    found = _found_squad(request)
    ids = [person.athlete.id for person in found.people]
    return _printed(request, words_of_squad(found), ids)


def sheet(request: Request) -> Response:
    """A sheet of one athlete."""
    path = _path_of(request.path_params["athlete"])
    shown = SheetPage(_of_one(request), f"{path}/{_slug(_role(request))}.pdf", path)
    return render(request, shown)


def pdf(request: Request) -> Response:
    """A sheet of one athlete, to print; the log keeps that it was."""
    return _printed(request, _of_one(request), [request.path_params["athlete"]])


def _printed(request: Request, sheet: RoleSheet, athletes: Sequence[str]) -> Response:
    here, role = site(request), _role(request)
    document = set_role_sheet(sheet)
    log_sheet(here.keeper, athletes, role)
    return attachment(document, f"{here.today()}-{_slug(role)}.pdf", "application/pdf")


def _found_squad(request: Request) -> SheetOfSquad:
    here = site(request)
    return sheet_of_squad(here.keeper, _role(request), today=here.today())


def _of_one(request: Request) -> RoleSheet:
    here = site(request)
    athlete = request.path_params["athlete"]
    return words_of_one(sheet_of_one(here.keeper, athlete, _role(request), today=here.today()))


def _role(request: Request) -> Role:
    for role in Role:
        if _slug(role) == request.path_params["role"]:
            return role
    raise NotFound("There is no sheet of that name. Choose one from the list")


def _slug(role: Role) -> str:
    return role.value.replace(" ", "-")


def _path_of(athlete_id: str) -> str:
    return f"/squad/athlete/{quote(athlete_id, safe='')}/sheets"


PART = Part(
    "Sheets for others",
    PATH,
    routes=(
        Route(PATH, choose),
        Route(f"{PATH}/{{role}}.pdf", squad_pdf, methods=["POST"]),
        Route(f"{PATH}/{{role}}", squad_sheet),
        Route("/squad/athlete/{athlete}/sheets", choose_of_one),
        Route("/squad/athlete/{athlete}/sheets/{role}.pdf", pdf, methods=["POST"]),
        Route("/squad/athlete/{athlete}/sheets/{role}", sheet),
    ),
    in_navigation=False,
)
