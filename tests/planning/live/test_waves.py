"""One athlete in two waves by two assistants: asked, answered, and asked again if need be."""

from dataclasses import replace
from datetime import timedelta

from floor_clock import waves_of
from recording import START
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.waves import against, is_in, wave_questions


def put(number: int, device: str, wave: int, athlete: str = "A01") -> RecordEvent:
    return RecordEvent(
        id=f"e{number}",
        session="s",
        device=device,
        number=number,
        at=START + timedelta(seconds=number),
        kind=EventKind.INTO_WAVE,
        author={"phone": "Anna", "tablet": "Ben"}[device],
        athlete=athlete,
        value=float(wave),
    )


def taken_back(number: int, device: str, target: RecordEvent) -> RecordEvent:
    made = replace(put(number, device, 1), kind=EventKind.REMARK, athlete="", value=None)
    return replace(made, kind=EventKind.TAKEN_BACK, takes_back=target.id)


def asked(*events: RecordEvent) -> list[tuple[str, list[tuple[int, str]]]]:
    return [
        (q.athlete, [(choice.wave, choice.author) for choice in q.choices])
        for q in wave_questions(events)
    ]


ANNA, BEN = put(1, "phone", 1), put(2, "tablet", 2)
BOTH = [("A01", [(1, "Anna"), (2, "Ben")])]


def test_two_devices_that_say_different_waves_are_asked() -> None:
    assert asked(ANNA, BEN) == asked(BEN, ANNA) == BOTH


def test_the_same_wave_or_one_device_that_changes_its_mind_asks_nothing() -> None:
    assert asked(ANNA, put(2, "tablet", 1)) == []
    assert asked(ANNA, put(2, "phone", 2)) == []
    assert waves_of([ANNA, put(2, "phone", 2)]) == {"A01": 2}
    assert asked(ANNA, put(2, "tablet", 2, "A02")) == []


def test_an_answer_takes_the_other_back_and_the_record_keeps_both() -> None:
    (gone,) = against([ANNA, BEN], "A01", 1)
    record = [ANNA, BEN, taken_back(3, "tablet", BEN)]
    assert gone == BEN.id
    assert asked(*record) == []
    assert waves_of(record) == {"A01": 1}
    assert BEN in record


def test_what_a_device_had_said_before_does_not_come_back_with_an_answer() -> None:
    older, newer = put(1, "tablet", 1), put(3, "tablet", 2)
    mine = put(2, "phone", 3)
    record = [older, mine, newer]
    assert [wave for wave, _ in asked(*record)[0][1]] == [2, 3]
    assert set(against(record, "A01", 3)) == {older.id, newer.id}
    answers = [taken_back(4 + n, "phone", each) for n, each in enumerate((older, newer))]
    assert asked(*record, *answers) == []


def test_two_answers_at_once_that_take_both_back_ask_again() -> None:
    record = [ANNA, BEN, taken_back(3, "phone", BEN), taken_back(3, "tablet", ANNA)]
    record[2] = replace(record[2], id="answer-of-phone")
    record[3] = replace(record[3], id="answer-of-tablet")
    assert waves_of(record) == {}
    assert asked(*record) == BOTH
    assert not is_in(record, "A01", 2)
    assert asked(*record, put(9, "phone", 2)) == []


def test_an_undo_of_ones_own_asks_nothing() -> None:
    assert asked(ANNA, BEN, taken_back(3, "tablet", BEN)) == []
    both_undone = [taken_back(3, "phone", ANNA), taken_back(4, "tablet", BEN)]
    assert asked(ANNA, BEN, *both_undone) == []
