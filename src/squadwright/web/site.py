"""What every route may ask for: the database, the day, the parts and the static files."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date

from starlette.requests import Request

from squadwright.services.unit_of_work import Keeper
from squadwright.web.assets import Assets
from squadwright.web.devices.tries import JoinTries
from squadwright.web.hall import Hall
from squadwright.web.part import Part


@dataclass(frozen=True)
class Site:
    """One running site."""

    keeper: Keeper
    today: Callable[[], date]
    parts: tuple[Part, ...]
    assets: Assets
    allowed_hosts: frozenset[str]
    hall: Hall | None = None
    join_tries: JoinTries = field(default_factory=JoinTries)


def site(request: Request) -> Site:
    """The site that a request came to."""
    found = request.app.state.site
    assert isinstance(found, Site)
    return found
