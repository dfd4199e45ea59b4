"""The hall's network: at which door a request came in, which device it is, and what that may see.

The site has three doors. The coach's own machine comes in by the loopback address and needs no
code. Devices of the hall come in over https and see only the page for the code until they have
joined; then only the session and the pages of their role. The third door, without https, gives
nothing but the certificate that makes the second one trusted. The door is the listening socket, not
anything a request says of itself.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Any
from urllib.parse import quote, urlsplit

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from squadwright.model.device import Device, DeviceRole
from squadwright.model.record import day_of_record
from squadwright.services.actor import WHO
from squadwright.services.devices import device_of
from squadwright.services.unit_of_work import Keeper

DEVICE_COOKIE = "squadwright_device"
_DOOR = "squadwright.door"
OPEN_TO_ALL = frozenset(
    {"/", "/join", "/look/theme", "/robots.txt", "/trust", "/trust/certificate"}
)
OPEN_WITHOUT_HTTPS = frozenset({"/", "/trust", "/trust/certificate", "/robots.txt"})
TO_JOIN = (
    "This device has not joined, or not any more. Open the first page of this site and type the "
    "code that the coach shows. What was noted on this device is kept on it."
)
NOT_FOR_ROLE = {
    DeviceRole.ASSISTANT: "This device has joined as an assistant's: it shows the live floor of "
    "its session, or its day at the mats, and nothing else. Ask the coach for what you need.",
    DeviceRole.WALL: "This device has joined as a wall screen: it shows that and nothing else, "
    "and notes nothing.",
}
PAGES = {
    DeviceRole.ASSISTANT: ("", "/wall", "/sheet.json", "/events", "/handover"),
    DeviceRole.WALL: ("/wall", "/sheet.json", "/events"),
}


class Door(StrEnum):
    """Where a request came in."""

    OWN = "own machine"
    HALL = "hall"
    TRUST = "certificate only"


@dataclass(frozen=True)
class Hall:
    """How devices of the hall reach the site: the addresses of both doors, and the certificate."""

    addresses: tuple[str, ...]
    trust_addresses: tuple[str, ...]
    certificate: bytes
    fingerprint: str

    def hosts(self, door: Door) -> frozenset[str]:
        """What the Host header may say at a door."""
        addresses = self.addresses if door is Door.HALL else self.trust_addresses
        return frozenset(urlsplit(address).netloc for address in addresses)


@dataclass(frozen=True)
class Visitor:
    """Who asks: the coach on his own machine, or a device of the hall."""

    door: Door
    device: Device | None = None

    @property
    def is_coach(self) -> bool:
        """Whether this is the coach's own machine."""
        return self.door is Door.OWN

    @property
    def role(self) -> DeviceRole | None:
        """What a joined device may do; None for the coach, who may do everything."""
        return self.device.role if self.device is not None else None

    @property
    def first_page(self) -> str:
        """Where a visitor from the hall begins."""
        if self.door is Door.TRUST:
            return "/trust"
        if self.device is None:
            return "/join"
        return first_page_of(self.device)


COACH = Visitor(Door.OWN)


def first_page_of(device: Device) -> str:
    """Where a device that has joined begins."""
    day = day_of_record(device.session)
    if day is not None:
        return f"/camp/event-day/{day}"
    wall = "/wall" if device.role is DeviceRole.WALL else ""
    return f"/live/{quote(device.session, safe='')}{wall}"


def visitor(request: Request) -> Visitor:
    """Who a request comes from."""
    found = getattr(request.state, "visitor", COACH)
    assert isinstance(found, Visitor)
    return found


def door_of(scope: Scope) -> Door:
    """The door a request came in by."""
    found: Door = scope.get(_DOOR, Door.OWN)
    return found


def by_door(app: ASGIApp, door: Door) -> ASGIApp:
    """The site as it answers at a door."""

    async def answer(scope: Scope, receive: Receive, send: Send) -> None:
        marked: dict[str, Any] = {**scope, _DOOR: door}
        await app(marked, receive, send)

    return answer


class HallDoor:
    """Finds out who asks, and refuses what is not for him."""

    def __init__(self, app: ASGIApp, keeper: Keeper) -> None:
        self.app = app
        self.keeper = keeper

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        guest = request.state.visitor = await self._visitor(request)
        WHO.set(_called(guest))
        words = "" if request.state.refused is not None else _refusal(guest, request)
        if words and request.url.path.endswith("/events"):
            await JSONResponse({"error": words}, status_code=403)(scope, receive, send)
            return
        if words:
            # The page that tells it is rendered inside, where the templates are.
            request.state.refused = HTTPException(403, words)
        await self.app(scope, receive, send)

    async def _visitor(self, request: Request) -> Visitor:
        door = door_of(request.scope)
        if door is Door.OWN:
            return COACH
        token = request.cookies.get(DEVICE_COOKIE, "")
        if door is Door.TRUST or not token or request.url.path.startswith("/static/"):
            return Visitor(door)
        today = request.app.state.site.today()
        device = await run_in_threadpool(device_of, self.keeper, token, today=today)
        return Visitor(door, device)


def _called(guest: Visitor) -> str:
    """A visitor as the log of health fields names him."""
    if guest.device is None:
        return "coach, on the club computer" if guest.is_coach else "somebody of the hall"
    return f"device {guest.device.name}, {guest.device.role.value}"


def _refusal(guest: Visitor, request: Request) -> str:
    """Why a request is not for somebody; empty where it is."""
    path = request.url.path
    if guest.is_coach or path.startswith("/static/"):
        return ""
    if guest.door is Door.TRUST:
        is_open = path in OPEN_WITHOUT_HTTPS
        return "" if is_open else "Only the certificate is given here. Open the https address."
    if path in OPEN_TO_ALL:
        return ""
    device = guest.device
    if device is None:
        return "" if path == "/service-worker.js" else TO_JOIN
    own = {f"/live/{device.session}{ending}" for ending in PAGES[device.role]}
    if day_of_record(device.session) is not None:
        own = {first_page_of(device), f"/live/{device.session}/events"}
    return "" if path in own or path == "/service-worker.js" else NOT_FOR_ROLE[device.role]
