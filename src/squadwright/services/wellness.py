"""Use cases of wellness: one tap for as usual, five items otherwise, and everybody's chart."""

from collections.abc import Collection, Mapping
from datetime import date, datetime, timedelta

from squadwright.model.diary import DiaryEntry, DiaryKind, WellnessAnswers
from squadwright.planning.wellness import WellnessChart, as_usual, wellness_chart
from squadwright.services.diary import Told, read_diary, write_diary
from squadwright.services.unit_of_work import Keeper

AUTHOR = "Athlete, on the coach's device"
CHART_DAYS = 183


def answer_wellness(
    keeper: Keeper,
    athlete: str,
    answers: WellnessAnswers | None = None,
    *,
    today: date,
    now: datetime,
) -> str:
    """Keep the answers of today, as usual where none are given; gives the mark of the step.

    What was answered today before goes out.
    """
    former = read_diary(keeper, of=[athlete], kinds=[DiaryKind.WELLNESS], since=today, until=today)
    return write_diary(
        keeper,
        [Told(athlete, today, answers or as_usual())],
        author=AUTHOR,
        today=today,
        now=now,
        in_place_of=[entry.id for entry in former],
    )


def wellness_charts(
    keeper: Keeper, athletes: Collection[str], *, today: date
) -> Mapping[str, WellnessChart]:
    """The chart of each athlete named."""
    since = today - timedelta(days=CHART_DAYS)
    entries = read_diary(keeper, of=athletes, kinds=[DiaryKind.WELLNESS], since=since, until=today)
    return charts_of(entries, athletes, today=today)


def charts_of(
    entries: Collection[DiaryEntry], athletes: Collection[str], *, today: date
) -> Mapping[str, WellnessChart]:
    """Charts from entries already read."""
    return {
        athlete: wellness_chart([e for e in entries if e.athlete == athlete], today=today)
        for athlete in athletes
    }
