"""Second devices: asked in by the coach, let in by a code, and shown what their role may see."""

import json
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from lxml import html
from starlette.testclient import TestClient

from floor_clock import waves_of
from site_server import MONDAY, Browse, keeper_on_copy
from squadwright.services.record import record_of
from squadwright.services.unit_of_work import Keeper
from squadwright.web.app import create_app
from squadwright.web.devices.tries import MOST_WRONG, WITHIN_S, JoinTries
from squadwright.web.hall import DEVICE_COOKIE, Door, Hall, by_door

OWN = "testserver"
HALL_HOST, TRUST_HOST = "192.0.2.7:8735", "192.0.2.7:8736"
HALL = Hall((f"https://{HALL_HOST}",), (f"http://{TRUST_HOST}",), b"certificate", "AA:BB")
SESSION = "monday-barbell"
LIVE = f"/live/{SESSION}"
TOKEN = re.compile(r'name="_token" value="([0-9a-f]+)"')


class Guest:
    """A browser at one of the doors of the site."""

    def __init__(self, app: Any, door: Door, host: str, scheme: str) -> None:
        self.origin = f"{scheme}://{host}"
        self.client = TestClient(by_door(app, door), base_url=self.origin)

    def get(self, path: str, **more: Any) -> Any:
        return self.client.get(path, **more)

    def post(self, path: str, data: dict[str, str] | None = None, **more: Any) -> Any:
        token = TOKEN.search(self.get("/join").text) or TOKEN.search(self.get("/nowhere").text)
        assert token is not None
        headers = {"Origin": self.origin, "X-CSRF-Token": token[1]}
        return self.client.post(path, data=data, headers=headers, **more)

    def send(self, *events: dict[str, Any]) -> Any:
        return self.post(f"{LIVE}/events", json={"after": 0, "events": list(events)})


@pytest.fixture
def keeper(demo_file: Path, tmp_path: Path) -> Keeper:
    return keeper_on_copy(demo_file, tmp_path)


@pytest.fixture
def app(keeper: Keeper) -> Any:
    return create_app(keeper, allowed_hosts=[OWN], today=lambda: MONDAY, hall=HALL)


@pytest.fixture
def coach(app: Any, keeper: Keeper) -> Browse:
    return Browse(TestClient(app), keeper)


@pytest.fixture
def guest(app: Any) -> Callable[[], Guest]:
    return lambda: Guest(app, Door.HALL, HALL_HOST, "https")


def code_for(coach: Browse, role: str = "assistant") -> str:
    page = html.fromstring(coach.post(f"/devices/{SESSION}", {"role": role}).text)
    shown = page.find_class("join-digits")[-1].text_content()
    return str(shown).replace(" ", "")


def joined(coach: Browse, guest: Callable[[], Guest], role: str = "assistant") -> Guest:
    device = guest()
    answer = device.post("/join", {"code": code_for(coach, role), "name": "Anna"})
    assert answer.status_code == 200, answer.text
    return device


def fault(number: int = 1, kind: str = "fault", **more: Any) -> dict[str, Any]:
    at = datetime(2026, 3, 2, 18, 0, tzinfo=UTC) + timedelta(seconds=number)
    return {
        **{"id": f"phone-{number}", "session": SESSION, "device": "phone", "number": number},
        **{
            "at": at.isoformat(),
            "kind": kind,
            "athlete": "A09",
            "round": 1,
            "words": "back rounds",
        },
        **more,
    }


def test_a_device_from_the_hall_sees_nothing_but_the_page_for_the_code(
    app: Any, guest: Callable[[], Guest]
) -> None:
    device = guest()
    assert device.get("/").url.path == "/join"
    for path in ("/today", "/squad", LIVE, f"{LIVE}/sheet.json", f"/devices/{SESSION}", "/nothing"):
        answer = device.get(path)
        assert answer.status_code == 403, path
        assert "has not joined" in answer.text
        assert "Monday" not in answer.text
    assert device.send(fault()).status_code == 403
    assert device.post("/undo/whatever").status_code == 403
    for name, value in (("X-Forwarded-For", "127.0.0.1"), ("X-Forwarded-Host", OWN)):
        assert device.get("/squad", headers={name: value}).status_code == 403


