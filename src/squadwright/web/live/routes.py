"""The live floor, the wall screen, and the exchange of events with devices."""

from datetime import UTC
from json import dumps
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.record_file import read_brought
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.session import Session
from squadwright.services.club_changes import fingerprint
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.record import exchange
from squadwright.web.live.contexts import (
    EmergencyView,
    FloorPage,
    FloorPaths,
    StartPlace,
    WallPage,
)
from squadwright.web.live.sheet import FloorSheet, floor_sheet
from squadwright.web.look.themes import chosen_theme
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site

STOP_AFTER_TAPS = 3
FLOOR_THEMES = {"dark": "white-on-black", "white-on-black": "white-on-black"}


def floor(request: Request) -> Response:
    """The live floor; it needs nothing from the server once it is open."""
    club, session, plan = _planned(request)
    sheet = _sheet(club, session, plan)
    return render(
        request,
        FloorPage(
            title=session.name,
            theme=_theme(request),
            paths=_paths(session),
            sheet=_embedded(sheet),
            starts=_starts(sheet),
            emergency=_emergency(club, session, plan),
            stop_after=STOP_AFTER_TAPS,
        ),
    )


def wall(request: Request) -> Response:
    """The same moment for a screen on the wall."""
    club, session, plan = _planned(request)
    page = WallPage(
        title=session.name,
        theme=_theme(request),
        paths=_paths(session),
        sheet=_embedded(_sheet(club, session, plan)),
    )
    return render(request, page)


def sheet_document(request: Request) -> Response:
    """The document a device runs the session from."""
    return JSONResponse(_sheet(*_planned(request)).as_json())


async def events(request: Request) -> Response:
    """Take what a device noted, give what it has not seen."""
    session_id = request.path_params["session"]
    try:
        brought, after = read_brought(await request.body())
        # The database is waited for beside the loop that answers everybody else.
        answer = await run_in_threadpool(
            exchange, site(request).keeper, session_id, brought, after=after
        )
    except (InvalidInput, Conflict) as error:
        return JSONResponse({"error": str(error)}, status_code=422)
    except NotFound as error:
        return JSONResponse({"error": str(error)}, status_code=404)
    return JSONResponse(
        {
            "stored": answer.stored,
            "events": [_written(event) for event in answer.events],
            "upto": answer.upto,
        }
    )


def service_worker(request: Request) -> Response:
    """The worker that opens the floor without a server; it must stand at the root of the site."""
    script = site(request).assets.files["js/live/worker.js"]
    return Response(script, media_type="text/javascript; charset=utf-8")


def _planned(request: Request) -> tuple[Club, Session, Plan]:
    here = site(request)
    named = request.path_params["session"]
    shown = show_session(here.keeper, named, today=here.today())
    if not isinstance(shown, ShownSession):
        raise NotFound("There is no club yet, so there is no session to run")
    if shown.plan is None:
        raise NotFound(f"{shown.session.name} has no plan to run: {shown.trouble}")
    return shown.club, shown.session, shown.plan


def _sheet(club: Club, session: Session, plan: Plan) -> FloorSheet:
    revision = fingerprint((plan.run_sheet, plan.doses, plan.bars))
    return floor_sheet(club, session, plan, revision=revision)


def _embedded(sheet: FloorSheet) -> str:
    """The document as JSON text; the template escapes it."""
    return dumps(sheet.as_json(), ensure_ascii=False, separators=(",", ":"))


def _theme(request: Request) -> str:
    """Black and white only on the floor; dark where the near view is dark."""
    return FLOOR_THEMES.get(chosen_theme(request), "black-on-white")


def _paths(session: Session) -> FloorPaths:
    path = f"/live/{quote(session.id, safe='')}"
    return FloorPaths(
        page=path,
        events=f"{path}/events",
        sheet=f"{path}/sheet.json",
        wall=f"{path}/wall",
        plan=f"/today/{quote(session.id, safe='')}",
    )


def _starts(sheet: FloorSheet) -> tuple[StartPlace, ...]:
    """The beginning of the slot, and of each block."""
    whole = sorted(line.start_s for line in sheet.lines)
    starts = [StartPlace("Start from the beginning", whole[0])] if whole else []
    for block in sheet.blocks:
        first = min(line.start_s for line in sheet.lines if line.block == block.name)
        starts.append(StartPlace(f"Start with {block.name}", first))
    return tuple(starts)


def _emergency(club: Club, session: Session, plan: Plan) -> EmergencyView:
    card = club.emergency
    restricted = [
        (
            a.shown_name,
            "; ".join(r.reason or r.instruction for r in held if r.reason or r.instruction),
        )
        for a in plan.attendance
        if (held := club.athlete(a.athlete).restrictions_on(session.held_on))
    ]
    return EmergencyView(
        card.address, card.access, card.defibrillator, card.contacts, tuple(restricted)
    )


def _written(event: RecordEvent) -> dict[str, object]:
    return {
        **{name: getattr(event, name) for name in event.__dataclass_fields__},
        "at": event.at.astimezone(UTC).isoformat(),
        "kind": event.kind.value,
    }


PART = Part(
    "Live floor",
    "/live",
    routes=(
        Route("/live/{session}", floor),
        Route("/live/{session}/wall", wall),
        Route("/live/{session}/sheet.json", sheet_document),
        Route("/live/{session}/events", events, methods=["POST"]),
        Route("/service-worker.js", service_worker),
    ),
    in_navigation=False,
)
