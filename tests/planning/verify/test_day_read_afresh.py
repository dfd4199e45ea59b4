"""The day as the second look reads it: the coach's word, events, weigh-ins, parts, repetitions."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from planning.plan_changes import Case, change_athlete, check_in
from planning.verify.sound_plan import SOUND, TODAY, step
from planning.verify.spoiled import line, says
from squadwright.library import exercise
from squadwright.model.athlete import Event, MassReading, Priority
from squadwright.model.club import GateLimit, GateLimits
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.routine import Block, CountedIn, LaneRule, Routine, Scheme, Style
from squadwright.model.session import CheckIn, MissingKit, Override, Presence
from squadwright.planning.verify.amounts import days_to_event, loses_fast
from squadwright.planning.verify.day import Day, read_day, repetitions_of, who, work_of
from squadwright.planning.verify.missing import club_without_the_missing
from squadwright.planning.verify.parts import Part, parts_of
from squadwright.units import kilograms


def day_of(case: Case) -> Day:
    return read_day(case.club, case.session, case.plan)


def word(block: str = "", **said: object) -> Override:
    return Override("A1", "the coach saw it", block=block, **said)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("words", "rounds", "load_kg", "bar"),
    [
        ((word(rounds=2),), 2, None, None),
        ((word("B", rounds=2),), None, None, None),
        # What he said of the block goes before what he said of all; what it leaves open stays.
        ((word(rounds=2, load=kilograms(30), bar="bar-1"), word("A")), 2, 30, "bar-1"),
        ((word("A"), word(rounds=2, load=kilograms(30), bar="bar-1")), 2, 30, "bar-1"),
        ((word(rounds=2, load=kilograms(30)), word("A", rounds=0)), 0, 30, None),
        ((word(load=kilograms(30)), word("A", load=kilograms(20))), None, 20, None),
        ((word(bar="bar-1"), word("A", bar="bar-2")), None, None, "bar-2"),
        # Of two of one width the later one goes, with all that it says and leaves out.
        ((word(rounds=2, load=kilograms(30), bar="bar-1"), word()), None, None, None),
        ((word("A", rounds=2, load=kilograms(30), bar="bar-1"), word("A")), None, None, None),
        ((word("B", rounds=1), word(rounds=2)), 2, None, None),
    ],
)
def test_the_coachs_last_word_holds_and_that_of_the_block_before_that_of_all(
    words: tuple[Override, ...], rounds: int | None, load_kg: float | None, bar: str | None
) -> None:
    said = day_of(says(SOUND, *words)).word("A1", "A")
    found = (None, None, None) if said is None else (said.rounds, said.load, said.bar)
    assert found == (rounds, None if load_kg is None else kilograms(load_kg), bar)


def test_who_was_not_spoken_of_has_no_word() -> None:
    day = day_of(says(SOUND, word("B", rounds=1)))
    assert day.word("A1", "A") is None
    assert day.word("A2", "B") is None


@pytest.mark.parametrize(
    ("check", "status", "minutes", "trains"),
    [
        (CheckIn("A1"), "present", 0, True),
        (CheckIn("A1", Presence.LATE, 1), "late", 1, True),
        (CheckIn("A1", Presence.ABSENT, 9), "absent", 0, False),
    ],
)
def test_who_is_here(check: CheckIn, status: str, minutes: int, trains: bool) -> None:
    day = day_of(check_in(SOUND, check))
    assert (day.status("A1"), day.late_minutes("A1")) == (status, minutes)
    assert day.trains("A1") is trains
    assert ("A1" in day.training) is trains
    assert not day.trains("A9")


def event(days: int, priority: Priority = Priority.B) -> Event:
    return Event(f"e{days}", "Meet", TODAY + timedelta(days=days), priority)


@pytest.mark.parametrize(
    ("events", "days"),
    [
        ((), None),
        ((event(0, Priority.A),), 0),
        ((event(-1, Priority.A),), None),
        ((event(9, Priority.A), event(4, Priority.A)), 4),
        ((event(4),), None),
        # Another one at most 8 days before it: one that is behind him counts as well.
        ((event(-3), event(5)), 5),
        ((event(-4), event(5)), None),
        ((event(-8), event(0)), 0),
        ((event(-9), event(0)), None),
        # Another one at most 8 days after it; the first of the two begins within 8 days.
        ((event(1), event(9)), 1),
        ((event(1), event(10)), None),
        ((event(8), event(16)), 8),
        ((event(9), event(17)), None),
        ((event(5), event(5)), None),
    ],
)
def test_days_to_an_event_that_matters(events: tuple[Event, ...], days: int | None) -> None:
    own = tuple(replace(each, id=f"e{n}") for n, each in enumerate(events))
    assert days_to_event(day_of(change_athlete(SOUND, "A1", events=own)), "A1") == days


def weighs(
    limit: str | None, days: int = 10, *, opens: int | None = None, second: int | None = None
) -> Event:
    """What an event weighs, and when: days from today."""

    def moment(count: int | None) -> datetime | None:
        if count is None:
            return None
        return datetime(2026, 3, 2, 8) + timedelta(days=count)

    known = EventWeighIn(zone="Europe/Lisbon", opens_at=moment(opens), second_at=moment(second))
    return Event(
        *("e", "Meet", TODAY + timedelta(days=days), Priority.B),
        mass_limit=None if limit is None else kilograms(limit),
        weigh_in=known if opens is not None or second is not None else None,
    )


def readings(*told: tuple[int, str]) -> tuple[MassReading, ...]:
    return tuple(MassReading(kilograms(kg), TODAY + timedelta(days=day)) for day, kg in told)


# 1.5 % of 70 kg a week are 0.15 kg a day.
@pytest.mark.parametrize(
    ("each", "is_fast"),
    [
        (weighs("68.5"), False),
        (weighs("68.499"), True),
        (weighs("71"), False),
        (weighs(None), False),
        (weighs("69.85", 1), False),
        (weighs("69.84", 1), True),
        # On the day itself as if a day were left.
        (weighs("69.85", 0), False),
        (weighs("69.84", 0), True),
        (weighs("60", -1), False),
        # Where the first weigh-in is known it counts, and before it the second does not.
        (weighs("69.1", opens=6), False),
        (weighs("69.09", opens=6), True),
        (weighs("69.09", opens=6, second=20), True),
        # The first one is over.
        (weighs("69.1", opens=-1, second=6), False),
        (weighs("69.09", opens=-1, second=6), True),
        (weighs("60", opens=-2, second=-1), False),
    ],
)
def test_who_has_to_lose_fast(each: Event, is_fast: bool) -> None:
    case = change_athlete(SOUND, "A1", events=(each,))
    assert loses_fast(day_of(case), "A1") is is_fast


@pytest.mark.parametrize(
    ("told", "is_fast"),
    [
        ((), False),
        (((0, "68.4"),), False),
        (((1, "70"),), False),
        (((-9, "68.4"), (0, "70")), True),
        (((0, "70"), (-9, "68.4")), True),
        # Of two of one day the one entered later.
        (((0, "70"), (0, "68.4")), False),
        (((0, "68.4"), (0, "70")), True),
    ],
)
def test_the_last_reading_says_how_much_is_to_be_lost(
    told: tuple[tuple[int, str], ...], is_fast: bool
) -> None:
    case = change_athlete(SOUND, "A1", events=(weighs("68.4"),), body_mass=readings(*told))
    assert loses_fast(day_of(case), "A1") is is_fast


def test_a_minor_is_told_by_another_gate_and_a_stricter_limit_of_the_club_holds() -> None:
    case = change_athlete(SOUND, "A1", events=(weighs("68.9"),))
    minor = change_athlete(case, "A1", birth_date=date(2008, 3, 3), events=(weighs("60"),))
    grown = change_athlete(minor, "A1", birth_date=date(2008, 3, 2))
    assert (loses_fast(day_of(minor), "A1"), loses_fast(day_of(grown), "A1")) == (False, True)
    for own, is_fast in ((1.0, True), (1.1, False), (9.0, False)):
        limits = GateLimits((GateLimit("weekly loss, stop", own), GateLimit("other", 0.1)))
        strict = replace(case, club=replace(case.club, gate_limits=limits))
        assert loses_fast(day_of(strict), "A1") is is_fast, own


@pytest.mark.parametrize(
    ("counted_in", "count", "name", "boxes", "repetitions"),
    [
        (CountedIn.REPETITIONS, 5, "deadlift", 0, 5),
        (CountedIn.REPETITIONS_EACH_SIDE, 5, "reverse-lunge", 0, 10),
        (CountedIn.REPETITIONS_EACH_SIDE, 5, "squat", 0, None),
        (CountedIn.LADDER_TO, 1, "push-up", 0, 1),
        # 1 + 2 + 3 + 4 + 3 + 2 + 1
        (CountedIn.LADDER_TO, 4, "push-up", 0, 16),
        (CountedIn.SECONDS, 30, "push-up", 0, 16),
        # 18 s are ten of 1.8 s, 17 s nine.
        (CountedIn.SECONDS, 18, "push-up", 0, 10),
        (CountedIn.SECONDS, 17, "push-up", 0, 9),
        (CountedIn.SECONDS, 90, "wall-sit", 0, 1),
        (CountedIn.PASSES_ONE_WAY, 2, "row-hop-over", 3, 6),
        (CountedIn.PASSES_DOWN_AND_BACK, 2, "row-hop-over", 3, 12),
    ],
)
def test_repetitions_of_a_scheme(
    counted_in: CountedIn, count: int, name: str, boxes: int, repetitions: int | None
) -> None:
    assert repetitions_of(Scheme(counted_in, count), exercise(name), boxes) == repetitions


def parts(*steps: tuple[str, str, int], rounds: int = 1) -> list[Part]:
    block = Block(
        "M", Style.SETS, tuple(step(key, name, 5, sets=n) for key, name, n in steps), rounds=rounds
    )
    return list(parts_of(Routine("r", 1, "R", "aim", (block,))).values())


def test_a_block_of_sets_falls_apart_at_its_bars() -> None:
    found = parts(
        *(("1", "squat", 2), ("2", "push-up", 3), ("3", "deadlift", 4), ("4", "back-squat", 2)),
        *(("5", "squat", 2),),
        rounds=3,
    )
    assert [p.name for p in found] == ["M 1", "M 3", "M 4", "M 5"]
    assert [[key for key, _ in p.steps] for p in found] == [["1", "2"], ["3"], ["4"], ["5"]]
    # A set of an exercise with a bar is a round: 4 sets in 3 rounds are 12.
    assert [p.rounds for p in found] == [3, 12, 6, 3]
    assert [p.is_complex for p in found] == [False, True, True, False]
    assert [p.most_sets(p.steps[-1][1]) for p in found] == [3, 1, 1, 2]


def test_a_block_of_sets_without_a_bar_stays_whole() -> None:
    (whole,) = parts(("1", "squat", 2), ("2", "unheard of", 3), rounds=3)
    assert (whole.name, whole.rounds, whole.is_complex, len(whole.steps)) == ("M", 3, False, 2)


def test_a_block_of_sets_that_begins_with_a_bar_has_nothing_before_it() -> None:
    assert [p.name for p in parts(("1", "deadlift", 1), ("2", "squat", 1))] == ["M 1", "M 2"]


def test_steps_go_by_their_label_or_by_their_place_where_two_have_it() -> None:
    (whole,) = parts(("x", "squat", 1), ("x", "push-up", 1), ("", "squat", 1), ("y", "squat", 1))
    assert [key for key, _ in whole.steps] == ["M 1", "M 2", "M 3", "y"]
    assert whole.step("M 2") is whole.steps[1][1]
    assert whole.step("x") is None


def test_each_pass_along_a_row_is_a_turn_and_a_set_elsewhere_one() -> None:
    day = day_of(SOUND)
    dose = day.plan.doses[0]
    lanes, sets = day.parts["C"], day.parts["D"]
    assert (lanes.boxes, lanes.turns_in_a_set(dose.exercises[5])) == (3, 2)
    assert (sets.boxes, sets.turns_in_a_set(dose.exercises[6])) == (0, 1)
    assert lanes.turns_in_a_set(replace(dose.exercises[5], step="9")) == 1
    floor = replace(lanes, block=replace(lanes.block, lane=LaneRule()))
    assert floor.turns_in_a_set(dose.exercises[5]) == 1
    assert [p.turn_is_a_round for p in day.parts.values()] == [True, True, False, False]


def test_parts_done_are_all_those_of_the_dose() -> None:
    day = day_of(SOUND)
    dose = day.plan.doses[0]
    assert [p.name for p in day.parts_done(dose)] == ["A", "B", "C", "D"]
    fewer = replace(dose, exercises=dose.exercises[3:6])
    assert [p.name for p in day.parts_done(fewer)] == ["B", "C"]
    main = day.main_part(replace(fewer, block=""))
    assert main is day.parts["B"]
    assert day.main_part(replace(dose, block="", exercises=())) is None


def test_the_only_part_needs_no_name() -> None:
    day = day_of(SOUND)
    alone = replace(day, parts={"A": day.parts["A"]})
    assert alone.part("") is day.parts["A"]
    assert alone.part("B") is None
    assert day.part("") is None


def test_turns_are_those_of_the_athlete_in_order_of_time() -> None:
    sheet = SOUND.plan.run_sheet
    back = SOUND.with_plan(run_sheet=tuple(reversed(sheet)))
    day = day_of(back)
    starts = [each.start_s for each in work_of(day, "A3", day.parts["A"])]
    assert starts == [1060, 1240, 1420]
    second = day.plan.doses[0].exercises[4]
    starts = [each.start_s for each in work_of(day, "A1", day.parts["B"], second)]
    assert starts == [1580, 1740]


def test_a_group_of_one_name_is_that_of_the_block_of_the_line() -> None:
    assert who(day_of(SOUND), SOUND.plan.run_sheet[21]) == ("A1", "A2")
    unnamed = line(SOUND, 21, block="")
    assert who(day_of(unnamed), unnamed.plan.run_sheet[21]) == ("A1", "A2")
    elsewhere = line(SOUND, 21, block="C")
    assert who(day_of(elsewhere), elsewhere.plan.run_sheet[21]) is None


def test_what_is_missing_is_off_the_store() -> None:
    gone = (
        *(MissingKit("bar-2"), MissingKit("plates-10"), MissingKit("plates-5", 9)),
        *(MissingKit("collars"), MissingKit("ball-3"), MissingKit("slam-4"), MissingKit("box-1")),
    )
    kit = club_without_the_missing(SOUND.club, replace(SOUND.session, missing=gone)).kit
    assert [bar.id for bar in kit.bars] == ["bar-1", "bar-10"]
    assert [plate.pairs for plate in kit.plates] == [1, 0]
    assert [collar.pairs for collar in kit.collars] == [1]
    assert [(ball.id, ball.count) for ball in kit.balls] == [("ball-3", 1)]
    assert [box.id for box in kit.boxes] == ["box-2", "box-3"]
    twice = (MissingKit("ball-3"), MissingKit("ball-3"))
    kit = club_without_the_missing(SOUND.club, replace(SOUND.session, missing=twice)).kit
    assert [ball.id for ball in kit.balls] == ["slam-4"]
