"""The pages of the watch, put together."""

from datetime import date

from markupsafe import Markup

from squadwright.charts.draw import drawn
from squadwright.model.diary import DiaryEntry, WellnessAnswers
from squadwright.planning.gates.bars import in_force
from squadwright.printing.watch_words import watch_charts
from squadwright.services.body_mass import mass_of
from squadwright.services.squad_table import SquadTable
from squadwright.services.watch import Watched
from squadwright.web.load.words import load_text
from squadwright.web.squad.words import athlete_path, barred_words, days_words, next_event
from squadwright.web.watch.contexts import ShownChart, TablePage, TableRow, WatchPage
from squadwright.web.wording import short_day_text

NARROW, WIDE = 312, 680
HEADS = (
    "Athlete",
    "Must not",
    "Load, last 7 days",
    "Days known",
    "Last answers",
    "Over the limit",
    "Next event",
)


def watch_page(watched: Watched) -> WatchPage:
    """One athlete in charts."""
    return WatchPage(
        name=watched.club.shown_names()[watched.athlete.id],
        path=athlete_path(watched.athlete.id),
        charts=tuple(
            ShownChart(
                each.head,
                each.sentence,
                Markup(drawn(each.chart, NARROW)),
                Markup(drawn(each.chart, WIDE)),
                each.rows,
            )
            for each in watch_charts(watched)
        ),
    )


def table_page(table: SquadTable, today: date) -> TablePage:
    """The squad in the order of names."""
    names = table.club.shown_names()
    people = sorted(table.club.athletes, key=lambda a: names[a.id].casefold())
    rows = []
    for athlete in people:
        days = table.days[athlete.id]
        event = next_event(athlete, today)
        barred = (barred_words(r) for r in in_force(athlete, today))
        rows.append(
            TableRow(
                name=names[athlete.id],
                path=f"{athlete_path(athlete.id)}/watch",
                may_not="; ".join(barred),
                load=load_text(sum(day.told_load for day in days))
                if any(day.told for day in days)
                else "not told",
                known=f"{sum(day.load is not None for day in days)} of {len(days)}",
                answers=_answers(table.answers.get(athlete.id)),
                mass=_over(table, athlete.id, today),
                event=days_words((event.starts_on - today).days) if event else "",
            )
        )
    line = "What is known of everybody. Silence is not rest, and a table predicts no injury."
    return TablePage(line, HEADS, tuple(rows))


def _answers(entry: DiaryEntry | None) -> str:
    if entry is None or not isinstance(entry.content, WellnessAnswers):
        return ""
    told = entry.content
    total = sum(answer.value for answer in told.answers)
    most = told.highest * len(told.answers)
    best = "high" if told.is_high_good else "low"
    return f"{total} of {most} ({best} is good), {short_day_text(entry.day)}"


def _over(table: SquadTable, athlete_id: str, today: date) -> str:
    found = mass_of(table.club, table.club.athlete(athlete_id), today=today)
    if not found.coming:
        return ""
    loss = found.coming[0].loss
    if loss is None:
        return "within"
    if found.is_minor:
        return "above: a higher class"
    return f"{loss.over_kg:.1f} kg, {float(loss.weekly_percent):.1f} % a week"
