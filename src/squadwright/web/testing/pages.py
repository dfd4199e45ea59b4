"""The battery, one test, and all results of one athlete, put together from what is stored."""

from collections.abc import Iterable
from datetime import date, timedelta

from markupsafe import Markup

from squadwright.charts.draw import drawn
from squadwright.charts.time_chart import MOST_DAYS, At, Band, TimeChart
from squadwright.library.fitness_tests import fitness_tests
from squadwright.library.test_columns import shown_unit
from squadwright.model.athlete import Athlete
from squadwright.model.fitness_test import Family, FitnessTest
from squadwright.planning.restriction_words import day_words
from squadwright.planning.test_day.barred import words_for_the_young
from squadwright.services.test_change import Judged, judged, latest_of_each, retested
from squadwright.services.test_compared import beside_others, worked_out
from squadwright.services.test_results import Result, ResultLine, Results, lines_of_results
from squadwright.web.squad.words import athlete_path
from squadwright.web.testing.contexts import (
    AthleteTestsPage,
    BatteryFamily,
    BatteryPage,
    BatteryRow,
    LineView,
    PointRow,
    SquadRow,
    TestPage,
)
from squadwright.web.testing.paths import FORCE_FILE, enter_path, path_of_test, results_path
from squadwright.web.testing.words import (
    NO_NORM,
    band_words,
    beside_words,
    change_words,
    judged_sentences,
    reliability_words,
    repeats_words,
    rests,
    value_words,
    worked_words,
)
from squadwright.web.watch.pages import NARROW, WIDE
from squadwright.web.wording import capital, clock_text, count_text

DUE_DAYS = 56
"""Who was tested last before so many days is due: our default, eight weeks."""
SHOWN_POINTS = 12
MOST_CHARTS = 6
BY_FORCE_FILE = "countermovement_jump"


def battery_page(known: Results | None, *, today: date) -> BatteryPage:
    """Every test by family, when it was held last, and who is due."""
    due = _due(known, today) if known else ()
    return BatteryPage(
        has_club=known is not None,
        line=f"{count_text(len(fitness_tests()), 'test')}, each with its protocol.",
        families=tuple(_family(family, known, today) for family in Family),
        due=due,
        due_words=_due_words(known, len(due)),
    )


def page_of_test(test: FitnessTest, known: Results | None, *, today: date) -> TestPage:
    """One test."""
    results = known.of_test(test.id) if known else ()
    return TestPage(
        name=test.name,
        line=test.protocol,
        enter_path=enter_path(test.id),
        file_path=FORCE_FILE if test.id == BY_FORCE_FILE else "",
        has_club=known is not None,
        facts=_facts(test),
        rows=_squad_rows(test, known) if known else (),
        repeats=tuple(words for words in _repeats(test, results)),
        published=tuple(reliability_words(found) for found in test.reliability),
        bands=band_words(test),
        no_norm=NO_NORM,
        rests=rests(),
    )


def athlete_tests_page(known: Results, athlete: Athlete) -> AthleteTestsPage:
    """All results of one athlete, by method."""
    name = known.club.shown_names()[athlete.id]
    own = known.by_athlete[athlete.id]
    battery = {test.id: test for test in fitness_tests()}
    lines = sorted(
        lines_of_results(own), key=lambda line: (line.results[-1].day, line.test), reverse=True
    )
    return AthleteTestsPage(
        name=name,
        line=f"{count_text(len(own), 'result')} by {count_text(len(lines), 'method')}. "
        "Two methods never stand in one line."
        if own
        else "",
        back=athlete_path(athlete.id),
        path=results_path(athlete.id),
        lines=tuple(
            _line_view(n, battery.get(line.test), line, known) for n, line in enumerate(lines, 1)
        ),
        no_norm=NO_NORM,
        rests=rests(),
    )


def _family(family: Family, known: Results | None, today: date) -> BatteryFamily:
    rows = tuple(_battery_row(t, known, today) for t in fitness_tests() if t.family is family)
    return BatteryFamily(capital(family.value), f"family-{family.name.lower()}", rows)


def _battery_row(test: FitnessTest, known: Results | None, today: date) -> BatteryRow:
    last, due = "never yet", ""
    results = known.of_test(test.id) if known else ()
    if known and results:
        latest = latest_of_each(results)
        day = max(r.day for r in latest)
        last = f"{count_text(len(latest), 'athlete')}, last on {day_words(day)}"
        names = known.club.shown_names()
        late = [names[r.athlete] for r in latest if r.day < today - timedelta(days=DUE_DAYS)]
        due = ", ".join(late)
    unit = "" if test.unit == "1" else f" [{shown_unit(test)}]"
    return BatteryRow(
        test.name, path_of_test(test.id), f"{test.quantity}{unit}, {test.better.value}", last, due
    )


