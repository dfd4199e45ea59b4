"""The weeks ahead and the season: what touches a week, at its first and at its last day."""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from camp.camp_cases import athlete, camp, weekly_sessions
from squadwright.camp.problem import CampAthlete, TimeOff
from squadwright.camp.season import Phase, season_of
from squadwright.camp.weeks_ahead import WeekAhead, outside_terms, weeks_ahead
from squadwright.demo import demo_club
from squadwright.model.athlete import Event
from squadwright.model.calendar import Closure, Fixture, SchoolTerm, Travel, Work
from squadwright.model.club import Club, Weekday, WeekSlot

MONDAY = date(2026, 3, 2)
DEMO = demo_club(MONDAY)
BARE = replace(
    DEMO,
    athletes=tuple(replace(a, events=()) for a in DEMO.athletes),
    week=(),
    sessions=(),
    closures=(),
    terms=(),
    travel=(),
    fixtures=(),
)


def day(number: int) -> date:
    return MONDAY + timedelta(days=number)


def week(club: Club) -> WeekAhead:
    """The week from day 0 to day 6."""
    (found,) = weeks_ahead(club, MONDAY, 1)
    return found


SPANS = [
    ((-5, -1), False),
    ((-5, 0), True),
    ((-5, 12), True),
    ((3, 3), True),
    ((6, 9), True),
    ((7, 9), False),
]


@pytest.mark.parametrize(("span", "is_in"), SPANS)
def test_what_takes_days_is_in_each_week_it_touches(span: tuple[int, int], is_in: bool) -> None:
    first, last = map(day, span)
    club = replace(
        BARE,
        closures=(Closure("c", "paint", first, last),),
        terms=(SchoolTerm("t", "Spring", first, last),),
        travel=(Travel("a", "cup", "A08", first, last),),
        fixtures=(Fixture("f", "uid", "Regional day", first, last),),
    )
    found = week(club)
    assert [bool(each) for each in (found.lost, found.term, found.away, found.events)] == [
        is_in
    ] * 4
    if span == (3, 3):
        assert found.lost == ("paint, Thu 5 Mar",)
    if span == (6, 9):
        assert found.lost == ("paint, Sun 8 Mar to Wed 11 Mar",)
    if span == (-5, 12):
        assert found.events == ("Mon 2 Mar: Regional day",)


@pytest.mark.parametrize(("on", "is_in"), [(-1, False), (0, True), (6, True), (7, False)])
def test_an_event_is_in_the_week_of_its_day(on: int, is_in: bool) -> None:
    one = replace(BARE.athletes[0], events=(Event("e", "Cup", day(on)),))
    found = week(replace(BARE, athletes=(one, *BARE.athletes[1:])))
    assert bool(found.events) is is_in


def test_events_stand_in_the_order_of_their_days() -> None:
    people = tuple(
        replace(a, events=(Event(a.id, "Cup", day(number)),))
        for a, number in zip(BARE.athletes, (5, 1, 3), strict=False)
    )
    assert [each[:3] for each in week(replace(BARE, athletes=people)).events] == [
        "Tue",
        "Thu",
        "Sat",
    ]


@pytest.mark.parametrize(
    ("on", "is_outside"), [(-1, False), (0, False), (5, False), (6, True), (9, True), (10, False)]
)
def test_outside_of_terms_is_between_two_that_are_known(on: int, is_outside: bool) -> None:
    terms = (SchoolTerm("s", "Spring", day(0), day(5)), SchoolTerm("u", "Summer", day(10), day(20)))
    assert outside_terms(replace(BARE, terms=terms), day(on)) is is_outside
    assert not outside_terms(BARE, day(on))
    assert not outside_terms(replace(BARE, terms=terms[:1]), day(6))


