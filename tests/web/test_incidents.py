"""Incidents on the coach's site, in process, and the emergency card."""

from datetime import timedelta
from typing import Any

import pytest

from read_pages import changed, club_of, page_of, words_of
from recording import START
from site_server import Browse
from squadwright.model.club import EmergencyCard
from squadwright.model.record import EventKind, RecordEvent
from squadwright.services.record import exchange
from squadwright.web.live.contexts import Call
from squadwright.web.live.emergency import call_of

SESSION = "monday-barbell"


def event(number: int, kind: EventKind, **more: Any) -> RecordEvent:
    at = START + timedelta(seconds=number)
    return RecordEvent(f"p{number}", SESSION, "phone", number, at, kind, **more)


@pytest.fixture
def hurt(browse: Browse) -> Browse:
    """The site after a fall, a cut that was taken back, and two head knocks, one without a note."""
    events = (
        event(1, EventKind.INCIDENT, athlete="A01", words="Fall. Done: cold pack.", author="Anna"),
        event(2, EventKind.INCIDENT, words="Cut."),
        event(3, EventKind.TAKEN_BACK, takes_back="p2"),
        event(4, EventKind.OUT, athlete="A04"),
        event(5, EventKind.INCIDENT, athlete="A04", words="Head knock. Called: guardian."),
        event(6, EventKind.OUT, athlete="A06"),
    )
    exchange(browse.keeper, SESSION, events, after=0)
    return browse


def rows(browse: Browse, path: str = "/incidents") -> list[str]:
    return [words_of(row) for row in page_of(browse.get(path)).findall(".//tbody/tr")]


def test_incidents_stand_there_the_latest_first(hurt: Browse) -> None:
    knocked, noted, cut, fell = rows(hurt)
    assert "Head knock. No note was written. Out until cleared in writing." in knocked
    assert "Birk Aldervoll Head knock. Called: guardian. Out until cleared in writing." in noted
    assert "nobody named Cut. (taken back)" in cut
    assert fell.startswith("Monday 2 March 2026, ")
    assert fell.endswith("Fall. Done: cold pack. Anna")


def test_those_of_one_athlete_are_linked_from_his_page(hurt: Browse) -> None:
    page = page_of(hurt.get("/squad/athlete/A04"))
    (link,) = (a.get("href") for a in page.iter("a") if words_of(a) == "Incidents")
    assert link is not None
    (row,) = rows(hurt, link)
    assert "Called: guardian" in row
    assert hurt.get("/incidents?athlete=A99").status_code == 404


def test_the_squad_leads_to_them_and_the_site_shows_them_nowhere_else(hurt: Browse) -> None:
    squad = page_of(hurt.get("/squad"))
    assert "/incidents" in {a.get("href") for a in squad.iter("a")}
    for path in (f"/live/{SESSION}", f"/live/{SESSION}/wall", f"/live/{SESSION}/sheet.json"):
        assert "Called: guardian" not in hurt.get(path).text
        assert "Fall. Done" not in hurt.get(path).text


def test_the_emergency_card_is_written_and_undone(browse: Browse) -> None:
    before = club_of(browse).emergency
    shown = page_of(browse.get("/incidents/card")).find(".//input[@name='shown']").get("value")
    typed = {
        **{"address": "Rope Walk 1", "access": "side door", "defibrillator": "ice machine"},
        **{"contacts": "Ambulance 112\n\nPhysio +44 20 7946 0000", "shown": shown},
    }
    page = page_of(browse.post("/incidents/card", typed))
    assert changed(page) == "The emergency card is written."
    card = EmergencyCard(
        "Rope Walk 1", "side door", "ice machine", ("Ambulance 112", "Physio +44 20 7946 0000")
    )
    assert club_of(browse).emergency == card
    floor = page_of(browse.get(f"/live/{SESSION}"))
    calls = {a.get("href") for a in floor.iter("a")}
    assert {"tel:112", "tel:+442079460000"} <= calls
    undo = page.find_class("changed")[0].find(".//form").get("action")
    browse.post(undo)
    assert club_of(browse).emergency == before


def test_a_card_that_somebody_else_has_changed_is_not_overwritten(browse: Browse) -> None:
    answer = browse.post("/incidents/card", {"address": "Other", "shown": "old"})
    assert "was changed somewhere else" in words_of(page_of(answer, 422))
    assert club_of(browse).emergency.address != "Other"


def test_thirteen_contacts_are_too_many(browse: Browse) -> None:
    shown = page_of(browse.get("/incidents/card")).find(".//input[@name='shown']").get("value")
    typed = {"contacts": "\n".join(f"Number {n}" for n in range(13)), "shown": shown}
    told = words_of(page_of(browse.post("/incidents/card", typed), 422))
    assert "13 are too many, at most 12" in told


@pytest.mark.parametrize(
    ("words", "number"),
    [
        ("Ambulance 112", "112"),
        ("Physio: (0555) 01-23", "05550123"),
        ("Door 4, head coach 0555.0199", "05550199"),
        ("Head coach, room 12", ""),
        ("the nurse next door", ""),
    ],
)
def test_the_number_in_a_contact_can_be_dialled(words: str, number: str) -> None:
    assert call_of(words) == Call(words, number)
