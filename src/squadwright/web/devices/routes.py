"""Let a device join, list the devices, take one out; the page for the code, and for trust."""

from dataclasses import dataclass
from datetime import UTC, datetime
from urllib.parse import quote

import segno
from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from squadwright.errors import Conflict, InvalidInput
from squadwright.model.device import Device, DeviceRole
from squadwright.model.record import day_of_record
from squadwright.services.clubs import load_club
from squadwright.services.devices import LONGEST_NAME, ask_in, devices_of, join, take_out
from squadwright.services.record import require_recorded
from squadwright.web.devices.contexts import (
    DevicesPage,
    JoinedDevice,
    JoinPage,
    TrustPage,
    WaitingCode,
)
from squadwright.web.devices.record_file import read_in
from squadwright.web.devices.wave_question import answer_wave, wave_question_views
from squadwright.web.forms import Form, FormView
from squadwright.web.hall import DEVICE_COOKIE, first_page_of, visitor
from squadwright.web.page import render, see_other
from squadwright.web.part import Part
from squadwright.web.security import COOKIES
from squadwright.web.site import site
from squadwright.web.wording import day_text

ROLES = (
    (DeviceRole.ASSISTANT, "An assistant: the live floor of this session"),
    (DeviceRole.WALL, "A wall screen: the clock, and nothing can be noted"),
)
MAT_ROLES = ((DeviceRole.ASSISTANT, "An assistant: the sheet of this day at the mats"),)
ROLE_WORDS = {DeviceRole.ASSISTANT: "assistant", DeviceRole.WALL: "wall screen"}
DAY_S = 86_400
CERTIFICATE_NAME = "squadwright-hall.crt"


def of_session(request: Request) -> Response:
    """The devices of a session."""
    return render(request, _page(request, _recorded(request), FormView()))


def let_join(request: Request) -> Response:
    """Show a code for one device."""
    of = _recorded(request)
    here = site(request)
    form = Form.of(request)
    try:
        role = form.member("role", "What the device is for", DeviceRole)
        form.done()
        ask_in(here.keeper, of.id, role, today=here.today(), now=_now())
    except (InvalidInput, Conflict) as error:
        view = (
            form.refused(error) if isinstance(error, InvalidInput) else FormView(error=str(error))
        )
        return render(request, _page(request, of, view), status=422)
    return see_other(devices_path(of.id))


def record_from_file(request: Request) -> Response:
    """Take in the record that a device has saved to a file."""
    try:
        return read_in(request)
    except (InvalidInput, Conflict) as error:
        form = Form.of(request)
        view = (
            form.refused(error) if isinstance(error, InvalidInput) else FormView(error=str(error))
        )
        return render(request, _page(request, _recorded(request), FormView(), view), status=422)


def take_out_one(request: Request) -> Response:
    """Take a device out, or a code back."""
    of = _recorded(request)
    gone = take_out(site(request).keeper, of.id, request.path_params["device"])
    words = (
        f"{gone.name or 'The device'} may not take part any more. What it had sent is kept."
        if gone.has_joined
        else "The code holds no more."
    )
    return see_other(devices_path(of.id), changed=words)


def ask_code(request: Request) -> Response:
    """The page for the code; a picture of the address may have brought it along."""
    guest = visitor(request)
    if guest.device is not None:
        return see_other(guest.first_page)
    code = "".join(sign for sign in request.query_params.get("code", "") if sign.isdecimal())[:6]
    return render(request, JoinPage(guest.is_coach, code, FormView()))


def take_in(request: Request) -> Response:
    """Take in a device that brings a code."""
    here = site(request)
    guest = visitor(request)
    if guest.is_coach:
        return render(request, JoinPage(True, "", FormView()))
    address = request.client.host if request.client is not None else ""
    if here.join_tries.are_over(address):
        raise HTTPException(429, "Too many wrong codes from this device. Wait 5 minutes.")
    form = Form.of(request)
    try:
        code = form.text("code", "Code", longest=20)
        name = form.text("name", "Your name", longest=LONGEST_NAME)
        form.done()
        joined = join(here.keeper, code, name, today=here.today(), now=_now())
    except InvalidInput as error:
        if error.place == "code":
            here.join_tries.note_wrong(address)
        return render(request, JoinPage(False, "", form.refused(error)), status=422)
    response = see_other(first_page_of(joined.device))
    is_https = request.url.scheme == "https"
    cookie = {**COOKIES, "samesite": "lax", "secure": is_https, "max_age": DAY_S}
    response.set_cookie(DEVICE_COOKIE, joined.token, **cookie)
    return response


