"""The diary: what was told is kept whole, and every write can be taken back and done again."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.composition import FatFloor, FatMethod, FoldSite, SkinFold
from squadwright.model.diary import (
    Answer,
    BodyComposition,
    CampReviewed,
    Content,
    DiaryKind,
    HeartSeries,
    PainTold,
    RestDay,
    SessionDone,
    TestResult,
    WellnessAnswers,
)
from squadwright.model.muscles import BodyArea
from squadwright.services.diary import (
    Told,
    put_again,
    read_diary,
    take_back,
    take_out,
    write_diary,
)
from squadwright.storage.keeper import SqlKeeper
from squadwright.units import kilograms

TODAY = date(2026, 3, 2)
NOW = datetime(2026, 3, 2, 17, 50, tzinfo=UTC)
LIVE = SessionDone("Live rounds", "sparring", 90, 8.0)
ONE_OF_EACH: tuple[Content, ...] = (
    replace(LIVE, planned_minutes=75, planned_effort=7.0, slot="mon-mat", note="long"),
    RestDay("ill in bed"),
    WellnessAnswers("five items", (Answer("sleep", 4), Answer("mood", 2)), 1, 5, True),
    TestResult("grip", 51.5, "kg", "right hand", (50.0, 51.5), 2, 3.5, "dynamometer 2"),
    HeartSeries("rr_ms", (800.0, 810.5), (0.8, 1.6105), NOW, "lying"),
    PainTold(BodyArea.KNEE, 4, "left"),
    CampReviewed("cup", "Short Fridays", "Less mat", "The taper in the plan"),
    BodyComposition(
        FatMethod.SLAUGHTER,
        kilograms("61.40"),
        "Nurse",
        "L-7",
        FatFloor.SCHOOL_BOYS,
        (SkinFold(FoldSite.TRICEPS, 9.5), SkinFold(FoldSite.CALF, 8.0)),
        least_fat_percent=8.0,
        specific_gravity=1.011,
    ),
)


def write(keeper: SqlKeeper, *told: Told, in_place_of: tuple[str, ...] = ()) -> str:
    return write_diary(keeper, told, author="Coach", today=TODAY, now=NOW, in_place_of=in_place_of)


def contents(keeper: SqlKeeper, **wanted: object) -> list[Content]:
    return [entry.content for entry in read_diary(keeper, **wanted)]  # type: ignore[arg-type]


def test_every_kind_of_entry_comes_back_as_it_was_told(keeper: SqlKeeper) -> None:
    write(keeper, *(Told("A01", TODAY, content) for content in ONE_OF_EACH))
    assert contents(keeper) == list(ONE_OF_EACH)
    assert {content.kind for content in ONE_OF_EACH} == set(DiaryKind)


def test_entries_are_found_by_athlete_kind_and_day(keeper: SqlKeeper) -> None:
    days = [TODAY - timedelta(days=back) for back in (2, 1, 0)]
    write(keeper, *(Told(who, day, LIVE) for who in ("A01", "A02") for day in days))
    write(keeper, Told("A02", TODAY, RestDay()))
    assert len(read_diary(keeper)) == 7
    assert len(read_diary(keeper, of=["A02"])) == 4
    assert contents(keeper, kinds=[DiaryKind.REST]) == [RestDay()]
    found = read_diary(keeper, of=["A01"], since=days[1], until=days[1])
    assert [(entry.athlete, entry.day) for entry in found] == [("A01", days[1])]
    assert [entry.day for entry in read_diary(keeper, of=["A01"])] == days


def test_a_write_is_taken_back_and_done_again(keeper: SqlKeeper) -> None:
    write(keeper, Told("A01", TODAY, LIVE))
    (first,) = read_diary(keeper)
    harder = replace(LIVE, effort=9.0)
    mark = write(keeper, Told("A01", TODAY, harder), in_place_of=(first.id,))
    assert contents(keeper) == [harder]
    take_back(keeper, mark)
    assert read_diary(keeper) == (first,)
    put_again(keeper, mark)
    assert contents(keeper) == [harder]
    with pytest.raises(Conflict):
        put_again(keeper, mark)
    with pytest.raises(NotFound):
        take_back(keeper, "unknown")


def test_what_was_taken_out_somewhere_else_is_not_replaced(keeper: SqlKeeper) -> None:
    write(keeper, Told("A01", TODAY, LIVE))
    (first,) = read_diary(keeper)
    take_out(keeper, [first.id], author="Coach", today=TODAY, now=NOW)
    with pytest.raises(Conflict, match="Load the page afresh"):
        write(keeper, Told("A01", TODAY, RestDay()), in_place_of=(first.id,))
    assert read_diary(keeper) == ()


def test_nothing_is_stored_where_one_entry_is_wrong(keeper: SqlKeeper) -> None:
    with pytest.raises(InvalidInput, match="has not come yet"):
        write(keeper, Told("A01", TODAY, LIVE), Told("A01", TODAY + timedelta(days=1), LIVE))
    with pytest.raises(NotFound):
        write(keeper, Told("A01", TODAY, LIVE), Told("nobody", TODAY, LIVE))
    assert read_diary(keeper) == ()


def test_answers_outside_their_steps_are_refused() -> None:
    with pytest.raises(InvalidInput, match="not from 1 to 5"):
        WellnessAnswers("five items", (Answer("sleep", 6),), 1, 5, True)
    with pytest.raises(InvalidInput, match="1 moments for 2 values"):
        HeartSeries("rr_ms", (800.0, 810.0), (0.8,))


def test_an_erased_diary_is_gone_for_good(keeper: SqlKeeper) -> None:
    mark = write(keeper, Told("A01", TODAY, LIVE), Told("A02", TODAY, LIVE))
    with keeper.writing() as store:
        assert store.diary.erase("A01") == 1
    assert [entry.athlete for entry in read_diary(keeper)] == ["A02"]
    with pytest.raises(Conflict):
        take_back(keeper, mark)
