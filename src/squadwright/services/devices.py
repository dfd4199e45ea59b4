"""Use cases of second devices: a code is shown, typed in once, and a device is known for the day.

What its browser keeps is a random token; the database keeps only the token's hash. So a device can
be taken out at once, and a copy of the database lets nobody in.
"""

import hmac
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from hashlib import sha256
from secrets import randbelow, token_hex, token_urlsafe

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.device import Device, DeviceRole
from squadwright.services.record import require_recorded
from squadwright.services.unit_of_work import Keeper, Store

# Digits only: no letter can be taken for one of them, and they can be called across the hall.
CODE_DIGITS = 6
CODE_HOLDS = timedelta(minutes=5)
# Of a million codes somebody may try so many before the open ones are void.
MOST_WRONG_TRIES = 20
MOST_DEVICES = 60
LONGEST_NAME = 40


@dataclass(frozen=True)
class Joined:
    """A device that has just joined, and the token its browser is to keep."""

    device: Device
    token: str


def ask_in(
    keeper: Keeper, session_id: str, role: DeviceRole, *, today: date, now: datetime
) -> Device:
    """Make a code for one device; what belongs to former days is forgotten."""
    with keeper.writing() as store:
        club = store.load_club()
        if club is None:
            raise NotFound("There is no club yet, so there is no session to join")
        require_recorded(club, session_id)
        kept = _cleared(store, today, now)
        if len(kept) >= MOST_DEVICES:
            raise Conflict(
                f"{len(kept)} devices have joined today or may join, and at most {MOST_DEVICES} "
                "can. Take out some that are not used"
            )
        device = Device(
            id=token_hex(6),
            session=session_id,
            role=role,
            day=today,
            code=_new_code(kept),
            code_until=now + CODE_HOLDS,
        )
        store.put_device(device)
    return device


def join(keeper: Keeper, typed: str, name: str, *, today: date, now: datetime) -> Joined:
    """Take in the device that brings a code; the code is used up by it."""
    digits = "".join(typed.split())
    with keeper.writing() as store:
        waiting = [d for d in _cleared(store, today, now) if d.is_waiting(now)]
        # Every code is compared to its end, so that the time taken tells nothing about one.
        fitting = [
            d
            for d in waiting
            if hmac.compare_digest(d.code.encode(), digits.encode(errors="replace"))
        ]
        if fitting:
            token = token_urlsafe(32)
            joined = replace(
                fitting[0],
                name=name,
                code="",
                code_until=None,
                token_hash=_hash(token),
                joined_at=now,
            )
            store.put_device(joined)
            return Joined(joined, token)
        for device in waiting:
            _count_wrong_try(store, device)
    raise InvalidInput(
        "code",
        "it is not one that holds now (a code holds for 5 minutes and is used once)",
        "Compare it with the coach's screen, or ask for a new one",
    )


def device_of(keeper: Keeper, token: str, *, today: date) -> Device | None:
    """The device whose browser keeps a token; None where it may not take part (any more)."""
    if not token:
        return None
    with keeper.reading() as store:
        device = store.device_of_token(_hash(token))
    return device if device is not None and device.day == today else None


def devices_of(
    keeper: Keeper, session_id: str, *, today: date, now: datetime
) -> tuple[Device, ...]:
    """Devices of a session: those that have joined today, then those whose code holds."""
    with keeper.reading() as store:
        held = [d for d in store.devices() if d.session == session_id and d.day == today]
    joined = [d for d in held if d.has_joined]
    return (*joined, *(d for d in held if d.is_waiting(now)))


def take_out(keeper: Keeper, session_id: str, device_id: str) -> Device:
    """Take a device out, or a code back; it may not take part from now on."""
    with keeper.writing() as store:
        found = next(
            (d for d in store.devices() if (d.session, d.id) == (session_id, device_id)), None
        )
        if found is None:
            raise NotFound("This device is not among those that have joined. Load the page afresh")
        store.drop_device(device_id)
    return found


def _cleared(store: Store, today: date, now: datetime) -> list[Device]:
    """The devices of today, once those of former days and codes that are over are forgotten."""
    kept = []
    for device in store.devices():
        if device.day == today and (device.has_joined or device.is_waiting(now)):
            kept.append(device)
        else:
            store.drop_device(device.id)
    return kept


def _new_code(devices: list[Device]) -> str:
    taken = {device.code for device in devices}
    while True:
        code = f"{randbelow(10**CODE_DIGITS):0{CODE_DIGITS}d}"
        if code not in taken:
            return code


def _count_wrong_try(store: Store, device: Device) -> None:
    tries = device.wrong_tries + 1
    if tries >= MOST_WRONG_TRIES:
        store.drop_device(device.id)
    else:
        store.put_device(replace(device, wrong_tries=tries))


def _hash(token: str) -> str:
    return sha256(token.encode(errors="replace")).hexdigest()
