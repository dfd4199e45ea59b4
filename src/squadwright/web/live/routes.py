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
from squadwright.model.device import DeviceRole
from squadwright.model.record import RecordEvent
from squadwright.model.session import Session
from squadwright.services.head_knock import cleared_since
from squadwright.services.meeting import meet
from squadwright.services.record import record_of
from squadwright.services.running import Running, running
from squadwright.web.devices.views import emergency_for, events_for, for_the_wall, sheet_for
from squadwright.web.hall import NOT_FOR_ROLE, visitor
from squadwright.web.live.contexts import (
    FloorPage,
    FloorPaths,
    StartPlace,
    WallPage,
)
from squadwright.web.live.emergency import emergency_view
from squadwright.web.live.handover import handover_page
from squadwright.web.live.sheet import FloorSheet
from squadwright.web.look.themes import chosen_theme
from squadwright.web.page import render
from squadwright.web.part import Part
from squadwright.web.site import site

FLOOR_THEMES = {"dark": "white-on-black", "white-on-black": "white-on-black"}


def floor(request: Request) -> Response:
    """The live floor; it needs nothing from the server once it is open."""
    run = _running(request)
    guest = visitor(request)
    sheet = sheet_for(run, guest)
    emergency = emergency_view(run, cleared_since(site(request).keeper, run.session.id))
    return render(
        request,
        FloorPage(
            title=run.session.name,
            theme=_theme(request),
            paths=_paths(run.session),
            sheet=_embedded(sheet),
            starts=_starts(sheet),
            emergency=emergency_for(emergency, run, guest),
            is_coach=guest.is_coach,
            author=guest.device.name if guest.device is not None else "",
        ),
    )


def wall(request: Request) -> Response:
    """The same moment for a screen on the wall."""
    run = _running(request)
    page = WallPage(
        title=run.session.name,
        theme=_theme(request),
        paths=_paths(run.session),
        sheet=_embedded(for_the_wall(sheet_for(run, visitor(request)))),
        cleared=cleared_since(site(request).keeper, run.session.id),
    )
    return render(request, page)


def handover(request: Request) -> Response:
    """What somebody else needs who runs the session."""
    run = _running(request)
    record = record_of(site(request).keeper, run.session.id)
    return render(request, handover_page(run, _paths(run.session).page, record))


def sheet_document(request: Request) -> Response:
    """The document a device runs the session from."""
    run = _running(request)
    return JSONResponse(sheet_for(run, visitor(request)).as_json())


async def events(request: Request) -> Response:
    """Take what a device noted, give what it has not seen."""
    session_id = request.path_params["session"]
    try:
        brought = read_brought(await request.body())
        here = site(request)
        guest = visitor(request)
        if guest.role is DeviceRole.WALL and brought.events:
            return JSONResponse({"error": NOT_FOR_ROLE[DeviceRole.WALL]}, status_code=403)
        # The database is waited for beside the loop that answers everybody else.
        met = await run_in_threadpool(meet, here.keeper, session_id, brought, today=here.today())
    except (InvalidInput, Conflict) as error:
        return JSONResponse({"error": str(error)}, status_code=422)
    except NotFound as error:
        return JSONResponse({"error": str(error)}, status_code=404)
    return JSONResponse(
        {
            "stored": met.exchange.stored,
            "events": [_written(event) for event in events_for(met.exchange.events, guest)],
            "upto": met.exchange.upto,
            "revision": met.revision,
        }
    )


def service_worker(request: Request) -> Response:
    """The worker that opens the floor without a server; it must stand at the root of the site."""
    script = site(request).assets.files["js/live/worker.js"]
    return Response(script, media_type="text/javascript; charset=utf-8")


def _running(request: Request) -> Running:
    here = site(request)
    return running(here.keeper, request.path_params["session"], today=here.today())


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
        devices=f"/devices/{quote(session.id, safe='')}",
    )


def _starts(sheet: FloorSheet) -> tuple[StartPlace, ...]:
    """The beginning of the slot, and of each block."""
    whole = sorted(line.start_s for line in sheet.lines)
    starts = [StartPlace("Start from the beginning", whole[0])] if whole else []
    for block in sheet.blocks:
        first = min(line.start_s for line in sheet.lines if line.block == block.name)
        starts.append(StartPlace(f"Start with {block.name}", first))
    return tuple(starts)


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
        Route("/live/{session}/handover", handover),
        Route("/live/{session}/sheet.json", sheet_document),
        Route("/live/{session}/events", events, methods=["POST"]),
        Route("/service-worker.js", service_worker),
    ),
    in_navigation=False,
)
