"""The sheet of what was done: its words, one page, and the longest names it has to hold."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest

from printing.overlaps import clashes, words_off_the_page
from printing.printed import flat, grey_pages, pypdf_text, reader
from printing.sample_crowd import crowd
from recording import START
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent, in_force, in_order
from squadwright.planning.live.done import done
from squadwright.planning.live.review import Review
from squadwright.planning.plan import make_plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.done_sheet import done_sheet, set_done_sheet
from squadwright.services.done import SessionDone

SESSION = "monday-barbell"


def event(number: int, seconds: float, kind: EventKind, **more: object) -> RecordEvent:
    at = START + timedelta(seconds=seconds)
    return RecordEvent(f"p{number}", SESSION, "phone", number, at, kind, **more)  # type: ignore[arg-type]


def found_of(plan: Plan, *events: RecordEvent) -> SessionDone:
    club = demo_club(date(2026, 3, 2))
    record = in_order(events)
    end = START + timedelta(hours=2)
    return SessionDone(
        club=club,
        session=club.session(SESSION),
        plan=plan,
        trouble="",
        events=record,
        held=in_force(record),
        rows=done(plan, record, now=end, stop_after=1),
        is_started=True,
        is_ended=True,
    )


@cache
def demo() -> SessionDone:
    club = demo_club(date(2026, 3, 2))
    return found_of(
        make_plan(club, club.session(SESSION)),
        event(1, 0, EventKind.STARTED, value=0.0),
        event(2, 2100, EventKind.FAULT, athlete="A09", round=3, words="knee falls in"),
        event(3, 2110, EventKind.REPETITIONS_LOST, athlete="A09", round=3, value=2.0),
        event(4, 2130, EventKind.ATHLETE_STOPPED, athlete="A14", round=3),
        event(5, 2140, EventKind.INCIDENT, athlete="A01", words="a word for the coach alone"),
        event(6, 3700, EventKind.EFFORT, athlete="A09", value=7.0),
        event(8, 2150, EventKind.SWAPPED, athlete="A09", round=3, exercise="no-id", words="row"),
        event(7, 3600, EventKind.ENDED),
    )


@cache
def printed() -> bytes:
    return set_done_sheet(demo(), PrintedUnit.BOTH)


def forty() -> SessionDone:
    """Forty with the longest names, each with a fault, lost repetitions and a stop."""
    plan = crowd(40)
    events = [event(0, 0, EventKind.STARTED, value=0.0)]
    for number, line in enumerate(plan.attendance):
        name = {"athlete": line.athlete, "round": 3}
        words = "the lower back rounds as the bar passes the knee"
        events += [
            event(10 * number + 1, 3000, EventKind.FAULT, words=words, **name),
            event(10 * number + 2, 3000, EventKind.REPETITIONS_LOST, value=3.0, **name),
        ]
    return found_of(plan, *events)


def test_the_sheet_says_what_the_page_says_on_one_page() -> None:
    text = pypdf_text(printed())
    assert len(reader(printed()).pages) == 1
    for words in (
        "What was done, page 1 of 1.",
        "11 of 12 did everything that was planned.",
        "43 of 45 rounds done",
        "2 of 4 rounds",
        "3 of 4 rounds planned: came late.",
        "2 in round 3 (from round 3, likely fatigue).",
        "7, very hard",
        "Asked to stop in round 3: knee falls in, once.",
        "Row instead of no-id from round 3.",
        "Medical staff, local rules and licensed practice",
        "Worked out from what was noted; not accepted by the coach yet.",
    ):
        assert flat(words) in text, words


def test_what_an_incident_says_and_why_somebody_is_restricted_stay_out_of_the_sheet() -> None:
    text = pypdf_text(printed())
    assert "coach alone)" in text
    assert "a word for" not in text


def test_an_accepted_review_is_printed_in_the_coachs_words() -> None:
    review = Review("All of it.", "Nothing.", "Longer rests.")
    kept = event(8, 3800, EventKind.REVIEW, words=review.words)
    whole = replace(demo(), events=(*demo().events, kept), held=(*demo().held, kept))
    text = pypdf_text(set_done_sheet(whole, PrintedUnit.KILOGRAM))
    assert "Longer rests." in text
    assert "not accepted" not in text


def test_nobody_is_left_out_and_only_those_not_asked_stand_below() -> None:
    sheet = done_sheet(demo(), PrintedUnit.KILOGRAM)
    assert len(sheet.rows) == 12
    assert len(sheet.not_asked) == 11
    assert [row.name for row in sheet.rows if row.is_short] == ["Ngaire Waipuhia"]


@pytest.mark.parametrize("make", [demo, forty], ids=["demo", "forty"])
def test_no_word_leaves_the_page_or_stands_on_another(
    poppler: None, make: Callable[[], SessionDone]
) -> None:
    document = set_done_sheet(make(), PrintedUnit.BOTH)
    assert words_off_the_page(document) == []
    assert clashes(document) == []


def test_the_text_is_black_enough_and_the_same_record_gives_the_same_bytes(poppler: None) -> None:
    assert printed() == set_done_sheet(demo(), PrintedUnit.BOTH)
    (page,) = grey_pages(printed(), 80)
    darkest, lightest = page.getextrema()
    assert (darkest < 40, lightest) == (True, 255)


def test_without_a_record_or_a_plan_there_is_no_sheet() -> None:
    for lacking, told in (
        (replace(demo(), held=()), "Nothing is noted of Monday barbell yet"),
        (replace(demo(), plan=None, trouble="Nobody is here."), "without a plan. Nobody is here."),
    ):
        with pytest.raises(NoSolution, match=told):
            set_done_sheet(lacking, PrintedUnit.KILOGRAM)
