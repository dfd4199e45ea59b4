"""The camp of a club: who has which sessions and which mat work, reckoned by hand.

The clubs are the invented demo club, and small weeks made up from it.
"""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest

from squadwright.camp.of_club import CampInputs, camp_of_club
from squadwright.camp.problem import CampAthlete, CampProblem, CampSession
from squadwright.camp.response import prior_draws
from squadwright.camp.timetable import belongs, held_works, is_of_camp, planned_load, usual_rounds
from squadwright.camp.week import DatedWork, works_between
from squadwright.demo import demo_club
from squadwright.model.athlete import Event, Level
from squadwright.model.calendar import Travel, Work
from squadwright.model.club import Club, Weekday, WeekSlot

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
FEW = CampInputs(draws=20)
LATE = (time(18), time(19))


def camp_of(club: Club, weeks: int = 2) -> CampProblem:
    return camp_of_club(club, MONDAY, weeks=weeks, inputs=FEW)


def one(problem: CampProblem, name: str) -> CampAthlete:
    return next(each for each in problem.athletes if each.id == name)


def changed(name: str, **more: object) -> Club:
    """The demo club with one athlete changed."""
    people = tuple(replace(a, **more) if a.id == name else a for a in CLUB.athletes)  # type: ignore[arg-type]
    return replace(CLUB, athletes=people)


def slot(
    name: str, day: Weekday, hours: tuple[time, time] = LATE, kind: str = "work", **more: object
) -> WeekSlot:
    return WeekSlot(name, name, day, *hours, kind, **more)  # type: ignore[arg-type]


def club_with(*slots: WeekSlot) -> Club:
    return replace(CLUB, week=slots, sessions=(), closures=(), travel=())


def work_of(a_slot: WeekSlot) -> tuple[Club, DatedWork]:
    club = club_with(a_slot)
    (work,) = works_between(club, MONDAY, MONDAY + timedelta(days=6))
    return club, work


def test_mat_work_is_planned_effort_times_minutes_on_its_day_and_bouts_on_theirs() -> None:
    """Wrestling 4 x 90 and 8 x 90, open mat 7 x 120; live rounds 8 x 90, and 5 bouts of 6 x 9."""
    problem = camp_of(CLUB)
    assert one(problem, "A09").mat_loads[:7] == (360, 0, 0, 0, 720, 840, 0)
    assert one(problem, "A13").mat_loads[:7] == (0, 0, 720, 0, 0, 840, 270)
    assert len(one(problem, "A13").mat_loads) == 14


def test_a_session_of_the_camp_has_its_load_by_its_rounds() -> None:
    """6 x 60 in 4 rounds, 6 x 45 in 3, 5 x 50 in 5 sets, 5 x 35 in 2; the early one is extra."""
    problem = camp_of(CLUB, 1)
    found = {s.day: (s.usual_rounds, s.most_rounds, s.load_per_round) for s in problem.sessions}
    assert found == {0: (4, 4, 90), 1: (0, 2, 90), 2: (5, 5, 50), 4: (2, 2, 87.5)}
    assert [s.is_shared for s in problem.sessions] == [True, False, True, True]


def test_the_usual_day_is_what_the_camp_holds_over_its_days() -> None:
    problem = camp_of(CLUB)
    who = one(problem, "A09")
    sessions = [s for s in problem.sessions if s.id in who.sessions]
    total = sum(who.mat_loads) + sum(s.usual_rounds * s.load_per_round for s in sessions)
    expected = prior_draws("A09", round(total / 14, 3), 20)
    assert (who.response.fitness_gain == expected.fitness_gain).all()
    empty = one(camp_of(club_with()), "A08")
    assert (empty.response.fitness_gain == prior_draws("A08", 1.0, 20).fitness_gain).all()


@pytest.mark.parametrize(
    ("born", "level", "most", "may"),
    [
        (date(2010, 3, 3), Level.ADVANCED, 4, False),
        (date(2010, 3, 2), Level.ADVANCED, None, True),
        (date(2010, 3, 2), Level.NOVICE, None, False),
    ],
)
def test_under_sixteen_four_rounds_are_the_most_and_novices_do_none_besides(
    born: date, level: Level, most: int | None, may: bool
) -> None:
    who = one(camp_of(changed("A09", birth_date=born, level=level)), "A09")
    assert (who.most_rounds, who.may_do_more) == (most, may)


@pytest.mark.parametrize(
    ("day", "is_planned"), [(-1, False), (0, True), (13, True), (14, True), (41, True), (42, False)]
)
def test_events_count_from_the_first_day_to_four_weeks_after_the_last(
    day: int, is_planned: bool
) -> None:
    event = Event("e", "Cup", MONDAY + timedelta(days=day), bouts_expected=2)
    who = one(camp_of(changed("A08", events=(event,))), "A08")
    assert [each.day for each in who.events] == ([day] if is_planned else [])
    bouts = sum(who.mat_loads) - sum(one(camp_of(changed("A08", events=())), "A08").mat_loads)
    assert bouts == (108 if 0 <= day < 14 else 0)


def test_events_stand_in_order_with_the_weight_of_their_kind() -> None:
    who = one(camp_of(CLUB, 12), "A07")
    assert [(e.day, e.is_main, e.weight) for e in who.events] == [
        (6, False, 0.3),
        (20, False, 0.3),
        (26, True, 1.0),
        (34, False, 0.3),
    ]
    assert who.later is not None
    assert (who.later.day, who.later.weight) == (84 + 21, 0.1)


def test_guests_are_no_part_of_a_camp() -> None:
    club = changed("A08", guest_until=MONDAY + timedelta(days=7))
    assert "A08" not in {each.id for each in camp_of(club).athletes}


