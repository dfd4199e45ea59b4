"""Who may ask and how: hosts, origins, the token on every write, the size, and the headers.

Any page in the browser can reach the loopback address or one of the hall's network. So a request
must name a host of ours at the door it comes in by (a rebound name does not pass), and a write must
come from a page of ours (its origin) and bring the token of that page.
"""

import hmac
import secrets
from collections.abc import Mapping
from typing import Any
from urllib.parse import urlsplit

from starlette.datastructures import FormData, Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from squadwright.web.hall import Door, door_of

TOKEN_COOKIE = "squadwright_token"
TOKEN_FIELD = "_token"
TOKEN_HEADER = "X-CSRF-Token"
TOKEN_BYTES = 32
LARGEST_BODY_BYTES = 5_000_000
LARGEST_FIELD_BYTES = 1_000_000
MOST_FIELDS = 2_000
READING = frozenset({"GET", "HEAD", "OPTIONS"})
YEAR_S = 31_536_000
COOKIES: dict[str, Any] = {"httponly": True, "samesite": "strict", "path": "/"}
HEADERS: Mapping[str, str] = {
    "Content-Security-Policy": "; ".join(
        (
            "default-src 'none'",
            "script-src 'self'",
            "style-src 'self'",
            "img-src 'self'",
            "font-src 'self'",
            "connect-src 'self'",
            "manifest-src 'self'",
            "worker-src 'self'",
            "form-action 'self'",
            "base-uri 'none'",
            "frame-ancestors 'none'",
        )
    ),
    "X-Content-Type-Options": "nosniff",
    # A page sends its origin with a POST only if it may tell it to its own site.
    "Referrer-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
}
UNSTORED = "private, no-cache"


def is_own_path(path: str) -> bool:
    """Whether a text is a path of this site, and not an address elsewhere."""
    has_odd_sign = any(sign in path for sign in "\\\r\n\t")
    return path.startswith("/") and not path.startswith("//") and not has_odd_sign


def field_token(request: Request) -> str:
    """The token of this browser, masked anew on each page so that no two pages look alike."""
    token: bytes = request.state.token
    mask = secrets.token_bytes(TOKEN_BYTES)
    return (mask + _xor(mask, token)).hex()


class Guard:
    """Lets a request through to the site, or refuses it; puts the headers on every answer."""

    def __init__(self, app: ASGIApp, allowed_hosts: Mapping[Door, frozenset[str]]) -> None:
        self.app = app
        self.allowed_hosts = allowed_hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        known = _cookie_token(request)
        request.state.token = known or secrets.token_bytes(TOKEN_BYTES)
        request.state.refused = None
        request.state.form = FormData()

        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                _put_headers(MutableHeaders(scope=message), request, is_new=known is None)
            await send(message)

        try:
            receive = await self._checked(request)
        except HTTPException as refusal:
            # The page that tells it is rendered inside, where the templates are.
            request.state.refused = refusal
        try:
            await self.app(scope, receive, send_guarded)
        finally:
            await request.state.form.close()

    async def _checked(self, request: Request) -> Receive:
        host = request.headers.get("host", "").lower()
        if host not in self.allowed_hosts[door_of(request.scope)]:
            raise HTTPException(
                400, "This address is not one of this site. Use the address that `serve` printed."
            )
        if request.method in READING:
            return request.receive
        _check_origin(request.headers, host)
        body = await _read_body(request)
        replayed = _replaying(body)
        if _is_form(request.headers):
            request.state.form = await Request(request.scope, _replaying(body)).form(
                max_fields=MOST_FIELDS, max_files=10, max_part_size=LARGEST_FIELD_BYTES
            )
        _check_token(request)
        return replayed


def _check_origin(headers: Headers, host: str) -> None:
    origin = headers.get("origin")
    if origin is None:
        referrer = urlsplit(headers.get("referer", ""))
        origin = f"{referrer.scheme}://{referrer.netloc}"
    if origin.lower() not in (f"http://{host}", f"https://{host}"):
        raise HTTPException(403, "This was sent from a page that is not one of this site.")


def _check_token(request: Request) -> None:
    sent = request.headers.get(TOKEN_HEADER) or request.state.form.get(TOKEN_FIELD)
    try:
        masked = bytes.fromhex(sent) if isinstance(sent, str) else b""
    except ValueError:
        masked = b""
    known = _cookie_token(request)
    mask, rest = masked[:TOKEN_BYTES], masked[TOKEN_BYTES:]
    is_ours = len(masked) == 2 * TOKEN_BYTES and known is not None
    if not is_ours or not hmac.compare_digest(_xor(mask, rest), known or b""):
        raise HTTPException(
            403, "The page was too old to be sent. Go back, load it again, and send it once more."
        )


def _cookie_token(request: Request) -> bytes | None:
    try:
        token = bytes.fromhex(request.cookies.get(TOKEN_COOKIE, ""))
    except ValueError:
        return None
    return token if len(token) == TOKEN_BYTES else None


async def _read_body(request: Request) -> bytes:
    too_large = HTTPException(
        413, f"That is more than {LARGEST_BODY_BYTES // 1_000_000} MB. Send a smaller file."
    )
    announced = request.headers.get("content-length", "0")
    if announced.isdecimal() and int(announced) > LARGEST_BODY_BYTES:
        raise too_large
    body = bytearray()
    async for chunk in request.stream():
        body += chunk
        if len(body) > LARGEST_BODY_BYTES:
            raise too_large
    return bytes(body)


def _replaying(body: bytes) -> Receive:
    waiting = [{"type": "http.request", "body": body, "more_body": False}]

    async def receive() -> Message:
        return waiting.pop() if waiting else {"type": "http.disconnect"}

    return receive


def _is_form(headers: Headers) -> bool:
    kind = headers.get("content-type", "").partition(";")[0].strip().lower()
    return kind in ("application/x-www-form-urlencoded", "multipart/form-data")


def _put_headers(headers: MutableHeaders, request: Request, *, is_new: bool) -> None:
    for name, value in HEADERS.items():
        headers[name] = value
    headers.setdefault("Cache-Control", UNSTORED)
    if is_new and not request.url.path.startswith("/static/"):
        token: bytes = request.state.token
        secure = "; Secure" if request.url.scheme == "https" else ""
        headers.append(
            "Set-Cookie",
            f"{TOKEN_COOKIE}={token.hex()}; HttpOnly; Path=/; SameSite=Strict{secure}",
        )


def _xor(left: bytes, right: bytes) -> bytes:
    return bytes(a ^ b for a, b in zip(left, right, strict=False))
