"""The day a request asks for."""

from datetime import date

from starlette.requests import Request

from squadwright.web.site import site

EARLIEST, LATEST = 1950, 2200


def asked_day(request: Request) -> date:
    """The day in the address; today where it says none that can be read."""
    return typed_day(request.query_params.get("day", "")) or site(request).today()


def typed_day(typed: str) -> date | None:
    """A day as typed, or None where it is none."""
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        return None
    return day if EARLIEST <= day.year <= LATEST else None
