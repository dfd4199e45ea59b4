"""The load of a day, of a week and of the weeks, from small diaries worked out by hand."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest

from planning.people import MONDAY
from squadwright.demo import demo_club
from squadwright.model.calendar import Closure, Travel, Work
from squadwright.model.club import Weekday, WeekSlot
from squadwright.model.diary import Answer, DiaryEntry, RestDay, SessionDone, WellnessAnswers
from squadwright.model.session import CheckIn, Presence
from squadwright.planning.daily_load import LoadDay, ToldSession, days_of
from squadwright.planning.load_history import history_of, is_told, week_of, weeks_of
from squadwright.planning.occasions import Occasion, occasions
from squadwright.planning.wellness import ITEMS, as_usual, total_of, wellness_chart

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


def entry(
    content: SessionDone | RestDay | WellnessAnswers,
    *,
    name: str = "e1",
    who: str = "P",
    day: date = MONDAY,
) -> DiaryEntry:
    return DiaryEntry(name, who, day, content, "Coach", NOON)


def done(minutes: int = 60, effort: float | None = 5, **more: str) -> SessionDone:
    return SessionDone("Mat", "technique", minutes, effort, **more)  # type: ignore[arg-type]


EVENING = Occasion("Bar", "barbell", MONDAY, time(18), 50, 6, ("P", "Q"), session="s1")
MAT = Occasion("Mat", "technique", MONDAY, time(19), 90, 4, ("P",), slot="mat")


def day_of(
    *entries: DiaryEntry,
    efforts: dict[tuple[str, str], float] | None = None,
    expected: tuple[Occasion, ...] = (),
    who: str = "P",
) -> LoadDay:
    (found,) = days_of(
        who, MONDAY, MONDAY, entries=entries, efforts=efforts or {}, expected=expected
    )
    return found


def test_silence_is_not_rest_and_a_word_of_rest_is() -> None:
    assert day_of().load is None
    rest = day_of(entry(RestDay()))
    assert (rest.load, rest.rest_entry, rest.told_load) == (0.0, "e1", 0.0)
    two = day_of(entry(RestDay()), entry(RestDay(), name="e2"))
    assert two.rest_entry == "e2"


def test_a_session_told_counts_over_a_word_of_rest() -> None:
    found = day_of(entry(RestDay()), entry(done(), name="e2"))
    assert (found.load, found.told_load) == (300.0, 300.0)
    unknown = day_of(entry(RestDay()), entry(done(effort=None), name="e2"))
    assert unknown.load is None


def test_what_was_expected_and_not_told_leaves_the_day_unknown() -> None:
    found = day_of(entry(done()), expected=(EVENING,))
    assert (found.load, found.told_load, found.missing) == (None, 300.0, (EVENING,))
    assert day_of(expected=(EVENING,), who="R").missing == ()
    rest = day_of(entry(RestDay()), expected=(EVENING,))
    assert (rest.load, rest.missing) == (0.0, ())


def test_an_effort_at_the_door_is_told_with_the_minutes_he_was_there() -> None:
    late = replace(EVENING, late=(("P", 15),))
    found = day_of(efforts={("s1", "P"): 7.0, ("s1", "Q"): 3.0}, expected=(late,))
    (told,) = found.told
    assert (told.minutes, told.planned_minutes, told.planned_effort) == (35, 50, 6)
    assert (found.load, found.planned, found.missing) == (245.0, 300.0, ())
    other = day_of(efforts={("s1", "Q"): 3.0}, expected=(late,))
    assert other.missing == (late,)


def test_told_at_the_door_and_in_the_diary_counts_once() -> None:
    at_door = {("s1", "P"): 7.0}
    same = day_of(entry(done(40, 5, session="s1")), efforts=at_door, expected=(EVENING,))
    assert (len(same.told), same.load, same.missing) == (1, 200.0, ())
    without = day_of(entry(done(40, None, session="s1")), efforts=at_door, expected=(EVENING,))
    assert (len(without.told), without.load) == (1, 280.0)
    nothing = day_of(entry(done(40, None, session="s1")), expected=(EVENING,))
    assert (nothing.load, nothing.missing) == (None, ())
    other = day_of(entry(done(40, None, session="s2")), efforts=at_door, expected=(EVENING,))
    assert [each.effort for each in other.told] == [None, 7.0]
    slot = day_of(entry(done(90, 4, slot="mat")), expected=(MAT, EVENING))
    assert (slot.missing, slot.told_load) == ((EVENING,), 360.0)
    loose = day_of(entry(done()), entry(done(), name="e2"), expected=(replace(MAT, slot=""),))
    assert len(loose.missing) == 1


def test_a_slot_has_no_door_and_takes_no_effort_of_a_session() -> None:
    found = day_of(efforts={("", "P"): 9.0}, expected=(MAT,))
    assert found.missing == (MAT,)


def test_who_was_absent_from_all_of_it_did_nothing_and_from_a_part_only_that_part() -> None:
    gone = replace(EVENING, absent=frozenset({"P"}))
    found = day_of(expected=(gone,))
    assert (found.load, [each.effort for each in found.told], found.missing) == (0.0, [0.0], ())
    assert not found.told[0].was_there
    assert not is_told(found)
    part = day_of(expected=(gone, MAT))
    assert (part.load, part.told, part.missing) == (None, (), (MAT,))
    both = day_of(expected=(gone, replace(MAT, absent=frozenset({"P"}))))
    assert (both.load, len(both.told)) == (0.0, 2)
    told = day_of(entry(done()), expected=(gone,))
    assert (told.load, len(told.told)) == (300.0, 1)
    assert day_of(expected=(replace(EVENING, absent=frozenset({"Q"})),)).missing != ()


@pytest.mark.parametrize(
    ("expected", "planned"),
    [
        ((), 0.0),
        ((EVENING,), 300.0),
        ((EVENING, MAT), 660.0),
        ((EVENING, replace(MAT, effort=None)), None),
    ],
)
def test_the_plan_of_a_day_is_unknown_where_one_effort_is(
    expected: tuple[Occasion, ...], planned: float | None
) -> None:
    assert day_of(expected=expected).planned == planned


def test_days_and_people_are_kept_apart() -> None:
    tuesday = MONDAY + timedelta(days=1)
    entries = (
        entry(done()),
        entry(done(30), name="e2", day=tuesday),
        entry(done(90), name="e3", who="Q"),
        entry(as_usual(), name="e4", day=tuesday),
    )
    found = days_of(
        "P",
        MONDAY,
        MONDAY + timedelta(days=2),
        entries=entries,
        efforts={},
        expected=(replace(EVENING, day=tuesday),),
    )
    assert [(each.day, each.told_load, len(each.missing)) for each in found] == [
        (MONDAY, 300.0, 0),
        (tuesday, 150.0, 1),
        (MONDAY + timedelta(days=2), 0.0, 0),
    ]


def test_minutes_are_one_at_least() -> None:
    assert replace(EVENING, late=(("P", 50),)).minutes_of("P") == 1
    assert replace(EVENING, late=(("P", 48),)).minutes_of("P") == 2
    assert replace(EVENING, late=(("P", 48),)).minutes_of("Q") == 50


def told_day(number: int, effort: float | None = 5, planned: float | None = 4) -> LoadDay:
    """A day with an hour of work, None for one without a word."""
    day = MONDAY + timedelta(days=number)
    if effort is None:
        return LoadDay(day, planned)
    session = ToldSession(
        "Mat", "technique", 60, effort, planned_effort=planned, entry=f"e{number}"
    )
    return LoadDay(day, None if planned is None else planned * 60, (session,))


def test_a_week_has_the_sum_of_what_was_told_and_of_what_was_planned() -> None:
    days = [told_day(n) for n in range(6)] + [told_day(6, None)]
    week = week_of(days)
    assert (week.told, week.monday, week.summary.load) == (1800.0, MONDAY, 1800.0)
    assert week.planned == 6 * 240 + 4
    assert week_of([*days[:6], told_day(6, 5, None)]).planned is None


@pytest.mark.parametrize(
    ("first", "count", "mondays"),
    [
        (0, 6, []),
        (0, 7, [0]),
        (0, 13, [0]),
        (0, 14, [0, 7]),
        (-1, 8, [0]),
        (1, 12, []),
        (1, 13, [7]),
    ],
)
def test_weeks_are_whole_ones_from_a_monday(first: int, count: int, mondays: list[int]) -> None:
    weeks = weeks_of([told_day(first + n) for n in range(count)])
    assert [(week.monday - MONDAY).days for week in weeks] == mondays
    assert all(len(week.days) == 7 for week in weeks)


def test_the_history_begins_with_the_first_word_and_runs_to_the_last_known_day() -> None:
    days = [told_day(n, None if n < 3 else 5) for n in range(35)]
    today = MONDAY + timedelta(days=33)
    found = history_of(days, today=today)
    assert (found.begun_on, found.as_of) == (MONDAY + timedelta(days=3), today)
    assert found.recent.coupled == pytest.approx(1.0)
    assert len(found.weeks) == 5
    silent = [*days[:33], told_day(33, None), *days[34:]]
    assert history_of(silent, today=today).as_of == today - timedelta(days=1)
    nothing = history_of([told_day(n, None) for n in range(7)], today=MONDAY)
    assert (nothing.begun_on, nothing.bias) == (None, None)


def test_recent_load_counts_days_from_the_first_told_to_the_last_known() -> None:
    """29 days are the fewest that are shown; the 29th after the first told is day 31."""
    days = [told_day(n, None if n < 3 else 5) for n in range(35)]
    for day, is_shown in ((30, False), (31, True)):
        found = history_of(days, today=MONDAY + timedelta(days=day)).recent
        assert (found.coupled is not None) is is_shown
        assert ("this is day 28" in found.why_not) is not is_shown


@pytest.mark.parametrize(
    ("day", "is_said"),
    [
        (told_day(0), True),
        (told_day(0, None), False),
        (LoadDay(MONDAY, 0.0, rest_entry="e"), True),
        (LoadDay(MONDAY, 0.0, (ToldSession("a", "b", 60, 0.0),)), False),
        (LoadDay(MONDAY, 0.0, (ToldSession("a", "b", 60, 4.0),)), True),
        (LoadDay(MONDAY, 0.0, (ToldSession("a", "b", 60, None, entry="e"),)), True),
    ],
)
def test_an_absence_at_the_door_is_no_word_of_the_athlete(day: LoadDay, is_said: bool) -> None:
    assert is_told(day) is is_said


def test_the_bias_is_the_mean_of_told_less_planned_where_both_are_known() -> None:
    days = [told_day(0, 6, 4), told_day(1, 3, 4), told_day(2, 5, None), told_day(3, 0, 4)]
    bias = history_of(days, today=MONDAY).bias
    assert bias is not None
    assert (bias.sessions, bias.mean) == (2, 0.5)


SLOT = WeekSlot(
    "s", "Mat", Weekday.TUESDAY, time(19), time(20), "mat", work=Work.TECHNIQUE, planned_effort=4
)
CLUB = replace(
    demo_club(MONDAY), week=(SLOT,), sessions=(), closures=(), travel=(), slot_changes=()
)


def test_occasions_are_held_and_expect_somebody() -> None:
    week = (MONDAY, MONDAY + timedelta(days=6))
    (found,) = occasions(CLUB, *week)
    assert (found.slot, found.session, found.minutes, found.planned_load) == ("s", "", 60, 240.0)
    assert list(found.athletes) == [each.id for each in CLUB.athletes]
    shut = replace(CLUB, closures=(Closure("c", "paint", *week),))
    assert occasions(shut, *week) == ()
    away = tuple(Travel(f"t{a.id}", "cup", a.id, *week) for a in CLUB.athletes)
    assert occasions(replace(CLUB, travel=away), *week) == ()


def test_an_occasion_knows_who_was_absent_and_who_came_late() -> None:
    session = replace(
        demo_club(MONDAY).sessions[0],
        check_ins=(
            CheckIn("A01", Presence.ABSENT),
            CheckIn("A02", Presence.LATE, late_minutes=12),
            CheckIn("A03"),
        ),
    )
    (found,) = occasions(replace(CLUB, week=(), sessions=(session,)), MONDAY, MONDAY)
    assert (found.slot, found.session) == ("", session.id)
    assert (found.absent, found.late) == (frozenset({"A01"}), (("A02", 12),))
    assert (found.minutes_of("A02"), found.minutes_of("A03")) == (48, 60)


def answered(number: int, step: int, **more: object) -> DiaryEntry:
    given = WellnessAnswers(
        "against his usual", tuple(Answer(item, step) for item in ITEMS), 1, 5, is_high_good=True
    )
    given = replace(given, **more)  # type: ignore[arg-type]
    return entry(given, name=f"w{number}", day=MONDAY + timedelta(days=number))


def test_all_as_usual_is_fifteen_of_twenty_five_and_a_missing_item_has_no_total() -> None:
    assert total_of(as_usual()) == 15
    assert total_of(replace(as_usual(), answers=as_usual().answers[:4])) is None
    other = WellnessAnswers("other", (Answer("a", 2), Answer("b", 5)), 0, 5, is_high_good=True)
    assert total_of(other) == 7


@pytest.mark.parametrize(("answers", "is_charted"), [(20, False), (21, True)])
def test_a_chart_needs_two_weeks_of_usual_before_the_last_seven(
    answers: int, is_charted: bool
) -> None:
    entries = [answered(n, 3 + n % 2) for n in range(answers)]
    found = wellness_chart(entries, today=MONDAY + timedelta(days=60))
    assert (found.limits is not None) is is_charted
    assert len(found.totals) == answers
    if not is_charted:
        assert found.why_not == "not given: 20 answers, fewer than 21"
        return
    assert found.limits is not None
    assert found.limits.answers == 14
    assert len(found.means) == len(found.sums) == 7
    # Totals of 15 and 20 by turns: each 2.5 from their middle, 14 of them, so 87.5 / 13.
    assert found.limits.usual == 17.5
    assert found.limits.spread == pytest.approx((87.5 / 13) ** 0.5)


def test_only_the_questionnaire_answered_last_is_charted_and_nothing_of_tomorrow() -> None:
    entries = [
        answered(0, 3),
        answered(1, 3, scale="other"),
        answered(2, 3, is_high_good=False),
        answered(3, 2),
        answered(3, 4),
        answered(9, 5),
        entry(RestDay(), name="r", day=MONDAY + timedelta(days=3)),
    ]
    found = wellness_chart(entries, today=MONDAY + timedelta(days=8))
    assert found.totals == ((MONDAY, 15), (MONDAY + timedelta(days=3), 20))
    partly = replace(as_usual(), answers=as_usual().answers[:4])
    missing = entry(partly, name="p", day=MONDAY + timedelta(days=4))
    after = wellness_chart([*entries, missing], today=MONDAY + timedelta(days=8))
    assert after.totals == found.totals
    none = wellness_chart([entry(RestDay())], today=MONDAY)
    assert none.why_not == "nothing is answered yet"


def falling(step: int, *, is_high_good: bool, usual: int = 3) -> list[DiaryEntry]:
    """Four weeks of a usual step, then seven of another."""
    steps = [usual + n % 2 - n % 3 // 2 for n in range(28)] + [step] * 7
    return [answered(n, each, is_high_good=is_high_good) for n, each in enumerate(steps)]


@pytest.mark.parametrize(
    ("step", "is_high_good", "is_worse"),
    [(1, True, True), (5, True, False), (5, False, True), (1, False, False)],
)
def test_only_a_change_to_the_worse_is_far(step: int, is_high_good: bool, is_worse: bool) -> None:
    entries = falling(step, is_high_good=is_high_good)
    found = wellness_chart(entries, today=MONDAY + timedelta(days=34))
    assert found.is_worse is is_worse
    if not is_worse:
        assert found.far == 0.0


def test_false_alarms_are_for_as_many_answers_as_in_the_last_four_weeks() -> None:
    entries = falling(3, is_high_good=True)
    months = wellness_chart(entries, today=MONDAY + timedelta(days=34)).false_alarms_a_year
    fewer = wellness_chart(entries, today=MONDAY + timedelta(days=48)).false_alarms_a_year
    assert fewer == pytest.approx(months / 2)
    assert wellness_chart(entries, today=MONDAY + timedelta(days=62)).false_alarms_a_year == 0


def test_flat_answers_are_divided_by_one_and_no_less() -> None:
    entries = [answered(n, 3) for n in range(28)]
    limits = wellness_chart(entries, today=MONDAY + timedelta(days=30)).limits
    assert limits is not None
    assert (limits.usual, limits.spread, limits.answers) == (15.0, 1.0, 21)
    many = [answered(n, 3) for n in range(50)]
    limits = wellness_chart(many, today=MONDAY + timedelta(days=50)).limits
    assert limits is not None
    assert limits.answers == 28
