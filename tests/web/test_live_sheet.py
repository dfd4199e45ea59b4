"""The document a device runs from: bars keep their numbers, a round under way its loads."""

from datetime import date, timedelta

from recording import START
from squadwright.demo import demo_club
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.changes import Change, worked_in
from squadwright.planning.live.course import started
from squadwright.planning.plan import make_timed
from squadwright.services.running import Running
from squadwright.web.live.sheet import FloorSheet, floor_sheet

CLUB = demo_club(date(2026, 3, 2))
SESSION = CLUB.session("monday-barbell")
TIMED = make_timed(CLUB, SESSION)
PLACE_S = 1700


def sheet_after_bar_2_is_out() -> FloorSheet:
    event = RecordEvent(
        "e1",
        SESSION.id,
        "phone",
        1,
        START + timedelta(seconds=PLACE_S),
        EventKind.BAR_OUT,
        words=TIMED.plan.bars[1].bar,
    )
    course = worked_in(started(TIMED), CLUB, SESSION, [Change(event, PLACE_S)])
    return floor_sheet(Running(CLUB, SESSION, course.plan, "r", 2, course))


def test_a_bar_keeps_its_number_when_another_one_goes() -> None:
    before = floor_sheet(Running(CLUB, SESSION, TIMED.plan, "r"))
    after = sheet_after_bar_2_is_out()
    numbers = {bar.id: bar.number for bar in before.bars}
    assert list(numbers.values()) == [1, 2, 3, 4, 5, 6]
    assert 2 not in {bar.number for bar in after.bars}
    assert after.bars
    for bar in after.bars:
        assert bar.number == numbers[bar.id]


def test_a_round_under_way_keeps_its_bars_and_loads() -> None:
    before = {
        (user.athlete, n): user.load_kg
        for n, bar in enumerate(TIMED.plan.bars, start=1)
        for user in bar.wave_users
    }
    after = sheet_after_bar_2_is_out()
    next_round = min(
        line.start_s for line in after.lines if line.kind == "work" and line.round == 2
    )
    for person in after.people:
        first = [load for load in person.loads if load.from_s == 0]
        later = [load for load in person.loads if load.from_s > 0]
        assert all(load.from_s == next_round for load in later)
        assert all(load.bar != 2 for load in later)
        for load in first:
            assert f"{before[person.id, load.bar]:g} kg" == load.load.replace("\u00a0", " ")
    assert any(load.bar == 2 for person in after.people for load in person.loads)


def test_a_lighter_load_is_no_fall_to_the_empty_bar_and_nothing_is_said_twice() -> None:
    sheet = floor_sheet(Running(CLUB, SESSION, TIMED.plan, "r"))
    chidozie = next(person for person in sheet.people if person.id == "A06")
    (load,) = chidozie.loads
    assert load.load == "35 kg"
    assert load.lighter_kg is not None
    assert 28.0 <= load.lighter_kg < 35.0
    assert load.lighter_put_on
    birk = next(person for person in sheet.people if person.id == "A04")
    assert " ".join(birk.may_not).count("overhead") == 1
    # An instruction that says more stays.
    low_back = next(person for person in sheet.people if person.id == "A11")
    assert "trunk upright in rows" in " ".join(low_back.may_not)