def test_no_door_answers_to_the_names_of_another(app: Any) -> None:
    hosts = {Door.OWN: OWN, Door.HALL: HALL_HOST, Door.TRUST: TRUST_HOST}
    for door in Door:
        client = TestClient(by_door(app, door))
        for other, host in hosts.items():
            answer = client.get("/trust", headers={"Host": host})
            assert answer.status_code == (200 if other is door else 400)


def test_an_assistant_joins_with_the_code_and_notes_what_he_sees(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = joined(coach, guest)
    page = device.get("/")
    assert page.url.path == LIVE
    assert 'data-author="Anna"' in page.text
    assert device.send(fault()).json()["stored"] == ["phone-1"]
    told = html.fromstring(coach.get(f"/devices/{SESSION}").text).text_content()
    assert "Anna" in told
    for path in ("/today", "/squad", "/squad/restrictions", f"/devices/{SESSION}", "/store"):
        answer = device.get(path)
        assert answer.status_code == 403
        assert (
            "the live floor of its session, or its day at the mats, and nothing else" in answer.text
        )
    assert device.get("/live/wednesday-plyometric").status_code == 403


def test_an_assistant_joins_a_day_at_the_mats_and_sees_nothing_else(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    # A05 competes five days after the Monday.
    path, own = "/camp/event-day/2026-03-07", "event-day-2026-03-07"
    asked = coach.post(f"/devices/{own}", {"role": "assistant"})
    code = html.fromstring(asked.text).find_class("join-digits")[-1].text_content()
    device = guest()
    page = device.post("/join", {"code": str(code), "name": "Ines"})
    assert page.url.path == path
    assert 'data-author="Ines"' in page.text
    assert f'href="/devices/{own}"' not in page.text
    bout = fault(kind="bout over", session=own, athlete="A05", round=0, words="a05-first")
    sent = device.post(f"/live/{own}/events", json={"after": 0, "events": [bout]})
    assert sent.json()["stored"] == ["phone-1"]
    for other in (
        "/camp/event-day",
        f"{path}/sheet.pdf",
        LIVE,
        f"{LIVE}/events",
        f"/devices/{own}",
    ):
        assert device.get(other).status_code == 403
    file = json.dumps({"format_version": 1, "session": own, "device": "phone", "events": [bout]})
    read = coach.post(f"/devices/{own}/record", files={"file": ("record.json", file.encode())})
    assert "0 of 1 entries were new" in read.text


def test_the_cookie_is_out_of_reach_of_scripts_and_of_plain_http(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = guest()
    code = code_for(coach)
    device.client.follow_redirects = False
    answer = device.post("/join", {"code": code, "name": "Anna"})
    kept = [c for c in answer.headers.get_list("Set-Cookie") if c.startswith(DEVICE_COOKIE)]
    assert len(kept) == 1
    for word in ("HttpOnly", "SameSite=lax", "Secure", "Path=/"):
        assert word in kept[0]


def test_an_assistant_is_told_what_somebody_must_not_do_and_not_why(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    with coach.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    reasons = {
        words
        for athlete in club.athletes
        for r in athlete.restrictions_on(MONDAY)
        for words in (r.reason, r.instruction)
        if len(words) > 12  # shorter ones are names of faults and parts of the body as well
    }
    assert reasons
    device = joined(coach, guest)
    own = coach.get(LIVE).text + coach.get(f"{LIVE}/sheet.json").text
    seen = device.get(LIVE).text + device.get(f"{LIVE}/sheet.json").text
    assert any(words in html.fromstring(own).text_content() for words in reasons)
    assert not any(words in html.fromstring(seen).text_content() for words in reasons)
    barred = [
        words for p in device.get(f"{LIVE}/sheet.json").json()["people"] for words in p["may_not"]
    ]
    assert any(words.startswith(("no ", "nothing ")) for words in barred)


def test_a_wall_screen_shows_the_clock_and_notes_nothing(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = joined(coach, guest, "wall screen")
    assert device.get("/").url.path == f"{LIVE}/wall"
    assert device.get(LIVE).status_code == 403
    people = device.get(f"{LIVE}/sheet.json").json()["people"]
    assert all(not p["may_not"] and not p["swaps"] for p in people)
    refused = device.send(fault())
    assert refused.status_code == 403
    assert "notes nothing" in refused.json()["error"]
    assistant = joined(coach, guest)
    start = fault(2, kind="started", value=0, words="", athlete="", round=0)
    assert assistant.send(fault(), start).status_code == 200
    seen = device.send().json()
    assert [event["kind"] for event in seen["events"]] == ["started"]
    assert seen["upto"] == 2


def test_a_wall_screen_is_told_who_is_out_and_not_why(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    wall, assistant = joined(coach, guest, "wall screen"), joined(coach, guest)
    out = fault(1, kind="out until cleared", words="")
    note = fault(2, kind="incident", words="Head knock. Stopped 18:30:00.")
    assert assistant.send(out, note).status_code == 200
    (told,) = wall.send().json()["events"]
    assert (told["kind"], told["athlete"], told["words"]) == ("out until cleared", "A09", "")


def test_an_assistant_notes_a_swap_and_the_wall_is_told_it(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    assistant, wall = joined(coach, guest), joined(coach, guest, "wall screen")
    sheet = assistant.get(f"{LIVE}/sheet.json").json()
    person = next(p for p in sheet["people"] if p["id"] == "A09")
    first = sheet["swaps"][person["swaps"][0]]
    swap = fault(kind="exercise swapped", exercise=first["exercise"], words=first["swaps"][0])
    assert assistant.send(swap).status_code == 200
    told = wall.send().json()["events"]
    assert [(e["kind"], e["words"]) for e in told] == [("exercise swapped", first["swaps"][0])]
    assert (
        f"{first['swaps'][0]} instead of {first['name']} from round 1"
        in html.fromstring(assistant.get(f"{LIVE}/handover").text).text_content()
    )


def test_a_device_that_is_taken_out_is_refused_in_words(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = joined(coach, guest)
    page = html.fromstring(coach.get(f"/devices/{SESSION}").text)
    (action,) = page.xpath("//table//form/@action")
    assert "Anna may not take part any more" in coach.post(action).text
    assert device.get(LIVE).status_code == 403
    refused = device.send(fault())
    assert refused.status_code == 403
    assert "kept on it" in refused.json()["error"]


def test_a_day_later_the_device_is_not_known_any_more(
    keeper: Keeper, coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = joined(coach, guest)
    token = device.client.cookies[DEVICE_COOKIE]
    later = create_app(
        keeper, allowed_hosts=[OWN], today=lambda: MONDAY + timedelta(days=1), hall=HALL
    )
    again = Guest(later, Door.HALL, HALL_HOST, "https")
    again.client.cookies.set(DEVICE_COOKIE, token)
    assert again.get(LIVE).status_code == 403
    restarted = create_app(keeper, allowed_hosts=[OWN], today=lambda: MONDAY, hall=HALL)
    same_day = Guest(restarted, Door.HALL, HALL_HOST, "https")
    same_day.client.cookies.set(DEVICE_COOKIE, token)
    assert same_day.get(LIVE).status_code == 200


def test_a_wrong_code_keeps_what_was_typed_and_after_five_the_device_waits(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    code = code_for(coach)
    device = guest()
    wrong = f"{(int(code) + 1) % 1_000_000:06d}"
    for _ in range(MOST_WRONG):
        answer = device.post("/join", {"code": wrong, "name": "Anna"})
        assert answer.status_code == 422
        assert wrong in answer.text
        assert "ask for a new one" in answer.text
    answer = device.post("/join", {"code": code, "name": "Anna"})
    assert answer.status_code == 429
    assert "Wait 5 minutes" in answer.text


def test_wrong_codes_are_forgotten_after_five_minutes() -> None:
    now = [0.0]
    tries = JoinTries(lambda: now[0])
    for _ in range(MOST_WRONG):
        assert not tries.are_over("a")
        tries.note_wrong("a")
    assert tries.are_over("a")
    assert not tries.are_over("b")
    now[0] = WITHIN_S
    assert not tries.are_over("a")


def test_the_door_without_https_gives_the_certificate_and_nothing_else(
    app: Any, coach: Browse, guest: Callable[[], Guest]
) -> None:
    plain = Guest(app, Door.TRUST, TRUST_HOST, "http")
    page = plain.get("/")
    assert page.url.path == "/trust"
    assert "AA:BB" in page.text
    file = plain.get("/trust/certificate")
    assert file.content == b"certificate"
    assert file.headers["Content-Type"] == "application/x-x509-ca-cert"
    plain.client.cookies.set(DEVICE_COOKIE, joined(coach, guest).client.cookies[DEVICE_COOKIE])
    for path in ("/join", "/today", LIVE, f"{LIVE}/sheet.json", "/service-worker.js"):
        assert plain.get(path).status_code == 403


def test_the_coach_needs_no_code_and_hears_how_to_open_the_hall(
    browse: Browse, coach: Browse
) -> None:
    assert "needs no code" in coach.get("/join").text
    closed = browse.get(f"/devices/{SESSION}")
    assert "squadwright serve --lan" in closed.text
    assert "nothing to trust" in browse.get("/trust").text
    assert browse.get("/trust/certificate").status_code == 404
    assert browse.get("/devices/no-such").status_code == 404
    open_one = coach.post(f"/devices/{SESSION}", {"role": "assistant"}).text
    assert f"https://{HALL_HOST}" in open_one
    assert "<svg" in open_one
    assert coach.post(f"/devices/{SESSION}", {"role": "boss"}).status_code == 422


def test_the_code_may_come_with_the_address_and_is_not_used_by_looking(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    code = code_for(coach)
    device = guest()
    for _ in range(2):
        page = html.fromstring(device.get(f"/join?code={code}").text)
        assert page.xpath("//input[@name='code']/@value") == [code]
    assert device.post("/join", {"code": code, "name": "Anna"}).status_code == 200


def test_what_an_incident_was_stays_with_the_coach_whatever_a_device_says_it_is(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = joined(coach, guest)
    note = fault(3, kind="incident", words="dropped bar", round=0)
    assert device.send(note).status_code == 200
    message = {"after": 0, "events": [], "device": "phone"}
    seen = device.post(f"{LIVE}/events", json=message)
    assert (seen.status_code, seen.json()["upto"], seen.json()["events"]) == (200, 1, [])


def test_the_coach_answers_which_wave_and_the_record_keeps_both(
    coach: Browse, guest: Callable[[], Guest]
) -> None:
    device = joined(coach, guest)
    for number, name, wave in ((1, "phone", 1), (2, "tablet", 2)):
        more = {"words": "", "device": name, "value": wave, "author": name.title()}
        assert device.send(fault(number, kind="into wave", **more)).status_code == 200
    path = f"/devices/{SESSION}"
    shown = html.fromstring(coach.get(path).text).text_content()
    assert "in wave A by Phone and in wave B by Tablet: which?" in shown
    answer = coach.post(f"{path}/wave", {"athlete": "A09", "wave": "2"}).text
    assert "is in wave B." in answer
    assert "which?" not in html.fromstring(answer).text_content()
    assert coach.post(f"{path}/wave", {"athlete": "A09", "wave": "1"}).status_code == 422
    record = record_of(coach.keeper, SESSION)
    assert [event.kind.value for event in record] == ["into wave", "into wave", "taken back"]
    assert waves_of(record) == {"A09": 2}


def test_the_record_of_a_device_without_a_network_is_read_in_from_its_file(coach: Browse) -> None:
    path = f"/devices/{SESSION}/record"
    record = {"format_version": 1, "session": SESSION, "device": "phone", "events": [fault()]}
    file = {"file": ("record.json", json.dumps(record).encode(), "application/json")}
    assert "1 of 1 entries were new" in coach.post(path, files=file).text
    assert "0 of 1 entries were new" in coach.post(path, files=file).text
    for content in (b"{", json.dumps({**record, "session": "other"}).encode()):
        bad = {"file": ("record.json", content, "application/json")}
        assert coach.post(path, files=bad).status_code == 422
    assert coach.post(path).status_code == 422
    assert [event.id for event in record_of(coach.keeper, SESSION)] == ["phone-1"]
