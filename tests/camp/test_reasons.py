"""Why a camp is as it is: each sentence on rounds set by hand, its numbers counted by hand."""

from dataclasses import replace

import pytest

from camp.camp_cases import athlete, camp, weekly_sessions
from squadwright.camp.problem import CampAthlete, CampSession, RoundsBefore
from squadwright.camp.reasons import bouts_words, counted, reason_in, reasons_of

EARLY = tuple(
    CampSession(f"x{7 * week + 1}", "Early", 7 * week + 1, 0, 2, 60.0, is_shared=False)
    for week in range(4)
)
SESSIONS = (*weekly_sessions(4), *EARLY)
AT = {session.id: number for number, session in enumerate(SESSIONS)}


def rounds(**own: int) -> tuple[int, ...]:
    """Three rounds in each session of the squad, none besides, but for what is named."""
    return tuple(own.get(s.id, 3 if s.is_shared else 0) for s in SESSIONS)


def told(who: CampAthlete, **own: int) -> list[tuple[set[str], str]]:
    """The sessions by id and the words of each reason."""
    changes = reasons_of(camp(4, SESSIONS, who), who, rounds(**own))
    return [({SESSIONS[n].id for n in change.sessions}, change.words) for change in changes]


TAPERED = {"s9": 2, "s11": 2, "s14": 1, "s16": 1, "s18": 1, "x8": 2}


def test_usual_rounds_need_no_reason() -> None:
    assert told(athlete("one", SESSIONS)) == []


def test_a_taper_is_told_from_its_first_lower_session_with_the_rounds_of_the_whole_window() -> None:
    """An A event on day 20: days 6 to 19 hold six sessions of three, and 3 2 2 1 1 1 are 10."""
    who = athlete("one", SESSIONS, (20, True))
    found = told(who, **TAPERED, s21=0, s23=3)
    sessions, words = next(each for each in found if "before Event 20" in each[1])
    assert sessions == {"s9", "s11", "s14", "s16", "s18"}
    assert words.startswith("Two rounds instead of three from day -11 before Event 20 (Barbell)")
    assert "In all 10 of 18 rounds, 44 % fewer at the same load" in words


def test_a_day_off_inside_the_taper_is_no_part_of_it() -> None:
    who = athlete("one", SESSIONS, (20, True), off=(9,))
    found = told(who, **{**TAPERED, "s9": 0})
    assert ({"s9"}, "Off in one session: travel.") in found
    sessions, words = next(each for each in found if "before Event 20" in each[1])
    assert sessions == {"s11", "s14", "s16", "s18"}
    assert "In all 8 of 15 rounds, 47 % fewer" in words


def test_days_off_are_told_with_the_bouts_that_ask_for_them() -> None:
    """Four bouts ask for a day more: recovery on days 22 and 23, the event itself on day 21."""
    who = athlete("one", SESSIONS, (21, False))
    event = replace(who.events[0], bouts=4, bouts_load=216.0)
    found = told(replace(who, events=(event,)), s21=0, s23=0)
    assert ({"s21"}, "Off in one session: Event 21.") in found
    off = "Off in one session: recovery from Event 21, 4 bouts, about 216 AU and 1 day off more."
    assert ({"s23"}, off) in found
    assert not [words for sessions, words in found if "x22" in sessions]


@pytest.mark.parametrize(
    ("bouts", "load", "words"),
    [
        (1, 0.0, ""),
        (1, 54.0, ", one bout, about 54 AU"),
        (3, 162.0, ", 3 bouts, about 162 AU"),
        (4, 216.0, ", 4 bouts, about 216 AU and 1 day off more"),
    ],
)
def test_the_bouts_of_an_event_in_words(bouts: int, load: float, words: str) -> None:
    who = athlete("one", SESSIONS, (21, True))
    event = replace(who.events[0], bouts=bouts, bouts_load=load)
    assert bouts_words(camp(4, SESSIONS, who), event) == words