def trust(request: Request) -> Response:
    """How to trust the certificate of this machine, once for each device."""
    hall = site(request).hall
    if hall is None:
        return render(request, TrustPage(False, (), ""))
    return render(request, TrustPage(True, hall.addresses, hall.fingerprint))


def certificate(request: Request) -> Response:
    """The certificate itself, to be taken in by a device."""
    hall = site(request).hall
    if hall is None:
        raise HTTPException(404)
    return Response(
        hall.certificate,
        media_type="application/x-x509-ca-cert",
        headers={"Content-Disposition": f'attachment; filename="{CERTIFICATE_NAME}"'},
    )


def devices_path(session_id: str) -> str:
    """The page of the devices of a session."""
    return f"/devices/{quote(session_id, safe='')}"


@dataclass(frozen=True)
class _Recorded:
    """What devices take part in: a session, or a day of competition; its name and its pages."""

    id: str
    name: str
    pages: tuple[tuple[str, str], ...]
    roles: tuple[tuple[DeviceRole, str], ...]


def _recorded(request: Request) -> _Recorded:
    club = load_club(site(request).keeper)
    own = request.path_params["session"]
    day = day_of_record(own)
    if day is not None:
        require_recorded(club, own)
        sheet = ("The sheet of the day", f"/camp/event-day/{day}")
        return _Recorded(own, f"at the mats, {day_text(day)}", (sheet,), MAT_ROLES)
    path = quote(own, safe="")
    pages = (("The plan", f"/today/{path}"), ("Live floor", f"/live/{path}"))
    return _Recorded(own, club.session(own).name, pages, ROLES)


def _page(
    request: Request, of: _Recorded, view: FormView, file_view: FormView | None = None
) -> DevicesPage:
    here = site(request)
    hall = here.hall
    known = devices_of(here.keeper, of.id, today=here.today(), now=_now())
    return DevicesPage(
        title=of.name,
        path=devices_path(of.id),
        pages=of.pages,
        addresses=hall.addresses if hall else (),
        trust_addresses=hall.trust_addresses if hall else (),
        fingerprint=hall.fingerprint if hall else "",
        roles=tuple((role.value, words) for role, words in of.roles),
        waiting=tuple(
            _waiting(each, hall.addresses[0]) for each in known if hall and not each.has_joined
        ),
        joined=tuple(_joined(each) for each in known if each.has_joined),
        questions=wave_question_views(here.keeper, of.id),
        view=view,
        file_view=file_view or FormView(),
    )


def _waiting(device: Device, address: str) -> WaitingCode:
    assert device.code_until is not None
    return WaitingCode(
        device.id,
        ROLE_WORDS[device.role],
        f"{device.code[:3]} {device.code[3:]}",
        _clock(device.code_until),
        _picture(f"{address}/join?code={device.code}"),
    )


def _joined(device: Device) -> JoinedDevice:
    since = _clock(device.joined_at) if device.joined_at is not None else ""
    return JoinedDevice(device.id, device.name, ROLE_WORDS[device.role], since)


def _picture(address: str) -> Markup:
    """An address as a QR code, black on white whatever the theme (ISO/IEC 18004: 4 cells free)."""
    code = segno.make(address, error="m", micro=False)
    drawn = code.svg_inline(scale=5, border=4, light="#fff", svgclass=None, lineclass=None)
    return Markup(drawn)


def _clock(at: datetime) -> str:
    return f"{at.astimezone():%H:%M}"


def _now() -> datetime:
    return datetime.now(UTC)


PART = Part(
    "Devices",
    "/devices",
    routes=(
        Route("/devices/{session}", of_session),
        Route("/devices/{session}", let_join, methods=["POST"]),
        Route("/devices/{session}/record", record_from_file, methods=["POST"]),
        Route("/devices/{session}/wave", answer_wave, methods=["POST"]),
        Route("/devices/{session}/{device}/out", take_out_one, methods=["POST"]),
    ),
    in_navigation=False,
)
JOIN = Part(
    "Join",
    "/join",
    routes=(Route("/join", ask_code), Route("/join", take_in, methods=["POST"])),
    in_navigation=False,
)
TRUST = Part(
    "Trust",
    "/trust",
    routes=(Route("/trust", trust), Route("/trust/certificate", certificate)),
    in_navigation=False,
)