def test_a_week_with_work_of_unknown_effort_has_no_load() -> None:
    slot = WeekSlot(
        "s", "Mat", Weekday.TUESDAY, time(19), time(20), "mat", squads=("Mat",),
        work=Work.TECHNIQUE, planned_effort=4,
    )  # fmt: skip
    assert dict(week(replace(BARE, week=(slot,))).loads)["Mat"] == 240
    unknown = replace(slot, planned_effort=None)
    loads = dict(week(replace(BARE, week=(unknown,))).loads)
    assert (loads["Mat"], loads["Cage"]) == (None, 0)


def phases(who: CampAthlete, weeks: int = 6) -> list[tuple[str, int, int, str]]:
    sessions = weekly_sessions(weeks)
    (line,) = season_of(camp(weeks, sessions, who)).lines
    return [(s.phase.value, s.first_day, s.last_day, s.what) for s in line.spans]


SESSIONS = weekly_sessions(6)


def test_a_b_event_before_an_a_event_takes_its_own_week_and_no_phase() -> None:
    """B on day 20 with 7 days of taper and a day off after it, A on day 40 with 14."""
    assert phases(athlete("one", SESSIONS, (20, False), (40, True))) == [
        ("specific", 0, 12, "Event 40"),
        ("taper", 13, 19, "Event 20"),
        ("event", 20, 20, "Event 20"),
        ("recover", 21, 21, "Event 20"),
        ("specific", 22, 25, "Event 40"),
        ("taper", 26, 39, "Event 40"),
        ("event", 40, 40, "Event 40"),
        ("recover", 41, 41, "Event 40"),
    ]


def test_the_specific_phase_begins_four_weeks_before_the_taper() -> None:
    eight = weekly_sessions(8)
    assert phases(athlete("one", eight, (50, True)), 8)[:2] == [
        ("build", 0, 7, "Event 50"),
        ("specific", 8, 35, "Event 50"),
    ]


def test_days_off_and_the_return_go_before_what_a_day_would_be_for() -> None:
    who = replace(
        athlete("one", SESSIONS, (40, True), off=(0, 1), returns_on=2),
        off=(TimeOff(0, "ill"), TimeOff(1, "ill"), TimeOff(30, "away")),
    )
    assert phases(who)[:5] == [
        ("off", 0, 1, "ill"),
        ("return", 2, 15, "after a gap"),
        ("specific", 16, 25, "Event 40"),
        ("taper", 26, 29, "Event 40"),
        ("off", 30, 30, "away"),
    ]


def test_over_half_is_more_than_half_of_those_who_train() -> None:
    """Four weeks; events on day 20 taper from day 6. One of two is half, two of three more."""
    sessions = weekly_sessions(4)
    tapers = [athlete(name, sessions, (20, True)) for name in ("a", "b")]
    free, away = athlete("c", sessions), athlete("d", sessions, off=tuple(range(28)))
    for people, is_over in (
        ((tapers[0], free), False),
        ((*tapers, free), True),
        ((tapers[0], away), True),
        ((free,), False),
    ):
        season = season_of(camp(4, sessions, *people))
        assert season.weeks[1].over_half_taper is is_over
        assert season.weeks[1].planned == sum(each is not away for each in people)
        assert season.weeks[1].sessions == 3
    both = season_of(camp(4, sessions, *tapers))
    assert [week.over_half_taper for week in both.weeks] == [True, True, True, False]
    assert both.nearest_week_for_tests(0) == 3
    assert season_of(camp(4, sessions, free)).nearest_week_for_tests(1) == 1


def test_the_later_of_two_weeks_as_near_is_for_the_tests() -> None:
    """An A event on day 17 with a taper of 3 days: weeks 1 and 3 are as near to week 2."""
    sessions = weekly_sessions(4)
    problem = camp(4, sessions, athlete("a", sessions, (17, True)))
    short = replace(problem, rules=replace(problem.rules, main_taper_d=3))
    season = season_of(short)
    assert [week.over_half_taper for week in season.weeks] == [False, False, True, False]
    assert season.nearest_week_for_tests(2) == 3
    assert Phase.KEEP in {span.phase for span in season.lines[0].spans}