def test_after_a_gap_the_sessions_with_fewer_rounds_are_named_and_no_others() -> None:
    """Back on day 7, shares for two weeks: days 7 to 20. One round in s9, all three in s11."""
    who = athlete("one", SESSIONS, returns_on=7)
    found = told(who, s2=2, s7=2, s9=1, s14=0, s18=2, x8=1, s21=2)
    back = "Back after a gap: at most 50 % and then 70 % of the usual rounds, by week."
    assert ({"s7", "s9", "s18"}, back) in found
    sessions, words = next(each for each in found if "outside a taper" in each[1])
    assert sessions == {"s2", "s21"}
    assert words.startswith("Fewer rounds than the usual in 2 sessions")
    assert words.endswith("a week rises by at most two rounds over the one before.")


def test_rounds_besides_the_squads_are_added_up() -> None:
    found = told(athlete("one", SESSIONS), x1=2, x15=1)
    ((sessions, words),) = found
    assert sessions == {"x1", "x15"}
    assert words.startswith("Three rounds besides the squad's in 2 sessions: a round helps")


@pytest.mark.parametrize(
    ("before", "off", "words"),
    [
        (
            RoundsBefore(3, 2, assumed=1),
            (),
            "Three rounds done in the week before, from the record of 2 sessions, with the usual "
            "rounds of one session not on record: the first week rises to 5 of 9 at most.",
        ),
        (
            RoundsBefore(0, 1),
            (),
            "No rounds done in the week before, from the record of one session: the first week "
            "rises to 3 of 9 at most.",
        ),
        (
            RoundsBefore(1, 3),
            (0,),
            "One round done in the week before, from the record of 3 sessions: the first week "
            "rises to 3 of 6 at most.",
        ),
        (
            RoundsBefore(6, 3),
            (),
            "Six rounds done in the week before, from the record of 3 sessions: the first week "
            "rises to 8 of 9 at most.",
        ),
        (RoundsBefore(7, 3), (), ""),
        (None, (), ""),
    ],
)
def test_the_week_before_is_told_where_the_first_week_may_not_hold_all(
    before: RoundsBefore | None, off: tuple[int, ...], words: str
) -> None:
    """The rise is two rounds, and one round a session is the least."""
    who = replace(athlete("one", SESSIONS, off=off), before=before)
    found = [each for each in told(who) if "week before" in each[1]]
    expected = {"s0", "s2", "s4"} - {f"s{day}" for day in off}
    assert found == ([(expected, words)] if words else [])


def test_the_week_before_is_told_of_the_first_week_in_which_he_trains() -> None:
    off = tuple(range(7))
    who = replace(athlete("one", SESSIONS, off=off), before=RoundsBefore(2, 3))
    found = [sessions for sessions, words in told(who) if "week before" in words]
    assert found == [{"s7", "s9", "s11"}]


def test_reasons_stand_in_the_order_of_the_days() -> None:
    who = replace(athlete("one", SESSIONS, (20, True), off=(4,)), before=RoundsBefore(2, 3))
    words = [each[1] for each in told(who, **{**TAPERED, "x8": 0}, s4=0, x1=1, s23=2)]
    assert [each.split()[0] for each in words] == ["Two", "One", "Off", "Two", "Off", "Fewer"]


@pytest.mark.parametrize(
    ("session", "own", "words"),
    [
        ("s7", 3, ""),
        ("s9", 2, "camp plan: taper, 11 days before Event 20"),
        ("s18", 1, "camp plan: taper, 2 days before Event 20"),
        ("s4", 2, "camp plan: rounds come up again step by step"),
        ("s23", 2, "camp plan: rounds come up again step by step"),
    ],
)
def test_the_reason_that_goes_with_one_session(session: str, own: int, words: str) -> None:
    who = athlete("one", SESSIONS, (20, True))
    found = reason_in(camp(4, SESSIONS, who), who, rounds(**{session: own}), AT[session])
    assert found == words


@pytest.mark.parametrize(("session", "is_back"), [("s4", False), ("s7", True), ("s21", False)])
def test_the_reason_in_the_weeks_after_a_gap(session: str, is_back: bool) -> None:
    who = athlete("one", SESSIONS, returns_on=7)
    found = reason_in(camp(4, SESSIONS, who), who, rounds(**{session: 1}), AT[session])
    assert (found == "camp plan: back after a gap, fewer rounds at first") is is_back


@pytest.mark.parametrize(
    ("number", "words"),
    [(0, "no rounds"), (1, "one round"), (2, "two rounds"), (10, "ten rounds"), (11, "11 rounds")],
)
def test_small_numbers_are_written_out(number: int, words: str) -> None:
    assert counted(number) == words