def _due(known: Results, today: date) -> tuple[tuple[str, str, str], ...]:
    """Who had no test for eight weeks, or never: name, path, when."""
    names = known.club.shown_names()
    found = []
    for athlete, own in known.by_athlete.items():
        last = max((r.day for r in own), default=None)
        if last is None or last < today - timedelta(days=DUE_DAYS):
            when = "never tested" if last is None else f"last on {day_words(last)}"
            found.append((names[athlete], results_path(athlete), when))
    return tuple(sorted(found, key=lambda each: each[0].casefold()))


def _due_words(known: Results | None, due: int) -> str:
    if known is None or not known.by_athlete:
        return ""
    if not due:
        return "Everybody was tested within the last eight weeks."
    return f"{count_text(due, 'athlete')} without a test for eight weeks (our default)."


def _facts(test: FitnessTest) -> tuple[tuple[str, str], ...]:
    rest = clock_text(test.rest_between_s) if test.rest_between_s else ""
    attempts = count_text(test.attempts, "attempt")
    if test.attempts > 1:
        attempts += f", {test.score.value} counts" + (f", {rest} between" if rest else "")
    return (
        ("Attempts", attempts),
        ("Time for one athlete", f"{clock_text(test.duration_s)} (minutes and seconds)"),
        ("Kit", ", ".join(test.kit)),
        ("Methods, each a line of its own", "; ".join(test.methods)),
        (
            "In the order of a day",
            f"{test.kind.value}: measuring, power, strength, speed, endurance",
        ),
        ("All-out effort", words_for_the_young(test)),
        ("Protocol from", f"{test.protocol_source} ({test.protocol_mark.value})"),
    )


def _repeats(test: FitnessTest, results: Iterable[Result]) -> Iterable[str]:
    kinds: dict[tuple[str, str, str], list[Result]] = {}
    for result in results:
        kinds.setdefault(result.measured.kind, []).append(result)
    for (_, unit, method), same in kinds.items():
        table = retested(same)
        if table is not None:
            yield from repeats_words(capital(method), table, unit)


def _squad_rows(test: FitnessTest, known: Results) -> tuple[SquadRow, ...]:
    """The last line of each athlete in this test, every method he was tested by."""
    names = known.club.shown_names()
    rows = []
    for athlete, own in known.by_athlete.items():
        for line in lines_of_results(r for r in own if r.test == test.id):
            last = line.results[-1]
            found = judged(test, line, known.of_kind(last))
            rows.append(
                SquadRow(
                    name=names[athlete],
                    path=results_path(athlete),
                    result=value_words(last),
                    day=day_words(last.day),
                    method=line.method,
                    change=change_words(found),
                )
            )
    return tuple(sorted(rows, key=lambda row: (row.name.casefold(), row.method)))


def _line_view(number: int, test: FitnessTest | None, line: ResultLine, known: Results) -> LineView:
    found = judged(test, line, known.of_kind(line.results[-1]))
    last = line.results[-1]
    athlete, quantity = known.club.athlete(last.athlete), last.measured.quantity
    chart = _chart(found) if number <= MOST_CHARTS else TimeChart(found.line.method)
    name = test.name if test else capital(quantity)
    return LineView(
        id=f"line-{number}",
        heading=f"{name}: {line.method}",
        path=path_of_test(test.id) if test else "",
        verdict=change_words(found),
        narrow=Markup(drawn(chart, NARROW)),
        wide=Markup(drawn(chart, WIDE)),
        sentences=judged_sentences(found),
        worked=tuple(worked_words(each) for each in worked_out(test, athlete, last))
        if test
        else (),
        beside=tuple(beside_words(each) for each in beside_others(test, athlete, last))
        if test
        else (),
        points=tuple(_point(result) for result in reversed(line.results[-SHOWN_POINTS:])),
    )


def _chart(found: Judged) -> TimeChart:
    """A line of results; the band about the one before the last holds what is mere error."""
    results = found.line.results
    if len(results) < 2:
        return TimeChart(results[0].measured.unit)
    before, last = results[-2:]
    marks = tuple(At(r.day, r.measured.value) for r in results[-SHOWN_POINTS:])
    band: tuple[Band, ...] = ()
    if found.change is not None and before.day < last.day:
        middle, away = before.measured.value, found.change.detectable
        band = tuple(Band(day, middle - away, middle + away) for day in (before.day, last.day))
    recent = (last.day - marks[0].day).days <= MOST_DAYS
    return TimeChart(last.measured.unit, marks=marks if recent else marks[-1:], band=band)


def _point(result: Result) -> PointRow:
    content = result.content
    value, noted = value_words(result), []
    if result.typed != value:
        noted.append(f"written {result.typed}")
    if content is not None:
        noted += [content.kit, content.note, content.source_file]
        if content.place:
            noted.append(f"test {content.place} of that day")
    attempts = "; ".join(f"{n:g}" for n in content.attempts) if content else ""
    return PointRow(
        day=day_words(result.day),
        typed=value,
        attempts=attempts or "one number",
        note=", ".join(words for words in noted if words) or "none",
        entry=result.entry,
        words=f"{value} of {day_words(result.day)}",
    )
