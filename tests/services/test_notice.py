"""Wellness and the names of a day: own limits, three at most, and why nobody else is named."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.model.diary import (
    Answer,
    Content,
    PainTold,
    RestDay,
    SessionDone,
    WellnessAnswers,
)
from squadwright.model.measured import PainReading, WatchedPain
from squadwright.model.muscles import BodyArea
from squadwright.planning.exceptions import Kind, Notice
from squadwright.planning.wellness import ITEMS, answers_of, false_alarms_an_answer
from squadwright.services.diary import Told, write_diary
from squadwright.services.measured import enter_measure, tell_pain
from squadwright.services.notice import notice_today
from squadwright.services.wellness import answer_wellness, wellness_charts
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
USUAL_WEEK = (0, 420, 300, 540, 0, 600, 240)
SORE, FREE, HURT, TIRED, RESTED = "A01", "A02", "A03", "A05", "A07"


@pytest.fixture
def bare(keeper: SqlKeeper) -> SqlKeeper:
    """The demo club without week, sessions, events and restrictions: only what is told counts."""
    club = demo_club(MONDAY)
    people = tuple(replace(a, restrictions=(), clearances=(), events=()) for a in club.athletes)
    with keeper.writing() as store:
        store.save_club(replace(club, athletes=people, week=(), sessions=()))
    return keeper


def tell(keeper: SqlKeeper, athlete: str, contents: Sequence[Content | None]) -> None:
    """One content a day, the last of them today."""
    first = MONDAY - timedelta(days=len(contents) - 1)
    told = [
        Told(athlete, first + timedelta(days=n), each)
        for n, each in enumerate(contents)
        if each is not None
    ]
    write_diary(keeper, told, author="Coach", today=MONDAY, now=NOW)


def loads(*weeks: Sequence[int]) -> list[Content | None]:
    days = [load for week in weeks for load in week]
    return [RestDay() if d == 0 else SessionDone("S", "", d // 10, 10.0) for d in days]


def scaled(factor: float) -> tuple[int, ...]:
    return tuple(round(load * factor / 10) * 10 for load in USUAL_WEEK)


def totals(*numbers: int) -> list[Content | None]:
    """Answers of these totals: five items, as even as they go."""
    return [
        answers_of({item: n // 5 + (place < n % 5) for place, item in enumerate(ITEMS)})
        for n in numbers
    ]


def named(keeper: SqlKeeper) -> Notice:
    return notice_today(keeper, today=MONDAY).notice


def test_false_alarms_come_from_published_run_lengths() -> None:
    """Lucas and Saccucci 1990, table 3: 500 readings at 0.25 and 2.998, both sides.

    Cumulative sum with slack 0.5 and decision 5 on one side: 930 (Vance 1986).
    """
    assert false_alarms_an_answer() == pytest.approx(1 / 1000 + 1 / 930, rel=0.01)


def test_direction_is_stored_and_a_chart_needs_enough_answers(bare: SqlKeeper) -> None:
    answer_wellness(bare, SORE, today=MONDAY, now=NOW)
    answer_wellness(bare, SORE, answers_of(dict.fromkeys(ITEMS, 2)), today=MONDAY, now=NOW)
    chart = wellness_charts(bare, [SORE], today=MONDAY)[SORE]
    assert chart.totals == ((MONDAY, 10),)
    assert chart.is_high_good
    assert chart.why_not == "not given: 1 answers, fewer than 21"


def test_a_chart_goes_by_his_own_answers_worked_out_by_hand(bare: SqlKeeper) -> None:
    """Usual 15 with deviation 1 (the least taken); five answers of 15, then 11 and 11.

    Mean: 15 - 0.25 x 4 = 14, then 14 - 0.25 x 3 = 13.25. Gathered: 3.5, then 7 of 5.
    """
    tell(bare, TIRED, totals(*[15] * 19, 11, 11))
    chart = wellness_charts(bare, [TIRED], today=MONDAY)[TIRED]
    assert chart.limits is not None
    assert (chart.limits.usual, chart.limits.spread, chart.limits.answers) == (15, 1, 14)
    assert [point.mean for point in chart.means[-2:]] == [14, 13.25]
    assert [point.low for point in chart.sums[-2:]] == [3.5, 7]
    # 2.998 sqrt(0.25 / 1.75 (1 - 0.75^14)) = 1.1229
    assert chart.means[-1].low == pytest.approx(15 - 1.1229, abs=1e-4)
    assert chart.is_worse
    # 21 answers in 28 days are 273.75 a year.
    assert chart.false_alarms_a_year == pytest.approx(273.75 * (1 / 1000 + 1 / 930), rel=0.01)
    better = wellness_charts(bare, [RESTED], today=MONDAY)
    assert not better[RESTED].is_worse


def test_better_than_usual_is_no_name_and_a_scale_turned_round_is_read_so(bare: SqlKeeper) -> None:
    tell(bare, RESTED, totals(*[15] * 19, 20, 20))
    turned = [
        WellnessAnswers("fatigue", (Answer("fatigue", n),), 1, 7, is_high_good=False)
        for n in (*[3] * 19, 7, 7)
    ]
    tell(bare, TIRED, turned)
    charts = wellness_charts(bare, [RESTED, TIRED], today=MONDAY)
    assert (charts[RESTED].is_worse, charts[TIRED].is_worse) == (False, True)
    assert [each.athlete for each in named(bare).named] == [TIRED]


def test_a_watched_pain_is_noticed_like_one_of_the_diary(bare: SqlKeeper) -> None:
    watched = WatchedPain("w", MONDAY, BodyArea.KNEE, "Dr A", "1", side="left")
    enter_measure(bare, HURT, watched, today=MONDAY)
    assert HURT not in {each.athlete for each in named(bare).named}
    tell_pain(bare, HURT, "w", PainReading(MONDAY, 1, after=7), today=MONDAY)
    (only,) = named(bare).named
    assert (only.athlete, only.finding.kind) == (HURT, Kind.PAIN)
    assert only.finding.evidence.startswith("Left knee 7 of 10")


def test_at_most_three_are_named_by_size_and_the_rest_told_why(bare: SqlKeeper) -> None:
    usual = [scaled(f) for f in (1, 1.05, 0.95, 1, 1.02)]
    tell(bare, SORE, loads(*usual, scaled(2)))
    tell(bare, FREE, loads(*usual, scaled(1.03)))
    tell(bare, HURT, [PainTold(BodyArea.KNEE, 7, "left")])
    tell(bare, TIRED, totals(*[15] * 19, 11, 10))
    tell(bare, RESTED, loads(*usual, scaled(0.2)))
    tell(bare, "A04", [PainTold(BodyArea.KNEE, 2, "left")])
    found = named(bare)
    assert len(found.named) == 3
    assert len(found.others) == 11
    sizes = [each.finding.size for each in found.named]
    assert sizes == sorted(sizes, reverse=True)
    everyone = {each.athlete for each in found.named} | set(found.others)
    assert everyone == {athlete.id for athlete in demo_club(MONDAY).athletes}
    fourth = ({SORE, HURT, TIRED, RESTED} - {each.athlete for each in found.named}).pop()
    assert found.others[fourth].startswith("number 4 today, after three:")
    assert found.others[FREE].startswith("load +")
    assert "within the usual" in found.others[FREE]
    assert "knee 2 of 10, under 3" in found.others["A04"]
    assert found.others["A06"] == "no load is told; no wellness is answered"
    for each in found.named:
        said = each.finding
        assert said.evidence
        assert said.uncertainty
        assert said.suggestion


def test_load_is_told_with_its_size_and_how_sure(bare: SqlKeeper) -> None:
    tell(bare, SORE, loads(*[scaled(f) for f in (1, 1.05, 0.95, 1, 1.02)], scaled(2)))
    (only,) = named(bare).named
    assert only.finding.kind is Kind.MORE_LOAD
    assert only.finding.evidence.startswith(
        "600 AU a day over the last 7 days, 301 over the 5 weeks before (+99"
    )
    assert "once in" in only.finding.uncertainty


def test_the_first_28_days_name_nobody_for_load(bare: SqlKeeper) -> None:
    tell(bare, SORE, loads(*[USUAL_WEEK] * 3, scaled(3)))
    assert named(bare).named == ()
    assert "hidden for the first 28 days" in named(bare).others[SORE]


def test_less_load_is_explained_by_an_event_or_a_restriction(bare: SqlKeeper) -> None:
    tell(bare, "A13", loads(*[scaled(f) for f in (1, 1.05, 0.95, 1, 1.02)], scaled(0.2)))
    assert [each.finding.kind for each in named(bare).named] == [Kind.LESS_LOAD]
    club = demo_club(MONDAY)
    with bare.writing() as store:
        store.save_club(replace(club, week=(), sessions=()))
    found = named(bare)
    assert "A13" not in {each.athlete for each in found.named}
    assert "which an event in 6 days explains" in found.others["A13"]


def test_no_sentence_speaks_of_injury_zones_or_lights(bare: SqlKeeper) -> None:
    tell(bare, SORE, loads(*[USUAL_WEEK] * 5, scaled(2)))
    tell(bare, TIRED, totals(*[15] * 19, 10, 10))
    found = named(bare)
    words = " ".join(
        f"{f.evidence} {f.uncertainty} {f.suggestion}"
        for each in found.named
        for f in (each.finding, *each.also)
    )
    words += " ".join(found.others.values())
    for banned in ("injur", "safe", "zone", "risk", "red", "amber", "green"):
        assert banned not in words.lower().split(), banned
        assert "injur" not in words.lower()
