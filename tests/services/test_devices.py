"""Second devices: a code is used once and soon, and what a device keeps can be taken from it."""

from dataclasses import asdict
from datetime import UTC, date, datetime, timedelta

import pytest

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.device import Device, DeviceRole
from squadwright.services.devices import (
    CODE_HOLDS,
    MOST_DEVICES,
    MOST_WRONG_TRIES,
    ask_in,
    device_of,
    devices_of,
    join,
    take_out,
)
from squadwright.storage.keeper import SqlKeeper

TODAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 17, 50, tzinfo=UTC)
SESSION = "monday-barbell"


def asked_in(keeper: SqlKeeper, role: DeviceRole = DeviceRole.ASSISTANT) -> Device:
    return ask_in(keeper, SESSION, role, today=TODAY, now=NOW)


def wrong_for(device: Device) -> str:
    return f"{(int(device.code) + 1) % 1_000_000:06d}"


def test_a_device_that_brings_the_code_is_known_until_the_end_of_the_day(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    assert len(device.code) == 6
    assert device.code.isdecimal()
    spaced = f" {device.code[:3]} {device.code[3:]}"
    joined = join(keeper, spaced, "Anna", today=TODAY, now=NOW)
    known = device_of(keeper, joined.token, today=TODAY)
    assert known is not None
    assert (known.session, known.role, known.name) == (SESSION, DeviceRole.ASSISTANT, "Anna")
    assert device_of(keeper, joined.token, today=TODAY + timedelta(days=1)) is None
    for wrong in ("", joined.token[:-1], joined.token + "x", "é"):
        assert device_of(keeper, wrong, today=TODAY) is None


def test_a_code_is_used_once(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    join(keeper, device.code, "Anna", today=TODAY, now=NOW)
    with pytest.raises(InvalidInput, match="used once"):
        join(keeper, device.code, "Ben", today=TODAY, now=NOW)


def test_a_code_holds_for_five_minutes(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    assert timedelta(minutes=5) == CODE_HOLDS
    with pytest.raises(InvalidInput, match="ask for a new one"):
        join(keeper, device.code, "Anna", today=TODAY, now=NOW + CODE_HOLDS)
    device = asked_in(keeper)
    almost = NOW + CODE_HOLDS - timedelta(seconds=1)
    assert join(keeper, device.code, "Anna", today=TODAY, now=almost).device.has_joined


def test_codes_are_void_after_so_many_wrong_tries(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    for _ in range(MOST_WRONG_TRIES):
        with pytest.raises(InvalidInput):
            join(keeper, wrong_for(device), "X", today=TODAY, now=NOW)
    with pytest.raises(InvalidInput):
        join(keeper, device.code, "Anna", today=TODAY, now=NOW)
    assert devices_of(keeper, SESSION, today=TODAY, now=NOW) == ()


def test_a_joined_device_has_no_code_that_nothing_typed_could_fit(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    join(keeper, device.code, "Anna", today=TODAY, now=NOW)
    for nothing in ("", "   "):
        with pytest.raises(InvalidInput):
            join(keeper, nothing, "X", today=TODAY, now=NOW)


def test_a_device_that_is_taken_out_is_not_known_any_more(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    joined = join(keeper, device.code, "Anna", today=TODAY, now=NOW)
    with pytest.raises(NotFound):
        take_out(keeper, "wednesday-plyometric", device.id)
    assert take_out(keeper, SESSION, device.id).name == "Anna"
    assert device_of(keeper, joined.token, today=TODAY) is None
    with pytest.raises(NotFound):
        take_out(keeper, SESSION, device.id)


def test_the_database_does_not_hold_what_the_browser_keeps(keeper: SqlKeeper) -> None:
    device = asked_in(keeper)
    joined = join(keeper, device.code, "Anna", today=TODAY, now=NOW)
    with keeper.reading() as store:
        kept = [str(asdict(each)) for each in store.devices()]
    assert len(kept) == 1
    assert joined.token not in kept[0]


def test_devices_are_listed_by_session_and_forgotten_after_their_day(keeper: SqlKeeper) -> None:
    asked_in(keeper)
    joined = join(keeper, asked_in(keeper).code, "Anna", today=TODAY, now=NOW).device
    listed = devices_of(keeper, SESSION, today=TODAY, now=NOW)
    assert [each.name for each in listed] == ["Anna", ""]
    assert listed[0] == joined
    assert devices_of(keeper, "wednesday-plyometric", today=TODAY, now=NOW) == ()
    tomorrow = TODAY + timedelta(days=1)
    ask_in(keeper, SESSION, DeviceRole.WALL, today=tomorrow, now=NOW + timedelta(days=1))
    with keeper.reading() as store:
        assert [each.role for each in store.devices()] == [DeviceRole.WALL]


def test_codes_are_told_apart_and_not_without_end(keeper: SqlKeeper) -> None:
    codes = {asked_in(keeper).code for _ in range(MOST_DEVICES)}
    assert len(codes) == MOST_DEVICES
    with pytest.raises(Conflict, match="at most 60"):
        asked_in(keeper)
    with pytest.raises(NotFound):
        ask_in(keeper, "no-such", DeviceRole.WALL, today=TODAY, now=NOW)
