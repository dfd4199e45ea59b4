"""The site as one ASGI application."""

from collections.abc import Callable, Collection, Sequence
from datetime import date

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.routing import Route

from squadwright.errors import SquadwrightError
from squadwright.services.unit_of_work import Keeper
from squadwright.web.assets import Assets
from squadwright.web.errors import Doorkeeper, on_http_error, on_squadwright_error
from squadwright.web.hall import Door, Hall, HallDoor, visitor
from squadwright.web.page import templates_with
from squadwright.web.part import Part
from squadwright.web.parts import PARTS
from squadwright.web.security import Guard
from squadwright.web.site import Site

SMALLEST_ZIPPED_BYTES = 800


def create_app(
    keeper: Keeper,
    *,
    allowed_hosts: Collection[str],
    today: Callable[[], date],
    parts: Sequence[Part] = PARTS,
    hall: Hall | None = None,
) -> Starlette:
    """Make the site.

    Parameters
    ----------
    keeper : the database its use cases work on.
    allowed_hosts : what the Host header may say, with the port: ``127.0.0.1:8765``.
    today : gives the day it is.
    parts : the parts of the site.
    hall : how devices of the hall reach it, if they may.
    """
    assets = Assets.read()
    hosts = {Door.OWN: frozenset(host.lower() for host in allowed_hosts)}
    for door in (Door.HALL, Door.TRUST):
        hosts[door] = hall.hosts(door) if hall is not None else frozenset()
    routes = [
        Route("/", _home),
        Route("/robots.txt", _robots),
        assets.route(),
        *(route for part in parts for route in part.routes),
    ]
    app = Starlette(
        routes=routes,
        middleware=[
            Middleware(Guard, allowed_hosts=hosts),
            Middleware(HallDoor, keeper=keeper),
            Middleware(GZipMiddleware, minimum_size=SMALLEST_ZIPPED_BYTES, compresslevel=6),
            Middleware(Doorkeeper),
        ],
        exception_handlers={
            SquadwrightError: on_squadwright_error,
            HTTPException: on_http_error,
        },
    )
    app.router.redirect_slashes = False
    app.state.site = Site(keeper, today, tuple(parts), assets, hosts[Door.OWN], hall)
    app.state.templates = templates_with(assets)
    return app


def _home(request: Request) -> RedirectResponse:
    guest = visitor(request)
    if not guest.is_coach:
        return RedirectResponse(guest.first_page, status_code=303)
    parts: Sequence[Part] = request.app.state.site.parts
    first = next((part for part in parts if part.in_navigation), parts[-1])
    return RedirectResponse(first.path, status_code=303)


def _robots(request: Request) -> PlainTextResponse:
    return PlainTextResponse("User-agent: *\nDisallow: /\n")
