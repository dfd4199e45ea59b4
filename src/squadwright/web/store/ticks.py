"""What is found already: kept in a cookie, so that it outlives a reload and a flat battery.

A tick belongs to the device that fetches. It holds for the number that was found: where the plan
then asks for more of a piece, the tick is off again.
"""

import base64
import binascii
import json
from collections.abc import Collection
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from squadwright.web.security import COOKIES

COOKIE = "squadwright_found"
LASTS_S = 2 * 24 * 3600
LONGEST = 3500


def found_keys(request: Request, session_id: str) -> frozenset[str]:
    """The keys that are ticked for a session on this device."""
    value = request.cookies.get(COOKIE, "")
    try:
        held, keys = json.loads(base64.urlsafe_b64decode(value + "=" * (-len(value) % 4)))
    except (binascii.Error, ValueError, TypeError, RecursionError):
        return frozenset()
    if held != session_id or not isinstance(keys, list):
        return frozenset()
    return frozenset(key for key in keys if isinstance(key, str))


def keep_ticks(response: Response, session_id: str, keys: Collection[str]) -> None:
    """Keep what is ticked; a list too long for a cookie is cut, and the rest is ticked again."""
    kept: list[str] = sorted(keys)
    while len(value := _written(session_id, kept)) > LONGEST:
        kept.pop()
    attributes: dict[str, Any] = {**COOKIES, "max_age": LASTS_S}
    response.set_cookie(COOKIE, value, **attributes)


def _written(session_id: str, keys: list[str]) -> str:
    text = json.dumps([session_id, keys]).encode()
    return base64.urlsafe_b64encode(text).decode().rstrip("=")
