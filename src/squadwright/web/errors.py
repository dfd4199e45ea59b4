"""The one place that turns an error into a page."""

import logging
from dataclasses import dataclass
from typing import TYPE_CHECKING

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from squadwright.errors import (
    Conflict,
    InvalidInput,
    NoSolution,
    NotAllowed,
    NotFound,
    OutOfTime,
    OutsidePublishedRange,
    SquadwrightError,
)
from squadwright.web.page import render, template
from squadwright.web.security import READING

if TYPE_CHECKING:
    from collections.abc import Mapping

LOG = logging.getLogger("squadwright.web")
STATUSES: tuple[tuple[type[SquadwrightError], int], ...] = (
    (NotFound, 404),
    (Conflict, 409),
    (NotAllowed, 403),
    (NoSolution, 422),
    (OutOfTime, 503),
    (OutsidePublishedRange, 422),
    (SquadwrightError, 400),
)
TITLES = {
    400: "This cannot be used",
    403: "This is not allowed",
    404: "There is nothing here",
    405: "This page is not used that way",
    409: "Two things do not go together",
    413: "This is too large",
    422: "This cannot be done as it stands",
    500: "Something went wrong in the program",
    503: "There was not enough time",
}
WORDS = {
    404: "The address may be old, or what it showed was removed.",
    405: "Go back and use the button or the link on the page.",
    500: "Nothing was stored. Go back and try again; if it happens again, look at the window "
    "in which the program runs and report what stands there.",
}


@dataclass(frozen=True)
@template("layout/error.html")
class ErrorPage:
    """An error as the coach sees it."""

    title: str
    words: str
    status: int


def error_page(
    request: Request, status: int, words: str = "", headers: "Mapping[str, str] | None" = None
) -> Response:
    """The page of an error."""
    title = TITLES.get(status, "This cannot be done")
    page = ErrorPage(title, words or WORDS.get(status, ""), status)
    response = render(request, page, status=status)
    response.headers.update(headers or {})
    return response


def status_of(error: SquadwrightError, method: str) -> int:
    """The HTTP status of an error; wrong input in a form is 422, in an address 400."""
    if isinstance(error, InvalidInput):
        return 400 if method in READING else 422
    return next(status for kind, status in STATUSES if isinstance(error, kind))


def on_squadwright_error(request: Request, error: Exception) -> Response:
    """A known error, in its own words."""
    assert isinstance(error, SquadwrightError)
    return error_page(request, status_of(error, request.method), str(error))


def on_http_error(request: Request, error: Exception) -> Response:
    """An error of the protocol: no such page, no such method, refused at the door."""
    assert isinstance(error, HTTPException)
    status = error.status_code
    words = WORDS.get(status, "") if status in (404, 405) else error.detail
    return error_page(request, status, words, error.headers)


class Doorkeeper:
    """Tells what the guard refused, and turns an unknown error into a page without detail."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        if request.state.refused is not None:
            await on_http_error(request, request.state.refused)(scope, receive, send)
            return
        has_started = False

        async def send_noting(message: Message) -> None:
            nonlocal has_started
            has_started = has_started or message["type"] == "http.response.start"
            await send(message)

        try:
            await self.app(scope, receive, send_noting)
        except Exception:
            LOG.exception("%s %s failed", request.method, request.url.path)
            if has_started:
                raise
            await error_page(request, 500)(scope, receive, send)
