"""The watch on one athlete in charts: each with a sentence, and its numbers for who reads those."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

from squadwright.charts.time_chart import At, LimitLine, TimeChart
from squadwright.model.diary import TestResult, WellnessAnswers
from squadwright.planning.restriction_words import day_words
from squadwright.services.body_mass_text import trend_text
from squadwright.services.watch import DAYS, TEST_DAYS, Watched
from squadwright.words import capital, kilogram_text, plain_number


@dataclass(frozen=True)
class WatchChart:
    """A chart, its heading, what it says, and its numbers as (day, words)."""

    head: str
    sentence: str
    chart: TimeChart
    rows: tuple[tuple[str, str], ...]


def watch_charts(watched: Watched) -> tuple[WatchChart, ...]:
    """Every chart of an athlete; one without anything to show says so in its sentence."""
    return (_load(watched), _mass(watched), *_answers(watched), *_tests(watched))


def _load(watched: Watched) -> WatchChart:
    known = [(day.day, day.load) for day in watched.days if day.load is not None]
    planned = [(day.day, day.planned) for day in watched.days if day.planned]
    sentence = (
        f"Effort times minutes of each day, in arbitrary units; {len(known)} of the last {DAYS} "
        "days are known. Bars are what was told, diamonds what was planned. A day without a bar "
        "is not known: it is no day of rest."
    )
    chart = TimeChart(
        "AU",
        bars=tuple(At(day, load) for day, load in known if load),
        hollow=tuple(At(day, load) for day, load in planned),
        last_day=watched.today,
        begins_at_nothing=True,
    )
    rows = tuple((day_words(day), f"{load:,.0f} AU") for day, load in reversed(known))
    return WatchChart("Load by day", sentence, chart, rows)


def _mass(watched: Watched) -> WatchChart:
    found = watched.mass
    by_day = {reading.taken_on: reading for reading in reversed(found.readings)}
    trend = found.trend
    line: tuple[At, ...] = ()
    if trend is not None:
        fitted = ((day, trend.fitted_on(day)) for day in (trend.days[0], trend.days[-1]))
        line = tuple(At(day, kg) for day, kg in fitted if kg is not None)
    limits = () if found.no_plan else tuple(_limits(watched))
    sentences = [trend_text(found), f"No limit is drawn: {found.no_plan}." if found.no_plan else ""]
    return WatchChart(
        "Body mass",
        " ".join(filter(None, sentences)),
        TimeChart(
            "kg",
            marks=tuple(At(day, reading.reading.kg) for day, reading in sorted(by_day.items())),
            line=line if len({at.day for at in line}) > 1 else (),
            limits=limits if by_day else (),
            last_day=watched.today,
        ),
        tuple((day_words(r.taken_on), str(r.reading)) for r in found.readings),
    )


def _limits(watched: Watched) -> Iterable[LimitLine]:
    for each in watched.mass.coming[:1]:
        limit = each.held.limit
        yield LimitLine(f"limit {kilogram_text(limit.kg)}", limit.kg)


def _answers(watched: Watched) -> Iterable[WatchChart]:
    """One chart for each questionnaire: totals of different ones are never in one line."""
    scales: dict[tuple[str, int, bool], list[tuple[At, str]]] = defaultdict(list)
    for entry in watched.answers:
        told = entry.content
        assert isinstance(told, WellnessAnswers)
        total = sum(answer.value for answer in told.answers)
        words = ", ".join(f"{answer.item} {answer.value}" for answer in told.answers)
        key = (told.scale, len(told.answers), told.is_high_good)
        scales[key].append((At(entry.day, float(total)), words))
    for (scale, items, is_high_good), told_on in scales.items():
        good = "High is good" if is_high_good else "Low is good"
        yield WatchChart(
            f"Answers, {scale}",
            f"Total of {items} answers. {good}. It is told by the athlete and diagnoses nothing.",
            TimeChart("total", marks=tuple(at for at, _ in told_on), last_day=watched.today),
            tuple((day_words(at.day), words) for at, words in reversed(told_on)),
        )


def _tests(watched: Watched) -> Iterable[WatchChart]:
    """One chart for each test by one method and unit."""
    lines: dict[tuple[str, str, str], list[At]] = defaultdict(list)
    for entry in watched.tests:
        told = entry.content
        assert isinstance(told, TestResult)
        lines[told.test.replace("_", " "), told.unit, told.method].append(At(entry.day, told.value))
    since = watched.today - timedelta(days=TEST_DAYS)
    for jump in watched.athlete.jump_tests:
        if since <= jump.taken_on <= watched.today:
            lines[jump.kind, "cm", jump.method].append(At(jump.taken_on, 100 * jump.height_m))
    for (test, unit, method), values in sorted(lines.items()):
        ordered = tuple(sorted(values, key=lambda at: at.day))
        count = "once" if len(ordered) == 1 else f"{len(ordered)} times"
        yield WatchChart(
            capital(test),
            f"By {method}, measured {count} in two years. Another method is another line.",
            TimeChart(unit, marks=ordered),
            tuple(
                (day_words(at.day), f"{plain_number(at.value, 2)} {unit}")
                for at in reversed(ordered)
            ),
        )