@pytest.mark.parametrize(
    ("work", "kind", "is_ours"),
    [
        (Work.BARBELL, "work", True),
        (Work.CONDITIONING, "work", True),
        (Work.LIVE, "strength and conditioning", False),
        (Work.NOT_STATED, "Strength and Conditioning", True),
        (Work.NOT_STATED, "technique", False),
    ],
)
def test_work_that_is_not_stated_goes_by_the_coachs_word_for_the_slot(
    work: Work, kind: str, is_ours: bool
) -> None:
    club, dated = work_of(slot("a", Weekday.MONDAY, kind=kind, work=work))
    assert is_of_camp(club, dated) is is_ours
    other = slot("b", Weekday.MONDAY, kind="Strength and Conditioning")
    assert is_of_camp(replace(club, week=(*club.week, other)), dated) is is_ours


@pytest.mark.parametrize(
    ("work", "effort", "is_hard", "load"),
    [
        (Work.LIVE, 8, False, 480),
        (Work.LIVE, None, True, 420),
        (Work.TECHNIQUE, None, False, 240),
        (Work.BARBELL, None, True, 360),
    ],
)
def test_without_a_planned_effort_the_load_goes_by_the_kind_of_work(
    work: Work, effort: int | None, is_hard: bool, load: float
) -> None:
    """An hour at 8, else at 7 if hard, 4 if not, 6 for strength: our estimate."""
    club, dated = work_of(
        slot("a", Weekday.MONDAY, work=work, planned_effort=effort, is_hard=is_hard)
    )
    assert planned_load(club, dated) == load


@pytest.mark.parametrize(
    ("minutes", "rounds"), [(5, 1), (11, 1), (23, 1), (24, 2), (47, 3), (48, 4), (120, 4)]
)
def test_without_a_session_a_round_is_for_twelve_minutes_one_to_four(
    minutes: int, rounds: int
) -> None:
    ends_at = (datetime(2026, 1, 1, 18) + timedelta(minutes=minutes)).time()
    a_slot = slot("a", Weekday.MONDAY, (time(18), ends_at), work=Work.BARBELL, planned_effort=5)
    club, dated = work_of(a_slot)
    assert usual_rounds(club, dated) == rounds
    (session,) = camp_of(club, 1).sessions
    assert session.load_per_round == max(1, 5 * minutes / rounds)


def test_the_rounds_of_a_slot_are_those_of_the_latest_session_in_it() -> None:
    """The demo routine has four rounds; a later session of it with a block of seven counts."""
    a_slot = slot("a", Weekday.MONDAY, work=Work.BARBELL)
    early = CLUB.sessions[0]
    written = CLUB.routine(early.routine, early.routine_version)
    seven = replace(
        written, version=2, blocks=tuple(replace(block, rounds=7) for block in written.blocks)
    )
    late = replace(early, id="late", held_on=early.held_on + timedelta(days=7), routine_version=2)
    club = replace(club_with(a_slot), routines=(*CLUB.routines, seven))
    dated = works_between(club, MONDAY + timedelta(days=70), MONDAY + timedelta(days=70))[0]
    assert usual_rounds(replace(club, sessions=(late, early)), dated) == 7
    assert usual_rounds(replace(club, sessions=(early,)), dated) == 4
    at_seven = replace(early, starts_at=time(19))
    tuesday = replace(early, id="tuesday", held_on=early.held_on + timedelta(days=1))
    assert usual_rounds(replace(club, sessions=(at_seven, tuesday)), dated) == 4  # 60 min


def sessions_of(*slots: WeekSlot) -> list[CampSession]:
    return list(camp_of(club_with(*slots), 1).sessions)


def test_before_noon_on_a_working_day_is_besides_the_squads_where_there_is_a_later_one() -> None:
    early = slot("e", Weekday.TUESDAY, (time(11, 59), time(12, 59)), work=Work.BARBELL)
    noon = slot("n", Weekday.WEDNESDAY, (time(12), time(13)), work=Work.BARBELL)
    saturday = slot("s", Weekday.SATURDAY, (time(9), time(10)), work=Work.BARBELL)
    friday = slot("f", Weekday.FRIDAY, (time(9), time(10)), work=Work.BARBELL)
    shared = {s.day: s.is_shared for s in sessions_of(early, noon, saturday, friday)}
    assert shared == {1: False, 2: True, 4: False, 5: True}
    assert [s.is_shared for s in sessions_of(early, friday)] == [True, True]


def test_who_is_away_keeps_the_sessions_that_would_be_his() -> None:
    """Off by his days, they are still his; those of other squads are not."""
    his = slot("a", Weekday.TUESDAY, squads=("Mat",), work=Work.BARBELL)
    club = replace(
        club_with(his), travel=(Travel("t", "cup", "A09", MONDAY, MONDAY + timedelta(days=1)),)
    )
    (work,) = held_works(club, MONDAY, 7)
    assert "A09" not in work.athletes
    assert belongs(club, club.athlete("A09"), work)
    assert belongs(club, club.athlete("A02"), work)
    assert not belongs(club, club.athlete("A08"), work)
    for starts, ends in ((-3, 0), (2, 5)):
        first, last = (MONDAY + timedelta(days=n) for n in (starts, ends))
        away = replace(club, travel=(Travel("t", "cup", "A08", first, last),))
        assert not belongs(away, club.athlete("A08"), work)
    days = (MONDAY + timedelta(days=1),) * 2
    ground = replace(club, travel=(Travel("t", "cup", "A08", *days),))
    assert not belongs(ground, club.athlete("A08"), work)
    open_to_all = replace(work, squads=())
    assert belongs(ground, club.athlete("A08"), open_to_all)
